/** The records that are exported as lists and folders, of all data or one job. */
import { roomsOnRecord } from '../../shared-core/book/job.ts';
import type { MadeDocument, Photo } from '../../shared-core/book/papers.ts';
import type { RowOf } from '../../shared-core/book/rows.ts';
import { TABLE_NAMES, type TableName } from '../../shared-core/book/tables.ts';
import { inUse, type ListRows } from '../../shared-core/documents/lists/list-rows.ts';
import { book } from './database.ts';
import { readable } from './integrity.ts';

const all = async <T extends TableName>(table: T): Promise<RowOf<T>[]> => readable(table, await book().rowsOf(table).toArray());
const where = async <T extends TableName>(table: T, index: string, values: readonly string[]): Promise<RowOf<T>[]> =>
  readable(
    table,
    await book()
      .rowsOf(table)
      .where(index)
      .anyOf([...values])
      .toArray(),
  );

/** @param jobId one job with the records it depends on; null for all data */
export async function readListRows(jobId: string | null): Promise<ListRows> {
  if (jobId === null) {
    const lists = await Promise.all(TABLE_NAMES.map(async (table) => [table, await all(table)] as const));
    // Each list was read from the table of its name.
    return Object.fromEntries(lists) as unknown as ListRows;
  }
  const jobs = await where('jobs', 'id', [jobId]);
  const ofJob = <T extends TableName>(table: T): Promise<RowOf<T>[]> => where(table, 'jobId', [jobId]);
  const pours = await ofJob('pours');
  const ids = (pick: (job: RowOf<'jobs'>) => readonly string[]): readonly string[] => jobs.flatMap(pick);
  const [quotes, cureLogs, promises, clearanceTests, visits, ledger, documents, photos, calendarEntries, leads] = await Promise.all([
    ofJob('quotes'),
    ofJob('cureLogs'),
    ofJob('promises'),
    ofJob('clearanceTests'),
    ofJob('visits'),
    ofJob('ledger'),
    ofJob('documents'),
    ofJob('photos'),
    ofJob('calendarEntries'),
    ofJob('leads'),
  ]);
  const [business, customers, properties, rooms, materials, pourEvents] = await Promise.all([
    all('business'),
    where(
      'customers',
      'id',
      ids((job) => [job.customerId]),
    ),
    where(
      'properties',
      'id',
      ids((job) => [job.propertyId]),
    ),
    where(
      'rooms',
      'id',
      ids((job) => roomsOnRecord(job).map(({ roomId }) => roomId)),
    ),
    where('materials', 'id', [
      ...ids((job) =>
        roomsOnRecord(job)
          .flatMap((room) => [room.materialId, room.primerId, room.moistureSystemId ?? null])
          .filter((id) => id !== null),
      ),
      ...pours.map(({ materialId }) => materialId),
    ]),
    where(
      'pourEvents',
      'pourId',
      pours.map(({ id }) => id),
    ),
  ]);
  return {
    business,
    customers,
    properties,
    rooms,
    jobs,
    leads,
    materials,
    quotes,
    pours,
    pourEvents,
    cureLogs,
    promises,
    clearanceTests,
    visits,
    ledger,
    documents,
    photos,
    calendarEntries,
  };
}

/** The documents and photos of a job, without deleted ones. */
export async function readJobPapers(
  jobId: string,
): Promise<{ readonly papers: readonly MadeDocument[]; readonly photos: readonly Photo[] }> {
  const [papers, photos] = await Promise.all([where('documents', 'jobId', [jobId]), where('photos', 'jobId', [jobId])]);
  return { papers: inUse(papers).filter((paper) => paper.kind !== 'calendar'), photos: inUse(photos) };
}

/** Finds jobs by a number as typed: none, one, or after an import two whose customers have papers with it. */
export async function jobsOfNumber(number: string): Promise<readonly string[]> {
  return inUse(await where('jobs', 'number', [number])).map(({ id }) => id);
}
