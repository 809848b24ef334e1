/** A backup after an edit reads and sends only what changed, and is complete. */
import { afterEach, beforeEach, expect, it, vi } from 'vitest';
import { makeBackup } from '../../../renderer/backup/make-backup.ts';
import { backupPieces, openBackupFrom, restoreBackup } from '../../../renderer/backup/open-backup.ts';
import { gatherRows } from '../../../renderer/book/book-pieces.ts';
import { readMark } from '../../../renderer/book/changed-rows.ts';
import { type Book, swapBook } from '../../../renderer/book/database.ts';
import { add, change, undo } from '../../../renderer/book/write.ts';
import { newCustomer } from '../../../shared-core/book/new-records.ts';
import type { Gives } from '../../../shared-core/desk/calls.ts';
import type { WorkingDesk } from '../../main/desk/working-desk.ts';
import { pageDesk } from '../page-desk.ts';
import { freshBook, LATER, NOW } from '../book/fresh-book.ts';
import { readBookRows } from '../book/whole-book.ts';

const rowsIn = (bytes: Uint8Array): number => (JSON.parse(Buffer.from(bytes).toString()) as unknown[]).length;

let book: Book;
let desk: WorkingDesk;
let beforeFinish: () => Promise<unknown>;
let sent: { copied: number; rows: number };
/** The pieces of rows that a restore read. */
let asked: { table: string }[] = [];
beforeEach(async () => {
  book = await freshBook();
  beforeFinish = () => Promise.resolve();
  sent = { copied: 0, rows: 0 };
  desk = pageDesk(async (name, input) => {
    if (name === 'backup.finish') await beforeFinish();
    if (name === 'backup.add-rows') sent.rows += rowsIn((input as { bytes: Uint8Array }).bytes);
    if (name === 'backup.rows') asked.push(input as { table: string });
    if (name === 'backup.copy') sent.copied += (input as { count: number }).count;
  });
});
afterEach(() => vi.unstubAllGlobals());

const many = (count: number) =>
  Array.from({ length: count }, (_, i) => newCustomer({ id: `customer-${String(i).padStart(5, '0')}`, now: NOW }, `Odell ${i}`));

const backUp = async (): Promise<Gives<'backup.open'>> => {
  sent = { copied: 0, rows: 0 };
  const backup = await makeBackup('manual');
  if (!backup.ok) throw new Error(backup.message);
  const name = backup.value.split(' was saved')[0] ?? '';
  const opened = await openBackupFrom({ name }, null);
  if (!opened.ok) throw new Error(opened.error.message);
  return opened.value;
};
const expectWhole = async (backup: Gives<'backup.open'>): Promise<void> => {
  expect(await gatherRows(backupPieces(backup), (_, row) => row)).toEqual(await readBookRows());
};

it('reads only the range of the changed record, and is complete', async () => {
  await book.rowsOf('customers').bulkPut(many(5200));
  await expectWhole(await backUp());
  expect(sent).toEqual({ copied: 0, rows: 5201 });
  await change('customers', 'customer-02500', 'name', LATER, (c) => ({ ...c, name: 'Rusk' }));
  await expectWhole(await backUp());
  expect(sent.rows).toBe(1000);
  expect(sent.copied).toBe(7);
  await expectWhole(await backUp());
  expect(sent).toEqual({ copied: 8, rows: 0 });
});

it('includes records added at either end, deleted, undone, and a whole table replaced', async () => {
  await book.rowsOf('customers').bulkPut(many(2100));
  await backUp();
  await add('customers', newCustomer({ id: 'aaaa-1', now: NOW }, 'First'), 'new', NOW);
  await add('customers', newCustomer({ id: 'zzzz-1', now: NOW }, 'Last'), 'new', NOW);
  await expectWhole(await backUp());
  await book.rowsOf('customers').bulkDelete(['aaaa-1', 'customer-01500']);
  await undo();
  await expectWhole(await backUp());
  await book.rowsOf('customers').clear();
  await expectWhole(await backUp());
  await book.rowsOf('customers').bulkPut(many(10));
  await expectWhole(await backUp());
});

it('notes a change in the same transaction: an aborted one leaves no note, and one made during a backup is in the next', async () => {
  await book.rowsOf('customers').bulkPut(many(10));
  await backUp();
  const mark = await readMark(book.backendDB());
  await book
    .transaction('rw', book.rowsOf('customers'), async () => {
      await book.rowsOf('customers').update('customer-00001', { name: 'Never' });
      throw new Error('aborted');
    })
    .catch(() => undefined);
  expect(await book.changed.count()).toBe(0);
  expect(await readMark(book.backendDB())).toBe(mark);
  await change('customers', 'customer-00001', 'name', LATER, (c) => ({ ...c, name: 'Before' }));
  expect(await readMark(book.backendDB())).not.toBe(mark);
  beforeFinish = () => change('customers', 'customer-00002', 'name', LATER, (c) => ({ ...c, name: 'During' }));
  await backUp();
  beforeFinish = () => Promise.resolve();
  expect((await book.changed.toArray()).map(({ key }) => key)).toEqual(['customers/customer-00002']);
  await expectWhole(await backUp());
});

it('notes a table that a transaction cleared once, not each row it writes after', async () => {
  await book.rowsOf('customers').bulkPut(many(10));
  await backUp();
  await book.transaction('rw', book.rowsOf('customers'), async () => {
    await book.rowsOf('customers').clear();
    await book.rowsOf('customers').bulkPut(many(7));
  });
  expect((await book.changed.toArray()).map(({ key }) => key)).toEqual(['customers/*']);
  await expectWhole(await backUp());
});

it('writes everything again when the earlier backup is missing, or is of other data', async () => {
  await book.rowsOf('customers').bulkPut(many(20));
  const first = await backUp();
  const list = await desk.dispatch('backup.list', { dataset: first.dataset });
  const [newest] = list.ok ? (list.value as Gives<'backup.list'>).backups : [];
  await desk.dispatch('backup.delete', { name: newest?.name ?? '' });
  await expectWhole(await backUp());
  expect(sent).toEqual({ copied: 0, rows: 21 });
  const other = await freshBook();
  swapBook(other);
  const second = await backUp();
  expect(second.dataset).not.toBe(first.dataset);
  await expectWhole(second);
});

const WATCH = { onProgress: () => undefined, isCanceled: () => false };

it('restores only what differs: changed, added and deleted records, and a lost row by replacing all', async () => {
  await book.rowsOf('customers').bulkPut(many(3200));
  const wanted = await backUp();
  const before = await readBookRows();
  await change('customers', 'customer-01500', 'name', LATER, (c) => ({ ...c, name: 'Rusk' }));
  await add('customers', newCustomer({ id: 'customer-09000', now: LATER }, 'Haldane'), 'customer', LATER);
  await book.rowsOf('customers').bulkDelete(['customer-00001', 'customer-03199']);
  asked = [];
  expect(await restoreBackup(wanted, WATCH)).toMatchObject({ ok: true });
  expect(await readBookRows()).toEqual(before);
  expect(asked.filter(({ table }) => table !== 'customers')).toEqual([]);
  // As a database that lost a row: nothing has noted it.
  book.backendDB().transaction('customers', 'readwrite').objectStore('customers').delete('customer-02000');
  expect(await restoreBackup(wanted, WATCH)).toMatchObject({ ok: true });
  expect(await readBookRows()).toEqual(before);
});
