// The repository keeps to the table of rooms, and each rule of the checker can fail.
import { existsSync, readdirSync, readFileSync } from 'node:fs';
import path from 'node:path';
import { fileURLToPath } from 'node:url';
import ts from 'typescript';
import { describe, expect, test } from 'vitest';
import { checkSources } from './check-sources';
import { rooms } from './rooms';

const root = fileURLToPath(new URL('../..', import.meta.url));

describe('the repository', () => {
  const sources = readSources(['server/src', 'client/src', 'webview/src']);

  test('was found', () => {
    expect([...sources.keys()]).toContain('server/src/budget.ts');
  });

  test('keeps to the table of rooms', () => {
    expect(checkSources(sources)).toEqual([]);
  });

  test('compiles as core exactly what the table calls core', () => {
    const { config } = ts.readConfigFile(`${root}server/tsconfig.core.json`, ts.sys.readFile);
    const edge = Object.keys(rooms).filter((name) => !rooms[name]?.isCore && !['client', 'webview'].includes(name));
    expect([...config.exclude].sort()).toEqual(edge.map((name) => `src/${name}`).sort());
    expect(config.compilerOptions.lib).toEqual(['ES2022']);
    expect(config.compilerOptions.types).toEqual([]);
  });
});

describe('a room imports what its row names', () => {
  accepts('a room its row names', {
    'server/src/clocks/a.ts': `import { b } from '../netlist/b';`,
    'server/src/netlist/b.ts': '',
  });
  refuses('a room its row does not name', /clocks must not import hazards as a value/, {
    'server/src/clocks/a.ts': `import { b } from '../hazards/b';`,
    'server/src/hazards/b.ts': '',
  });
  refuses('even a type of it', /clocks must not import hazards$/, {
    'server/src/clocks/a.ts': `import type { B } from '../hazards/b';`,
    'server/src/hazards/b.ts': '',
  });
  refuses('even as a type query', /clocks must not import hazards$/, {
    'server/src/clocks/a.ts': `type B = import('../hazards/b').B;`,
    'server/src/hazards/b.ts': '',
  });
  accepts('text and budget from anywhere', {
    'server/src/netlist/a.ts': `import { b } from '../text/b'; import { c } from '../budget';`,
    'server/src/text/b.ts': '',
    'server/src/budget.ts': '',
  });
  refuses('text that knows of another room', /text must not import syntax/, {
    'server/src/text/a.ts': `import { b } from '../syntax/b';`,
    'server/src/syntax/b.ts': '',
  });
  refuses('text that counts work', /text must not import budget\.ts/, {
    'server/src/text/a.ts': `import { b } from '../budget';`,
    'server/src/budget.ts': '',
  });
  refuses('an unknown folder', /server\/src\/helpers\/a\.ts: in no room/, { 'server/src/helpers/a.ts': '' });
  refuses('an unknown file at the root', /server\/src\/util\.ts: in no room/, { 'server/src/util.ts': '' });
  refuses('an import with an extension', /which is no source file/, {
    'server/src/netlist/a.ts': `import { b } from './b.js';`,
    'server/src/netlist/b.ts': '',
  });
});

describe('types alone', () => {
  const report = { 'server/src/report/r.ts': '' };
  accepts('drawing reads types of the report', {
    'server/src/drawing/a.ts': `import type { R } from '../report/r';`,
    ...report,
  });
  refuses('drawing reads no values of it', /drawing must not import report as a value/, {
    'server/src/drawing/a.ts': `import { r } from '../report/r';`,
    ...report,
  });
  refuses('nor through a mixed import, which still runs the file', /drawing must not import report as a value/, {
    'server/src/drawing/a.ts': `import { type R } from '../report/r';`,
    ...report,
  });
  accepts('the panel draws and reads types of the report', {
    'webview/src/a.ts': `import { d } from '../../server/src/drawing/d'; import type { R } from '../../server/src/report/r';`,
    'server/src/drawing/d.ts': '',
    ...report,
  });
  refuses('the panel never computes', /webview must not import predict/, {
    'webview/src/a.ts': `import { p } from '../../server/src/predict/p';`,
    'server/src/predict/p.ts': '',
  });
  refuses('the panel reads no values of the report', /webview must not import report as a value/, {
    'webview/src/a.ts': `import { r } from '../../server/src/report/r';`,
    ...report,
  });
  refuses('the client holds nothing of the server', /client must not import editor/, {
    'client/src/a.ts': `import { e } from '../../server/src/editor/e';`,
    'server/src/editor/e.ts': '',
  });
});

describe('packages', () => {
  accepts('the grammar loads the parser', { 'server/src/grammar.ts': `import { Parser } from 'web-tree-sitter';` });
  accepts('syntax knows its types', { 'server/src/syntax/a.ts': `import type { Parser } from 'web-tree-sitter';` });
  refuses('syntax does not load it', /must not import web-tree-sitter as a value/, {
    'server/src/syntax/a.ts': `import { Parser } from 'web-tree-sitter';`,
  });
  refuses('no other room knows its types', /must not import web-tree-sitter$/, {
    'server/src/elaborate/a.ts': `import type { Parser } from 'web-tree-sitter';`,
  });
  refuses('the editor does not load it either', /must not import web-tree-sitter/, {
    'server/src/editor/a.ts': `import { Parser } from 'web-tree-sitter';`,
  });
  refuses('the core knows no Node', /must not import node:fs/, {
    'server/src/report/a.ts': `import { readFileSync } from 'node:fs';`,
  });
  refuses('nor the editor', /must not import vscode-languageserver\/node$/, {
    'server/src/report/a.ts': `import type { Hover } from 'vscode-languageserver/node';`,
  });
  accepts('the edge knows both', {
    'server/src/editor/a.ts': `import { createConnection } from 'vscode-languageserver/node'; import path from 'node:path';`,
    'client/src/a.ts': `import { window } from 'vscode'; import { LanguageClient } from 'vscode-languageclient/node';`,
  });
  accepts('the toolkit has one door', {
    'webview/src/controls.ts': `import { vsCodeButton } from '@vscode/webview-ui-toolkit';`,
  });
  refuses('and no other', /must not import @vscode\/webview-ui-toolkit/, {
    'webview/src/page.ts': `import { vsCodeButton } from '@vscode/webview-ui-toolkit';`,
  });
});

describe('the core uses nothing from outside', () => {
  for (const [what, text] of Object.entries({
    Date: 'export const now = new Date();',
    random: 'export const seed = Math.random();',
    Promise: 'export function later(): Promise<void> { return null as never; }',
    async: 'export async function later() {}',
    await: 'export function* go(items: never) { for await (const item of items) yield item; }',
    process: 'export const home = process.env;',
    console: `console.log('here');`,
    setTimeout: 'setTimeout(() => {}, 1);',
    require: `const fs = require('fs');`,
    globalThis: `globalThis['Da' + 'te'];`,
    localeCompare: `['b', 'a'].sort((x, y) => x.localeCompare(y));`,
  })) {
    refuses(`not ${what}`, new RegExp(`uses ${what}, which the core must not`), { 'server/src/netlist/a.ts': text });
    accepts(`the command line may use ${what}`, { 'server/src/cli/a.ts': text });
  }
  accepts('words in comments, strings and names are only words', {
    'server/src/netlist/a.ts': [
      '// A Promise made at a Date, by process and console.',
      'export const words = ["Date", `async process`, "require(1)"];',
      'export interface Block { readonly process: number; readonly Date: string }',
      'export const first = (block: Block) => block.process;',
      'export function count(processes: readonly Block[]) { for (const process of processes) first(process); }',
    ].join('\n'),
  });
  refuses('no import that is a promise', /uses import\(\), which the core must not/, {
    'server/src/netlist/a.ts': `const later = import('./b');`,
    'server/src/netlist/b.ts': '',
  });
  refuses('what a template computes is no string', /uses Date/, {
    'server/src/netlist/a.ts': `export const at = \`\${new Date()}\`;`,
  });
});

describe('files', () => {
  refuses(
    'no cycle between two files of one room',
    /import cycle: server\/src\/netlist\/a\.ts -> server\/src\/netlist\/b\.ts -> server\/src\/netlist\/a\.ts/,
    {
      'server/src/netlist/a.ts': `import { b } from './b';`,
      'server/src/netlist/b.ts': `import { a } from './a';`,
    },
  );
  refuses('not even of types', /import cycle/, {
    'server/src/netlist/a.ts': `import type { B } from './b';`,
    'server/src/netlist/b.ts': `import type { A } from './a';`,
  });
  accepts('two ways to one file are no cycle', {
    'server/src/netlist/a.ts': `import { b } from './b'; import { c } from './c';`,
    'server/src/netlist/b.ts': `import { c } from './c';`,
    'server/src/netlist/c.ts': '',
  });
  refuses('no re-export', /re-exports/, {
    'server/src/netlist/a.ts': `export { b } from './b';`,
    'server/src/netlist/b.ts': '',
  });
  accepts('an entry point of 60 lines', { 'server/src/main.ts': 'const a = 1;\n'.repeat(60) });
  refuses('an entry point of 61 lines', /61 lines/, { 'server/src/main.ts': 'const a = 1;\n'.repeat(61) });
});

function accepts(name: string, files: Readonly<Record<string, string>>): void {
  test(`accepts: ${name}`, () => expect(checkSources(new Map(Object.entries(files)))).toEqual([]));
}

/** Exactly one complaint: a source that breaks another rule as well would prove nothing about this one. */
function refuses(name: string, complaint: RegExp, files: Readonly<Record<string, string>>): void {
  test(`refuses: ${name}`, () =>
    expect(checkSources(new Map(Object.entries(files)))).toEqual([expect.stringMatching(complaint)]));
}

function readSources(folders: readonly string[]): Map<string, string> {
  const files = folders.flatMap((folder) => filesBelow(path.join(root, folder)));
  const sources = files.filter((file) => /\.(ts|json)$/.test(file)).sort();
  return new Map(sources.map((file) => [path.relative(root, file).replaceAll('\\', '/'), readFileSync(file, 'utf8')]));
}

/** A folder that is not there yet has no files. */
function filesBelow(folder: string): string[] {
  if (!existsSync(folder)) return [];
  const entries = readdirSync(folder, { withFileTypes: true, recursive: true });
  return entries.filter((entry) => entry.isFile()).map((entry) => path.join(entry.parentPath, entry.name));
}
