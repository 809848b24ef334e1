import { fileURLToPath } from 'node:url';
import { defineConfig } from 'vitest/config';

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
    // Modules are shared by all files. The shell registers its calls once per process, so its files are isolated.
    projects: [
      { extends: true, test: { name: 'units', include: ['test/**/*.test.{ts,tsx}'], exclude: ['test/main/electron/**'], isolate: false } },
      { extends: true, test: { name: 'shell', include: ['test/main/electron/**/*.test.{ts,tsx}'] } },
    ],
  },
});
