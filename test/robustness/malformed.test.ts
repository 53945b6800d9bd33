// The installed program on files that are too deep, too long, without end, or no text: a report in bounded memory, with a
// message that says what is wrong in a bounded number of lines, and what is whole beside it still found. The limit of the
// heap is handed to Node; what the process held in all is asked of the process itself. Nothing is said of time: a test
// that hangs is ended.

import { spawnSync } from 'node:child_process';
import { copyFileSync, mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { fileURLToPath } from 'node:url';
import { buildSync } from 'esbuild';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { malformedInputs } from './malformed';

const root = fileURLToPath(new URL('../..', import.meta.url));
const { resolve } = createRequire(import.meta.url);
const folder = mkdtempSync(path.join(tmpdir(), 'foretick-malformed-'));
const program = path.join(folder, 'program');

beforeAll(() => {
  mkdirSync(program);
  for (const [name, file] of [
    ['web-tree-sitter.wasm', 'web-tree-sitter/web-tree-sitter.wasm'],
    ['tree-sitter-systemverilog.wasm', 'tree-sitter-systemverilog/tree-sitter-systemverilog.wasm'],
  ]) {
    copyFileSync(resolve(file), path.join(program, name));
  }
  buildSync({
    absWorkingDir: root,
    entryPoints: ['server/src/cli/main.ts'],
    outfile: path.join(program, 'cli.js'),
    bundle: true,
    platform: 'node',
    format: 'cjs',
    alias: { 'web-tree-sitter': resolve('web-tree-sitter') },
  });
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

/** At its end the process writes the most memory that it has held, in kB (Node's `resourceUsage`). */
const tellsPeak =
  "data:text/javascript,process.on('exit',()=>process.stderr.write('peak '+process.resourceUsage().maxRSS+'\\n'))";

const gigabyte = 1 << 20;

function run(files: Readonly<Record<string, string | Uint8Array>>, command: string, ...options: readonly string[]) {
  const place = mkdtempSync(path.join(folder, 'design-'));
  for (const [name, content] of Object.entries(files)) writeFileSync(path.join(place, name), content);
  const sources = Object.keys(files).filter((name) => name.endsWith('.v'));
  const { signal, status, stderr, stdout } = spawnSync(
    process.execPath,
    ['--max-old-space-size=900', '--import', tellsPeak, path.join(program, 'cli.js'), command, ...options, ...sources],
    { cwd: place, encoding: 'utf8', maxBuffer: 1 << 28, timeout: 110_000 },
  );
  rmSync(place, { recursive: true, force: true });
  const peak = Number(/^peak (\d+)$/m.exec(stderr)?.[1] ?? Number.POSITIVE_INFINITY);
  return { signal, status, peak, stdout, stderr: stderr.replace(/^peak \d+\n/m, '') };
}

describe('a report', () => {
  it.each(malformedInputs)('$what', { timeout: 120_000 }, ({ files, says, hidden }) => {
    const { peak, signal, status, stderr, stdout } = run(files, 'report');
    expect([signal, stderr]).toEqual([null, '']);
    expect([0, 1]).toContain(status);
    expect(peak).toBeLessThan(gigabyte);
    expect(stdout.length).toBeLessThan(200_000);
    if (says === null) expect(stdout).toContain('no findings');
    else expect(stdout).toMatch(says);
    if (hidden !== true) expect(stdout).toMatch(/q {2}stage 1 {2}on clk rising/);
  });
});

// What reaches the preview: designs that hold the damaged module, and one that was never closed.
const shown = malformedInputs.filter(({ files }) => String(files['m.v']).includes('module top'));

describe('a preview', () => {
  it.each(shown)('$what', { timeout: 120_000 }, ({ files }) => {
    const { peak, signal, status, stderr, stdout } = run(files, 'preview', '--format', 'text');
    expect([signal, stderr]).toEqual([null, '']);
    expect([0, 1]).toContain(status);
    expect(peak).toBeLessThan(gigabyte);
    expect(stdout).toMatch(/q rose \(line 3\)/);
  });
});
