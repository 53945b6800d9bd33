// What the package holds: what runs and what is read, and nothing else.
import { execFileSync } from 'node:child_process';
import { createRequire } from 'node:module';
import { readdirSync } from 'node:fs';
import path from 'node:path';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';

const root = fileURLToPath(new URL('../..', import.meta.url));
const packager = createRequire(import.meta.url).resolve('@vscode/vsce/vsce');
const listed = execFileSync(process.execPath, [packager, 'ls', '--no-dependencies'], { cwd: root, encoding: 'utf8' });
const files = listed.trim().split(/\r?\n/).sort();
const inFolder = (folder: string) =>
  readdirSync(`${root}${folder}`, { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile())
    .map(({ name, parentPath }) => path.posix.join(folder, path.relative(`${root}${folder}`, parentPath), name));

describe('the package', () => {
  it('holds the texts, the grammars, the walkthrough and the examples', () => {
    const texts = ['CHANGELOG.md', 'LICENSE', 'README.md', 'package.json'];
    const expected = [...texts, ...inFolder('syntaxes'), ...inFolder('client/walkthrough'), ...inFolder('examples')];
    expect(files.filter((file) => !file.startsWith('dist/'))).toEqual(expected.sort());
  });

  it('holds of what is built only what the editor runs', () => {
    const runs = ['extension.js', 'panel.css', 'panel.js', 'server-worker.js', 'server.js', 'web-tree-sitter.wasm'];
    const data = ['project.schema.json', 'third-party-notices.txt', 'tree-sitter-systemverilog.wasm'];
    const allowed = [...runs, ...data].map((file) => `dist/${file}`);
    expect(files.filter((file) => file.startsWith('dist/') && !allowed.includes(file))).toEqual([]);
  });
});
