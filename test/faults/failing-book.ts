/** A database that fails at a chosen step. */
import type { DBCore, DBCoreTable, Middleware } from 'dexie';
import { Book, book, swapBook } from '../../renderer/book/database.ts';
import type { Quote } from '../../shared-core/book/quote.ts';
import { readWholeJob } from '../../renderer/book/use-whole-job.ts';
import type { StoredRow } from '../../shared-core/book/migrations/all-steps.ts';
import { TABLE_NAMES, type TableName } from '../../shared-core/book/tables.ts';
import type { WholeJob } from '../../shared-core/book/whole-job.ts';
import version1 from '../shared-core/book/version-1.fixture.json' with { type: 'json' };

export const stored = version1 as unknown as Record<TableName, StoredRow[]>;
export const NOW = '2026-05-12T15:05:00.000Z';
export const [JOB, ROOM] = ['sample-job-abara', 'sample-living'];

/** Fails from this operation on. */
export const fault = { from: Number.POSITIVE_INFINITY, many: Number.POSITIVE_INFINITY, name: 'DataError', met: 0 };
export const failFrom = (from: number, name = 'DataError', many = Number.POSITIVE_INFINITY): void => {
  Object.assign(fault, { from, name, many, met: 0 });
};
export const heal = (): void => failFrom(Number.POSITIVE_INFINITY);
/** The tables that a write reached since they were last printed. */
const written = new Set<string>(TABLE_NAMES);
const prints = new Map<string, string>();
/** All rows as text by table, to compare the data before and after. Only tables that a write reached are read again. */
export async function printOfTables(): Promise<ReadonlyMap<string, string>> {
  for (const table of TABLE_NAMES) {
    if (!written.delete(table)) continue;
    prints.set(table, JSON.stringify(await book().table(table).toArray()));
  }
  return new Map(prints);
}

const failing: Middleware<DBCore> = {
  stack: 'dbcore',
  name: 'failing',
  create: (core) => ({
    ...core,
    table: (name): DBCoreTable => {
      const table = core.table(name);
      const guard =
        <I, O>(work: (input: I) => Promise<O>) =>
        (input: I): Promise<O> => {
          fault.met += 1;
          if (fault.met < fault.from || fault.met >= fault.from + fault.many) return work(input);
          return Promise.reject(Object.assign(new Error('injected'), { name: fault.name }));
        };
      return {
        ...table,
        get: guard(table.get.bind(table)),
        getMany: guard(table.getMany.bind(table)),
        query: guard(table.query.bind(table)),
        openCursor: guard(table.openCursor.bind(table)),
        count: guard(table.count.bind(table)),
        mutate: guard((request) => {
          written.add(name);
          return table.mutate(request);
        }),
      };
    },
  }),
};

let whole: WholeJob | null = null;
/** The stored job before any failure. */
export function storedJob(): WholeJob {
  if (whole === null) throw new Error('The stored job is not read yet.');
  return whole;
}

export const ORDER = 'order-00001';
/** Gives the accepted quote a change order that waits for its signature. */
function waitForOrder(quote: Quote): void {
  const priced = quote.priced.options[0];
  if (quote.state !== 'accepted' || priced === undefined) throw new Error('The stored job has no accepted quote.');
  const amounts = { netMinor: 10_000, taxes: [], totalMinor: 10_000, addedDays: 1, priced };
  const decision = { state: 'issued' as const, decidedAt: null, decidedBy: '' };
  const rooms = { roomIds: [ROOM], withdrawnIds: [], photoIds: [] };
  quote.orders = [
    {
      id: ORDER,
      number: 9,
      issuedAt: NOW,
      issuedBy: 'Ros',
      reason: 'Rot under the threshold',
      work: '',
      ...rooms,
      ...amounts,
      ...decision,
    },
  ];
}

/** Opens the stored data in a database that can be made to fail. */
export async function openFailingBook(): Promise<void> {
  const data = new Book('failing');
  data.use(failing);
  await data.open();
  swapBook(data);
  for (const table of TABLE_NAMES) await data.table(table).bulkPut(stored[table]);
  await data.rowsOf('quotes').where('jobId').equals(JOB).modify(waitForOrder);
  whole = await readWholeJob(JOB);
}
