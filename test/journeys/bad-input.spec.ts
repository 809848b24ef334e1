/** What cannot be: each field says what is wrong and what would be right, keeps what was typed, and the book keeps its last good value. */
import { existsSync, readdirSync, rmSync, writeFileSync } from 'node:fs';
import type { Locator, Page } from '@playwright/test';
import { expect, test } from './open-book.ts';

const field = (page: Page, label: string): Locator => page.getByLabel(label, { exact: true });

/** The words under a field that was refused; it still holds what was typed. */
async function refused(page: Page, label: string, typed: string, said: RegExp): Promise<void> {
  const one = field(page, label);
  await one.fill(typed);
  await one.press('Enter');
  await expect(one).toHaveValue(typed);
  await expect(one).toHaveAttribute('aria-invalid', 'true');
  await expect(page.getByText(said).first()).toBeVisible();
}

async function addRoom(page: Page): Promise<void> {
  await page.getByLabel('The customer’s name').fill('Ottilie Brandt');
  await page.keyboard.press('Enter');
  await page.getByLabel('A house: street and number').fill('12 Mill Lane');
  await page.keyboard.press('Enter');
  await field(page, 'Another room').fill('Hall');
  await page.keyboard.press('Enter');
  await expect(page.getByRole('link', { name: 'Hall', exact: true })).toBeVisible();
}

test('what a field cannot take stays as typed, with a sentence that says what would be right', async ({ book, page }) => {
  await addRoom(page);
  await refused(page, 'Another room', 'H'.repeat(201), /200 characters/);
  await field(page, 'Another room').fill('');
  await refused(page, 'Built in', '2095', /did you mean 1995/);
  await field(page, 'Built in').fill('1961');
  await page.keyboard.press('Enter');
  await expect(page.getByText('Built 1961').first()).toBeVisible();
  await refused(page, 'Extended in', '1950', /before the house was built, 1961/);

  await page.getByRole('link', { name: 'Hall', exact: true }).click();
  await refused(page, 'Side 1', `6' 14"`, /inches go to 11; did you mean 7' 2"/);
  await refused(page, 'Side 2', '-4', /-4/);

  await page.goto(`${new URL(book.address).origin}/#/business`);
  await refused(page, 'Your own name', 'R'.repeat(230), /longer than 200 characters/);
  await refused(page, 'Phone', 'call me', /not a telephone number/);
  await refused(page, 'Rate', '2000', /above 60 % is a slip/);
  await refused(page, 'Least charge for a job', '12.345', /2 digits after the point/);
  await refused(page, 'Deposit', '140 %', /at most 100 %/);

  // None of it reached the book.
  await page.reload();
  await expect(field(page, 'Phone')).toHaveValue('');
  await expect(field(page, 'Your own name')).toHaveValue('');
  await expect(field(page, 'Deposit')).not.toHaveValue(/140/);
});

test('a papers folder that cannot be written is said in words, and the next press works once it can', async ({ book, page }) => {
  await page.getByRole('button', { name: 'Look around in the sample book' }).click();
  rmSync(book.papers, { recursive: true, force: true });
  writeFileSync(book.papers, 'a file where the folder should be');
  await page.getByRole('button', { name: 'Save every date as a calendar file' }).click();
  await expect(page.getByText(/cannot be written|is not a folder/)).toBeVisible();
  rmSync(book.papers);
  await page.getByRole('button', { name: 'Save the calendar files again' }).click();
  await expect.poll(() => existsSync(book.papers) && readdirSync(book.papers).some((name) => name.endsWith('.ics'))).toBe(true);
});
