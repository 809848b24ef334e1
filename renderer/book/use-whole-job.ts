/** One job with everything that hangs on it, read in one go and followed live. */
import type { Job } from '../../shared-core/book/job.ts';
import { useLiveQuery } from 'dexie-react-hooks';
import type { WholeJob } from '../../shared-core/book/whole-job.ts';
import type { TableName } from '../../shared-core/book/tables.ts';
import type { RowOf } from '../../shared-core/book/rows.ts';
import { book } from './database.ts';
import { readable } from './integrity.ts';

const ofJob = async <T extends TableName>(table: T, jobId: string): Promise<RowOf<T>[]> =>
  readable(table, await book().rowsOf(table).where('jobId').equals(jobId).toArray()).filter(
    (row) => !('deletedAt' in row) || row.deletedAt === null,
  );

const one = async <T extends TableName>(table: T, id: string): Promise<RowOf<T> | undefined> =>
  readable(table, await book().rowsOf(table).where('id').equals(id).toArray())[0];

const present = <T>(rows: (T | undefined)[]): T[] => rows.filter((row): row is T => row !== undefined);

/** Reads a job whole; null when it, its customer or its house is not there. */
export async function readWholeJob(jobId: string): Promise<WholeJob | null> {
  const it = book();
  const [business, job] = await Promise.all([it.rowsOf('business').get('business'), one('jobs', jobId)]);
  if (business === undefined || job === undefined) return null;
  const [client, property] = await Promise.all([one('clients', job.clientId), one('properties', job.propertyId)]);
  if (client === undefined || property === undefined) return null;
  const [rooms, houseRooms, materials, quotes, pours, cureLogs, promises, coverTests, visits, documents, calendarEntries] =
    await Promise.all([
      it.rowsOf('rooms').bulkGet(job.rooms.map((r) => r.roomId)),
      it.rowsOf('rooms').where('propertyId').equals(job.propertyId).toArray(),
      it.rowsOf('materials').toArray(),
      ofJob('quotes', jobId),
      ofJob('pours', jobId),
      ofJob('cureLogs', jobId),
      ofJob('promises', jobId),
      ofJob('coverTests', jobId),
      ofJob('visits', jobId),
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
    client,
    property,
    job,
    rooms: readable('rooms', present(rooms)),
    houseRooms: readable('rooms', houseRooms).filter((r) => r.deletedAt === null),
    materials: readable('materials', materials),
    quotes: quotes.sort((a, b) => a.revision - b.revision),
    pours,
    pourEvents: readable('pourEvents', pourEvents).sort((a, b) => a.seq - b.seq),
    cureLogs,
    promises,
    coverTests,
    visits: visits.sort((a, b) => a.at.localeCompare(b.at)),
    documents: documents.sort((a, b) => a.madeAt.localeCompare(b.madeAt)),
    calendarEntries,
  };
}

/** The job whole, live; null when it is not there, undefined while reading. */
export function useWholeJob(jobId: string): WholeJob | null | undefined {
  return useLiveQuery(() => readWholeJob(jobId), [jobId]);
}

/**
 * The jobs of one state, whole, the newest number first; those of other states are not read.
 * @param most how many at most
 */
export function useWholeJobs(state: Job['state'] = 'open', most = Number.MAX_SAFE_INTEGER): WholeJob[] | undefined {
  return useLiveQuery(async () => {
    const jobs = readable('jobs', await book().rowsOf('jobs').where('state').equals(state).toArray())
      .filter((job) => job.deletedAt === null)
      .sort((a, b) => b.number.localeCompare(a.number))
      .slice(0, most);
    return present(await Promise.all(jobs.map(async (job) => (await readWholeJob(job.id)) ?? undefined)));
  }, [state, most]);
}
