import { fileURLToPath } from 'node:url';
import { defineConfig } from 'vitest/config';

/** Files that load the program's modules again, or whose modules register calls once per process. */
const ISOLATED = [
  'test/main/electron/**/*.test.ts',
  'test/main/desk/ink-document.test.ts',
  'test/main/desk/issued-document.test.ts',
  'test/renderer/book/open-read-only.test.ts',
];

export default defineConfig({
  root: fileURLToPath(new URL('..', import.meta.url)),
  cacheDir: '.cache/vitest',
  define: { __ARITHMETIC__: JSON.stringify('tested') },
  test: {
    environment: 'node',
    setupFiles: ['test/setup.ts'],
    pool: 'threads',
    maxWorkers: 2,
    testTimeout: 60_000,
    // Modules are loaded once in each worker and shared by its files.
    projects: [
      { extends: true, test: { name: 'units', include: ['test/**/*.test.{ts,tsx}'], exclude: ISOLATED, isolate: false } },
      { extends: true, test: { name: 'isolated', include: ISOLATED } },
    ],
  },
});
