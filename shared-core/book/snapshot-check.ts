/** What in a book does not hold together: records that cannot be read, point to nothing, or counters that lag. Nothing is removed. */
import { checkRow } from './rows.ts';
import type { StoredRow } from './migrations/list.ts';
import type { BookRows } from './snapshot.ts';
import { TABLE_NAMES, type TableName } from './tables.ts';

export type Oddity = {
  readonly table: TableName;
  readonly id: string;
  /** What is odd, and what it means. */
  readonly says: string;
};

/** Fields that name a record of another table. `null` in such a field means there is none. */
const REFERENCES: Readonly<Partial<Record<TableName, Readonly<Record<string, TableName>>>>> = {
  properties: { clientId: 'clients' },
  rooms: { propertyId: 'properties' },
  jobs: { clientId: 'clients', propertyId: 'properties' },
  quotes: { jobId: 'jobs' },
  pours: { jobId: 'jobs' },
  pourEvents: { pourId: 'pours' },
  cureLogs: { jobId: 'jobs', roomId: 'rooms' },
  promises: { jobId: 'jobs', roomId: 'rooms' },
  coverTests: { jobId: 'jobs', roomId: 'rooms' },
  visits: { jobId: 'jobs' },
  documents: { jobId: 'jobs', quoteId: 'quotes' },
  photos: { jobId: 'jobs', roomId: 'rooms' },
  calendarEntries: { jobId: 'jobs' },
};

const WORDS: Readonly<Record<TableName, string>> = {
  business: 'business',
  clients: 'customer',
  properties: 'house',
  rooms: 'room',
  jobs: 'job',
  materials: 'material',
  quotes: 'quote',
  pours: 'pour',
  pourEvents: 'entry of a pour',
  cureLogs: 'cure log',
  promises: 'promise',
  coverTests: 'covering test',
  visits: 'visit',
  documents: 'paper',
  photos: 'photo',
  calendarEntries: 'calendar entry',
};

const idOf = (row: StoredRow): string => String(row['id']);

const numberOf = (job: StoredRow): string => (typeof job['number'] === 'string' ? job['number'] : '');

const missing = (what: string, target: TableName): string =>
  `This ${what} belongs to a ${WORDS[target]} that is not in the book. It is kept, but no sheet shows it.`;

const jobRooms = (row: StoredRow): readonly unknown[] => {
  const { rooms } = row as { readonly rooms?: unknown };
  return Array.isArray(rooms) ? rooms : [];
};

/** The serial at the end of a job's number, `26-031`; null when it has none. */
const serialOf = (row: StoredRow): number | null => {
  const found = /(\d{1,9})$/.exec(numberOf(row));
  return found === null ? null : Number(found[1]);
};

const repeatedNumbers = (rows: BookRows): Oddity[] => {
  const found: Oddity[] = [];
  const byNumber = new Map<string, string>();
  for (const job of rows.jobs) {
    const number = numberOf(job);
    if (byNumber.has(number))
      found.push({
        table: 'jobs',
        id: idOf(job),
        says: `Two jobs carry the number ${number}. Give one of them another before its quote goes out.`,
      });
    byNumber.set(number, idOf(job));
  }
  return found;
};

const laggingCounter = (rows: BookRows): Oddity[] => {
  const [business] = rows.business;
  if (business === undefined) return [];
  const next = business['nextJobSerial'];
  const year = Math.max(0, ...rows.jobs.map((job) => Number(/^(\d+)-/.exec(numberOf(job))?.[1] ?? 0)));
  const highest = Math.max(0, ...rows.jobs.filter((job) => numberOf(job).startsWith(`${year}-`)).map((job) => serialOf(job) ?? 0));
  if (typeof next !== 'number' || next > highest) return [];
  return [
    {
      table: 'business',
      id: idOf(business),
      says: `The next job would take the number ${next}, but ${highest} is taken. Look at the number when the next job starts.`,
    },
  ];
};

/**
 * Lists what is odd in a book: rows a schema refuses, references to records that are not there, repeated numbers, a lagging counter.
 * @param rows the whole book
 */
export function checkBookRows(rows: BookRows): Oddity[] {
  const ids = new Map<TableName, Set<string>>(TABLE_NAMES.map((table) => [table, new Set(rows[table].map(idOf))]));
  const found: Oddity[] = [];
  for (const table of TABLE_NAMES) {
    const references = Object.entries(REFERENCES[table] ?? {});
    for (const row of rows[table]) {
      const check = checkRow(table, row);
      if (!check.ok) {
        const where = check.where === '' ? '' : ` (${check.where})`;
        found.push({ table, id: idOf(row), says: `This ${WORDS[table]} cannot be read${where}: ${check.message} It is kept as it is.` });
        continue;
      }
      for (const [field, target] of references) {
        const id = row[field];
        if (typeof id === 'string' && ids.get(target)?.has(id) !== true)
          found.push({ table, id: idOf(row), says: missing(WORDS[table], target) });
      }
      if (table !== 'jobs') continue;
      for (const room of jobRooms(row)) {
        const { roomId } = room as { readonly roomId?: unknown };
        if (typeof roomId === 'string' && ids.get('rooms')?.has(roomId) !== true)
          found.push({
            table,
            id: idOf(row),
            says: 'This job lists a room that is not in the book. The job is kept; the room is left out of its sheets.',
          });
      }
    }
  }
  return [...found, ...repeatedNumbers(rows), ...laggingCounter(rows)];
}
