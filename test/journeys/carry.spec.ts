/** Data moved to another profile gives the same documents, and customers import from a file unchanged, whatever their names contain. */
import { createHash } from 'node:crypto';
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Page } from '@playwright/test';
import { addressOf, expect, test } from './open-book.ts';
import { numberToday } from './open-sample.ts';
import { removeFolder } from '../../build/remove-folder.mjs';

const NUMBER = numberToday('sample-job-odell');
const FOLDER = `Job ${NUMBER} Vivian and Tom Odell`;

/** Checksums of the job's documents, inked from the stored data. */
const jobPapers = async (page: Page, address: string, papers: string): Promise<string[]> => {
  removeFolder(join(papers, FOLDER));
  await page.goto(addressOf(address, '/backup'));
  await page.getByLabel('Job number').fill(NUMBER);
  await page.getByRole('button', { name: 'Export job' }).click();
  await expect(page.getByText(/files were saved to .*\d\d-031/)).toBeVisible({ timeout: 20_000 });
  const names = readdirSync(join(papers, FOLDER)).sort();
  for (const name of ['readings.csv', 'all lists.xlsx', 'index.html']) expect(names).toContain(name);
  const index = readFileSync(join(papers, FOLDER, 'index.html'), 'utf8');
  for (const name of names) if (name !== 'index.html') expect(index).toContain(`href="${encodeURIComponent(name)}"`);
  return names
    .filter((name) => name.endsWith('.pdf'))
    .map(
      (name) =>
        `${name} ${createHash('sha256')
          .update(readFileSync(join(papers, FOLDER, name)))
          .digest('hex')}`,
    );
};

test('data moved to another profile in a portable backup gives the same documents, byte for byte', async ({
  sample: program,
  page,
  fresh,
}) => {
  await page.goto(addressOf(program.address, '/jobs/sample-job-odell/quote/sample-hall'));
  await page.getByRole('button', { name: 'Issue quote' }).click();
  await expect(page.getByText(/^Quote \d\d-031 revision 1, Vivian and Tom Odell\.pdf was saved to /)).toBeVisible({ timeout: 20_000 });
  const before = await jobPapers(page, program.address, program.papers);
  expect(before).toHaveLength(1);
  await page.getByRole('button', { name: 'Back up now' }).click();
  await expect(page.getByText('was saved and checked.')).toBeVisible();
  await page
    .getByRole('button', { name: /^Save a portable backup of/ })
    .first()
    .click();
  await expect(page.getByText(/^Portable backup .* was saved to /)).toBeVisible();
  await page.goto('about:blank');
  const carried = readdirSync(program.papers).find((name) => name.startsWith('Portable backup')) ?? '';

  await fresh.goto(program.address);
  await fresh.getByRole('button', { name: 'Open sample data' }).waitFor();
  // Named on the command line of the next launch, it opens read-only.
  const next = await program.restart(join(program.papers, carried));
  await fresh.goto('about:blank');
  await fresh.goto(next);
  await fresh.getByRole('button', { name: 'Restore this backup…' }).click();
  await fresh.getByRole('button', { name: 'Restore', exact: true }).click();
  await expect(fresh.getByText('was restored.')).toBeVisible();
  expect(await jobPapers(fresh, program.address, program.papers)).toEqual(before);
});

test('customers import from a table with markup and formulas as plain text', async ({ book, page }) => {
  let ran = false;
  page.on('dialog', (dialog) => {
    ran = true;
    void dialog.dismiss();
  });
  await page.goto(addressOf(book.address, '/customers'));
  const hostile = '<img src=x onerror=alert(1)>';
  const file = {
    name: 'contacts.csv',
    mimeType: 'text/csv',
    // Windows-1252, as western spreadsheets save text.
    buffer: Buffer.from(
      `Customer,Phone,Notes,Balance\r\n"${hostile}",555 0101 010,plain,120\r\n=1+1,555 0102 020,\r\nBenoît Ferrand,555 0104 040,\r\n,555 0103 030,nobody\r\n`,
      'latin1',
    ),
  };
  const [chooser] = await Promise.all([page.waitForEvent('filechooser'), page.getByText('Choose file').click()]);
  await chooser.setFiles(file);
  await expect(page.getByText('4 contacts in the file: 3 new and 1 left out.')).toBeVisible();
  await expect(page.getByText('Not imported: Balance.')).toBeVisible();
  await page.getByRole('button', { name: 'Import 3 customers' }).click();
  await expect(page.getByText('3 customers imported. Undo removes them.')).toBeVisible();
  await expect(page.getByText(hostile).first()).toBeVisible();
  await expect(page.getByText('Benoît Ferrand').first()).toBeVisible();
  expect(await page.locator('main img').count()).toBe(0);
  await page.goto(addressOf(book.address, '/backup'));
  await page.getByRole('button', { name: 'Export lists' }).click();
  await expect(page.getByText(/^\d+ files were saved to /)).toBeVisible();
  const lists = readdirSync(book.papers).find((name) => name.startsWith('Lists ')) ?? '';
  expect(readFileSync(join(book.papers, lists, 'customers.csv'), 'utf8')).toContain("'=1+1");
  expect(ran).toBe(false);
});
