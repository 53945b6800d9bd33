// `npm run test:editor`, and the last part of `npm test`: starts the host, runs the files one after the other, stops the
// host. Where the host cannot be had the run says so; in continuous integration that is a failure.
import { fileURLToPath } from 'node:url';
import { runTests } from '../tools/run-tests.mjs';
import { HostMissing, startHost } from './host.mjs';

/** @returns {Promise<import('../tools/run-tests.mjs').Tally>} */
export async function runEditorTests() {
  try {
    const { host, stop } = await startHost();
    try {
      return await runTests('test/editor/vitest.config.mts', { provide: { host } });
    } finally {
      process.stdout.write(`pictures of what was seen: ${host.pictures}\n`);
      await stop();
    }
  } catch (error) {
    if (!(error instanceof HostMissing)) throw error;
    process.stdout.write(`editor tests not run: ${error.message}\n`);
    return { passed: 0, failed: process.env.CI === undefined ? 0 : 1 };
  }
}

if (process.argv[1] === fileURLToPath(import.meta.url)) {
  const { failed, passed } = await runEditorTests();
  process.stdout.write(`\n${passed} passed, ${failed} failed\n`);
  process.exitCode = failed === 0 ? 0 : 1;
}
