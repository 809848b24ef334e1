/** Importing customers and jobs of a backup from another computer. */
import { afterEach, beforeEach, expect, it, vi } from 'vitest';
import { importLinesFrom, readClashes, readImportable } from '../../../renderer/backup/import-from-backup.ts';
import { makeBackup } from '../../../renderer/backup/make-backup.ts';
import { lookIntoBackup, openBackupFrom } from '../../../renderer/backup/open-backup.ts';
import { addCustomer, addProperty, addRoom, startJob } from '../../../renderer/book/customer-commands.ts';
import type { Book } from '../../../renderer/book/database.ts';
import { storeDocument } from '../../../renderer/book/document-commands.ts';
import { issueInvoice } from '../../../renderer/book/ledger-commands.ts';
import { change } from '../../../renderer/book/write.ts';
import { closeBackup, openBackup } from '../../../renderer/book/open-read-only.ts';
import { emptyAddress } from '../../../shared-core/book/new-records.ts';
import { jobRecord } from '../../../shared-core/documents/job-record.ts';
import { readJob } from '../../../shared-core/standing/read-job.ts';
import { readWholeJob } from '../../../renderer/book/use-whole-job.ts';
import { freshBook, LATER, NOW } from '../book/fresh-book.ts';
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
  const tree = { ...jobRecord(readJob(whole, NOW), [], NOW, 1), title: `Statement ${revision}` };
  return made(await storeDocument({ jobId, kind: 'statement', tree, revision, sha256: null, programVersion: '' }));
};
const opened = async (saved: string) => {
  const answer = await openBackupFrom({ name: saved.split(' was saved')[0] ?? '' }, null);
  if (!answer.ok) throw new Error(answer.error.message);
  return answer.value;
};

it('keeps the numbers that were issued on each computer', async () => {
  const [there, statement] = [await invoiced('Deposit'), await stated(7)];
  const saved = made(await makeBackup('manual'));
  // This computer has not seen those two, and has issued the same number and a later revision since.
  await Promise.all([book.rowsOf('ledger').delete(there.id), book.rowsOf('documents').delete(statement)]);
  const here = await invoiced('Balance');
  await stated(8);
  expect(here.number).toBe(there.number);
  const backup = await opened(saved);
  const { brief, lines } = made(await readImportable(backup, WATCH));
  const line = lines.filter(({ id }) => id === jobId);
  expect(await importLinesFrom(backup, brief, line, new Map(), WATCH)).toEqual({
    ok: true,
    value: expect.stringMatching(/^1 item was imported\. .* You can undo this import\.$/),
  });
  expect(await book.rowsOf('ledger').bulkGet([there.id, here.id])).toMatchObject([there, here]);
  expect(await book.rowsOf('documents').get(statement)).toMatchObject({ revision: 7 });
});

it('says that nothing was imported when your data is kept for every difference, and offers no undo', async () => {
  const backup = await opened(made(await makeBackup('manual')));
  await change('jobs', jobId, 'title', LATER, (job) => ({ ...job, title: 'Other' }));
  const edits = await book.edits.count();
  const importable = made(await readImportable(backup, WATCH));
  const lines = importable.lines.filter(({ id }) => id === jobId);
  const { clashes } = made(await readClashes(backup, importable, lines, WATCH));
  expect(clashes).toHaveLength(1);
  const kept = new Map(clashes.map(({ key }) => [key, new Set<string>()]));
  expect(await importLinesFrom(backup, importable.brief, lines, kept, WATCH)).toEqual({
    ok: true,
    value: 'Nothing was imported, so your data did not change. To take a value from the backup, set Use to Backup.',
  });
  expect(await book.edits.count()).toBe(edits);
});

it('says when photos of a backup opened read-only cannot be read', async () => {
  const backup = await opened(made(await makeBackup('manual')));
  expect(await lookIntoBackup({ ...backup, photos: [`photos/${'a'.repeat(64)}.webp`] })).toMatchObject({ ok: true });
  await vi.waitFor(() => expect(openBackup()?.photosProblem).toBe('1 photo could not be read.'));
  await closeBackup();
});
