/** Job states: open, archived, finished; and visits still due for a finished job. */
import type { Page } from '@playwright/test';
import type { LedgerEntry } from '../../shared-core/book/ledger.ts';
import type { Quote } from '../../shared-core/book/quote.ts';
import { contractOfJob } from '../../shared-core/ledger/job-contract.ts';
import { expect, test } from './open-book.ts';
import { numberToday, toSheet } from './open-sample.ts';
import { changeRow, putRows, storedRows } from './stored-rows.ts';

const list = (page: Page, word: string) => page.getByRole('radiogroup', { name: 'Jobs shown' }).getByText(word, { exact: true });
const ODELL = numberToday('sample-job-odell');
const ABARA = numberToday('sample-job-abara');
const ofJob = (page: Page, number: string) => page.getByRole('listitem').filter({ hasText: `Job ${number}` });

test('a job is archived and reopened; one that is handed over and paid is finished, and its visit stays on Today', async ({
  sample: _book,
  page,
}) => {
  await toSheet(page, '/jobs');
  await page.getByRole('button', { name: `Archive: job ${ODELL}` }).click();
  await expect(ofJob(page, ODELL)).toHaveCount(0);
  await list(page, 'Archived').click();
  await page.getByRole('button', { name: `Reopen: job ${ODELL}` }).click();
  await expect(ofJob(page, ODELL)).toHaveCount(0);
  await list(page, 'Open').click();
  await expect(ofJob(page, ODELL)).toHaveCount(1);

  // Both floors are handed over.
  await changeRow<{ rooms: object[] }>(page, 'jobs', 'sample-job-abara', (job) => ({
    ...job,
    rooms: job.rooms.map((room) => ({ ...room, handedOverAt: new Date().toISOString() })),
  }));
  await page.reload();
  await toSheet(page, '/jobs');
  // The balance is not invoiced: the job stays open.
  await expect(ofJob(page, ABARA).getByRole('link', { name: 'Go to Money' })).toBeVisible();
  await expect(page.getByRole('button', { name: `Finish job: job ${ABARA}` })).toHaveCount(0);
  const [quotes, ledger] = [await storedRows(page, 'quotes'), await storedRows(page, 'ledger')] as [Quote[], LedgerEntry[]];
  const totalMinor = contractOfJob(quotes.filter(({ jobId }) => jobId === 'sample-job-abara'))?.totalMinor;
  const paid = ledger
    .filter(({ jobId }) => jobId === 'sample-job-abara')
    .map((entry) => ({
      ...entry,
      ...(entry.kind === 'invoice' ? { totalMinor } : entry.kind === 'payment' ? { amountMinor: totalMinor } : {}),
    }));
  await putRows(page, { ledger: paid });
  await page.reload();
  await toSheet(page, '/jobs');
  await page.getByRole('button', { name: `Finish job: job ${ABARA}` }).click();
  await expect(ofJob(page, ABARA)).toHaveCount(0);
  await toSheet(page, '/');
  // The whole row opens its job, but for the button in it.
  await page
    .getByRole('button', { name: /^Next workday: / })
    .first()
    .click();
  await expect(page.getByText(/^Moved to .+: .+\. (No conflicts\.|\S)/)).toBeVisible();
  await page.keyboard.press('Control+z');
  // In the evening more is late, and the visit stands below.
  await page.getByRole('button', { name: /^Show \d+ more/ }).click();
  await expect(page.getByRole('link', { name: /^Inspect Abara and Finch’s living room/ }).first()).toBeVisible();
  await expect(page.getByText('4 open jobs')).toBeVisible();
  await toSheet(page, '/jobs/sample-job-abara/handover/sample-living');
  await expect(page.getByText(`Job ${ABARA}, finished`)).toBeVisible();
  await page.keyboard.press('Control+z');
  await expect(page.getByText(`Job ${ABARA}, finished`)).toHaveCount(0);
});
