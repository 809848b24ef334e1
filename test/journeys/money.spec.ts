/**
 * A job's money from the accepted contract to the end: deposit, change order, two part payments, an overdue notice, a refund; also
 * materials bought by lot, hours from the logs, and the year's folder.
 */
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Page } from '@playwright/test';
import Papa from 'papaparse';
import { expect, type RunningProgram, test } from './open-book.ts';
import { toSheet, openSample } from './open-sample.ts';

const total = (page: Page, label: string) =>
  page.locator('.money-totals div', { has: page.getByText(label, { exact: true }) }).locator('dd');
const amountOf = (page: Page, label: string): Promise<string> => total(page, label).innerText();
const dollars = (cents: number): string => (cents / 100).toLocaleString('en-US', { style: 'currency', currency: 'USD' });
const minor = (text: string): number => Math.round(Number(text.replace(/[^0-9.-]/g, '')) * 100);
const decimal = (cents: number): string => String(cents / 100);

const record = async (page: Page, type: string, amount: string, reason?: string): Promise<void> => {
  await page.locator('.money-part').getByRole('button', { name: 'Record payment' }).click();
  const dialog = page.getByRole('dialog');
  // The amount due is proposed for a payment alone.
  await dialog.getByText('Refund', { exact: true }).click();
  await expect(dialog.getByLabel('Amount', { exact: true })).toHaveValue('');
  await dialog.getByText(type, { exact: true }).click();
  await expect(page.getByRole('dialog', { name: `Record ${type.toLowerCase()}`, exact: true })).toBeVisible();
  await dialog.getByLabel('Amount', { exact: true }).fill(amount);
  if (reason !== undefined) await dialog.getByLabel('Reason').fill(reason);
  await dialog.getByRole('button', { name: 'Save' }).click();
  await expect(dialog).toBeHidden();
};
const toMoney = async (page: Page): Promise<void> => {
  await page.getByRole('navigation', { name: 'Pages' }).getByRole('link', { name: 'Money' }).click();
  await page.getByRole('link', { name: 'Adaeze Abara and Jonas Finch', exact: true }).click();
  await expect(page.getByRole('heading', { level: 1, name: 'Money' })).toBeVisible();
};
const changeOrder = async (page: Page): Promise<void> => {
  await page.getByRole('link', { name: 'Go to Quote' }).click();
  await page.getByRole('button', { name: 'Write change order' }).first().click();
  const order = page.getByRole('alertdialog', { name: 'Change order' });
  await order.getByRole('textbox', { name: 'Reason', exact: true }).fill('The customer wants the closet floor leveled too.');
  await order.getByLabel('Price before tax').fill('300');
  await order.getByRole('button', { name: 'Issue change order' }).click();
  await expect(order).toBeHidden();
  await page.getByRole('button', { name: 'Sign change order 2' }).click();
  const sign = page.getByRole('alertdialog', { name: 'Sign' });
  const pad = await sign.locator('canvas').boundingBox();
  if (pad === null) throw new Error('no signature box');
  await page.mouse.move(pad.x + 40, pad.y + 80);
  await page.mouse.down();
  await page.mouse.move(pad.x + 180, pad.y + 40, { steps: 6 });
  await page.mouse.up();
  await sign.getByLabel('Printed name').fill('Adaeze Abara');
  await sign.getByRole('button', { name: 'Save signature' }).click();
  await expect(sign).toBeHidden();
};
const handOver = async (page: Page): Promise<void> => {
  await page.goBack();
  await toSheet(page, '/jobs/sample-job-abara/handover/sample-dining');
  await page.getByRole('contentinfo').getByRole('button', { name: 'Save handover sheet' }).click();
  await page.getByRole('contentinfo').getByRole('button', { name: 'Record handover' }).click();
  await page.getByRole('dialog', { name: 'Record handover' }).getByRole('button', { name: 'Save' }).click();
  await expect(page.getByRole('dialog')).toBeHidden();
};
const papersOf = (program: RunningProgram): string[] => readdirSync(program.papers, { recursive: true }).map(String);

test('a job goes from the accepted contract to paid and finished', async ({ program, page }) => {
  test.slow();
  await openSample(page, program, '2026-05-12T15:00:00Z');
  await toMoney(page);
  const before = minor(await amountOf(page, 'Contract total'));

  // The deposit's check bounces: the payment is voided and stays on record, and the deposit is overdue until it is paid again.
  await page.getByRole('button', { name: /^Payment, check, 2214/ }).click();
  await page.getByRole('dialog').getByRole('button', { name: 'Void…' }).click();
  await page.getByRole('alertdialog').getByLabel('Reason').fill('Returned by the bank');
  await page.getByRole('alertdialog').getByRole('button', { name: 'Void', exact: true }).click();
  await expect(page.getByText('Void: Returned by the bank')).toBeVisible();
  const deposit = minor(await amountOf(page, 'Open'));
  await record(page, 'Payment', decimal(deposit));
  await expect(total(page, 'Open')).toHaveText('$0.00');

  await changeOrder(page);
  await toMoney(page);
  // 300.00 of labor, which the sample's company does not tax.
  const contract = before + 30_000;
  await expect(total(page, 'Contract total')).toHaveText(dollars(contract));

  // The pour log has the crew's hours, which are added to the ledger unchanged.
  await page.getByRole('button', { name: /^Record (all|hours)/ }).click();
  await expect(page.getByRole('heading', { name: 'Hours in the logs' })).toBeHidden();

  await page.getByRole('button', { name: /^Issue invoice: / }).click();
  await page.getByRole('dialog').getByRole('button', { name: 'Issue invoice' }).click();
  await expect(page.getByRole('button', { name: 'INV-2026-009', exact: true })).toBeVisible();
  await expect(page.getByText(/^Invoice INV-2026-009.*\.pdf was saved to /)).toBeVisible();
  await expect(total(page, 'Invoiced')).toHaveText(dollars(contract));
  const balance = contract - deposit;
  await record(page, 'Payment', '1000');
  await record(page, 'Payment', '500');
  await expect(total(page, 'Open')).toHaveText(dollars(balance - 150_000));

  // A write-off of more than is open is refused.
  await page.locator('.money-part').getByRole('button', { name: 'Record payment' }).click();
  const off = page.getByRole('dialog');
  await off.getByText('Write-off', { exact: true }).click();
  await off.getByLabel('Amount', { exact: true }).fill(decimal(balance - 150_000 + 1));
  await off.getByLabel('Reason').fill('Scratch at the doorway');
  await off.getByRole('button', { name: 'Save' }).click();
  await expect(off).toContainText(`Only ${dollars(balance - 150_000)} is open to write off. Enter that amount or less.`);
  // Sales tax alone is offered for a credit.
  await off.getByText('Credit', { exact: true }).click();
  await off.getByText('Sales tax only').click();
  expect(minor(await off.getByLabel('Amount', { exact: true }).inputValue())).toBeGreaterThan(0);
  await off.getByRole('button', { name: 'Cancel' }).click();

  await page.clock.setSystemTime(new Date('2026-06-20T15:00:00Z'));
  await page.reload();
  await expect(page.getByRole('contentinfo')).toContainText(/is overdue by \d+ days\./);
  await page.getByRole('button', { name: 'Send reminder' }).click();
  await expect(page.getByRole('link', { name: 'Email reminder' })).toHaveAttribute('href', /^mailto:.*INV-2026-009%20is%20overdue/);
  await page.getByRole('dialog').getByRole('button', { name: 'Save overdue notice' }).click();
  await expect(page.getByText(/Overdue notice .*\.pdf/)).toBeVisible();

  await record(page, 'Payment', decimal(balance - 150_000 + 10_000));
  await expect(total(page, 'Credit balance')).toHaveText('$100.00');
  // A credit balance of one customer reduces nothing that another owes: the column adds up to its total.
  await page.getByRole('navigation', { name: 'Pages' }).getByRole('link', { name: 'Money' }).click();
  const accounts = page.getByRole('table', { name: 'Open accounts' });
  await expect(accounts).toContainText('Credit balance');
  const open = (await accounts.getByRole('row').allInnerTexts()).slice(1).map((row) => minor(row.split(/\s/).at(-1) ?? ''));
  expect(open.slice(0, -1).reduce((sum, one) => sum + one, 0)).toBe(open.at(-1));
  await toMoney(page);
  await record(page, 'Refund', '100');
  await expect(page.getByRole('contentinfo')).toContainText('Paid in full.');

  await handOver(page);
  await toMoneyOf(page);
  await page.getByRole('contentinfo').getByRole('button', { name: 'Finish job' }).click();
  await expect(page.getByRole('contentinfo')).toContainText('Paid in full. The job is finished.');
  await expect(page.getByRole('contentinfo').getByRole('link', { name: 'Go to Jobs' })).toBeVisible();
  await expect(page.getByRole('table', { name: 'Estimate and actual' })).toContainText('Earned per owner hour');

  await page.getByRole('navigation', { name: 'Pages' }).getByRole('link', { name: 'Money' }).click();
  await expect(page.getByRole('img', { name: /^Over concrete: / })).toBeVisible();

  await page.getByRole('button', { name: 'Export folder' }).click();
  await expect(page.getByText(/^Saved to Bookkeeper/)).toBeVisible();
  const folder = readdirSync(program.papers).find((name) => name.startsWith('Bookkeeper')) ?? '';
  const rows = (name: string) =>
    Papa.parse<Record<string, string>>(readFileSync(join(program.papers, folder, name), 'utf8'), { header: true, skipEmptyLines: true })
      .data;
  const received = rows('income.csv').filter((row) => row['Job'] === '26-024');
  // By hand: the customer paid the contract, because the refund returned the overpayment.
  expect(received.reduce((sum, row) => sum + minor(row['Amount'] ?? ''), 0)).toBe(contract);
  expect(papersOf(program).filter((name) => /Invoice INV 2026|Invoice INV-2026/.test(name)).length).toBeGreaterThanOrEqual(9);

  // Once the work is accepted, nothing is held back of an invoice issued again.
  await toMoneyOf(page);
  await page.getByRole('button', { name: 'INV-2026-009', exact: true }).click();
  await page.getByRole('dialog').getByRole('button', { name: 'Void…' }).click();
  await page.getByRole('alertdialog').getByLabel('Reason').fill('Wrong description');
  await page.getByRole('alertdialog').getByRole('button', { name: 'Void', exact: true }).click();
  await page
    .getByRole('contentinfo')
    .getByRole('button', { name: /^Issue invoice for / })
    .click();
  await expect(page.getByRole('dialog').getByLabel('Due date', { exact: true })).toBeVisible();
  await expect(page.getByRole('dialog').getByLabel('Retainage')).toBeHidden();
});

async function toMoneyOf(page: Page): Promise<void> {
  await toSheet(page, '/jobs/sample-job-abara/money');
  await expect(page.getByRole('heading', { level: 1, name: 'Money' })).toBeVisible();
}

test('bags are bought by lot for a day’s pours and are on hand afterward', async ({ program, page }) => {
  await openSample(page, program, '2026-05-12T12:00:00Z');
  // Three finished jobs took longer to remove the old floor; their figure is used once it is accepted.
  await page.getByRole('navigation', { name: 'Pages' }).getByRole('link', { name: 'Money' }).click();
  await page.getByRole('button', { name: /^Use 1\.\d+ for Remove old flooring/ }).click();
  await expect(page.getByRole('button', { name: 'Use typical hours' })).toBeVisible();

  await page.getByRole('link', { name: 'Materials', exact: true }).click();
  await page.getByRole('link', { name: 'Go to Stock' }).click();
  const list = page.getByRole('complementary');
  await expect(list.getByRole('combobox', { name: 'Pour date' })).toContainText('May 12, 2026');
  const line = list.getByRole('checkbox', { name: /Self-leveling underlayment, fine/ });
  const needed = Number(
    /^(\d+) ×/.exec(
      (await line.getAttribute('aria-label')) ?? (await list.getByText(/\d+ × bag, Self-leveling underlayment, fine/).innerText()),
    )?.[1],
  );
  await list.getByText(/\d+ × bag, Self-leveling underlayment, fine/).click();
  await list
    .getByRole('button', { name: /^Record purchase from/ })
    .first()
    .click();
  const dialog = page.getByRole('dialog', { name: 'Record purchase' });
  await expect(dialog.getByLabel('Quantity')).toHaveValue(String(needed));
  // The floors of that day are those of one job, so its cost is that job's.
  await expect(dialog.getByLabel('Job').locator('option:checked')).toContainText('26-0');
  await dialog.getByLabel('Supplier').fill('North yard');
  await dialog.getByLabel('Lot', { exact: true }).fill('N7730');
  await dialog.getByLabel('Expires', { exact: true }).fill('11/30/2026');
  const receipt = { name: 'receipt.jpg', mimeType: 'image/jpeg', buffer: await page.screenshot({ type: 'jpeg' }) };
  await dialog.locator('input[type=file]').setInputFiles(receipt);
  await expect(dialog.getByRole('img')).toBeVisible();
  await dialog.getByRole('button', { name: 'Save' }).click();
  await expect(dialog).toBeHidden();
  await expect(page.getByRole('table', { name: 'Materials on hand' })).toContainText(`Lot N7730: ${needed}, expires November 30, 2026`);
  await expect(list.getByText(/\d+ × bag, Self-leveling underlayment, fine/)).toHaveCount(0);

  // The bookkeeper gets the receipt beside its line.
  await page.getByRole('navigation', { name: 'Pages' }).getByRole('link', { name: 'Money' }).click();
  await page.getByRole('button', { name: 'Export folder' }).click();
  await expect(page.getByText(/^Saved to Bookkeeper/)).toBeVisible();
  const folder = readdirSync(program.papers).find((name) => name.startsWith('Bookkeeper')) ?? '';
  const photo = readdirSync(join(program.papers, folder)).find((name) => name.startsWith('Receipt 2026-05-12 1.')) ?? '';
  // JPEG: every file begins with FF D8 (ISO/IEC 10918-1).
  expect(
    readFileSync(join(program.papers, folder, photo))
      .subarray(0, 2)
      .toString('hex'),
  ).toBe('ffd8');
  expect(readFileSync(join(program.papers, folder, 'expenses.csv'), 'utf8')).toContain('Receipt 2026-05-12 1');
});
