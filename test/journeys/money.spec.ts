/** A job's money from the overdue deposit to paid, with a part payment, a refund, and a voided entry; the year's folder adds up. */
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Page } from '@playwright/test';
import Papa from 'papaparse';
import { expect, test } from './open-book.ts';
import { openSample } from './open-sample.ts';

const total = (page: Page, label: string) =>
  page.locator('.money-totals div', { has: page.getByText(label, { exact: true }) }).locator('dd');
const amountOf = (page: Page, label: string): Promise<string> => total(page, label).innerText();
const dollars = (cents: number): string => (cents / 100).toLocaleString('en-US', { style: 'currency', currency: 'USD' });
const minor = (text: string): number => Math.round(Number(text.replace(/[^0-9.-]/g, '')) * 100);

const record = async (page: Page, type: string, amount: string): Promise<void> => {
  await page.getByRole('main').getByRole('button', { name: 'Record payment' }).click();
  const dialog = page.getByRole('dialog');
  await dialog.getByText(type, { exact: true }).click();
  await dialog.getByLabel('Amount', { exact: true }).fill(amount);
  await dialog.getByRole('button', { name: 'Save' }).click();
  await expect(dialog).toBeHidden();
};

test('an overdue deposit is paid in parts, the balance invoiced, and the job is paid in full', async ({ program, page }) => {
  await openSample(page, program, '2026-05-12T15:00:00Z');
  await page.getByRole('link', { name: 'Money', exact: true }).click();
  await page.getByRole('link', { name: 'Maja and Per Lindqvist', exact: true }).click();
  await expect(page.getByRole('contentinfo')).toContainText('is overdue by 6 days.');
  const contract = minor(await amountOf(page, 'Contract total'));
  const deposit = minor(await amountOf(page, 'Invoiced'));
  await expect(total(page, 'Received')).toHaveText('$500.00');

  await page.getByRole('button', { name: 'INV-2026-002', exact: true }).click();
  await page.getByRole('button', { name: 'Save overdue notice' }).click();
  await expect(page.getByText(/Overdue notice .*\.pdf/)).toBeVisible();

  await record(page, 'Payment', '200');
  await record(page, 'Payment', String((deposit - 70_000) / 100));
  await expect(total(page, 'Open')).toHaveText('$0.00');

  await page.getByRole('button', { name: /^Issue invoice: / }).click();
  await page.getByRole('dialog').getByRole('button', { name: 'Issue invoice' }).click();
  await expect(page.getByRole('button', { name: 'INV-2026-003', exact: true })).toBeVisible();
  await expect(total(page, 'Invoiced')).toHaveText(dollars(contract));

  // Paid twice by mistake: one entry is voided, the other stays.
  const balance = String((contract - deposit) / 100);
  await record(page, 'Payment', balance);
  await record(page, 'Payment', balance);
  await expect(total(page, 'Credit balance')).toHaveText(dollars(contract - deposit));
  await page.getByRole('button', { name: 'Payment, check' }).first().click();
  await page.getByRole('dialog').getByRole('button', { name: 'Void…' }).click();
  await page.getByRole('alertdialog').getByLabel('Reason').fill('Entered twice');
  await page.getByRole('alertdialog').getByRole('button', { name: 'Void', exact: true }).click();
  await expect(page.getByText('Void: Entered twice')).toBeVisible();
  await expect(page.getByRole('contentinfo')).toContainText('Paid in full.');

  await record(page, 'Refund', '100');
  await expect(page.getByRole('contentinfo')).toContainText('$100.00');

  await page.getByRole('link', { name: 'Money', exact: true }).click();
  await page.getByRole('button', { name: 'Export folder' }).click();
  await expect(page.getByText(/^Saved to Bookkeeper/)).toBeVisible();
  const folder = readdirSync(program.papers).find((name) => name.startsWith('Bookkeeper')) ?? '';
  const table = (name: string) =>
    Papa.parse<Record<string, string>>(readFileSync(join(program.papers, folder, name), 'utf8'), { header: true, skipEmptyLines: true })
      .data;
  const received = table('income.csv').reduce((sum, row) => sum + minor(row['Amount'] ?? ''), 0);
  const abara = minor(table('income.csv').find((row) => row['Customer']?.startsWith('Adaeze'))?.['Amount'] ?? '');
  // By hand: the deposit of the other job, this contract, less the refund.
  expect(received).toBe(abara + contract - 10_000);
  const spent = table('expenses.csv').reduce((sum, row) => sum + minor(row['Total'] ?? ''), 0);
  expect(table('expenses by category.csv').reduce((sum, row) => sum + minor(row['Total'] ?? ''), 0)).toBe(spent);
});
