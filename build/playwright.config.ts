import { fileURLToPath } from 'node:url';
import { defineConfig } from '@playwright/test';
import { journeyBrowserPath } from '../test/chromium.ts';
import { chromiumArgs } from './chromium.mjs';

/**
 * A journey runs each function a few times: compiling it for speed, and giving memory back between steps, cost a fifth of the
 * processor time of all journeys, and both cores are busy.
 */
const SHORT_RUNS = ['--js-flags=--no-turbofan --no-maglev', '--enable-features=PartitionAllocLargeEmptySlotSpanRing'];

/** Journeys in a real browser. */
export default defineConfig({
  testDir: fileURLToPath(new URL('../test/journeys', import.meta.url)),
  testMatch: '**/*.spec.ts',
  outputDir: fileURLToPath(new URL('../.cache/journeys', import.meta.url)),
  fullyParallel: true,
  workers: 2,
  timeout: 120_000,
  expect: { timeout: 20_000 },
  retries: 0,
  use: {
    // A journey's page is emptied and given to the next one, so that the program's code is compiled once in each worker.
    reuseContext: true,
    viewport: { width: 1440, height: 900 },
    locale: 'en-US',
    timezoneId: 'America/New_York',
    // What pulses while a pour runs would be drawn all the time, beside the other worker.
    contextOptions: { reducedMotion: 'reduce' },
    trace: 'off',
    actionTimeout: 30_000,
    launchOptions: { executablePath: journeyBrowserPath(), args: [...chromiumArgs(), ...SHORT_RUNS] },
  },
});
