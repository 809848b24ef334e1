/** Two windows on the same data: neither overwrites the other's edit without a report, and each shows the other's edits. */
import { expect, test } from './open-book.ts';
import { putRows, storedRows } from './stored-rows.ts';

test('the same record edited in two windows: each shows the other’s edit, and overwriting one is reported and can be undone', async ({
  sample: book,
  page,
}) => {
  const other = await page.context().newPage();
  // The key of this launch stays in the window it was opened with.
  await other.goto(book.address);
  const person = new URL('/#/customers/sample-odell', book.address).href;
  await page.goto(person);
  await other.goto(person);
  const notes = page.getByLabel('Notes', { exact: true }).first();
  const theirs = other.getByLabel('Notes', { exact: true }).first();
  await notes.fill('Gate code 41');
  await notes.blur();
  // Shown in the other window without a reload, and nothing to report, because nothing was overwritten.
  await expect(theirs).toHaveValue('Gate code 41');
  await expect(other.getByText('overwrote a change just made in another window')).toHaveCount(0);
  // Another field of the same record: both are stored.
  const phone = other.getByLabel('Phone', { exact: true }).first();
  await phone.fill('555 0199');
  await phone.blur();
  await expect(page.getByLabel('Phone', { exact: true }).first()).toHaveValue('555 0199');
  await expect(notes).toHaveValue('Gate code 41');
  await expect(other.getByText('overwrote a change just made in another window')).toHaveCount(0);
  // The same field: reported at once, with undo.
  await theirs.fill('Side door');
  await theirs.blur();
  await expect(other.getByText('overwrote a change just made in another window')).toBeVisible();
  await other.getByRole('button', { name: 'Undo my change' }).click();
  await expect(theirs).toHaveValue('Gate code 41');
  await expect(notes).toHaveValue('Gate code 41');
});

test('finished jobs are listed in pages, newest first, and each opens', async ({ sample: book, page }) => {
  const job = (await storedRows(page, 'jobs')).find((one) => (one as { id: string }).id === 'sample-job-odell') as object;
  const jobs = Array.from({ length: 95 }, (_, k) => {
    const number = `99-${String(k + 1).padStart(3, '0')}`;
    // One of them was archived, so it is neither shown nor counted.
    const deletedAt = k === 6 ? '2026-05-12T11:05:00.000Z' : null;
    return { ...job, id: `finished-${k + 1}`, number, state: 'finished', deletedAt };
  });
  await putRows(page, { jobs });
  await page.goto(new URL('/#/jobs', book.address).href);
  await expect(page.locator('.jobs-list > li')).not.toHaveCount(0);
  await page.getByText('Finished', { exact: true }).click();
  const rows = page.locator('.jobs-list > li');
  await expect(rows).toHaveCount(40);
  await expect(rows.first()).toContainText('99-095');
  await expect(page.getByText('40 of 97 shown.')).toBeVisible();
  await page.getByRole('button', { name: 'Show 40 more' }).click();
  await expect(rows).toHaveCount(80);
  await page.getByRole('button', { name: 'Show 17 more' }).click();
  await expect(rows).toHaveCount(97);
  // The sample's own three finished jobs are older.
  await expect(rows.nth(93)).toContainText('99-001');
  await expect(page.getByText('99-007')).toHaveCount(0);
  await rows.first().locator('.jobs-rooms a').first().click();
  await expect(page.getByText('Job 99-095').first()).toBeVisible();
});
