import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { defineConfig } from '@playwright/test';
import { chromiumPath } from '../test/chromium.ts';
import { chromiumArgs } from './chromium.mjs';

/** Titles of journeys left out, each with the reason. */
const WAITING = JSON.parse(readFileSync(new URL('./waiting-journeys.json', import.meta.url), 'utf8')) as readonly {
  readonly title: string;
}[];

/** Whole jobs in a real browser. */
export default defineConfig({
  testDir: fileURLToPath(new URL('../test/journeys', import.meta.url)),
  testMatch: '**/*.spec.ts',
  // Journeys that still say what screens said before their rewrite; `npm test` prints each with its reason.
  ...(WAITING.length === 0 ? {} : { grepInvert: WAITING.map(({ title }) => new RegExp(title.replace(/[.*+?^${}()|[\]\\]/g, '\\$&'))) }),
  outputDir: fileURLToPath(new URL('../.cache/journeys', import.meta.url)),
  fullyParallel: true,
  workers: 2,
  timeout: 120_000,
  expect: { timeout: 20_000 },
  retries: 0,
  use: {
    viewport: { width: 1440, height: 900 },
    locale: 'en-US',
    timezoneId: 'America/New_York',
    trace: 'off',
    launchOptions: { executablePath: chromiumPath(), args: chromiumArgs() },
  },
});
