/** A pour from plan to summary: on hold, started, logged by keys, undone, closed in the middle, finished. */
import { faults, lostColors } from './faults.ts';
import { expect, test } from './open-book.ts';
import { answerAll, pressMore, toPour, undoOf } from './open-pour.ts';
import { toSheet } from './open-sample.ts';
import { goOn, laneDone, placed, runPour } from './running-pour.ts';

test('a pour is on hold, started, logged by keys, undone, resumed and finished', async ({ sample: _book, page }) => {
  await page.clock.install();
  await toPour(page);
  // On hold: the button says why and starts nothing.
  const open = page.getByRole('button', { name: 'Start pour' });
  await expect(open).toHaveAttribute('aria-disabled', 'true');
  await expect(page.getByText(/^On hold: /).first()).toBeVisible();
  await open.focus();
  await page.keyboard.press('Enter');
  await expect(page.getByLabel('Bags on site')).toBeHidden();
  await answerAll(page);
  await page.getByRole('button', { name: 'Start pour' }).click();
  await page.getByLabel('Bags on site').fill('20');
  await expect(page.getByText(/short of the plan/)).toBeVisible();
  await page.getByLabel('Bags on site').fill('60');
  await page.getByRole('dialog').getByRole('button', { name: 'Start pour' }).click();
  await expect(page.getByRole('heading', { level: 1, name: 'Pour: Family room' })).toBeAttached();

  const next = page.locator('.pour-button-next');
  await page.keyboard.press('m');
  await expect(page.getByText('Batch 1 is mixed: 2 bags.')).toBeVisible();
  await page.keyboard.press('Space');
  await expect(next).toContainText('Batch 2 placed');
  await expect(page.getByText('at batch 1.')).toBeVisible();
  // A second press within a second is questioned, and discarded as a typo. The clock is stopped, because a slow computer could put a second
  // between the two.
  await page.clock.pauseAt((await page.evaluate(() => Date.now())) + 40_000);
  await page.keyboard.press('Space');
  await page.keyboard.press('Space');
  await page.clock.resume();
  await expect(page.getByRole('alertdialog')).toContainText('less than a second ago');
  await page.keyboard.press('n');
  await expect(page.getByRole('alertdialog')).toBeHidden();
  await expect(next).toContainText('Batch 3 placed');
});

test('logged entries survive a closed window, and the finished pour is summarized', async ({ sample: _book, page }) => {
  await page.clock.install();
  await runPour(page, 60);
  const next = page.locator('.pour-button-next');
  for (let batch = 1; batch <= 3; batch++) {
    await expect(next).toContainText(`Batch ${batch} placed`);
    await page.clock.fastForward(1100);
    await page.keyboard.press('Space');
  }
  await expect(next).toContainText('Batch 4 placed');
  await page.keyboard.press('u');
  await expect(next).toContainText('Batch 3 placed');
  // Focus is never on the undo button.
  await expect(next).toBeFocused();
  await page.keyboard.press('s');
  await expect(page.getByRole('button', { name: /Lane 2 finished/ })).toBeVisible();
  await pressMore(page, '6');
  await expect(page.getByRole('dialog')).toBeHidden();
  await expect(page.getByRole('button', { name: /Undo/ })).toContainText('Spill');

  await pressMore(page, 'r');
  await page.getByLabel('Air', { exact: true }).fill('68');
  await page.getByLabel('Relative humidity (RH)').fill('50');
  await page.keyboard.press('Enter');
  await expect(page.getByRole('dialog')).toBeHidden();
  await expect(page.getByRole('button', { name: /Undo/ })).toContainText('Readings logged');

  await page.reload();
  await expect(next).toContainText('Batch 3 placed');
  await page.getByRole('button', { name: 'Leave' }).click();
  await expect(page.getByRole('button', { name: 'Back to pour' })).toBeVisible();
  // Its line on Today opens it too.
  await toSheet(page, '/');
  await page.getByRole('link', { name: /under way since/ }).click();
  await expect(next).toContainText('Batch 3 placed');
  await page.clock.fastForward(1100);
  await page.keyboard.press('Space');
  await expect(next).toContainText('Batch 4 placed');

  await pressMore(page, 'g');
  await expect(page.getByText('Voided: Batch 3 placed')).toBeVisible();
  await expect(page.locator('.pour-more-log')).toContainText('RH 50%');
  await page.getByRole('button', { name: 'Back' }).click();
  await page.keyboard.press('f');
  await page.getByRole('textbox', { name: 'Bags left' }).fill('54');
  // Three of nineteen batches: the program asks, and never calls the room poured.
  await page
    .getByRole('dialog')
    .getByRole('button', { name: /^Partly poured/ })
    .click();
  await expect(page.getByRole('heading', { level: 1, name: 'Family room: partly poured' })).toBeVisible();
  await expect(page.getByText(/bags used/).first()).toBeVisible();
  await expect(page.getByText(/not placed, lanes/)).toBeVisible();
  await expect(page.getByRole('link', { name: 'Next: Cure' })).toHaveCount(0);
});

test('a whole pour of nineteen batches works by keyboard only: a typo undone, a spill, a shortage', async ({ sample: _book, page }) => {
  test.slow();
  await page.clock.install();
  await runPour(page, 26);
  const next = page.locator('.pour-button-next');
  const undo = undoOf(page);
  // Advances the clock in steps under a minute, as on a computer that does not sleep.
  const wait = async (seconds: number) => {
    for (let remaining = seconds; remaining > 0; remaining -= 40) await page.clock.fastForward(Math.min(40, remaining) * 1000);
  };
  // The planned end of each lane: the last batch that is mostly in it.
  let lane = 1;
  for (let batch = 1; batch <= 19; batch++) {
    await page.keyboard.press('m');
    await expect(page.getByText(`Batch ${batch} is mixed`)).toBeVisible();
    await wait(70);
    await page.keyboard.press('Space');
    await expect(undo).toContainText(`Batch ${batch} placed`);
    if (batch === 4) {
      // A lane finished too early is undone; the log keeps both.
      await page.keyboard.press('s');
      await expect(undo).toContainText('Lane 2 finished');
      await page.keyboard.press('u');
      await expect(undo).toContainText('Batch 4 placed');
    }
    if (batch === 6) {
      await pressMore(page, '6');
      await expect(undo).toContainText('Spill');
    }
    if (batch === 8) {
      await expect(page.getByText('Short.', { exact: true })).toBeVisible();
      await pressMore(page, 'b');
      await page.getByRole('textbox', { name: 'Bags added' }).fill('16');
      // Enter saves the shown value.
      await page.keyboard.press('Enter');
      await expect(undo).toContainText('16 bags added');
      await expect(page.getByText('Enough.', { exact: true })).toBeVisible();
    }
    if (batch % 3 === 0) {
      await page.keyboard.press('s');
      await expect(undo).toContainText(`Lane ${lane} finished`);
      lane += 1;
    }
    await wait(60);
  }
  // Each finished lane took more than its share, so that the last is still open after the planned number of batches.
  await expect(next).toHaveText(/Batch 20 placed/);
  await expect(next).not.toContainText('Extra');
  await page.keyboard.press('s');
  await expect(undo).toContainText('Lane 7 finished');
  await expect(next).toContainText('Extra batch 20 placed');
  await pressMore(page, 'f');
  await page.getByRole('textbox', { name: 'Bags left' }).fill('5');
  await page.keyboard.press('Tab');
  await page.getByRole('button', { name: 'Finish pour' }).press('Enter');
  await expect(page.getByRole('heading', { level: 1, name: 'Family room: poured' })).toBeVisible();
  const placed = page.getByRole('table', { name: 'Batches, planned and used' }).getByRole('row');
  await expect(placed).toHaveCount(20);
  await expect(page.getByText('not logged')).toHaveCount(0);
});

test.describe('on a phone, by touch', () => {
  test.use({ viewport: { width: 390, height: 844 }, hasTouch: true });
  test('a pour of nineteen batches works by tapping, with every control visible and large enough', async ({ sample: _book, page }) => {
    test.slow();
    await page.clock.install();
    await runPour(page, 60);
    const next = page.locator('.pour-button-next');
    const undo = undoOf(page);
    const wait = async () => {
      for (let part = 0; part < 3; part++) await page.clock.fastForward(40_000);
    };
    for (const batch of [1, 2, 3, 17, 18, 19]) {
      if (batch === 17) {
        const lanes = [2, 3, 4, 5].map((lane) => laneDone(lane, 16 - 3 * lane));
        await goOn(page, [...placed(4, 16, 0.5), ...lanes]);
      }
      await page.getByRole('button', { name: new RegExp(`^Batch ${batch} mixed`) }).tap();
      await expect(undo).toContainText(`Batch ${batch} mixed`);
      await wait();
      await next.tap();
      await expect(undo).toContainText(`Batch ${batch} placed`);
      if (batch === 2) {
        // A typo: undone by one tap, and restored with its own time.
        await undo.tap();
        await expect(next).toContainText('Batch 2 placed');
        await page.getByRole('button', { name: 'Redo' }).tap();
        await expect(next).toContainText('Batch 3 placed');
        await page.getByRole('button', { name: /^More/ }).tap();
        await page.getByRole('button', { name: /Blocked outlet/ }).tap();
        await expect(undo).toContainText('Blocked outlet');
        for (const button of [next, undo, page.getByRole('button', { name: /^More/ })]) {
          const box = await button.boundingBox();
          expect(box?.height ?? 0).toBeGreaterThanOrEqual(72);
          expect((box?.y ?? 0) + (box?.height ?? 9999)).toBeLessThanOrEqual(845);
        }
        expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(390);
        // The plan has two fifths of every screen, and the clock stays on one line.
        for (const [width, height] of [
          [375, 667],
          [844, 390],
          [1024, 600],
          [1440, 900],
          [390, 844],
        ] as const) {
          await page.setViewportSize({ width, height });
          const plan = await page.locator('.pour-mode-plan').boundingBox();
          expect(((plan?.width ?? 0) * (plan?.height ?? 0)) / (width * height), `plan at ${width} by ${height}`).toBeGreaterThanOrEqual(
            0.4,
          );
          const timer = page.getByRole('timer');
          const [age, sizePx] = [await timer.boundingBox(), await timer.evaluate((e) => Number.parseFloat(getComputedStyle(e).fontSize))];
          expect(age?.height ?? Number.POSITIVE_INFINITY, `clock at ${width} by ${height}`).toBeLessThan(1.5 * sizePx);
        }
        expect(await faults(page)).toEqual([]);
        expect(await lostColors(page)).toEqual([]);
        await page.getByRole('button', { name: /^More/ }).tap();
        await expect(page.getByRole('dialog')).toBeVisible();
        expect(await faults(page, '[role="dialog"]'), 'More').toEqual([]);
        await page.getByRole('dialog').getByRole('button', { name: 'Close' }).tap();
      }
      if (batch % 3 === 0) {
        await page.getByRole('button', { name: new RegExp(`^Lane ${batch / 3} finished`) }).tap();
        await expect(undo).toContainText(`Lane ${batch / 3} finished`);
      }
    }
    await page.getByRole('button', { name: /^Lane 7 finished/ }).tap();
    await expect(undo).toContainText('Lane 7 finished');
    await page.getByRole('button', { name: /^More/ }).tap();
    await page.getByRole('button', { name: /Finish pour/ }).tap();
    await page.getByRole('dialog').getByRole('button', { name: 'Finish pour' }).tap();
    await expect(page.getByRole('heading', { level: 1, name: 'Family room: poured' })).toBeVisible();
    await expect(page.getByText('not logged')).toHaveCount(0);
  });
});

test('a handwritten pour log is entered afterwards, with its times as estimates', async ({ sample: _book, page }) => {
  await toPour(page);
  await page.getByRole('button', { name: 'Enter handwritten log…' }).click();
  const dialog = page.getByRole('dialog');
  await dialog.getByLabel('Pour date', { exact: true }).fill('yesterday');
  await dialog.getByLabel('Bags on site at the start').fill('40');
  await dialog.getByLabel('Batch 1 placed at').fill('9:40 am');
  await dialog.getByLabel('Batch 2 placed at').fill('9:30 am');
  await dialog.getByLabel('Batch 3 placed at').fill('9:20 am');
  await dialog.getByLabel('Floor placed').selectOption({ label: 'part of the floor' });
  // A time a few minutes back is a typo, not the next day.
  await dialog.getByRole('button', { name: 'Save pour' }).click();
  await expect(dialog.getByRole('alert')).toContainText('Line 2, batch 2: the time is before that of the line above');
  await dialog.getByLabel('Batch 2 placed at').fill('9:44 am');
  await dialog.getByLabel('Batch 3 placed at').fill('9:48 am');
  await dialog.getByRole('button', { name: 'Save pour' }).click();
  await expect(page.getByRole('heading', { level: 1, name: 'Family room: partly poured' })).toBeVisible();
  await expect(page.getByText('Entered from a handwritten log. Times are estimates.')).toBeVisible();
  await expect(page.getByText(/, estimated/)).toHaveCount(3);
});

test('rooms, joints and the pour-day sheet are planned by typed entries', async ({ sample: book, page }) => {
  await toPour(page);
  const meaning = page.locator('.sheet-foot .answer').first();
  await expect(meaning).toContainText(': 19 batches');
  await page.getByRole('button', { name: 'Add joint' }).click();
  await expect(page.getByLabel('Joint 1, from down')).toHaveValue('8′ 6″');
  await page.getByLabel('Joint 1, from down').fill("6'");
  await page.getByLabel('Joint 1, from down').press('Enter');
  await expect(page.getByLabel('Joint 1, from down')).toHaveValue('6′ 0″');
  await expect(page.locator('[data-name^="joint:"]')).toHaveCount(1);
  // Simulated automatically, with a visible result.
  await expect(meaning).toContainText(/Cold joint in [\d.]+ ?% of simulated pours/);
  await page.getByRole('button', { name: 'Find improvements' }).click();
  await expect(page.getByRole('button', { name: 'Find improvements again' })).toBeVisible({ timeout: 100_000 });
  await expect(page.getByText(/4,000 simulated pours/)).toBeVisible();
  await page.getByRole('button', { name: 'Save pour-day sheet' }).click();
  await expect(page.getByText(new RegExp(`Pour-day sheet.*pdf was saved to ${book.papers.replaceAll('/', '.')}`))).toBeVisible({
    timeout: 20_000,
  });
});
