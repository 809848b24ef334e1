/** The sample's jobs, each with all of its records, as a stored book would return them. */
import type { Job } from '../book/job.ts';
import type { RowOf } from '../book/rows.ts';
import { TABLE_NAMES, type TableName } from '../book/tables.ts';
import type { WholeJob } from '../book/whole-job.ts';

/** The sample rows by table. */
export type SampleBook = { readonly [T in TableName]: readonly RowOf<T>[] };

/** A set of rows without any. */
export const NO_ROWS = Object.fromEntries(TABLE_NAMES.map((table) => [table, []])) as unknown as SampleBook;

/** A job with its records; null where its customer, its property, or the business is missing. */
export function wholeJobOf(book: SampleBook, job: Job): WholeJob | null {
  const [business] = book.business;
  const customer = book.customers.find((c) => c.id === job.customerId);
  const property = book.properties.find((p) => p.id === job.propertyId);
  if (business === undefined || customer === undefined || property === undefined) return null;
  const ofJob = <R extends { readonly jobId: string | null }>(rows: readonly R[]): R[] => rows.filter((row) => row.jobId === job.id);
  const pours = ofJob(book.pours);
  const pourIds = new Set(pours.map((p) => p.id));
  return {
    business,
    customer,
    property,
    job,
    rooms: job.rooms.flatMap((r) => book.rooms.filter((room) => room.id === r.roomId)),
    houseRooms: book.rooms.filter((room) => room.propertyId === property.id),
    materials: book.materials,
    quotes: ofJob(book.quotes),
    pours,
    pourEvents: book.pourEvents.filter((e) => pourIds.has(e.pourId)),
    cureLogs: ofJob(book.cureLogs),
    promises: ofJob(book.promises),
    clearanceTests: ofJob(book.clearanceTests),
    visits: ofJob(book.visits),
    ledger: ofJob(book.ledger),
    documents: ofJob(book.documents),
    calendarEntries: ofJob(book.calendarEntries),
  };
}

/** Every job of a set of rows, complete; a job whose customer or property is missing is skipped. */
export const wholeJobsOf = (book: SampleBook): WholeJob[] => book.jobs.flatMap((job) => wholeJobOf(book, job) ?? []);
