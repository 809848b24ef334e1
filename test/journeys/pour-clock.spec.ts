/** Pour mode's clock in real time, because a clock controlled by a test cannot show that the screen keeps up. */
import { expect, test } from './open-book.ts';
import { undoOf } from './open-pour.ts';
import { runPour } from './running-pour.ts';

/** Two minutes in `npm run soak`. */
const RUN_MS = Number(process.env['STRAIGHTEDGE_CLOCK_SECONDS'] ?? 6) * 1000;
/** Longest time the clock may show one second on a busy computer, ms. */
const STILL_MS = 4_000;

/** The seconds of a clock reading such as 1:05 or 1:00:05. */
const secondsOf = (clock: string): number => clock.split(':').reduce((sum, part) => sum * 60 + Number(part), 0);

test('the clock of the wet edge matches real time', async ({ sample: _book, page }) => {
  test.setTimeout(RUN_MS + 150_000);
  await runPour(page, 60);
  await page.keyboard.press('Space');
  await expect(undoOf(page)).toContainText('Batch 1 placed');
  const timer = page.getByRole('timer');
  await expect(timer).toHaveText(/^\d+:\d\d$/);
  const startMs = Date.now();
  let shown = await timer.innerText();
  const first = secondsOf(shown);
  const steps: number[] = [];
  while (Date.now() - startMs < RUN_MS) {
    const change = await page.waitForFunction(
      (last) => {
        const now = document.querySelector('[role="timer"]')?.textContent ?? '';
        return now !== last && now !== '' ? now : null;
      },
      shown,
      { timeout: STILL_MS, polling: 100 },
    );
    const next = String(await change.jsonValue());
    steps.push(secondsOf(next) - secondsOf(shown));
    shown = next;
    // Matches the time that passed outside the browser.
    expect(Math.abs(secondsOf(shown) - first - (Date.now() - startMs) / 1000)).toBeLessThan(2.5);
  }
  // No second runs backward, and few are skipped.
  expect(Math.min(...steps)).toBeGreaterThan(0);
  expect(Math.max(...steps)).toBeLessThanOrEqual(STILL_MS / 1000);
  expect(steps.length).toBeGreaterThan((RUN_MS / 1000) * 0.8);
  // No false message about sleep or a changed clock.
  await expect(page.getByText(/asleep/)).toHaveCount(0);
  await page.keyboard.press('m');
  await expect(undoOf(page)).toContainText('Batch 2 mixed');
  await expect(page.getByText(/clock went back/)).toHaveCount(0);
});
