/** Data survives the loss of the browser's profile. */
import type { Page } from '@playwright/test';
import { addressOf, expect, test } from './open-book.ts';
import { putRows } from './stored-rows.ts';

const copyNow = async (page: Page, address: string): Promise<void> => {
  await page.goto(addressOf(address, '/backup'));
  await page.getByRole('button', { name: 'Back up now' }).click();
  await expect(page.getByText('was saved and checked.')).toBeVisible();
};
const lookInto = (page: Page): Promise<void> =>
  page
    .getByRole('row')
    .filter({ hasText: 'Manual' })
    .getByRole('button', { name: /^Open the backup of/ })
    .first()
    .click();
const jobsOf = async (page: Page, address: string): Promise<string[]> => {
  await page.goto(addressOf(address, '/jobs'));
  await page.locator('.jobs-list > li').first().waitFor();
  return page.locator('.jobs-customer').allInnerTexts();
};

test('an encrypted backup restores completely into an empty profile, and opening it read-only changes nothing', async ({
  sample: program,
  page,
  fresh,
}) => {
  const jobs = await jobsOf(page, program.address);
  await page.goto(addressOf(program.address, '/backup'));
  await page.getByRole('button', { name: 'Encrypt with a passphrase…' }).click();
  await page.getByLabel('Passphrase', { exact: true }).fill('four plain words here');
  await page.getByLabel('Repeat passphrase').fill('four plain words here');
  await page.getByText('I have written it down').click();
  await page.getByRole('button', { name: 'Encrypt backups', exact: true }).click();
  await expect(page.getByText('New backups will be encrypted.')).toBeVisible();
  await copyNow(page, program.address);
  await lookInto(page);
  await page.getByRole('button', { name: 'Open read-only' }).click();
  await expect(page.getByText(/is open read-only/)).toBeVisible();
  await expect(page.getByRole('button', { name: /^New lead/ })).toBeDisabled();
  await page.goto(addressOf(program.address, '/backup'));
  await expect(page.getByText('New backups are encrypted with your passphrase.')).toBeVisible();
  await expect(page.getByText(/^Last backup: /)).toBeVisible();
  await expect(page.getByText('other data')).toHaveCount(0);
  await page.close();

  await fresh.goto(program.address);
  await expect(fresh.getByRole('button', { name: 'Open sample data' })).toBeVisible();
  await fresh.goto(addressOf(program.address, '/backup'));
  await lookInto(fresh);
  await fresh.getByLabel('Passphrase').fill('four other words here');
  await fresh.getByRole('button', { name: 'Open backup' }).click();
  await expect(fresh.getByText('The passphrase is wrong.')).toBeVisible();
  await fresh.getByLabel('Passphrase').fill('four plain words here');
  await fresh.getByRole('button', { name: 'Open backup' }).click();
  await fresh.getByRole('button', { name: 'Open read-only' }).click();
  await expect(fresh.getByText(/is open read-only/)).toBeVisible();
  expect(await jobsOf(fresh, new URL('/', program.address).href)).toEqual(jobs);
  await fresh.getByRole('button', { name: 'Close backup' }).click();
  await lookInto(fresh);
  await fresh.getByLabel('Passphrase').fill('four plain words here');
  await fresh.getByRole('button', { name: 'Open backup' }).click();
  await fresh.getByRole('button', { name: 'Restore this backup…' }).click();
  await fresh.getByRole('button', { name: 'Restore', exact: true }).click();
  await expect(fresh.getByText('was restored.')).toBeVisible();
  expect(await jobsOf(fresh, program.address)).toEqual(jobs);
});

test('one job and one customer are imported from a backup: the conflict is shown, other data stays, and undo removes each', async ({
  sample: program,
  page,
  fresh,
}) => {
  await copyNow(page, program.address);
  const bringSome = async (on: Page): Promise<void> => {
    await on.goto(addressOf(program.address, '/backup'));
    await lookInto(on);
    await on.getByRole('button', { name: 'Import from backup…' }).click();
  };
  const phone = page.getByLabel('Phone').first();
  await page.goto(addressOf(program.address, '/customers/sample-odell'));
  const before = await phone.inputValue();
  await phone.fill('555 0142 999');
  await phone.press('Enter');
  await bringSome(page);
  const odell = page.getByRole('checkbox', { name: /Odell/ }).last();
  await page.getByLabel('Search by name or number').fill('odell');
  await expect(page.getByText(/Different\. Backup:/)).toHaveCount(1);
  await odell.focus();
  await page.keyboard.press('Space');
  await page.getByRole('button', { name: 'Next: Compare' }).click();
  // Yours changed last, so nothing of it is replaced unless it is chosen.
  const row = page.getByRole('row').filter({ hasText: '555 0142 999' });
  await expect(row).toContainText(before);
  await row.getByLabel('Source of Phone').selectOption({ label: 'Backup' });
  await page.getByRole('button', { name: 'Import', exact: true }).click();
  await expect(page.getByText('1 item was imported.')).toBeVisible();
  await page.goto(addressOf(program.address, '/customers/sample-odell'));
  await expect(phone).toHaveValue(before);
  await page.keyboard.press('Control+Z');
  await expect(phone).toHaveValue('555 0142 999');

  await fresh.goto(program.address);
  await expect(fresh.getByRole('button', { name: 'Open sample data' })).toBeVisible();
  await bringSome(fresh);
  await fresh.getByLabel('Search by name or number').fill('odell');
  const job = fresh.getByRole('checkbox', { name: /^\d\d-\d+, .*Odell/ });
  await job.focus();
  await fresh.keyboard.press('Space');
  await fresh.getByRole('button', { name: 'Import', exact: true }).click();
  await expect(fresh.getByText('1 item was imported.')).toBeVisible();
  expect(await jobsOf(fresh, program.address)).toHaveLength(1);
  await fresh.goto(addressOf(program.address, '/jobs/sample-job-odell/estimate/sample-hall'));
  await expect(fresh.getByText('pour depth').first()).toBeVisible();
  await fresh.keyboard.press('Control+Z');
  await fresh.goto(addressOf(program.address, '/jobs'));
  await expect(fresh.locator('.jobs-list > li')).toHaveCount(0);
});

test('a data problem is reported once, listed with its fix, and fixed by one press', async ({ sample: program, page }) => {
  await putRows(page, { customers: [{ id: 'broken-1', name: 5 }] });
  await page.reload();
  const notice = page.getByRole('alert').filter({ hasText: '1 data problem was found.' });
  await expect(notice).toBeVisible();
  await notice.getByRole('link').click();
  await expect(page.getByText('This customer cannot be read')).toBeVisible();
  await expect(notice).toBeHidden();
  await page.goto(addressOf(program.address, '/jobs'));
  await notice.getByRole('button', { name: 'Close' }).click();
  await page.goto(addressOf(program.address, '/customers'));
  await expect(page.getByRole('heading', { level: 1, name: 'Customers' })).toBeVisible();
  await expect(notice).toBeHidden();
  await page.goto(addressOf(program.address, '/backup'));
  await page.getByRole('button', { name: 'Delete record' }).click();
  await expect(page.getByText('No problems found.')).toBeVisible();
});
