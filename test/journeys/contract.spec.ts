/** From an issued quote to a signed contract and a signed change order: drawn on the screen, and on paper with a photo. */
import { execFileSync } from 'node:child_process';
import { readdirSync } from 'node:fs';
import { join } from 'node:path';
import type { Page } from '@playwright/test';
import { expect, test } from './open-book.ts';
import { toSheet } from './open-sample.ts';

const JOB = 'sample-job-odell';
const ROOM = 'sample-hall';

const pdfText = (folder: string, name: RegExp): string => {
  const file = readdirSync(folder).find((entry) => name.test(entry));
  if (file === undefined) throw new Error(`no such PDF among ${readdirSync(folder).join(', ')}`);
  return execFileSync('pdftotext', ['-layout', join(folder, file), '-'], { encoding: 'utf8' });
};

const cents = (text: string): number => Math.round(Number(text.replaceAll(/[$,]/g, '')) * 100);

/** A stroke across the signature box. */
const draw = async (page: Page): Promise<void> => {
  const box = await page.locator('.sign-pad').boundingBox();
  if (box === null) throw new Error('no signature box');
  await page.mouse.move(box.x + 40, box.y + 90);
  await page.mouse.down();
  await page.mouse.move(box.x + 120, box.y + 30, { steps: 6 });
  await page.mouse.move(box.x + 220, box.y + 110, { steps: 6 });
  await page.mouse.up();
};

test('a quote is signed on the screen; a change order with a photo puts its room on hold until it is signed on paper', async ({
  sample: book,
  page,
}) => {
  await toSheet(page, `/jobs/${JOB}/quote/${ROOM}`);
  await page.getByRole('button', { name: 'Issue quote' }).click();
  await expect(page.getByText(/^Quote \d\d-031 revision 1, .+\.pdf was saved to /)).toBeVisible();
  const total = await page.getByTestId('issued-total').innerText();

  await page.getByRole('button', { name: 'Sign', exact: true }).click();
  const dialog = page.getByRole('alertdialog');
  await dialog.getByRole('button', { name: 'Save signature' }).click();
  await expect(dialog.getByText('Sign in the box first.')).toBeVisible();
  await draw(page);
  // For two people the printed name is not filled in.
  await dialog.getByLabel('Printed name').fill('Vivian Odell');
  await dialog.getByRole('button', { name: 'Save signature' }).click();
  await expect(dialog).toBeHidden();
  await expect(page.getByText(/signed\.pdf was saved to /)).toBeVisible();
  await expect(page.getByTestId('contract-total')).toHaveText(total);
  const signed = pdfText(book.papers, /signed\.pdf$/);
  expect(signed).toMatch(/SHA-256 of the PDF that was signed:\s+[0-9a-f]{64}/);

  await expect(page.getByText(/^Signed .+, Vivian Odell$/)).toBeVisible();
  await expect(page.getByRole('button', { name: 'Save signed copy', exact: true })).toBeVisible();

  // The change order: priced by hand, with a photo, on the room that is shown.
  await page.getByRole('button', { name: 'Write change order' }).click();
  await dialog.getByLabel('Reason', { exact: true }).fill('Rot under the threshold.');
  await dialog.getByLabel('Price before tax').fill('250');
  await dialog.getByLabel('Price before tax').press('Enter');
  await dialog.getByLabel('Added days').fill('1');
  await dialog.getByLabel('Added days').press('Enter');
  const photo = await page.screenshot({ type: 'jpeg' });
  const file = { name: 'rot.jpg', mimeType: 'image/jpeg', buffer: photo };
  await dialog.locator('input[type=file]').setInputFiles(file);
  await expect(dialog.getByText('1 added')).toBeVisible();
  await dialog.getByRole('button', { name: 'Issue change order' }).click();
  await expect(page.getByText(/^Change order 1 to quote \d\d-031, .+\.pdf was saved to /)).toBeVisible();
  await expect(page.getByTestId('contract-total')).toHaveText(total);
  const text = pdfText(book.papers, /^Change order 1 to quote \d\d-031/);
  expect(text).toContain('Rot under the threshold.');
  expect(text).toContain('page 1 of 1');
  await toSheet(page, `/jobs/${JOB}/pour/${ROOM}`);
  await expect(page.getByText('Change order 1 is not signed.').first()).toBeVisible();
  await toSheet(page, '/');
  await expect(page.getByText('change order 1 is not signed').first()).toBeVisible();

  await toSheet(page, `/jobs/${JOB}/quote/${ROOM}`);
  await page.getByRole('button', { name: 'Sign change order 1' }).click();
  await dialog.getByText('On paper', { exact: true }).click();
  await expect(dialog.getByText('Photo of the signed page (required)')).toBeVisible();
  await dialog.getByLabel('Printed name').fill('Tom Odell');
  await dialog.getByRole('button', { name: 'Save signature' }).click();
  await expect(dialog.getByText('Add a photo of the signed page.')).toBeVisible();
  await dialog.locator('input[type=file]').setInputFiles(file);
  await expect(dialog.getByText('The photo is added.')).toBeVisible();
  await dialog.getByRole('button', { name: 'Save signature' }).click();
  await expect(dialog).toBeHidden();
  await expect(page.getByTestId('contract-total')).not.toHaveText(total);
  const change = cents(/New contract total\s+(\$[\d,.]+)/.exec(text)?.[1] ?? '');
  expect(cents(await page.getByTestId('contract-total').innerText())).toBe(change);
  await expect(page.getByRole('button', { name: 'Save signed copy of change order 1' })).toBeVisible();
  await toSheet(page, `/jobs/${JOB}/money`);
  await expect(page.getByText('Contract total').locator('xpath=following-sibling::dd')).toHaveText(
    await page.evaluate((minor) => (minor / 100).toLocaleString('en-US', { style: 'currency', currency: 'USD' }), change),
  );
  await toSheet(page, `/jobs/${JOB}/pour/${ROOM}`);
  await expect(page.getByText('Change order 1 is not signed.')).toBeHidden();
});
