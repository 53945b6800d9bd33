// `npm test`: types, style, build and every test, in that order and all of them whatever fails. Ends with
// one plain line, `N passed, N failed`, in which types, style and build count as one check each. A skipped
// test counts as failed: what is wrong today is asserted as it is.
import { spawnSync } from 'node:child_process';
import { startVitest } from 'vitest/node';

/** @typedef {{ passed: number, failed: number }} Tally */

const tallies = [runScript('typecheck'), runScript('lint'), runScript('build'), await runTests()];
const passed = tallies.reduce((sum, tally) => sum + tally.passed, 0);
const failed = tallies.reduce((sum, tally) => sum + tally.failed, 0);
process.exitCode = failed === 0 ? 0 : 1;
process.stdout.write(`\n${passed} passed, ${failed} failed\n`);

/**
 * @param {string} name a script of package.json
 * @returns {Tally}
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

/** @returns {Promise<Tally>} */
async function runTests() {
  // `none`: a run that checks never writes an expected file; `npm run bless` does.
  const vitest = await startVitest('test', [], {
    config: 'test/vitest.config.mts',
    run: true,
    watch: false,
    update: 'none',
  });
  const modules = vitest.state.getTestModules();
  const tally = { passed: 0, failed: vitest.state.getUnhandledErrors().length };
  for (const testModule of modules) count(testModule, tally);
  if (modules.length === 0) tally.failed += 1;
  await vitest.close();
  return tally;
}

/**
 * @param {import('vitest/node').TestModule} testModule
 * @param {Tally} tally
 */
function count(testModule, tally) {
  const before = tally.failed;
  for (const test of testModule.children.allTests()) {
    if (test.result().state === 'passed') tally.passed += 1;
    else tally.failed += 1;
    if (test.result().state === 'skipped') process.stdout.write(`skipped, counted as failed: ${test.fullName}\n`);
  }
  // A file that cannot be loaded, or whose set-up fails, has no failed test of its own.
  if (!testModule.ok() && tally.failed === before) tally.failed += 1;
}
