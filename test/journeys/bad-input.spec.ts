/**
 * Impossible values: each field says what is wrong and what would be right, keeps the entered text, and the record keeps its last valid
 * value. A dialog does not save before they are corrected.
 */
import { existsSync, readdirSync, rmSync, writeFileSync } from 'node:fs';
import type { Locator, Page } from '@playwright/test';
import { expect, test } from './open-book.ts';
import { toSheet } from './open-sample.ts';
import { removeFolder } from '../../build/remove-folder.mjs';

const field = (page: Page, label: string): Locator => page.getByLabel(label, { exact: true });

/** The error below a refused field, which still shows the entered text. */
async function refused(page: Page, label: string, typed: string, message: RegExp): Promise<void> {
  const one = field(page, label);
  await one.fill(typed);
  await one.press('Enter');
  await expect(one).toHaveValue(typed);
  await expect(one).toHaveAttribute('aria-invalid', 'true');
  await expect(page.getByText(message).first()).toBeVisible();
}

async function addRoom(page: Page): Promise<void> {
  await page.keyboard.press('n');
  await page.getByLabel(/^Name, phone/).fill('Ottilie Brandt');
  await page.keyboard.press('Enter');
  await page.keyboard.press('Enter');
  await page.getByLabel('Street address of a new property').fill('12 Mill Lane');
  await page.keyboard.press('Enter');
  await field(page, 'New room').fill('Hall');
  await page.keyboard.press('Enter');
  await expect(page.getByRole('link', { name: 'Hall', exact: true })).toBeVisible();
}

test('a refused entry stays in its field, with a sentence that says what would be valid', async ({ book, page }) => {
  await addRoom(page);
  await refused(page, 'New room', 'H'.repeat(201), /200 characters/);
  await field(page, 'New room').fill('');
  await refused(page, 'Year built', '2095', /Did you mean 1995/);
  await field(page, 'Year built').fill('1961');
  await page.keyboard.press('Enter');
  await expect(page.getByText('Built 1961').first()).toBeVisible();
  await refused(page, 'Addition built', '1950', /before 1961, when the building was built/);

  await page.getByRole('link', { name: 'Hall', exact: true }).click();
  await refused(page, 'Side 1', `6' 14"`, /inches go up to 11. Did you mean 7' 2"/);
  await refused(page, 'Side 2', '-4', /-4/);

  await page.goto(`${new URL(book.address).origin}/#/business`);
  for (const part of ['Taxes', 'Price', 'Quotes']) await page.getByRole('button', { name: `Edit ${part}` }).click();
  await refused(page, 'Your name', 'R'.repeat(230), /200 characters or fewer/);
  await refused(page, 'Phone', 'call me', /Enter a phone number/);
  await refused(page, 'Rate', '2000', /A tax rate over 60% looks like a typo/);
  await refused(page, 'Minimum charge', '12.345', /2 decimals/);
  await refused(page, 'Deposit', '140 %', /enter 100% or less/);

  // None of it was stored.
  await page.reload();
  await expect(field(page, 'Phone')).toHaveValue('');
  await expect(field(page, 'Your name')).toHaveValue('');
  await page.getByRole('button', { name: 'Edit Quotes' }).click();
  await expect(field(page, 'Deposit')).not.toHaveValue(/140/);
});

test('a dialog saves nothing while a field shows a refused entry', async ({ sample: book, page }) => {
  await page.goto(`${new URL(book.address).origin}/#/jobs/sample-job-abara/money`);
  const entries = page.getByRole('table', { name: 'Payments and costs, newest first' }).getByRole('row');
  await expect(entries.first()).toBeVisible();
  const before = await entries.count();
  await page.locator('.money-part').getByRole('button', { name: 'Record payment' }).click();
  const payment = page.getByRole('dialog', { name: 'Record payment' });
  const [amount, date] = [payment.getByLabel('Amount', { exact: true }), payment.getByLabel('Date', { exact: true })];
  await amount.fill('61.53');
  await amount.press('Enter');
  await amount.fill('5OO');
  await date.fill('7/27/206');
  await payment.getByRole('button', { name: 'Save' }).press('Enter');
  await expect(payment.getByText('Correct the marked fields first.')).toBeVisible();
  await expect(amount).toBeFocused();
  await date.fill('today');
  await expect(payment.getByText('Correct the marked fields first.')).toBeHidden();
  await payment.getByRole('button', { name: 'Save' }).press('Enter');
  await expect(payment.getByText('Correct the marked field first.')).toBeVisible();
  await expect(amount).toHaveValue('5OO');
  await amount.fill('500');
  await payment.getByRole('button', { name: 'Save' }).click();
  await expect(payment).toBeHidden();
  await expect(entries).toHaveCount(before + 1);
  await expect(entries.filter({ hasText: '$500.00' })).not.toHaveCount(0);
  await expect(entries.filter({ hasText: '$61.53' })).toHaveCount(0);

  await page.keyboard.press('n');
  await page.getByLabel(/^Name, phone/).fill('Ottilie Brandt 555-0142, kitchen 12x14');
  const lead = page.getByRole('alertdialog', { name: 'New lead' });
  await lead.getByLabel('Date', { exact: true }).fill('13/45');
  await lead.getByRole('button', { name: 'Save and price' }).press('Enter');
  await expect(lead.getByText('Correct the marked field first.')).toBeVisible();
  await lead.getByRole('button', { name: 'Cancel' }).click();
  await expect(lead).toBeHidden();
});

test('a documents folder that cannot be written gives a message, and the next try works once it can', async ({ sample: book, page }) => {
  removeFolder(book.papers);
  writeFileSync(book.papers, 'a file where the folder should be');
  // Backups go to a folder in it: one notice says that the last one failed, and why.
  await toSheet(page, '/backup');
  await page.getByRole('button', { name: 'Back up now' }).click();
  await expect(page.getByText(/^The last backup failed\./)).toBeVisible();
  await expect(page.getByText(/a file is where its folder should be/)).toHaveCount(1);
  await toSheet(page, '/');
  await page.getByRole('button', { name: 'Save calendar file' }).click();
  await expect(page.getByText(/a file is where its folder should be/)).toBeVisible();
  rmSync(book.papers);
  await page.getByRole('button', { name: 'Save calendar files again' }).click();
  await expect.poll(() => existsSync(book.papers) && readdirSync(book.papers).some((name) => name.endsWith('.ics'))).toBe(true);
});
