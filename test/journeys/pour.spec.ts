/** A pour from its plan to its summary: held until it is answered, opened, logged by keys, taken back, closed in the middle, finished. */
import type { Page } from '@playwright/test';
import { expect, test } from './open-book.ts';

const toPour = async (page: Page): Promise<void> => {
  await page.getByRole('button', { name: 'Look around in the sample book' }).click();
  await expect(page.getByRole('button', { name: 'Look around in the sample book' })).toBeHidden();
  await page.evaluate(() => {
    location.hash = '/jobs/sample-job-lindqvist/pour/sample-family';
  });
  await expect(page.getByRole('heading', { level: 1, name: 'Family room: how it is poured' })).toBeVisible();
};

/** Goes past all that holds the pour in writing, and ticks the last five minutes. */
const answerAll = async (page: Page): Promise<void> => {
  const past = page.getByRole('button', { name: /^Go on all the same: / });
  for (let left = await past.count(); left > 0; left--) {
    await past.first().click();
    const dialog = page.getByRole('alertdialog').or(page.getByRole('dialog'));
    await dialog.getByLabel('Why go on').fill('Read and staged on the spot this morning.');
    await dialog.getByRole('button', { name: 'Go on all the same' }).click();
    await expect(past).toHaveCount(left - 1);
  }
  await page.getByLabel('Ticking as').fill('MP');
  await page.getByLabel('Ticking as').blur();
  const list = page.getByRole('checkbox');
  const lines = await list.count();
  expect(lines).toBeGreaterThan(8);
  for (let i = 0; i < lines; i++) {
    await list.nth(i).focus();
    await page.keyboard.press('Space');
    await expect(list.nth(i)).toBeChecked();
  }
};

test('a pour is held, opened, logged by keys, taken back, resumed and finished', async ({ book, page }) => {
  expect(book.address).toContain('127.0.0.1');
  await toPour(page);
  // Held: the button says why and opens nothing.
  const open = page.getByRole('button', { name: 'Open the pour' });
  await expect(open).toHaveAttribute('aria-disabled', 'true');
  await expect(page.getByText(/^The pour waits: /).first()).toBeVisible();
  await open.focus();
  await page.keyboard.press('Enter');
  await expect(page.getByLabel('Bags on site, counted now')).toBeHidden();
  await answerAll(page);
  await page.getByRole('button', { name: 'Open the pour' }).click();
  await page.getByLabel('Bags on site, counted now').fill('20');
  await expect(page.getByText(/short of the plan/)).toBeVisible();
  await page.getByLabel('Bags on site, counted now').fill('60');
  await page.getByRole('dialog').getByRole('button', { name: 'Open the pour' }).click();
  await expect(page.getByRole('heading', { level: 1, name: 'Pouring: Family room' })).toBeAttached();

  const next = page.locator('.pour-button-next');
  await page.keyboard.press('m');
  await expect(page.getByText('Batch 1 is mixed: 1 bag.')).toBeVisible();
  await page.keyboard.press('Space');
  await expect(next).toContainText('Batch 2 landed');
  await expect(page.getByText('beside batch 1.')).toBeVisible();
  // Twice within a second is asked about, and left when it was a slip.
  await page.keyboard.press('Space');
  await page.keyboard.press('Space');
  await expect(page.getByRole('alertdialog')).toContainText('less than a second ago');
  await page.keyboard.press('n');
  await expect(page.getByRole('alertdialog')).toBeHidden();
  await expect(next).toContainText('Batch 3 landed');
});

test('what was logged survives a closed window, and the finished pour is summed up', async ({ book, page }) => {
  expect(book.address).toContain('127.0.0.1');
  await toPour(page);
  await answerAll(page);
  await page.getByRole('button', { name: 'Open the pour' }).click();
  await page.getByLabel('Bags on site, counted now').fill('60');
  await page.getByRole('dialog').getByRole('button', { name: 'Open the pour' }).click();
  const next = page.locator('.pour-button-next');
  for (let batch = 1; batch <= 3; batch++) {
    await expect(next).toContainText(`Batch ${batch} landed`);
    await page.waitForTimeout(1100);
    await page.keyboard.press('Space');
  }
  await expect(next).toContainText('Batch 4 landed');
  await page.keyboard.press('u');
  await expect(next).toContainText('Batch 3 landed');
  // Focus is never left on the key that takes back.
  await expect(next).toBeFocused();
  await page.keyboard.press('s');
  await expect(page.getByRole('button', { name: /Strip 2 finished/ })).toBeVisible();
  await page.keyboard.press('e');
  await page.keyboard.press('2');
  await expect(page.getByRole('dialog')).toBeHidden();
  await expect(page.getByRole('button', { name: /Undo/ })).toContainText('spill');

  await page.reload();
  await expect(next).toContainText('Batch 3 landed');
  await expect(page.getByRole('button', { name: /Undo/ })).toContainText('spill');
  await page.getByRole('button', { name: 'Leave' }).click();
  await page.getByRole('button', { name: 'Back to the pour' }).click();
  await page.waitForTimeout(1100);
  await page.keyboard.press('Space');
  await expect(next).toContainText('Batch 4 landed');

  await page.keyboard.press('e');
  await page.keyboard.press('g');
  await expect(page.getByText('taken back: batch 3 landed')).toBeVisible();
  await page.getByRole('button', { name: 'Back' }).click();
  await page.keyboard.press('f');
  await page.getByLabel('Bags left over').fill('57');
  await page.getByRole('dialog').getByRole('button', { name: 'Finish the pour' }).click();
  await expect(page.getByRole('alertdialog')).toContainText('not marked finished');
  await page.keyboard.press('y');
  await expect(page.getByRole('heading', { level: 1, name: 'Family room: poured' })).toBeVisible();
  await expect(page.getByText(/bags are on the floor/)).toBeVisible();
  await page.getByRole('button', { name: 'Go on to the cure' }).click();
  await expect(page).toHaveURL(/\/cure\/sample-family$/);
});
