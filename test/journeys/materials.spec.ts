/**
 * Materials: data sheet values replace typical ones, a contradiction is resolved, a price has a date, and archiving a data sheet in use
 * warns first.
 */
import type { Page } from '@playwright/test';
import { faults } from './faults.ts';
import { expect, test } from './open-book.ts';
import { toSheet } from './open-sample.ts';

const toUnderlayment = async (page: Page): Promise<void> => {
  await page.getByRole('link', { name: 'Materials' }).click();
  await expect(page.getByRole('heading', { level: 1 })).toBeVisible();
  await page.getByRole('radio', { name: /^Self-leveling underlayment, fine/ }).click({ force: true });
  await expect(page.getByRole('heading', { level: 1, name: 'Self-leveling underlayment, fine' })).toBeVisible();
};
const type = async (page: Page, label: string, text: string): Promise<void> => {
  const field = page.getByLabel(label, { exact: true });
  await field.fill(text);
  await field.press('Enter');
};

test('the bag’s yield replaces the typical one, and a yield of zero is refused', async ({ book: _book, page }) => {
  await toUnderlayment(page);
  const row = page.getByRole('listitem').filter({ has: page.getByLabel('Yield per bag', { exact: true }) });
  await expect(row).toContainText('typical');
  await type(page, 'Yield per bag', '0');
  await expect(row.getByRole('alert')).toContainText('Enter a yield greater than 0');
  await expect(page.getByText('Estimates use 0.45 cu ft per bag')).toBeVisible();
  await type(page, 'Yield per bag', '0.46 cu ft');
  await expect(row.getByRole('alert')).toHaveCount(0);
  await expect(row).toContainText('bag');
  await expect(page.getByText('Estimates use 0.46 cu ft per bag')).toBeVisible();
  await page.reload();
  await expect(page.getByLabel('Yield per bag', { exact: true })).toHaveValue('0.46 cu ft');
  await page.getByRole('button', { name: /^Undo/ }).click();
  await expect(page.getByLabel('Yield per bag', { exact: true })).toHaveValue('0.45 cu ft');
  await expect(row).toContainText('typical');
});

test('two figures that disagree are shown with the calculation, and a weighed bag resolves them', async ({ book: _book, page }) => {
  await toUnderlayment(page);
  await type(page, 'Density, wet', '125 lb/cu ft');
  await expect(page.getByRole('heading', { name: 'Two figures disagree' })).toBeVisible();
  // 50 lb and 5 qt of water at 2.0864 lb/qt are 60.43 lb; over 125 lb/cu ft that is 0.483 cu ft. NIST Handbook 44: a quart is 57.75 cu in.
  await expect(page.getByText(/weigh 60\.4\slb\. At 125\slb\/cu ft that fills 0\.48\scu ft, not 0\.45\scu ft/)).toBeVisible();
  expect(await faults(page)).toEqual([]);
  await page.getByRole('radio', { name: '0.48' }).click({ force: true });
  await expect(page.getByText('Estimates use 0.48 cu ft per bag')).toBeVisible();

  await page.getByRole('radio', { name: 'weighed yield' }).click({ force: true });
  const dialog = page.getByRole('dialog', { name: 'Weigh a mixed bag' });
  await dialog.getByLabel('Mix water').fill('6 qt');
  await dialog.getByLabel('Mix water').press('Enter');
  await expect(dialog.getByRole('alert')).toContainText('is too much water for Self-leveling underlayment, fine');
  await dialog.getByLabel('Mix water').fill('5 qt');
  await dialog.getByLabel('Bucket volume to the line').fill('1 gal');
  await dialog.getByLabel('Bucket, empty').fill('2 lb');
  await dialog.getByLabel('Bucket, full').fill('19.1 lb');
  await dialog.getByLabel('Bucket, full').press('Enter');
  // 17.1 lb in 231 cu in is 127.9 lb/cu ft; 60.43 lb over that is 0.472 cu ft.
  await expect(dialog.getByRole('status')).toContainText(/127\.9\slb\/cu ft: a bag makes 0\.47\scu ft/);
  await dialog.getByRole('button', { name: 'Use this yield' }).click();
  await expect(page.getByRole('heading', { name: 'Settled by weighing' })).toBeVisible();
  await expect(page.getByText('Estimates use 0.47 cu ft per bag')).toBeVisible();
  await expect(page.getByLabel('Measured yield', { exact: true })).toHaveValue('0.47 cu ft');
  await toSheet(page, '/materials/typical-sealer');
  await expect(page.getByRole('heading', { name: 'Name, notes, and cautions' })).toBeVisible();
  expect(await faults(page), 'a sealer').toEqual([]);
});

test('a price is added from a date, and one with too many decimals is refused', async ({ book: _book, page }) => {
  const nextYear = new Date().getFullYear() + 1;
  await toUnderlayment(page);
  await page.getByText('Add price', { exact: true }).first().click();
  await type(page, 'New price', '35.75');
  await type(page, 'New price', '36.255');
  await expect(page.getByText(/USD has 2 decimals/)).toBeVisible();
  await page.getByRole('button', { name: 'Add price' }).click();
  await expect(page.getByText('Correct the marked field first.')).toBeVisible();
  await expect(page.getByText('$35.75')).toHaveCount(0);
  await type(page, 'New price', '36.25');
  await page.getByLabel('Effective date', { exact: true }).fill(`1/15/${nextYear}`);
  await page.getByLabel('Effective date', { exact: true }).press('Enter');
  await page.getByRole('button', { name: 'Add price' }).click();
  const prices = page.getByRole('listitem').filter({ hasText: /From .*20\d\d/ });
  await expect(prices.filter({ hasText: '$36.25' })).toContainText(`January 15, ${nextYear}`);
  await expect(prices.filter({ hasText: '$34.00' })).toContainText('Current');
  await page.getByRole('link', { name: 'Go to Stock' }).click();
  await page.getByRole('button', { name: 'Record stock' }).click();
  const dialog = page.getByRole('dialog', { name: 'Record stock' });
  await dialog.getByLabel('Material').selectOption({ label: 'Self-leveling underlayment, fine' });
  await dialog.getByLabel('On hand now').fill('2.5');
  await dialog.getByRole('button', { name: 'Save' }).click();
  await expect(dialog).toBeHidden();
  await page.getByRole('link', { name: 'Go to data sheets' }).click();
  await expect(page.getByRole('radio', { name: /^Self-leveling underlayment, fine/ })).toHaveCount(1);
  await expect(page.getByText('2.5 bags on hand')).toBeVisible();
});

test('a new data sheet starts from a typical one, is archived and unarchived', async ({ book: _book, page }) => {
  await toUnderlayment(page);
  await page.getByRole('button', { name: 'Add data sheet' }).click();
  const dialog = page.getByRole('dialog', { name: 'New data sheet' });
  await dialog.getByRole('button', { name: 'Add data sheet' }).click();
  await expect(dialog.getByRole('alert')).toContainText('Enter a name, such as');
  await dialog.getByLabel('Name').fill('Cement underlayment, quick');
  await dialog.getByRole('button', { name: 'Add data sheet' }).click();
  await expect(page.getByRole('heading', { level: 1, name: 'Cement underlayment, quick' })).toBeVisible();
  await page.getByRole('button', { name: 'Archive Cement underlayment, quick' }).click();
  await expect(page.getByRole('radio', { name: /quick/ })).toHaveCount(0);
  await page.getByRole('link', { name: 'Go to Stock' }).click();
  await page.getByRole('button', { name: 'Record stock' }).click();
  const stock = page.getByRole('dialog', { name: 'Record stock' });
  await expect(stock.getByLabel('Material').locator('option', { hasText: 'quick' })).toHaveCount(0);
  await expect(stock.getByLabel('Material').locator('option:checked')).toHaveText(/^\S/);
  await stock.getByRole('button', { name: 'Cancel' }).click();
  await page.getByRole('link', { name: 'Go to data sheets' }).click();
  await page.getByRole('button', { name: '1 archived' }).click();
  await page.getByRole('button', { name: 'Unarchive Cement underlayment, quick' }).click();
  await expect(page.getByRole('radio', { name: /quick/ })).toHaveCount(1);
});

test('a data sheet that an open job uses is not archived without a warning', async ({ sample: _book, page }) => {
  await toSheet(page, '/materials/sample-underlayment-fine');
  await page.getByRole('button', { name: 'Archive Self-leveling underlayment, fine' }).click();
  const dialog = page.getByRole('alertdialog', { name: /is still in use/ });
  await expect(dialog.getByRole('link').first()).toBeVisible();
  await dialog.getByRole('button', { name: 'Cancel' }).click();
  await expect(page.getByRole('heading', { level: 1, name: 'Self-leveling underlayment, fine' })).toBeVisible();
  await expect(page.getByText('This data sheet is archived.')).toHaveCount(0);
});
