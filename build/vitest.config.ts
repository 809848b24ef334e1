import { defineConfig } from 'vitest/config';

export default defineConfig({
  root: new URL('..', import.meta.url).pathname,
  cacheDir: '.cache/vitest',
  define: { __ARITHMETIC__: JSON.stringify('tested') },
  test: {
    include: ['test/**/*.test.{ts,tsx}'],
    exclude: ['test/journeys/**', 'test/bench/**', 'node_modules/**'],
    environment: 'node',
    setupFiles: ['test/setup.ts'],
    pool: 'threads',
    maxWorkers: 2,
    testTimeout: 30_000,
  },
});
