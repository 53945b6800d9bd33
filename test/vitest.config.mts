// Where the tests are and how they run: every *.test.ts below test/, in Node, from the repository's root.
import { defineConfig } from 'vitest/config';
import { fileURLToPath } from 'node:url';

export default defineConfig({
  root: fileURLToPath(new URL('..', import.meta.url)),
  test: {
    include: ['test/**/*.test.ts'],
    environment: 'node',
    // The grammar takes a moment to load on a busy machine; a test that hangs still ends.
    testTimeout: 30_000,
  },
});
