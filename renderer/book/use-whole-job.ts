/** One job with everything that hangs on it, read in one go and followed live. */
import type { Business } from '../../shared-core/book/business.ts';
import type { Material } from '../../shared-core/book/material.ts';
import type { Job } from '../../shared-core/book/job.ts';
import { useLiveQuery } from 'dexie-react-hooks';
import type { WholeJob } from '../../shared-core/book/whole-job.ts';
import type { TableName } from '../../shared-core/book/tables.ts';
import type { RowOf } from '../../shared-core/book/rows.ts';
import { accountOf } from '../../shared-core/ledger/account.ts';
import { book } from './database.ts';
import { readable } from './integrity.ts';
import { nowInstant } from './moment.ts';

const ofJob = async <T extends TableName>(table: T, jobId: string): Promise<RowOf<T>[]> =>
  readable(table, await book().rowsOf(table).where('jobId').equals(jobId).toArray()).filter(
    (row) => !('deletedAt' in row) || row.deletedAt === null,
  );

const one = async <T extends TableName>(table: T, id: string): Promise<RowOf<T> | undefined> =>
  readable(table, await book().rowsOf(table).where('id').equals(id).toArray())[0];

const present = <T>(rows: (T | undefined)[]): T[] => rows.filter((row): row is T => row !== undefined);

/** What all jobs have in common, read once for a list of them. */
type SharedByJobs = { readonly business: Business | undefined; readonly materials: readonly Material[] };
const readShared = async (): Promise<SharedByJobs> => ({
  business: await book().rowsOf('business').get('business'),
  materials: readable('materials', await book().rowsOf('materials').toArray()),
});

/** Reads a job whole; null when it, its customer or its house is not there. */
export async function readWholeJob(jobId: string, shared: Promise<SharedByJobs> = readShared()): Promise<WholeJob | null> {
  const it = book();
  const [{ business, materials }, job] = await Promise.all([shared, one('jobs', jobId)]);
  if (business === undefined || job === undefined) return null;
  const [customer, property] = await Promise.all([one('customers', job.customerId), one('properties', job.propertyId)]);
  if (customer === undefined || property === undefined) return null;
  const [rooms, houseRooms, quotes, pours, cureLogs, promises, clearanceTests, visits, ledger, documents, calendarEntries] =
    await Promise.all([
      it.rowsOf('rooms').bulkGet(job.rooms.map((r) => r.roomId)),
      it.rowsOf('rooms').where('propertyId').equals(job.propertyId).toArray(),
      ofJob('quotes', jobId),
      ofJob('pours', jobId),
      ofJob('cureLogs', jobId),
      ofJob('promises', jobId),
      ofJob('clearanceTests', jobId),
      ofJob('visits', jobId),
      ofJob('ledger', jobId),
      ofJob('documents', jobId),
      ofJob('calendarEntries', jobId),
    ]);
  const pourEvents = await it
    .rowsOf('pourEvents')
    .where('pourId')
    .anyOf(pours.map((p) => p.id))
    .toArray();
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
  };
}

/** The job whole, live; null when it is not there, undefined while reading. */
export function useWholeJob(jobId: string): WholeJob | null | undefined {
  return useLiveQuery(() => readWholeJob(jobId), [jobId]);
}

const DAY_MS = 86_400_000;
const FIRST = '';
const LAST = '\uffff';

/** The jobs of one state that are in use, the newest number first; no others are read. */
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
 * The jobs of one state, whole, the newest number first; those of other states are not read.
 * @param most how many at most; none reads none
 */
export function useWholeJobs(state: Job['state'], most: number): WholeJob[] | undefined {
  return useLiveQuery(() => readWholeJobs(state, most), [state, most]);
}

/** A visit this long past that nobody made is no more waited for. */
const WAITED_DAYS = 60;

/** Days back that invoices are looked at; the Money screen lists older ones. */
const OWED_DAYS = 180;

/** Jobs with an invoice of the last months that is not paid. */
const jobsOwing = async (): Promise<string[]> => {
  const since = new Date(Date.parse(nowInstant()) - OWED_DAYS * DAY_MS).toISOString().slice(0, 10);
  const entries = readable('ledger', await book().rowsOf('ledger').where('onDay').aboveOrEqual(since).toArray());
  const ids = [...new Set(entries.flatMap((entry) => (entry.kind === 'invoice' ? [entry.jobId] : [])))];
  return ids.filter(
    (id) =>
      accountOf(
        entries.filter((entry) => entry.jobId === id),
        since,
      ).openMinor > 0,
  );
};

/** The jobs whose days are still to come, whole: all that are open, and finished ones with a visit to make. */
export function useJobsAhead(): WholeJob[] | undefined {
  return useLiveQuery(async () => {
    const since = new Date(Date.parse(nowInstant()) - WAITED_DAYS * DAY_MS).toISOString();
    const visits = await book().rowsOf('visits').where('instant').above(since).toArray();
    const waiting = visits.filter((visit) => visit.doneAt === null && visit.cancelledAt === null && visit.deletedAt === null);
    const ids = [...new Set([...waiting.map((visit) => visit.jobId), ...(await jobsOwing())])];
    const finished = readable('jobs', present(await book().rowsOf('jobs').bulkGet(ids))).filter(
      (job) => job.state === 'finished' && job.deletedAt === null,
    );
    const jobs = [...(await newest('open', Number.MAX_SAFE_INTEGER)), ...finished];
    const shared = readShared();
    return present(await Promise.all(jobs.map(async (job) => (await readWholeJob(job.id, shared)) ?? undefined)));
  }, []);
}

/** A job as a list of past ones shows it. */
export type ListedJob = Pick<WholeJob, 'job' | 'customer' | 'property' | 'rooms'>;

/** The jobs of one state with whose and where they are, the newest number first; what hangs on them is not read. */
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

/** The jobs of one state, whole, the newest number first. */
export async function readWholeJobs(state: Job['state'], most: number): Promise<WholeJob[]> {
  const jobs = await newest(state, most);
  const shared = readShared();
  return present(await Promise.all(jobs.map(async (job) => (await readWholeJob(job.id, shared)) ?? undefined)));
}

/** How many jobs of a state are in use; undefined while counting. No record is read. */
export function useJobCount(state: Job['state']): number | undefined {
  return useLiveQuery(async () => {
    const jobs = book().rowsOf('jobs');
    // Only what was put away stands in the index of when it was.
    const away = new Set(await jobs.where('deletedAt').above('').primaryKeys());
    const all = jobs.where('state').equals(state);
    if (away.size === 0) return all.count();
    return (await all.primaryKeys()).filter((id) => !away.has(id)).length;
  }, [state]);
}
