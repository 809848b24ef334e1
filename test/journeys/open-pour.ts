/** The way to a running pour of the sample's family room, as a person goes it. */
import type { Page } from '@playwright/test';
import { expect } from './open-book.ts';

/** From an empty book to the plan of the pour. */
export const toPour = async (page: Page): Promise<void> => {
  await page.getByRole('button', { name: 'Open sample data' }).click();
  await expect(page.getByRole('button', { name: 'Open sample data' })).toBeHidden();
  await page.evaluate(() => {
    location.hash = '/jobs/sample-job-lindqvist/pour/sample-family';
  });
  await expect(page.getByRole('heading', { level: 1, name: 'Family room: how it is poured' })).toBeVisible();
};

/** Goes past all that holds the pour in writing, and ticks the last five minutes. */
export const answerAll = async (page: Page): Promise<void> => {
  const past = page.getByRole('button', { name: /^Go on all the same: / });
  for (let left = await past.count(); left > 0; left--) {
    await past.first().click();
    const dialog = page.getByRole('alertdialog').or(page.getByRole('dialog'));
    await dialog.getByLabel('Reason').fill('Read and staged on the spot this morning.');
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

/** Opens the pour with so many bags on site. */
export const openPour = async (page: Page, bags: number): Promise<void> => {
  await answerAll(page);
  await page.getByRole('button', { name: 'Open the pour' }).click();
  await page.getByLabel('Bags on site, counted now').fill(String(bags));
  await page.getByRole('dialog').getByRole('button', { name: 'Open the pour' }).click();
  await expect(page.getByRole('heading', { level: 1, name: 'Pouring: Family room' })).toBeAttached();
};
