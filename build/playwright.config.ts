import { existsSync } from 'node:fs';
import { defineConfig } from '@playwright/test';

/** Whole jobs in a real browser. Playwright's own browsers are not used: an installed Chromium is. */
const chromium =
  process.env['STRAIGHTEDGE_CHROMIUM'] ??
  ['/usr/bin/chromium', '/usr/bin/chromium-browser', '/usr/bin/google-chrome'].find((path) => existsSync(path)) ??
  'chromium';
const asRoot = process.getuid?.() === 0;

export default defineConfig({
  testDir: new URL('../test/journeys', import.meta.url).pathname,
  testMatch: '**/*.spec.ts',
  outputDir: new URL('../.cache/journeys', import.meta.url).pathname,
  fullyParallel: true,
  workers: 2,
  timeout: 90_000,
  expect: { timeout: 10_000 },
  retries: 0,
  use: {
    viewport: { width: 1440, height: 900 },
    locale: 'en-US',
    timezoneId: 'America/New_York',
    trace: 'off',
    launchOptions: {
      executablePath: chromium,
      args: [
        ...(asRoot ? ['--no-sandbox'] : []),
        '--disable-gpu',
        '--no-first-run',
        '--disable-background-networking',
        '--disable-component-update',
        '--disable-sync',
      ],
    },
  },
});
