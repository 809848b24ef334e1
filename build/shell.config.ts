import { fileURLToPath } from 'node:url';
import { defineConfig } from '@playwright/test';

/** The real Electron: its own checks, and a whole-job journey. */
export default defineConfig({
  testDir: fileURLToPath(new URL('../test', import.meta.url)),
  testMatch: ['shell/*.spec.ts', 'journeys/whole-job.spec.ts'],
  outputDir: fileURLToPath(new URL('../.cache/shell', import.meta.url)),
  workers: 1,
  timeout: 300_000,
  expect: { timeout: 20_000 },
  retries: 0,
});
