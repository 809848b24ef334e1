/** Data problems: records that cannot be read or name a record that is missing, repeated numbers. Nothing is removed. */
import { frozenProblem } from './current-parts.ts';
import type { Quote } from './quote.ts';
import { checkRow } from './rows.ts';
import type { StoredRow } from './migrations/all-steps.ts';
import { pictureName } from './backup.ts';
import { TABLE_NAMES, type TableName } from './tables.ts';

export type DataProblem = {
  readonly table: TableName;
  readonly id: string;
  readonly kind: 'unreadable' | 'frozen' | 'orphan' | 'room-gone' | 'number' | 'number-issued' | 'no-picture';
  /** The problem and its effect, as sentences. */
  readonly message: string;
  /** The missing record: for `orphan` and `room-gone`. */
  readonly lacks?: { readonly table: TableName; readonly id: string };
};

/** Fields that name a record of another table. `null` in such a field means there is none. */
export const REFERENCES: Readonly<Partial<Record<TableName, Readonly<Record<string, TableName>>>>> = {
  properties: { customerId: 'customers' },
  rooms: { propertyId: 'properties' },
  jobs: { customerId: 'customers', propertyId: 'properties' },
  leads: { customerId: 'customers', propertyId: 'properties', jobId: 'jobs' },
  quotes: { jobId: 'jobs' },
  pours: { jobId: 'jobs' },
  pourEvents: { pourId: 'pours' },
  cureLogs: { jobId: 'jobs', roomId: 'rooms' },
  promises: { jobId: 'jobs', roomId: 'rooms' },
  clearanceTests: { jobId: 'jobs', roomId: 'rooms' },
  visits: { jobId: 'jobs' },
  ledger: { jobId: 'jobs' },
  documents: { jobId: 'jobs', quoteId: 'quotes', entryId: 'ledger' },
  photos: { jobId: 'jobs', roomId: 'rooms' },
  // An entry of a calendar file stays without its job, because the next file cancels it.
};

/** Name of one record of each table. */
export const RECORD_WORDS: Readonly<Record<TableName, string>> = {
  business: 'business',
  customers: 'customer',
  properties: 'property',
  rooms: 'room',
  jobs: 'job',
  leads: 'lead',
  materials: 'material',
  quotes: 'quote',
  pours: 'pour',
  pourEvents: 'pour log entry',
  cureLogs: 'log of room conditions',
  promises: 'promised date',
  clearanceTests: 'clearance test',
  visits: 'visit',
  ledger: 'ledger entry',
  documents: 'document',
  photos: 'photo',
  calendarEntries: 'calendar entry',
};

const idOf = (row: StoredRow): string => String(row['id']);

const numberOf = ({ number }: StoredRow): string => (typeof number === 'string' ? number : '');

const missing = (record: string, target: TableName): string =>
  `This ${record} belongs to a ${RECORD_WORDS[target]} that is missing. It is kept, but no screen shows it.`;

const jobRooms = (row: StoredRow): readonly unknown[] => {
  const { rooms } = row as { readonly rooms?: unknown };
  return Array.isArray(rooms) ? rooms : [];
};

type Numbered = { readonly id: string; readonly number: string };

/** The serial at the end of a job's number, `26-031`; 0 when it has none. */
const serialOf = (number: string): number => Number(/(\d{1,9})$/.exec(number)?.[1] ?? 0);

/**
 * Jobs that share a number. A job whose number is on a quote or a document keeps it, because the customer has it.
 * @param issued ids of those jobs
 */
const repeatedNumbers = (jobs: readonly Numbered[], issued: ReadonlySet<unknown>): DataProblem[] => {
  const keepers = new Map<string, Numbered>();
  for (const job of jobs) {
    const keeper = keepers.get(job.number);
    if (keeper === undefined || (!issued.has(keeper.id) && issued.has(job.id))) keepers.set(job.number, job);
  }
  return jobs
    .filter((job) => keepers.get(job.number) !== job)
    .map(({ id, number }): DataProblem => {
      const shared = `Two jobs have the number ${number}`;
      return issued.has(id)
        ? {
            table: 'jobs',
            id,
            kind: 'number-issued',
            message: `${shared}, and both have saved documents with it, so both keep it. Name the customer too when you refer to one of them.`,
          }
        : { table: 'jobs', id, kind: 'number', message: `${shared}. Give this one the next number before you send its quote.` };
    });
};

/** Invoices that share a number, each issued on another computer. Both customers have it, so both keep it. */
const repeatedInvoices = (invoices: readonly Numbered[]): DataProblem[] => {
  const first = new Map<string, Numbered>();
  for (const invoice of invoices) if (!first.has(invoice.number)) first.set(invoice.number, invoice);
  return invoices
    .filter((invoice) => first.get(invoice.number) !== invoice)
    .map(({ id, number }) => ({
      table: 'ledger',
      id,
      kind: 'number-issued',
      message: `Two invoices have the number ${number}, and both keep it. Name the customer too when you refer to one of them.`,
    }));
};

/** The lowest serial that the next job can have: after the highest of the newest year. */
export function leastJobSerial(jobs: readonly Pick<Numbered, 'number'>[]): number {
  const year = Math.max(0, ...yearsOf(jobs));
  return jobs.reduce((least, { number }) => (number.startsWith(`${year}-`) ? Math.max(least, serialOf(number) + 1) : least), 1);
}

const yearsOf = (jobs: readonly Pick<Numbered, 'number'>[]): Set<number> =>
  new Set(jobs.map((job) => Number(/^(\d+)-/.exec(job.number)?.[1] ?? 0)));

/** Checks data row by row and lists the problems at the end; holds only ids in memory. */
export type BookChecker = {
  readonly see: (table: TableName, row: StoredRow) => void;
  /** A photo file that exists, by its name. */
  readonly seePicture: (name: string) => void;
  readonly finish: () => DataProblem[];
};

type Pointing = { readonly table: TableName; readonly id: string; readonly lacks: { readonly table: TableName; readonly id: string } };

/**
 * Begins a check: rows a schema refuses, references to records that are not there, repeated numbers, photos without a
 * picture.
 */
export function bookChecker(): BookChecker {
  const ids = new Map<TableName, Set<string>>(TABLE_NAMES.map((table) => [table, new Set()]));
  const problems: DataProblem[] = [];
  const pointing: Pointing[] = [];
  const jobs: Numbered[] = [];
  const invoices: Numbered[] = [];
  const issued = new Set<unknown>();
  const photos: { readonly id: string; readonly name: string }[] = [];
  const pictures = new Set<string>();

  const point = (table: TableName, row: StoredRow, target: TableName, id: unknown): void => {
    if (typeof id === 'string') pointing.push({ table, id: idOf(row), lacks: { table: target, id } });
  };
  const seeFrozen = (quote: Quote): void => {
    const problem = frozenProblem(quote);
    if (problem === null) return;
    const message = `The records behind revision ${quote.revision} of this quote cannot be read (${problem.where}): ${problem.message} The quote itself is kept as issued.`;
    problems.push({ table: 'quotes', id: quote.id, kind: 'frozen', message });
  };
  const see = (table: TableName, row: StoredRow): void => {
    ids.get(table)?.add(idOf(row));
    if (table === 'quotes' || table === 'documents') issued.add(row['jobId']);
    const check = checkRow(table, row);
    if (!check.ok) {
      const position = check.where === '' ? '' : ` (${check.where})`;
      const message = `This ${RECORD_WORDS[table]} cannot be read${position}. ${check.message} It is kept unchanged.`;
      problems.push({ table, id: idOf(row), kind: 'unreadable', message });
      return;
    }
    if (table === 'quotes') seeFrozen(row as unknown as Quote);
    for (const [field, target] of Object.entries(REFERENCES[table] ?? {})) point(table, row, target, row[field]);
    if (table === 'photos') {
      const name = pictureName(row);
      if (name !== null) photos.push({ id: idOf(row), name });
    }
    if (table === 'ledger' && row['kind'] === 'invoice') invoices.push({ id: idOf(row), number: numberOf(row) });
    if (table !== 'jobs') return;
    jobs.push({ id: idOf(row), number: numberOf(row) });
    for (const room of jobRooms(row)) point('jobs', row, 'rooms', (room as { readonly roomId?: unknown }).roomId);
  };
  const finish = (): DataProblem[] => [
    ...problems,
    ...pointing
      .filter(({ lacks }) => ids.get(lacks.table)?.has(lacks.id) !== true)
      .map(
        (p): DataProblem =>
          p.table === 'jobs' && p.lacks.table === 'rooms'
            ? {
                ...p,
                kind: 'room-gone',
                message: 'This job has a room that is missing. The job is kept, and its screens leave the room out.',
              }
            : { ...p, kind: 'orphan', message: missing(RECORD_WORDS[p.table], p.lacks.table) },
      ),
    ...photos
      .filter(({ name }) => !pictures.has(name))
      .map(
        ({ id }): DataProblem => ({
          table: 'photos',
          id,
          kind: 'no-picture',
          message: 'The picture of this photo is missing. A backup may still have it.',
        }),
      ),
    ...repeatedNumbers(jobs, issued),
    ...repeatedInvoices(invoices),
  ];
  return { see, seePicture: (name) => void pictures.add(name), finish };
}
