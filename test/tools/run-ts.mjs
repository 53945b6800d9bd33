// Runs a TypeScript program of the repository: `node test/tools/run-ts.mjs FILE ARGUMENT…`. Bundles it to
// a temporary file first, since Node 20 runs no TypeScript. Does not check types.
import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { buildSync } from 'esbuild';

const [file, ...rest] = process.argv.slice(2);
if (file === undefined) {
  process.stderr.write('usage: node test/tools/run-ts.mjs FILE ARGUMENT…\n');
  process.exit(2);
}
const folder = mkdtempSync(path.join(tmpdir(), 'foretick-'));
try {
  const bundle = path.join(folder, 'program.mjs');
  buildSync({
    entryPoints: [file],
    outfile: bundle,
    bundle: true,
    platform: 'node',
    format: 'esm',
    packages: 'external',
  });
  process.exitCode = spawnSync(process.execPath, [bundle, ...rest], { stdio: 'inherit' }).status ?? 1;
} finally {
  rmSync(folder, { recursive: true, force: true });
}
