/** The records that go out as lists and folders: of the whole book, or of one job. */
import type { MadeDocument, Photo } from '../../shared-core/book/papers.ts';
import type { RowOf } from '../../shared-core/book/rows.ts';
import type { TableName } from '../../shared-core/book/tables.ts';
import type { AccountRows } from '../../shared-core/documents/accounts.ts';
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

/** @param jobId one job with what it stands on; null for the whole book */
export async function readAccountRows(jobId: string | null): Promise<AccountRows> {
  if (jobId === null) {
    const [customers, properties, rooms, jobs, quotes, pours, pourEvents] = await Promise.all([
      all('customers'),
      all('properties'),
      all('rooms'),
      all('jobs'),
      all('quotes'),
      all('pours'),
      all('pourEvents'),
    ]);
    return { customers, properties, rooms, jobs, quotes, pours, pourEvents };
  }
  const jobs = await where('jobs', 'id', [jobId]);
  const pours = await where('pours', 'jobId', [jobId]);
  return {
    jobs,
    pours,
    customers: await where(
      'customers',
      'id',
      jobs.map((job) => job.customerId),
    ),
    properties: await where(
      'properties',
      'id',
      jobs.map((job) => job.propertyId),
    ),
    rooms: await where(
      'rooms',
      'id',
      jobs.flatMap((job) => job.rooms.map((room) => room.roomId)),
    ),
    quotes: await where('quotes', 'jobId', [jobId]),
    pourEvents: await where(
      'pourEvents',
      'pourId',
      pours.map((pour) => pour.id),
    ),
  };
}

/** The papers made for a job and its photos. */
export async function readJobPapers(jobId: string): Promise<{ readonly papers: MadeDocument[]; readonly photos: Photo[] }> {
  const papers = (await where('documents', 'jobId', [jobId])).filter((paper) => paper.kind !== 'calendar');
  return { papers, photos: await where('photos', 'jobId', [jobId]) };
}

/** The job of a number, as it is typed; null when none has it. */
export async function jobOfNumber(number: string): Promise<string | null> {
  return (await where('jobs', 'number', [number])).find((job) => job.deletedAt === null)?.id ?? null;
}
