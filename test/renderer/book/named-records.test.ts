// @vitest-environment node
/** What an undo may not delete: a record that another still names, such as the job of an issued invoice. */
import { beforeEach, describe, expect, it } from 'vitest';
import { addCustomer, addProperty, addRoom, startJob } from '../../../renderer/book/customer-commands.ts';
import type { Book } from '../../../renderer/book/database.ts';
import { issueInvoice } from '../../../renderer/book/ledger-commands.ts';
import { logPourEvent } from '../../../renderer/book/pour-log.ts';
import { type Put, redo, undo, write } from '../../../renderer/book/write.ts';
import { REFERENCES } from '../../../shared-core/book/data-check.ts';
import type { StoredRow } from '../../../shared-core/book/migrations/all-steps.ts';
import { emptyAddress } from '../../../shared-core/book/new-records.ts';
import { TABLE_NAMES, type TableName } from '../../../shared-core/book/tables.ts';
import { sampleAt } from '../../sample-at.ts';
import { checkBookRows } from '../../shared-core/book/check-book-rows.ts';
import { freshBook, NOW } from './fresh-book.ts';
import { made, readBookRows } from './whole-book.ts';

const SAMPLE = sampleAt(NOW);

let book: Book;
beforeEach(async () => {
  book = await freshBook();
});
const problems = async () => checkBookRows(await readBookRows(), []);
const stored = (table: TableName) => book.table<StoredRow, string>(table);

describe('an undo', () => {
  it('keeps the job of an issued invoice, and deletes a job without one', async () => {
    const customerId = made(await addCustomer('Ann Bell'));
    const propertyId = made(await addProperty(customerId, { ...emptyAddress('US'), line: '12 Elm St' }, 'America/New_York'));
    const roomId = made(await addRoom(propertyId, 'Kitchen'));
    const jobId = made(await startJob(propertyId, [roomId], 'kitchen'));
    expect(await undo()).toMatchObject({ ok: true });
    expect(await redo()).toMatchObject({ ok: true });
    const demand = { purpose: 'deposit', stageName: 'Deposit', key: 'deposit', netMinor: 10_000, taxes: [], totalMinor: 10_000 } as const;
    const terms = { onDay: '2026-05-12', dueOn: '2026-05-20', title: 'Deposit', retainageMinor: 0, note: '', currency: 'USD' };
    made(await issueInvoice(jobId, demand as never, terms as never));
    const number = (await book.rowsOf('ledger').toArray()).find((entry) => entry.kind === 'invoice')?.number ?? '';
    expect(await undo()).toMatchObject({ ok: false, message: expect.stringContaining('cannot be undone') });
    for (let i = 0; i < 4; i += 1)
      expect(await undo()).toMatchObject({
        ok: false,
        message: expect.stringMatching(
          new RegExp(String.raw`^“.+” was not undone\. Invoice ${number} still needs this job\. Archive the job instead\.$`),
        ),
      });
    expect(await problems()).toEqual([]);
    expect(await book.rowsOf('jobs').get(jobId)).toBeDefined();
  });

  it('keeps an imported pour whose log has grown since', async () => {
    const pour = SAMPLE.pours.find((one) => one.finishedAt === null) ?? SAMPLE.pours[0];
    const job = SAMPLE.jobs.find(({ id }) => id === pour?.jobId);
    if (pour === undefined || job === undefined) throw new Error('The sample has a pour.');
    const puts = [
      ...SAMPLE.customers.filter(({ id }) => id === job.customerId).map((row) => ({ table: 'customers', row })),
      ...SAMPLE.properties.filter(({ id }) => id === job.propertyId).map((row) => ({ table: 'properties', row })),
      ...SAMPLE.rooms.filter(({ propertyId }) => propertyId === job.propertyId).map((row) => ({ table: 'rooms', row })),
      { table: 'jobs', row: job },
      { table: 'pours', row: pour },
      ...SAMPLE.pourEvents.filter(({ pourId }) => pourId === pour.id).map((row) => ({ table: 'pourEvents', row })),
    ] as Put[];
    made(await write('import', NOW, { puts, isImport: true }));
    expect(await undo()).toMatchObject({ ok: true });
    expect(await redo()).toMatchObject({ ok: true });
    made(await logPourEvent({ id: 'entry-1', pourId: pour.id, instant: NOW, estimated: false, kind: 'note', text: 'Hard', photoIds: [] }));
    expect(await undo()).toEqual({
      ok: false,
      message: '“import” was not undone. A pour log entry still needs this pour. Archive the job instead.',
      where: '',
    });
    expect(await problems()).toEqual([]);
  });

  const named = TABLE_NAMES.flatMap((table) =>
    Object.entries(REFERENCES[table] ?? {}).map(([field, target]): [TableName, string, TableName] => [table, field, target]),
  );
  it.each([...named, ['jobs', 'rooms', 'rooms'], ['jobs', 'withdrawn', 'rooms']] as [TableName, string, TableName][])(
    'finds a record of %s that names by %s one of %s',
    async (table, field, target) => {
      const [parent] = SAMPLE[target] as readonly StoredRow[];
      if (parent === undefined) throw new Error(`The sample has ${target}.`);
      made(await write('import', NOW, { puts: [{ table: target, row: parent } as unknown as Put], isImport: true }));
      const job = { id: 'job-1', rooms: [], propertyId: parent['propertyId'] } as StoredRow;
      if (target === 'rooms') await stored('jobs').put(job);
      const isList = field === 'rooms' || field === 'withdrawn';
      const child = {
        ...{ id: 'child-1', seq: 1, rooms: [], jobId: target === 'rooms' ? job.id : (parent['jobId'] ?? null) },
        ...(isList ? job : {}),
        [field]: isList ? [{ roomId: parent.id }] : parent.id,
      } as StoredRow;
      await stored(table).put(child);
      expect(await undo()).toMatchObject({ ok: false, message: expect.stringContaining('still needs this') });
      expect(await stored(target).get(String(parent.id))).toBeDefined();
      await stored(table).delete(String(child.id));
      expect(await undo()).toMatchObject({ ok: true });
    },
  );
});
