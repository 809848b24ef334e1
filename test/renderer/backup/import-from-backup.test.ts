/** Importing customers and jobs of a backup from another computer. */
import { afterEach, beforeEach, expect, it, vi } from 'vitest';
import { importLinesFrom, readImportable } from '../../../renderer/backup/import-from-backup.ts';
import { makeBackup } from '../../../renderer/backup/make-backup.ts';
import { openBackupFrom } from '../../../renderer/backup/open-backup.ts';
import { addCustomer, addProperty, addRoom, startJob } from '../../../renderer/book/customer-commands.ts';
import type { Book } from '../../../renderer/book/database.ts';
import { storeDocument } from '../../../renderer/book/document-commands.ts';
import { issueInvoice } from '../../../renderer/book/ledger-commands.ts';
import { emptyAddress } from '../../../shared-core/book/new-records.ts';
import { jobRecord } from '../../../shared-core/documents/job-record.ts';
import { readJob } from '../../../shared-core/standing/read-job.ts';
import { readWholeJob } from '../../../renderer/book/use-whole-job.ts';
import { freshBook, NOW } from '../book/fresh-book.ts';
import { pageDesk } from '../page-desk.ts';
import { made } from '../book/whole-book.ts';

let book: Book;
let jobId = '';
beforeEach(async () => {
  book = await freshBook();
  pageDesk();
  const customerId = made(await addCustomer('Dana Wicklow'));
  const propertyId = made(await addProperty(customerId, { ...emptyAddress('US'), line: '9 Mill Race' }, 'America/New_York'));
  jobId = made(await startJob(propertyId, [made(await addRoom(propertyId, 'Kitchen'))], 'kitchen'));
});
afterEach(() => vi.unstubAllGlobals());

const WATCH = { onProgress: () => undefined, isCanceled: () => false };
const TERMS = { onDay: '2026-05-12', dueOn: '2026-05-12', title: 'Floor leveling', retainageMinor: 0, note: '', currency: 'USD' };
const invoiced = async (key: string) => {
  const draft = { purpose: 'deposit' as const, stageName: key, netMinor: 10_000, taxes: [], totalMinor: 10_000, isReady: true, key };
  return made(await issueInvoice(jobId, { ...draft, due: 'on-acceptance' }, TERMS));
};
const stated = async (revision: number): Promise<string> => {
  const whole = await readWholeJob(jobId);
  if (whole === null) throw new Error('The job was started.');
  const tree = { ...jobRecord(readJob(whole, NOW), [], NOW), title: `Statement ${revision}` };
  return made(await storeDocument({ jobId, kind: 'statement', tree, revision, sha256: null, programVersion: '' }));
};

it('keeps the numbers that were issued on each computer', async () => {
  const [there, statement] = [await invoiced('Deposit'), await stated(7)];
  const saved = made(await makeBackup('manual'));
  // This computer has not seen those two, and has issued the same number and a later revision since.
  await Promise.all([book.rowsOf('ledger').delete(there.id), book.rowsOf('documents').delete(statement)]);
  const here = await invoiced('Balance');
  await stated(8);
  expect(here.number).toBe(there.number);
  const opened = await openBackupFrom({ name: saved.split(' was saved')[0] ?? '' }, null);
  if (!opened.ok) throw new Error(opened.error.message);
  const { brief, lines } = made(await readImportable(opened.value, WATCH));
  const line = lines.filter(({ id }) => id === jobId);
  expect(await importLinesFrom(opened.value, brief, line, new Map(), WATCH)).toMatchObject({ ok: true });
  expect(await book.rowsOf('ledger').bulkGet([there.id, here.id])).toMatchObject([there, here]);
  expect(await book.rowsOf('documents').get(statement)).toMatchObject({ revision: 7 });
});
