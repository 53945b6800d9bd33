// `npm test`: types, style, build, every test, and those in a real editor, in that order and all of them whatever fails. Ends with one plain line, `N passed, N failed`, in which types, style and build count as one check each.
import { spawnSync } from 'node:child_process';
import { runEditorTests } from '../editor/run.mjs';
import { runTests } from './run-tests.mjs';

const tallies = [
  runScript('typecheck'),
  runScript('lint'),
  runScript('build'),
  await runTests('test/vitest.config.mts'),
  await runEditorTests(),
];
const passed = tallies.reduce((sum, tally) => sum + tally.passed, 0);
const failed = tallies.reduce((sum, tally) => sum + tally.failed, 0);
process.exitCode = failed === 0 ? 0 : 1;
process.stdout.write(`\n${passed} passed, ${failed} failed\n`);

/**
 * @param {string} name a script of package.json
 * @returns {import('./run-tests.mjs').Tally}
 */
function runScript(name) {
  process.stdout.write(`\n${name}\n`);
  const { status } = spawnSync('npm', ['run', '--silent', name], {
    stdio: 'inherit',
    shell: process.platform === 'win32',
  });
  if (status !== 0) process.stdout.write(`${name} failed\n`);
  return status === 0 ? { passed: 1, failed: 0 } : { passed: 0, failed: 1 };
}
