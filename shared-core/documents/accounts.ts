/** Lists of the book as comma-separated values (RFC 4180), for whoever keeps the accounts: figures plain, money in decimals, instants in UTC. */
import type { Customer } from '../book/customer.ts';
import type { Job } from '../book/job.ts';
import type { Pour, PourEvent } from '../book/pour-record.ts';
import type { Property } from '../book/property.ts';
import type { Quote } from '../book/quote.ts';
import type { Room } from '../book/room.ts';
import { csvCell } from '../material/shopping-csv.ts';
import { decimalMoney } from '../price/money.ts';

/** What the lists are made from. Records put away are left out, but for those that others name. */
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
const isHere = (row: { readonly deletedAt: string | null }): boolean => row.deletedAt === null;
const byId = <T extends { readonly id: string }>(rows: readonly T[]): ReadonlyMap<string, T> => new Map(rows.map((row) => [row.id, row]));

const customerCsv = ({ customers }: AccountRows): string =>
  csv(
    ['Customer', 'Phone', 'E-mail', 'Street', 'City', 'Region', 'Zip', 'Country', 'Notes'],
    customers.filter(isHere).map((c) => {
      const a = c.address;
      return [c.name, c.phone, c.email, a?.line ?? '', a?.city ?? '', a?.region ?? '', a?.zip ?? '', a?.country ?? '', c.notes];
    }),
  );

/** The lists: customers, jobs, quotes, batches as they were mixed, and readings of the floors. */
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
    if (event.kind !== 'mixed' || undone.has(event.id)) return [];
    const pour = pours.get(event.pourId);
    const names = (pour?.roomIds ?? []).map((id) => rooms.get(id)?.name ?? '').join('; ');
    return [[number(pour?.jobId ?? ''), names, event.at, event.batch, event.bags, event.waterL]];
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
          r.xM,
          r.yM,
          r.valueM,
          r.note,
        ]),
      ),
    );
  return [
    { name: 'customers', csv: customerCsv(rows) },
    {
      name: 'jobs',
      csv: csv(
        ['Number', 'Title', 'Customer', 'House', 'State', 'Rooms', 'Begun'],
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
    { name: 'batches', csv: csv(['Job', 'Rooms', 'Mixed at', 'Batch', 'Bags', 'Water (L)'], batches) },
    {
      name: 'readings',
      csv: csv(['House', 'Room', 'Pour', 'Taken at', 'Method', 'Across (m)', 'Down (m)', 'Reading (m)', 'Note'], readings),
    },
  ];
}
