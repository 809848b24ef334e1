/** Pour mode's clock in real time, because a clock controlled by a test cannot show that the screen keeps up. */
import { expect, test } from './open-book.ts';
import { undoOf } from './open-pour.ts';
import { runPour } from './running-pour.ts';

/** Two minutes in `npm run soak`. */
const RUN_MS = Number(process.env['STRAIGHTEDGE_CLOCK_SECONDS'] ?? 6) * 1000;

/** The seconds of a clock reading such as 1:05 or 1:00:05. */
const secondsOf = (clock: string): number => clock.split(':').reduce((sum, part) => sum * 60 + Number(part), 0);

test('the clock of the wet edge matches real time', async ({ sample: _book, page }) => {
  test.setTimeout(RUN_MS + 150_000);
  await runPour(page, 60);
  await page.keyboard.press('Space');
  await expect(undoOf(page)).toContainText('Batch 1 placed');
  const timer = page.getByRole('timer');
  await expect(timer).toHaveText(/^\d+:\d\d$/);
  // What the clock shows and when, noted within the page, because a busy computer answers the test late.
  const shown = await timer.evaluate(
    (clock, runMs) =>
      new Promise<{ text: string; ms: number }[]>((done) => {
        const noted = [{ text: clock.textContent, ms: performance.now() }];
        const watch = new MutationObserver(() => noted.push({ text: clock.textContent, ms: performance.now() }));
        watch.observe(clock, { childList: true, characterData: true, subtree: true });
        setTimeout(() => {
          watch.disconnect();
          done(noted);
        }, runMs);
      }),
    RUN_MS,
  );
  const [first, ...rest] = shown.map(({ text, ms }) => ({ shownS: secondsOf(text), passedS: ms / 1000 }));
  if (first === undefined) throw new Error('The clock shows nothing.');
  // Matches the time that passed, and no second runs backward.
  for (const { shownS, passedS } of rest) expect(Math.abs(shownS - first.shownS - (passedS - first.passedS))).toBeLessThan(2.5);
  rest.forEach(({ shownS }, i) => expect(shownS).toBeGreaterThan(rest[i - 1]?.shownS ?? first.shownS));
  expect(rest.length).toBeGreaterThan((RUN_MS / 1000) * 0.5);
  // No false message about sleep or a changed clock.
  await expect(page.getByText(/asleep/)).toHaveCount(0);
  await page.keyboard.press('m');
  await expect(undoOf(page)).toContainText('Batch 2 mixed');
  await expect(page.getByText(/clock went back/)).toHaveCount(0);
});
