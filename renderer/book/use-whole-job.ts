/** One job with all its records, read together and live. */
import type { Business } from '../../shared-core/book/business.ts';
import type { Material } from '../../shared-core/book/material.ts';
import type { Pour, PourEvent } from '../../shared-core/book/pour-record.ts';
import type { Job } from '../../shared-core/book/job.ts';
import { useLiveQuery } from 'dexie-react-hooks';
import type { WholeJob } from '../../shared-core/book/whole-job.ts';
import type { StoredRow } from '../../shared-core/book/migrations/all-steps.ts';
import type { TableName } from '../../shared-core/book/tables.ts';
import type { RowOf } from '../../shared-core/book/rows.ts';
import { accountOf } from '../../shared-core/ledger/account.ts';
import { book } from './database.ts';
import { readMark } from './changed-rows.ts';
import { readable } from './integrity.ts';
import { inUse, readBusiness } from './use-records.ts';
import { nowInstant } from './command.ts';
import { readKept, useKept } from './use-kept.ts';

const storedOf = <T extends TableName>(table: T, jobId: string): Promise<RowOf<T>[]> =>
  book().rowsOf(table).where('jobId').equals(jobId).toArray();
const ofJob = async <T extends TableName>(table: T, jobId: string): Promise<RowOf<T>[]> => inUse(table, await storedOf(table, jobId));

/** The numbers of stored rows that are not among those read, a quote's under the kind of its document. Deleted ones gave theirs back. */
const unreadOf = (stored: readonly StoredRow[], read: readonly { readonly id: string }[]): NonNullable<WholeJob['unreadNumbers']> => {
  const ids = new Set<unknown>(read.map(({ id }) => id));
  return stored
    .filter((row) => !ids.has(row['id']) && typeof row['deletedAt'] !== 'string')
    .map((row) => ({ kind: typeof row['kind'] === 'string' ? row['kind'] : 'quote', revision: Number(row['revision']) }))
    .filter(({ revision }) => Number.isSafeInteger(revision));
};

const one = async <T extends TableName>(table: T, id: string): Promise<RowOf<T> | undefined> =>
  readable(table, await book().rowsOf(table).where('id').equals(id).toArray())[0];

const present = <T>(rows: (T | undefined)[]): T[] => rows.filter((row): row is T => row !== undefined);

/** Records that all jobs share, read once for a list of them. */
type SharedByJobs = { readonly business: Business | undefined; readonly materials: readonly Material[] };
const readShared = async (): Promise<SharedByJobs> => {
  const [business, materials] = await Promise.all([readBusiness(), book().rowsOf('materials').toArray()]);
  return { business, materials: readable('materials', materials) };
};

/** Tables with a job in their rows. */
const OF_JOB = ['quotes', 'pours', 'cureLogs', 'promises', 'clearanceTests', 'visits', 'ledger', 'documents', 'calendarEntries'] as const;
const READ = ['business', 'materials', 'jobs', 'customers', 'properties', 'rooms', 'pourEvents', ...OF_JOB] as const;
/** One transaction for all reads: opening one for each table takes longer than reading the rows. */
const together = <T>(read: () => Promise<T>): Promise<T> => book().transaction('r', [...READ], read);

/**
 * Null when the job, its customer or its property does not exist.
 * @param running a pour whose log is left out; its screen reads it alone, once for each entry
 */
export function readWholeJob(jobId: string, running: string | null = null): Promise<WholeJob | null> {
  return together(() => wholeJob(jobId, readShared(), running));
}

async function wholeJob(jobId: string, shared: Promise<SharedByJobs>, running: string | null = null): Promise<WholeJob | null> {
  const db = book();
  const pourEventsOf = async (pours: readonly Pour[]): Promise<PourEvent[]> => {
    const ids = pours.map((pour) => pour.id).filter((id) => id !== running);
    return ids.length === 0 ? [] : db.rowsOf('pourEvents').where('pourId').anyOf(ids).toArray();
  };
  const [{ business, materials }, job, storedQuotes, [pours, pourEvents], ...others] = await Promise.all([
    shared,
    one('jobs', jobId),
    storedOf('quotes', jobId),
    ofJob('pours', jobId).then(async (rows) => [rows, await pourEventsOf(rows)] as const),
    ofJob('cureLogs', jobId),
    ofJob('promises', jobId),
    ofJob('clearanceTests', jobId),
    ofJob('visits', jobId),
    ofJob('ledger', jobId),
    storedOf('documents', jobId),
    ofJob('calendarEntries', jobId),
  ]);
  if (business === undefined || job === undefined) return null;
  const [cureLogs, promises, clearanceTests, visits, ledger, storedDocuments, calendarEntries] = others;
  const [quotes, documents] = [inUse('quotes', storedQuotes), inUse('documents', storedDocuments)];
  const [customer, property, rooms, houseRooms] = await Promise.all([
    one('customers', job.customerId),
    one('properties', job.propertyId),
    db.rowsOf('rooms').bulkGet(job.rooms.map((r) => r.roomId)),
    db.rowsOf('rooms').where('propertyId').equals(job.propertyId).toArray(),
  ]);
  if (customer === undefined || property === undefined) return null;
  return {
    business,
    customer,
    property,
    job,
    rooms: readable('rooms', present(rooms)),
    houseRooms: readable('rooms', houseRooms).filter((r) => r.deletedAt === null),
    materials,
    quotes: quotes.sort((a, b) => a.revision - b.revision),
    pours,
    pourEvents: readable('pourEvents', pourEvents).sort((a, b) => a.seq - b.seq),
    cureLogs,
    promises,
    clearanceTests,
    visits: visits.sort((a, b) => a.instant.localeCompare(b.instant)),
    ledger,
    documents: documents.sort((a, b) => a.madeAt.localeCompare(b.madeAt)),
    calendarEntries,
    unreadNumbers: [...unreadOf(storedQuotes, quotes), ...unreadOf(storedDocuments, documents)],
  };
}

/** Live; null when the job does not exist, undefined while loading. `running` as in `readWholeJob`. */
export function useWholeJob(jobId: string, running: string | null = null): WholeJob | null | undefined {
  return useKept(keptName(jobId, running), () => readWholeJob(jobId, running));
}

const keptName = (jobId: string, running: string | null): string => `job ${jobId} ${running}`;

/** Reads the newest open jobs and keeps them for their screens. */
export async function readJobsToOpen(most: number): Promise<WholeJob[]> {
  const wholes: (WholeJob | null)[] = [];
  for (const { id } of await newest('open', most)) wholes.push(await readKept(keptName(id, null), () => readWholeJob(id)));
  return wholes.filter((whole) => whole !== null);
}

const DAY_MS = 86_400_000;
const FIRST = '';
const LAST = '\uffff';

/** Jobs of one state that are not archived, highest number first. */
const newest = async (state: Job['state'], most: number): Promise<Job[]> =>
  readable(
    'jobs',
    await book()
      .rowsOf('jobs')
      .where('[state+number]')
      .between([state, FIRST], [state, LAST])
      .reverse()
      .filter((job) => job.deletedAt === null)
      .limit(most)
      .toArray(),
  );

/**
 * Whole jobs of one state, highest number first.
 * @param most maximum number of jobs; 0 reads none
 */
export function useWholeJobs(state: Job['state'], most: number): WholeJob[] | undefined {
  return useKept(`jobs ${state} ${most}`, () => readWholeJobs(state, most));
}

/** A visit this many days overdue is no longer expected. */
const WAITED_DAYS = 60;

/** Days back for unpaid invoices; the Money screen lists older ones. */
const OWED_DAYS = 180;

/** Jobs with an unpaid invoice of recent months. */
const jobsOwing = async (): Promise<string[]> => {
  const since = new Date(Date.parse(nowInstant()) - OWED_DAYS * DAY_MS).toISOString().slice(0, 10);
  const entries = readable('ledger', await book().rowsOf('ledger').where('onDay').aboveOrEqual(since).toArray());
  const billed = new Set(entries.flatMap((entry) => (entry.kind === 'invoice' ? [entry.jobId] : [])));
  return [...billed].filter(
    (id) =>
      accountOf(
        entries.filter((entry) => entry.jobId === id),
        since,
      ).openMinor > 0,
  );
};

/** Declined jobs with money received, however long ago: of a canceled contract, it is to be settled. */
const declinedPaid = async (): Promise<string[]> => {
  const declined = await book().rowsOf('jobs').where('state').equals('declined').primaryKeys();
  const entries = readable('ledger', await book().rowsOf('ledger').where('jobId').anyOf(declined).toArray());
  return entries.flatMap((entry) => (entry.kind === 'payment' ? [entry.jobId] : []));
};

/** Jobs with dates ahead: all open ones, finished ones with a visit due, declined ones that were paid for, and any with an invoice unpaid. */
export async function readJobsAhead(): Promise<WholeJob[]> {
  const mark = readMark(book().backendDB());
  const since = new Date(Date.parse(nowInstant()) - WAITED_DAYS * DAY_MS).toISOString();
  const visits = await book().rowsOf('visits').where('instant').above(since).toArray();
  const waiting = visits.filter((visit) => visit.doneAt === null && visit.cancelledAt === null && visit.deletedAt === null);
  const [owing, paid] = [new Set(await jobsOwing()), new Set(await declinedPaid())];
  const due = new Set([...waiting.map((visit) => visit.jobId), ...owing]);
  const isAhead = ({ id, state }: Job): boolean => (state === 'finished' ? due.has(id) : owing.has(id) || paid.has(id));
  const past = readable(
    'jobs',
    present(
      await book()
        .rowsOf('jobs')
        .bulkGet([...new Set([...due, ...paid])]),
    ),
  ).filter((job) => job.deletedAt === null && job.state !== 'open' && isAhead(job));
  const wholes = await wholeJobs([...(await newest('open', Number.MAX_SAFE_INTEGER)), ...past]);
  marks.set(wholes, mark);
  return wholes;
}

const marks = new WeakMap<readonly WholeJob[], Promise<string | null>>();
/** The mark of the last change of records before these jobs were read. */
export const markOf = (wholes: readonly WholeJob[]): Promise<string | null> => marks.get(wholes) ?? Promise.resolve(null);

export function useJobsAhead(): WholeJob[] | undefined {
  return useLiveQuery(readJobsAhead, []);
}

/** What lists show of a past job. */
export type ListedJob = Pick<WholeJob, 'job' | 'customer' | 'property' | 'rooms'>;

/** Jobs of one state with customer and property, highest number first. Their other records are not read. */
export function useListedJobs(state: Job['state'], most: number): ListedJob[] | undefined {
  return useLiveQuery(async () => {
    const listed = await Promise.all(
      (await newest(state, most)).map(async (job): Promise<ListedJob | undefined> => {
        const [customer, property, rooms] = await Promise.all([
          one('customers', job.customerId),
          one('properties', job.propertyId),
          book()
            .rowsOf('rooms')
            .bulkGet(job.rooms.map((r) => r.roomId)),
        ]);
        if (customer === undefined || property === undefined) return undefined;
        return { job, customer, property, rooms: readable('rooms', present(rooms)) };
      }),
    );
    return present(listed);
  }, [state, most]);
}

const wholeJobs = (jobs: readonly Job[]): Promise<WholeJob[]> =>
  together(async () => {
    const shared = readShared();
    return (await Promise.all(jobs.map((job) => wholeJob(job.id, shared)))).filter((whole) => whole !== null);
  });

/** Whole jobs of one state, highest number first. */
async function readWholeJobs(state: Job['state'], most: number): Promise<WholeJob[]> {
  return wholeJobs(await newest(state, most));
}

/** Counts the jobs of a state without reading records; undefined while counting. */
export function useJobCount(state: Job['state']): number | undefined {
  return useLiveQuery(async () => {
    const jobs = book().rowsOf('jobs');
    // Only archived jobs are in the index of archive times.
    const archived = new Set(await jobs.where('deletedAt').above('').primaryKeys());
    const all = jobs.where('state').equals(state);
    if (archived.size === 0) return all.count();
    return (await all.primaryKeys()).filter((id) => !archived.has(id)).length;
  }, [state]);
}
