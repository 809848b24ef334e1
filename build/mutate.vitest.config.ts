import { fileURLToPath } from 'node:url';
import { defineConfig } from 'vitest/config';

/** Runs only the tests at the path of the mutated folder. */
export default defineConfig({
  root: fileURLToPath(new URL('..', import.meta.url)),
  cacheDir: '.cache/vitest-mutate',
  define: { __ARITHMETIC__: JSON.stringify('tested') },
  test: {
    environment: 'node',
    setupFiles: ['test/setup.ts'],
    include: [`test/${process.env['STRAIGHTEDGE_MUTATED'] ?? 'shared-core'}/**/*.test.ts`],
    testTimeout: 30_000,
  },
});
