/** The sample's jobs, each with all of its records, as a stored book would return them. */
import type { WholeJob } from '../book/whole-job.ts';
import type { SampleBook } from './sample-book.ts';

/** Every job of a set of rows, complete; a job whose customer or property is missing is skipped. */
export function wholeJobsOf(book: SampleBook): WholeJob[] {
  const [business] = book.business;
  if (business === undefined) return [];
  return book.jobs.flatMap((job): WholeJob[] => {
    const customer = book.customers.find((c) => c.id === job.customerId);
    const property = book.properties.find((p) => p.id === job.propertyId);
    if (customer === undefined || property === undefined) return [];
    const ofJob = <R extends { readonly jobId: string | null }>(rows: readonly R[]): R[] => rows.filter((row) => row.jobId === job.id);
    const pours = ofJob(book.pours);
    const pourIds = new Set(pours.map((p) => p.id));
    return [
      {
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
      },
    ];
  });
}
