/**
 * Importing chosen customers and jobs of a backup: new, equal and different records, and those to write. A customer includes
 * properties and rooms; a job includes its own records and its parents. Nothing is removed: records are merged by id, and
 * different ones field by field.
 */
import { type Held, idOf, Index, rowKey, text } from './book-index.ts';
import { differences, isSame, mergeRows, type FieldDifference } from './merge-records.ts';
import type { StoredRow } from './migrations/all-steps.ts';
import { jobNumber } from './new-records.ts';
import { checkRow } from './rows.ts';
import type { BookRows } from './backup.ts';
import type { TableName } from './tables.ts';

export type ImportLine = {
  readonly kind: 'customer' | 'job';
  readonly id: string;
  readonly name: string;
  /** `new`: not in your data; `same`: equal; `clash`: different. */
  readonly state: 'new' | 'same' | 'clash';
  /** When it last changed in your data and in the backup, for a conflict; instants in UTC. */
  readonly inBook: string | null;
  readonly inCopy: string;
};

export type ImportPlan = {
  readonly puts: readonly Held[];
  /** How many of the chosen customers and jobs have a record among them. */
  readonly items: number;
  /** Jobs that get another number, because theirs is already used. */
  readonly renumbered: readonly { readonly from: string; readonly to: string }[];
  /** Numbers that two jobs or two invoices have now, because the customers have papers with them. */
  readonly shared: { readonly jobs: readonly string[]; readonly invoices: readonly string[] };
  /** Records that cannot be read and are not imported. */
  readonly left: number;
};

/** A record's parents, and its name in lists. */
const BRIEF_KEYS = ['id', 'customerId', 'propertyId', 'jobId', 'pourId', 'name', 'number', 'title', 'changedAt', 'deletedAt'] as const;

/** A summary of a record: enough to list it, to find its children and to compare two. All summaries fit in memory. */
export function briefRow(row: StoredRow): StoredRow {
  const print = new Print();
  print.add(JSON.stringify(row));
  return { ...Object.fromEntries(BRIEF_KEYS.filter((key) => key in row).map((key) => [key, row[key]])), print: print.text() };
}

const isHere = (row: StoredRow): boolean => row['deletedAt'] === null || row['deletedAt'] === undefined;
const lastChange = (records: readonly Held[]): string =>
  records.reduce((latest, { row }) => (text(row, 'changedAt') > latest ? text(row, 'changedAt') : latest), '');

/**
 * Every customer and job of a backup compared with your data: customers by name, jobs by number, the newest first. Both are full
 * records, or both are summaries.
 */
export function importLines(copyRows: BookRows, presentRows: BookRows): ImportLine[] {
  const [copy, present] = [new Index(copyRows), new Index(presentRows)];
  const line = (kind: ImportLine['kind'], id: string, name: string, theirs: readonly Held[], ours: readonly Held[]): ImportLine => {
    const isNew = present.get(kind === 'job' ? 'jobs' : 'customers', id) === undefined;
    const equal = theirs.every(({ table, row }) => isSame(present.get(table, idOf(row)), row));
    return {
      kind,
      id,
      name,
      state: isNew ? 'new' : equal ? 'same' : 'clash',
      inBook: isNew ? null : lastChange(ours),
      inCopy: lastChange(theirs),
    };
  };
  const customers = copyRows.customers
    .filter(isHere)
    .map((row) => line('customer', idOf(row), text(row, 'name'), copy.customer(idOf(row)), present.customer(idOf(row))))
    .sort((a, b) => (a.name < b.name ? -1 : 1));
  const jobs = copyRows.jobs
    .filter(isHere)
    .sort((a, b) => (text(a, 'number') < text(b, 'number') ? 1 : -1))
    .map((row) => {
      const customer = text(copy.get('customers', text(row, 'customerId')), 'name');
      const name = [text(row, 'number'), customer, text(row, 'title')].filter((part) => part !== '').join(', ');
      return line('job', idOf(row), name, copy.job(idOf(row)), present.job(idOf(row)));
    });
  return [...customers, ...jobs];
}

/** Adds every text of a record, at any depth, to a set: a record can name another in any field. */
export function stringsIn(value: unknown, into: Set<string>): void {
  if (typeof value === 'string') into.add(value);
  else if (Array.isArray(value)) for (const item of value) stringsIn(item, into);
  else if (typeof value === 'object' && value !== null) for (const item of Object.values(value)) stringsIn(item, into);
}

/** Your jobs and ledger entries, in full or as summaries: their numbers are used. */
export type Numbered = Pick<BookRows, 'jobs' | 'ledger'>;

/**
 * Gives new jobs with a used number another one, after the highest of that year. A job keeps a number that is on papers.
 * @param issued ids of those jobs
 */
const renumber = (written: Map<string, Held>, numbered: readonly StoredRow[], issued: ReadonlySet<string>) => {
  const jobs = [...written].filter(([, { table }]) => table === 'jobs');
  const rank = (row: StoredRow): number => (issued.has(idOf(row)) ? 0 : 1);
  const used = [...numbered, ...jobs.map(([, { row }]) => row)].map((row) => text(row, 'number'));
  const taken = new Map(numbered.map((row) => [text(row, 'number'), idOf(row)]));
  const renumbered: { from: string; to: string }[] = [];
  const shared: string[] = [];
  for (const [key, { table, row }] of jobs.sort(([, a], [, b]) => rank(a.row) - rank(b.row))) {
    const number = text(row, 'number');
    const holder = taken.get(number);
    if (holder === undefined || holder === idOf(row)) taken.set(number, idOf(row));
    else if (issued.has(idOf(row))) shared.push(number);
    else {
      const [prefix = ''] = number.split('-');
      const serials = used.filter((n) => n.startsWith(`${prefix}-`)).map((n) => Number(n.split('-').at(-1)));
      const serial = jobNumber(2000, Math.max(0, ...serials.filter(Number.isFinite)) + 1).split('-');
      const to = `${prefix}-${serial.at(-1) ?? ''}`;
      used.push(to);
      renumbered.push({ from: number, to });
      written.set(key, { table, row: { ...row, number: to } });
    }
  }
  return { renumbered, shared };
};

/** Numbers of imported invoices that another invoice of yours has. */
const sharedInvoices = (written: Iterable<Held>, ledger: readonly StoredRow[]): string[] => {
  const holders = new Map(ledger.filter((row) => text(row, 'number') !== '').map((row) => [text(row, 'number'), idOf(row)]));
  return [...written].flatMap(({ table, row }) => {
    const holder = table === 'ledger' ? holders.get(text(row, 'number')) : undefined;
    return holder === undefined || holder === idOf(row) ? [] : [text(row, 'number')];
  });
};

/** Customers and jobs of a backup, by id. */
export type Chosen = { readonly customers: ReadonlySet<string>; readonly jobs: ReadonlySet<string> };

/**
 * The records that an import reads, of both sides, by `rowKey`. @param copyRows the backup, in full or as summaries; the same for your data
 */
export function importKeys(copyRows: BookRows, presentRows: BookRows, chosen: Chosen): ReadonlySet<string> {
  const [copy, present] = [new Index(copyRows), new Index(presentRows)];
  const records = [
    ...[...chosen.customers].flatMap((id) => copy.customer(id)),
    ...[...chosen.jobs].flatMap((id) => [...copy.job(id), ...copy.under(id), ...present.job(id)]),
    // A job can refer to materials in any field, so all of it is searched.
    ...copyRows.materials.map((row) => ({ table: 'materials' as const, row })),
  ];
  return new Set(records.map(({ table, row }) => rowKey(table, row)));
}

/** A record that both have and that differs, with the fields in which it does and when each last changed. */
export type RecordClash = Held & {
  readonly key: string;
  readonly ours: StoredRow;
  readonly inBook: string;
  readonly inCopy: string;
  readonly fields: readonly FieldDifference[];
};

/** Which fields of a differing record are taken from the backup, by the record's key. */
export type TakenFields = ReadonlyMap<string, ReadonlySet<string>>;

/** The records of these customers and jobs, each once. */
function heldOf(copy: Index, { customers, jobs }: Chosen): readonly Held[] {
  const records = [
    ...[...customers].flatMap((id) => copy.customer(id)),
    ...[...jobs].flatMap((id) => [...copy.job(id), ...copy.under(id)]),
  ];
  return [...new Map(records.map((record) => [rowKey(record.table, record.row), record])).values()];
}

/** Entries of a pour log are never edited, so one on both sides is left as it is. */
const isLog = (table: TableName): boolean => table === 'pourEvents';

/** Every record of these that differs, with its fields side by side. */
export function importClashes(copyRows: BookRows, presentRows: BookRows, chosen: Chosen): readonly RecordClash[] {
  const present = new Index(presentRows);
  return heldOf(new Index(copyRows), chosen).flatMap(({ table, row }) => {
    const ours = present.get(table, idOf(row));
    if (ours === undefined || isLog(table) || isSame(ours, row)) return [];
    const fields = differences(ours, row);
    if (fields.length === 0) return [];
    return [{ table, row, ours, key: rowKey(table, row), inBook: text(ours, 'changedAt'), inCopy: text(row, 'changedAt'), fields }];
  });
}

/** The default for a different record: all fields of the side that changed last. */
export function suggestedFields(clash: RecordClash): ReadonlySet<string> {
  return new Set(clash.inCopy > clash.inBook ? clash.fields.map(({ path }) => path) : []);
}

/** New log entries get the next free numbers of their pour, in order. */
function numberEntries(written: Map<string, Held>, present: readonly StoredRow[]): void {
  const taken = new Map<string, Set<number>>();
  const numbers = (pourId: string): Set<number> => {
    const known = taken.get(pourId) ?? new Set<number>();
    taken.set(pourId, known);
    return known;
  };
  for (const row of present) numbers(text(row, 'pourId')).add(Number(row['seq']));
  const entries = [...written]
    .filter(([, { table }]) => table === 'pourEvents')
    .sort(([, a], [, b]) => Number(a.row['seq']) - Number(b.row['seq']));
  for (const [key, { table, row }] of entries) {
    const known = numbers(text(row, 'pourId'));
    const preferredSeq = Number(row['seq']);
    const seq = known.has(preferredSeq) ? Math.max(...known) + 1 : preferredSeq;
    known.add(seq);
    if (seq !== preferredSeq) written.set(key, { table, row: { ...row, seq } });
  }
}

/**
 * The records that an import writes. Nothing is removed. @param copyRows of the backup at least the records of `importKeys`; the
 * same for your data @param numbered every job and ledger entry of your data
 * @param fields for each record that differs, which fields come from the backup; a record that is not in it stays as it is
 */
export function importPlan(copyRows: BookRows, presentRows: BookRows, chosen: Chosen, numbered: Numbered, fields: TakenFields): ImportPlan {
  const [copy, present] = [new Index(copyRows), new Index(presentRows)];
  const written = new Map<string, Held>();
  let leftOut = 0;
  const write = ({ table, row }: Held): void => {
    const key = rowKey(table, row);
    const ours = present.get(table, idOf(row));
    const takenFields = fields.get(key);
    if (written.has(key) || (ours !== undefined && (isLog(table) || takenFields === undefined || takenFields.size === 0))) return;
    const merged = ours === undefined ? row : mergeRows(ours, row, takenFields ?? new Set());
    if (checkRow(table, merged).ok) written.set(key, { table, row: merged });
    else leftOut += 1;
  };
  for (const record of heldOf(copy, chosen)) write(record);
  const named = new Set<string>();
  for (const { row } of written.values()) stringsIn(row, named);
  for (const row of copyRows.materials)
    if (named.has(idOf(row)) && present.get('materials', idOf(row)) === undefined) write({ table: 'materials', row });
  numberEntries(written, presentRows.pourEvents);
  const papers = [...copyRows.quotes, ...copyRows.documents, ...presentRows.quotes, ...presentRows.documents];
  const { renumbered, shared } = renumber(written, numbered.jobs, new Set(papers.map((row) => text(row, 'jobId'))));
  const puts = [...written.values()];
  const isWritten = ({ table, row }: Held): boolean => written.has(rowKey(table, row));
  const none = new Set<string>();
  const items =
    [...chosen.customers].filter((id) => heldOf(copy, { customers: new Set([id]), jobs: none }).some(isWritten)).length +
    [...chosen.jobs].filter((id) => heldOf(copy, { customers: none, jobs: new Set([id]) }).some(isWritten)).length;
  return { puts, items, renumbered, shared: { jobs: shared, invoices: sharedInvoices(puts, numbered.ledger) }, left: leftOut };
}

/**
 * Whether two texts differ, by 106 bits that every character goes into: worked out at once, also within a transaction, which waits
 * for no checksum of the browser's. Two pairs of multiply-and-fold, each 53 bits of which are kept; it guards against edits, not
 * forgers.
 */
class Print {
  readonly #state = [0xdeadbeef, 0x41c6ce57, 0x9e3779b1, 0x85ebca77];

  /** Takes more of the text. */
  add(text: string): void {
    let [a = 0, b = 0, c = 0, d = 0] = this.#state;
    for (let i = 0; i < text.length; i += 1) {
      const code = text.charCodeAt(i);
      a = Math.imul(a ^ code, 2654435761);
      b = Math.imul(b ^ code, 1597334677);
      c = Math.imul(c ^ code, 2246822507) + b;
      d = Math.imul(d ^ code, 3266489909) + a;
    }
    this.#state.splice(0, 4, a, b, c, d);
  }

  /** The print of all that was taken, 32 hexadecimal digits. */
  text(): string {
    return this.#state.map((part) => (part >>> 0).toString(16).padStart(8, '0')).join('');
  }
}
