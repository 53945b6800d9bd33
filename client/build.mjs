// Builds everything that runs into dist/: one bundle per entry point, the two WebAssembly files the
// reader needs, and the licences of what the bundles contain. Also bundles the core for a browser and
// throws the result away: a Node module that slipped into the core stops the build. Does not check types.
import { copyFile, mkdir, readFile, readdir, rm, writeFile } from 'node:fs/promises';
import { existsSync } from 'node:fs';
import { createRequire } from 'node:module';
import path from 'node:path';
import { fileURLToPath } from 'node:url';
import * as esbuild from 'esbuild';
import { packGrammar } from './pack-grammar.mjs';

const root = fileURLToPath(new URL('..', import.meta.url));
const outputFolder = path.join(root, 'dist');
const require = createRequire(import.meta.url);

/** @type {import('esbuild').BuildOptions} */
const forNode = {
  platform: 'node',
  format: 'cjs',
  target: 'node20',
  // The parser library's ES module asks for `import.meta.url`, which a CommonJS bundle does not have.
  alias: { 'web-tree-sitter': require.resolve('web-tree-sitter') },
};

/** @type {import('esbuild').BuildOptions} */
const forBrowser = { platform: 'browser', format: 'iife', target: 'es2022' };

/**
 * For inside a page: small, and pointing at no other file.
 * @type {import('esbuild').BuildOptions}
 */
const forPage = { ...forBrowser, minify: true, sourcemap: false };

/** @type {readonly { entry: string, output: string | null, options: import('esbuild').BuildOptions }[]} */
const bundles = [
  { entry: 'server/src/cli/main.ts', output: 'cli.js', options: { ...forNode, banner: { js: '#!/usr/bin/env node' } } },
  { entry: 'server/src/main.ts', output: 'server.js', options: forNode },
  { entry: 'server/src/editor/back/worker.ts', output: 'server-worker.js', options: forNode },
  { entry: 'client/src/extension.ts', output: 'extension.js', options: { ...forNode, external: ['vscode'] } },
  { entry: 'webview/src/main.ts', output: 'panel.js', options: forBrowser },
  { entry: 'webview/src/panel.css', output: 'panel.css', options: forPage },
  { entry: 'webview/src/preview-page.ts', output: 'preview-page.js', options: forPage },
  { entry: 'webview/src/preview-page.css', output: 'preview-page.css', options: forPage },
  { entry: 'server/src/report/study.ts', output: null, options: forBrowser },
];

/** Folders of packages, relative to the root, whose code went into a bundle. */
const bundledPackages = new Set(['node_modules/web-tree-sitter', 'node_modules/tree-sitter-systemverilog']);

await rm(outputFolder, { recursive: true, force: true });
await mkdir(outputFolder, { recursive: true });
for (const { entry, output, options } of bundles) {
  if (!existsSync(path.join(root, entry))) {
    say(`no ${entry}: skipped`);
    continue;
  }
  await bundle(entry, output, options);
}
await copyToOutput('web-tree-sitter', 'web-tree-sitter.wasm');
await packToOutput('tree-sitter-systemverilog', 'tree-sitter-systemverilog.wasm');
await writeFile(path.join(outputFolder, 'third-party-notices.txt'), await notices());
await writeSchemas();

/**
 * @param {string} entry
 * @param {string | null} output null: only proves that the entry can be bundled
 * @param {import('esbuild').BuildOptions} options
 */
async function bundle(entry, output, options) {
  const result = await esbuild.build({
    sourcemap: output === null ? false : 'linked',
    ...options,
    absWorkingDir: root,
    entryPoints: [entry],
    outfile: path.join(outputFolder, output ?? 'unused.js'),
    write: output !== null,
    bundle: true,
    metafile: true,
    logLevel: 'warning',
  });
  for (const input of Object.keys(result.metafile.inputs)) {
    const folder = packageFolderOf(input);
    if (folder !== null) bundledPackages.add(folder);
  }
  say(output === null ? `${entry} bundles without Node` : `dist/${output}`);
}

/** The schemas are kept as data beside the types; readers of a report get them as files. */
async function writeSchemas() {
  const entry = path.join(root, 'server/src/report/published-schemas.ts');
  const { outputFiles } = await esbuild.build({ entryPoints: [entry], bundle: true, format: 'esm', write: false });
  const source = Buffer.from(outputFiles[0].contents).toString('base64');
  const { publishedSchemas } = await import(`data:text/javascript;base64,${source}`);
  for (const [file, schema] of Object.entries(publishedSchemas())) {
    await writeFile(path.join(outputFolder, file), `${JSON.stringify(schema, null, 2)}\n`);
    say(`dist/${file}`);
  }
}

/** @param {string} input a path as the bundler's metafile gives it */
function packageFolderOf(input) {
  return /^(.*node_modules\/(?:@[^/]+\/)?[^/]+)\//.exec(input)?.[1] ?? null;
}

/**
 * @param {string} packageName
 * @param {string} file
 */
async function copyToOutput(packageName, file) {
  await copyFile(path.join(root, 'node_modules', packageName, file), path.join(outputFolder, file));
  say(`dist/${file}`);
}

/**
 * @param {string} packageName
 * @param {string} file of a grammar
 */
async function packToOutput(packageName, file) {
  const grammar = await readFile(path.join(root, 'node_modules', packageName, file));
  await writeFile(path.join(outputFolder, file), packGrammar(grammar));
  say(`dist/${file}`);
}

/** The licence text of every package in the bundles; their licences ask that it travels with the code. */
async function notices() {
  const texts = [];
  for (const folder of [...bundledPackages].sort()) {
    const { name, version, license } = JSON.parse(await readFile(path.join(root, folder, 'package.json'), 'utf8'));
    const file = (await readdir(path.join(root, folder))).find((name) => /^licen[cs]e/i.test(name));
    const text = file === undefined ? '' : await readFile(path.join(root, folder, file), 'utf8');
    texts.push(`${name} ${version} (${license})\n\n${text.trim()}\n`);
  }
  return texts.join(`\n${'-'.repeat(80)}\n\n`);
}

/** @param {string} line To standard error: the output of a command that builds first stays its own. */
function say(line) {
  process.stderr.write(`${line}\n`);
}
