// The version of the tool, as reports carry it. A test holds it to package.json, which the core may not read.

export const toolVersion = '0.1.0';
