// The program as it is installed: bundled, with the grammar beside it, run by Node on real files.
import { spawnSync } from 'node:child_process';
import { copyFileSync, mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { fileURLToPath } from 'node:url';
import { buildSync } from 'esbuild';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';

const root = fileURLToPath(new URL('../..', import.meta.url));
const { resolve } = createRequire(import.meta.url);
const folder = mkdtempSync(path.join(tmpdir(), 'foretick-cli-'));

beforeAll(() => {
  const dist = path.join(folder, 'dist');
  mkdirSync(dist);
  copyFileSync(resolve('web-tree-sitter/web-tree-sitter.wasm'), path.join(dist, 'web-tree-sitter.wasm'));
  copyFileSync(
    resolve('tree-sitter-systemverilog/tree-sitter-systemverilog.wasm'),
    path.join(dist, 'tree-sitter-systemverilog.wasm'),
  );
  buildSync({
    absWorkingDir: root,
    entryPoints: ['server/src/cli/main.ts'],
    outfile: path.join(dist, 'cli.js'),
    bundle: true,
    platform: 'node',
    format: 'cjs',
    alias: { 'web-tree-sitter': resolve('web-tree-sitter') },
  });
  mkdirSync(path.join(folder, 'examples'));
  copyFileSync(path.join(root, 'examples/ripple-counter.v'), path.join(folder, 'examples/ripple-counter.v'));
  writeFileSync(path.join(folder, 'latin.v'), Buffer.from('// gr\xfcn\nmodule a(input c); endmodule\n', 'latin1'));
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

function foretick(...args: readonly string[]) {
  const { status, stderr, stdout } = spawnSync(process.execPath, [path.join(folder, 'dist/cli.js'), ...args], {
    cwd: folder,
    encoding: 'utf8',
    maxBuffer: 1 << 26,
  });
  return { status, stderr, stdout };
}

describe('the installed program', () => {
  it('prints a whole report through a pipe', () => {
    const { status, stderr, stdout } = foretick(
      'report',
      'examples/ripple-counter.v',
      '--format',
      'json',
      '--complete',
    );
    expect([status, stderr]).toEqual([0, '']);
    expect(JSON.parse(stdout)).toMatchObject({ top: 'belt_counter', counts: [{ kind: 'up', modulus: 16 }] });
  });

  it('shows its example without a file', () => {
    const { status, stdout } = foretick('preview', '--format', 'text');
    expect(status).toBe(0);
    expect(stdout).toContain('belt_counter');
  });

  it('reads bytes that are not UTF-8', () => {
    expect(foretick('report', 'latin.v').status).toBe(0);
  });

  it('says on one line what it cannot read', () => {
    expect(foretick('report', 'examples')).toEqual({
      status: 2,
      stdout: '',
      stderr: 'foretick: examples cannot be read\n',
    });
  });

  it('carries the version of the package', () => {
    const { version } = JSON.parse(readFileSync(path.join(root, 'package.json'), 'utf8'));
    expect(foretick('--version').stdout).toBe(`${version}\n`);
  });
});
