// Makes the installable .vsix at the root of the repository, prints what it holds and how large it is, and fails where
// it is larger than a first download should be. The packager builds first (the script vscode:prepublish).
import { spawnSync } from 'node:child_process';
import { readFileSync, statSync } from 'node:fs';
import { createRequire } from 'node:module';
import path from 'node:path';
import { fileURLToPath } from 'node:url';

const root = fileURLToPath(new URL('..', import.meta.url));
const largest = 2_000_000;
const { name, version } = JSON.parse(readFileSync(path.join(root, 'package.json'), 'utf8'));
const file = `${name}-${version}.vsix`;
const packager = createRequire(import.meta.url).resolve('@vscode/vsce/vsce');
const flags = ['--no-dependencies', '--allow-missing-repository', '--no-rewrite-relative-links'];

const { status } = spawnSync(process.execPath, [packager, 'package', ...flags, '--out', file], {
  cwd: root,
  stdio: 'inherit',
});
if (status !== 0) process.exit(status ?? 1);
const { size } = statSync(path.join(root, file));
process.stdout.write(`${file}: ${size} bytes, at most ${largest}\n`);
if (size > largest) {
  process.stderr.write(`${file} is ${size - largest} bytes too large\n`);
  process.exitCode = 1;
}
