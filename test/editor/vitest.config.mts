// The tests in a real editor: one host for all files, the files one after the other, nothing tried twice.
import { fileURLToPath } from 'node:url';
import { defineConfig } from 'vitest/config';
import { BaseSequencer, type TestSpecification } from 'vitest/node';

/** The same order in every run, whatever took long in the last one. */
class ByName extends BaseSequencer {
  override async sort(files: TestSpecification[]): Promise<TestSpecification[]> {
    return [...files].sort((left, right) => (left.moduleId < right.moduleId ? -1 : 1));
  }
}

export default defineConfig({
  root: fileURLToPath(new URL('../..', import.meta.url)),
  test: {
    include: ['test/editor/**/*.e2e.ts'],
    fileParallelism: false,
    sequence: { sequencer: ByName },
    retry: 0,
    testTimeout: 120_000,
    hookTimeout: 180_000,
    // What a failed step leaves open, the next one would stumble over.
    bail: 1,
  },
});
