/** Steps to a running pour of the sample's family room. */
import type { Locator, Page } from '@playwright/test';
import { expect } from './open-book.ts';
import { toSheet } from './open-sample.ts';

/** From the sample data to the pour plan. */
export const toPour = async (page: Page): Promise<void> => {
  await toSheet(page, '/jobs/sample-job-lindqvist/pour/sample-family');
  await expect(page.getByRole('heading', { level: 1, name: 'Family room: pour plan' })).toBeVisible();
};

/** Overrides every hold with a reason, and checks the pre-pour checklist. */
export const answerAll = async (page: Page): Promise<void> => {
  const past = page.getByRole('button', { name: /^Override hold: / });
  for (let count = await past.count(); count > 0; count--) {
    await past.first().click();
    const dialog = page.getByRole('alertdialog').or(page.getByRole('dialog'));
    await dialog.getByLabel('Reason').fill('Read and staged on the spot this morning.');
    await dialog.getByRole('button', { name: 'Override hold' }).click();
    await expect(past).toHaveCount(count - 1);
  }
  await page.getByLabel('Initials', { exact: true }).fill('MP');
  await page.getByLabel('Initials', { exact: true }).blur();
  const list = page.getByRole('checkbox');
  const lines = await list.count();
  expect(lines).toBeGreaterThan(8);
  for (let i = 0; i < lines; i++) {
    await list.nth(i).focus();
    await page.keyboard.press('Space');
    await expect(list.nth(i)).toBeChecked();
  }
};

/** Starts the pour with this number of bags on site. */
export const openPour = async (page: Page, bags: number): Promise<void> => {
  await answerAll(page);
  await page.getByRole('button', { name: 'Start pour' }).click();
  await page.getByLabel('Bags on site').fill(String(bags));
  await page.getByRole('dialog').getByRole('button', { name: 'Start pour' }).click();
  await expect(page.getByRole('heading', { level: 1, name: 'Pour: Family room' })).toBeAttached();
};

export const undoOf = (page: Page): Locator => page.getByRole('button', { name: /^Undo/ });

/** Presses the key of More, and then an entry's. */
export const pressMore = async (page: Page, key: string): Promise<void> => {
  await page.keyboard.press('e');
  await page.keyboard.press(key);
};

/** Notes in the open dialog that the dam is set where the pour stops. */
export const setDam = async (page: Page): Promise<void> => {
  await page
    .getByRole('dialog')
    .getByRole('button', { name: /^Dam is set/ })
    .click();
  await expect(undoOf(page)).toContainText('Dam set');
};

/** Ends the pour, whole or in part. */
export const endPour = async (page: Page, buttonName: RegExp): Promise<void> => {
  await pressMore(page, 'f');
  await page.getByRole('dialog').getByRole('button', { name: buttonName }).click();
};

/** The lines of the pour log as they stand now, oldest first. */
export const logOf = async (page: Page): Promise<string[]> => {
  await pressMore(page, 'g');
  const lines = await page.locator('.pour-more-log li span:last-child').allInnerTexts();
  await page.keyboard.press('Escape');
  await expect(page.getByRole('dialog')).toBeHidden();
  return lines.reverse();
};

/** The pour log comes to these lines: an entry is on the screen a moment after it is in the database. */
export const hasLog = (page: Page, lines: readonly string[]): Promise<void> => expect.poll(() => logOf(page)).toEqual(lines);
