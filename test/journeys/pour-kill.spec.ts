/**
 * The browser that a pour runs in is killed at random moments, again and again. Whatever the screen said was logged is in
 * the log afterwards, in order, and the pour goes on. STRAIGHTEDGE_KILLS asks for more than the usual number; the log's own
 * code alone is killed more often, in test/faults.
 */
import { mkdtempSync, readdirSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { type BrowserContext, chromium, type Page } from '@playwright/test';
import { expect, test } from './open-book.ts';
import { openPour, toPour } from './open-pour.ts';

const KILLS = Number(process.env['STRAIGHTEDGE_KILLS'] ?? 3);
/** A generator whose moments can be had again: the numbers of Park and Miller. */
const moments = (seed: number) => {
  let state = seed;
  return () => {
    state = (state * 48271) % 2147483647;
    return state / 2147483647;
  };
};

/** Ends every process whose command line names this profile, and only those, at once. */
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

/** What the status line says was logged last. */
const acknowledged = async (page: Page, words: string): Promise<void> => {
  await page.waitForFunction(
    (wanted) => document.querySelector('main.pour-mode > [role="status"]')?.textContent.startsWith(wanted),
    `Logged: ${words}.`,
  );
};

/** The names of the log's entries as pour mode lists them, oldest first: what follows a colon is bags and lane. */
const logOf = async (page: Page): Promise<string[]> => {
  await page.keyboard.press('e');
  await page.keyboard.press('g');
  const lines = await page.locator('.pour-more-log li span:last-child').allInnerTexts();
  await page.keyboard.press('Escape');
  await expect(page.getByRole('dialog')).toBeHidden();
  return lines.map((line) => line.split(':')[0] ?? '').reverse();
};

test('every acknowledged entry is in the log after the browser was killed, and the pour goes on', async ({ program, launchOptions }) => {
  test.setTimeout(60_000 + KILLS * 40_000);
  const profile = mkdtempSync(join(tmpdir(), 'straightedge-killed-'));
  // The page's clock goes on where it was before a kill, and moves a second between batches: nothing waits in real time.
  let passedMs = 0;
  const open = async (): Promise<BrowserContext> => {
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
  const random = moments(20_26);
  const reports: string[] = [];
  let killed = 0;
  try {
    let context = await open();
    let page = context.pages()[0] ?? (await context.newPage());
    await page.goto(program.address);
    await toPour(page);
    await openPour(page, 900);
    const address = page.url();
    for (let round = 0; round < KILLS; round++) {
      const before = reports.length;
      const start = (await logOf(page)).filter((line) => line.startsWith('Batch') && line.endsWith('placed')).length;
      // So many entries are acknowledged, then the browser is killed while the next one is on its way.
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
      const log = await logOf(page);
      const kept = log.filter((line) => line !== 'Pour started');
      // In order, each once; a kill between the disk and the screen may leave one entry more than was told.
      let index = 0;
      for (const line of kept) if (line === reports[index]) index += 1;
      expect(index, `after kill ${round + 1}, ${reports.length - before} entries in this round`).toBe(reports.length);
      expect(kept.length - reports.length).toBeLessThanOrEqual(1);
      // What was written and not told counts as told from here on.
      reports.splice(0, reports.length, ...kept);
      // A batch mixed and not landed before the kill is landed first.
      const open_ = kept.filter((line) => line.endsWith('mixed')).length - kept.filter((line) => line.endsWith('placed')).length;
      if (open_ > 0) {
        await pass(page);
        await page.keyboard.press(' ');
        const words = `Batch ${kept.filter((line) => line.endsWith('mixed')).length} placed`;
        await acknowledged(page, words);
        reports.push(words);
      }
    }
    expect(killed).toBeGreaterThanOrEqual(KILLS);
    expect(reports.length).toBeGreaterThan(KILLS);
    await context.close();
  } finally {
    killAll(profile);
    rmSync(profile, { recursive: true, force: true, maxRetries: 5, retryDelay: 100 });
  }
});
