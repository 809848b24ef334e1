/**
 * Kills the browser of a pour at random moments, repeatedly. Every batch that the screen acknowledged is in the log afterwards, in order,
 * and the pour continues. STRAIGHTEDGE_KILLS sets the number; test/faults kills the log's code alone more often.
 */
import { mkdtempSync, readdirSync, readFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { type BrowserContext, chromium, type Page } from '@playwright/test';
import { moments, SEED } from '../moments.ts';
import { mendLogs } from '../../main/desk/mend-logs.ts';
import { expect, test } from './open-book.ts';
import { logOf } from './open-pour.ts';
import { openPrepared } from './prepared-book.ts';
import { runPour } from './running-pour.ts';
import { removeFolder } from '../../build/remove-folder.mjs';

const KILLS = Number(process.env['STRAIGHTEDGE_KILLS'] ?? 3);

/** Kills every process whose command line names this profile, and no other. */
const killAll = (profile: string): number => {
  let killed = 0;
  for (const pid of readdirSync('/proc').filter((name) => /^\d+$/.test(name))) {
    try {
      if (
        !readFileSync(`/proc/${pid}/cmdline`, 'utf8')
          .split('\0')
          .some((part) => part === `--user-data-dir=${profile}`)
      )
        continue;
      process.kill(Number(pid), 'SIGKILL');
      killed += 1;
    } catch {
      // It ended by itself meanwhile.
    }
  }
  return killed;
};

/** The last entry of the status line. */
const acknowledged = async (page: Page, words: string): Promise<void> => {
  await page.waitForFunction(
    (wanted) => document.querySelector('main.pour-mode > [role="status"]')?.textContent.startsWith(wanted),
    `Logged: ${words}.`,
  );
};

/** The names of the log's entries; what follows a colon is bags and lane. */
const namesOf = async (page: Page): Promise<string[]> => (await logOf(page)).map((line) => line.split(':')[0] ?? '');

test('every acknowledged entry is in the log after the browser is killed, and the pour continues', async ({ program, launchOptions }) => {
  test.setTimeout(60_000 + KILLS * 40_000);
  const profile = mkdtempSync(join(tmpdir(), 'straightedge-killed-'));
  // The page's clock continues where it was before a kill, and advances a second between batches, so that nothing waits in real time.
  let passedMs = 0;
  const open = async (): Promise<BrowserContext> => {
    await mendLogs(profile, () => undefined);
    const context = await chromium.launchPersistentContext(profile, {
      ...launchOptions,
      headless: true,
      locale: 'en-US',
      timezoneId: 'America/New_York',
    });
    await context.clock.install({ time: Date.now() + passedMs });
    return context;
  };
  const pass = async (page: Page): Promise<void> => {
    passedMs += 1100;
    await page.clock.fastForward(1100);
  };
  const random = moments(SEED);
  const reports: string[] = [];
  let killed = 0;
  try {
    let context = await open();
    let page = context.pages()[0] ?? (await context.newPage());
    await openPrepared(page, program.address);
    await runPour(page, 900);
    const address = page.url();
    for (let round = 0; round < KILLS; round++) {
      const before = reports.length;
      const start = reports.filter((line) => line.startsWith('Batch') && line.endsWith('placed')).length;
      // This many entries are acknowledged, and the browser is killed during the next.
      const steps = 3 + Math.floor(random() * 10);
      const isPressed = random() < 0.5;
      let step = 0;
      for (let batch = start + 1; step <= steps; batch++) {
        await pass(page);
        for (const [keys, words] of [
          [['m'], `Batch ${batch} mixed`],
          [['e', '5'], 'Blocked outlet'],
          [[' '], `Batch ${batch} placed`],
          [['e', '7'], 'Dry spot'],
        ] as const) {
          step += 1;
          if (step > steps) {
            const pressing = (async () => {
              for (const one of keys) await page.keyboard.press(one);
            })().catch(() => undefined);
            if (isPressed) await pressing;
            killed += killAll(profile);
            await pressing;
            break;
          }
          for (const one of keys) await page.keyboard.press(one);
          await acknowledged(page, words);
          reports.push(words);
        }
      }
      await context.close().catch(() => undefined);
      context = await open();
      page = context.pages()[0] ?? (await context.newPage());
      await page.goto(program.address);
      await page.goto(address);
      await expect(page.getByRole('heading', { level: 1, name: 'Pour: Family room' })).toBeAttached();
      const log = await namesOf(page);
      const entries = log.filter((line) => line !== 'Pour started');
      // In order, each once; a kill between disk and screen may leave one more entry.
      let index = 0;
      for (const line of entries) if (line === reports[index]) index += 1;
      expect(index, `after kill ${round + 1}, ${reports.length - before} entries in this round`).toBe(reports.length);
      expect(entries.length - reports.length).toBeLessThanOrEqual(1);
      // Entries written but not shown count as acknowledged from here on.
      reports.splice(0, reports.length, ...entries);
      // A batch mixed before the kill is placed first.
      const open_ = entries.filter((line) => line.endsWith('mixed')).length - entries.filter((line) => line.endsWith('placed')).length;
      if (open_ > 0) {
        await pass(page);
        await page.keyboard.press(' ');
        const words = `Batch ${entries.filter((line) => line.endsWith('mixed')).length} placed`;
        await acknowledged(page, words);
        reports.push(words);
      }
    }
    expect(killed).toBeGreaterThanOrEqual(KILLS);
    expect(reports.length).toBeGreaterThan(KILLS);
    await context.close();
  } finally {
    killAll(profile);
    removeFolder(profile);
  }
});
