/** Lists as comma-separated values (RFC 4180) for a spreadsheet: plain figures, money in decimals, instants in UTC. */
import type { Customer } from '../book/customer.ts';
import type { Job } from '../book/job.ts';
import type { Pour, PourEvent } from '../book/pour-record.ts';
import type { Property } from '../book/property.ts';
import type { Quote } from '../book/quote.ts';
import type { Room } from '../book/room.ts';
import { csvCell } from '../table/csv.ts';
import { decimalMoney } from '../price/money.ts';

/** What the lists are made from. Archived records are left out, except those that others name. */
export type AccountRows = {
  readonly customers: readonly Customer[];
  readonly properties: readonly Property[];
  readonly rooms: readonly Room[];
  readonly jobs: readonly Job[];
  readonly quotes: readonly Quote[];
  readonly pours: readonly Pour[];
  readonly pourEvents: readonly PourEvent[];
};
export type AccountList = { readonly name: 'customers' | 'jobs' | 'quotes' | 'batches' | 'readings'; readonly csv: string };

type Cell = string | number | null;
const csv = (header: readonly string[], rows: readonly (readonly Cell[])[]): string =>
  [header, ...rows].map((row) => `${row.map((cell) => csvCell(cell === null ? '' : String(cell))).join(',')}\r\n`).join('');
/** A length in meters to a tenth of a millimeter, without the noise of binary fractions. */
const decimals = (valueM: number): number => Number(valueM.toFixed(4));
const isHere = (row: { readonly deletedAt: string | null }): boolean => row.deletedAt === null;
const byId = <T extends { readonly id: string }>(rows: readonly T[]): ReadonlyMap<string, T> => new Map(rows.map((row) => [row.id, row]));

const customerCsv = ({ customers }: AccountRows): string =>
  csv(
    ['Customer', 'Phone', 'Email', 'Street address', 'City', 'State', 'ZIP code', 'Country', 'Notes'],
    customers.filter(isHere).map((c) => {
      const a = c.address;
      return [c.name, c.phone, c.email, a?.line ?? '', a?.city ?? '', a?.region ?? '', a?.zip ?? '', a?.country ?? '', c.notes];
    }),
  );

/** The lists: customers, jobs, quotes, placed batches, and readings. */
export function accountLists(rows: AccountRows): AccountList[] {
  const [customers, properties, rooms, jobs, pours] = [
    byId(rows.customers),
    byId(rows.properties),
    byId(rows.rooms),
    byId(rows.jobs),
    byId(rows.pours),
  ];
  const who = (job: Job | undefined): string => customers.get(job?.customerId ?? '')?.name ?? '';
  const where = (job: Job | undefined): string => properties.get(job?.propertyId ?? '')?.address.line ?? '';
  const number = (jobId: string): string => jobs.get(jobId)?.number ?? '';
  const undone = new Set(rows.pourEvents.flatMap((event) => (event.kind === 'undone' ? [event.eventId] : [])));
  const batches = rows.pourEvents.flatMap((event) => {
    if (event.kind !== 'placed' || undone.has(event.id)) return [];
    const pour = pours.get(event.pourId);
    const ids = event.roomId === null ? (pour?.roomIds ?? []) : [event.roomId];
    const names = ids.map((id) => rooms.get(id)?.name ?? '').join('; ');
    return [[number(pour?.jobId ?? ''), names, event.instant, event.batch, event.bags]];
  });
  const readings = rows.rooms
    .filter(isHere)
    .flatMap((room) =>
      [room.survey, ...(room.surveyAfter === null ? [] : [room.surveyAfter])].flatMap((survey, after) =>
        survey.readings.map((r) => [
          properties.get(room.propertyId)?.address.line ?? '',
          room.name,
          after === 0 ? 'before' : 'after',
          survey.takenAt,
          survey.method,
          decimals(r.xM),
          decimals(r.yM),
          decimals(r.valueM),
          r.note,
        ]),
      ),
    );
  return [
    { name: 'customers', csv: customerCsv(rows) },
    {
      name: 'jobs',
      csv: csv(
        ['Job', 'Title', 'Customer', 'Property', 'State', 'Rooms', 'Created'],
        rows.jobs
          .filter(isHere)
          .map((job) => [
            job.number,
            job.title,
            who(job),
            where(job),
            job.state,
            job.rooms.map((r) => rooms.get(r.roomId)?.name ?? '').join('; '),
            job.createdAt,
          ]),
      ),
    },
    {
      name: 'quotes',
      csv: csv(
        ['Job', 'Customer', 'Revision', 'Issued', 'Valid until', 'State', 'Total', 'Currency'],
        rows.quotes.map((q) => [
          number(q.jobId),
          who(jobs.get(q.jobId)),
          q.revision,
          q.issuedAt,
          q.validUntil,
          q.state,
          decimalMoney(q.totalMinor, q.currency),
          q.currency,
        ]),
      ),
    },
    { name: 'batches', csv: csv(['Job', 'Rooms', 'Placed at', 'Batch', 'Bags'], batches) },
    {
      name: 'readings',
      csv: csv(['Property', 'Room', 'Before or after', 'Taken at', 'Method', 'Across (m)', 'Down (m)', 'Reading (m)', 'Note'], readings),
    },
  ];
}
