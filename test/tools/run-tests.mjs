// Runs the tests of one configuration and counts them. A skipped test counts as failed: what is wrong today is asserted as
// it is.
import { startVitest } from 'vitest/node';

/** @typedef {{ passed: number, failed: number }} Tally */

/**
 * @param {string} config
 * @param {{ provide?: Partial<import('vitest').ProvidedContext> }} [more] values that the tests may ask for
 * @returns {Promise<Tally>}
 */
export async function runTests(config, { provide = {} } = {}) {
  // `none`: a run that checks never writes an expected file; `npm run bless` does.
  const vitest = await startVitest('test', [], { config, run: true, watch: false, update: 'none', provide });
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
