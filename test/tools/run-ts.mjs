// Runs a TypeScript program of the repository: `node test/tools/run-ts.mjs FILE ARGUMENT…`. Bundles it
// first, since Node 20 runs no TypeScript, into node_modules, where its packages are found. Does not check
// types.
import { spawnSync } from 'node:child_process';
import { existsSync, mkdtempSync, rmSync } from 'node:fs';
import path from 'node:path';
import { fileURLToPath } from 'node:url';
import { buildSync } from 'esbuild';

const packages = fileURLToPath(new URL('../../node_modules', import.meta.url));
const [file, ...rest] = process.argv.slice(2);
if (file === undefined || !existsSync(file)) {
  process.stderr.write(file === undefined ? 'usage: run-ts.mjs FILE ARGUMENT…\n' : `no such program: ${file}\n`);
  process.exit(2);
}
const folder = mkdtempSync(path.join(packages, '.run-'));
try {
  const bundle = path.join(folder, 'program.mjs');
  buildSync({
    entryPoints: [path.resolve(file)],
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
