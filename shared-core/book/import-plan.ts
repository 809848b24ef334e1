/**
 * Bringing chosen customers and jobs of a copy into a book that stands: what is new, what is the same, what clashes, and what
 * will be written. A customer comes with houses and rooms; a job with everything of its own. What a job stands on (customer,
 * house, rooms, materials) is added where the book lacks it and left alone where it does not.
 */
import type { StoredRow } from './migrations/list.ts';
import { jobNumber } from './new-records.ts';
import { Print } from './print.ts';
import { checkRow } from './rows.ts';
import type { BookRows } from './backup.ts';
import type { TableName } from './tables.ts';

type Held = { readonly table: TableName; readonly row: StoredRow };

export type ImportLine = {
  readonly kind: 'customer' | 'job';
  readonly id: string;
  readonly name: string;
  /** `new`: not in the book; `same`: nothing to bring; `clash`: the book's differs. */
  readonly state: 'new' | 'same' | 'clash';
  /** When it last changed in the book and in the copy, for a clash; instants in UTC. */
  readonly inBook: string | null;
  readonly inCopy: string;
};

export type ImportPlan = {
  readonly puts: readonly Held[];
  /** The book's own records that give way, where a job of the copy takes the place of the book's. */
  readonly removes: readonly { readonly table: TableName; readonly id: string }[];
  /** Jobs that take another number, because the book gave theirs to a job of its own. */
  readonly renumbered: readonly { readonly from: string; readonly to: string }[];
  /** Records that no schema can read: they stay in the copy. */
  readonly left: number;
};

const JOB_TABLES = [
  'quotes',
  'pours',
  'cureLogs',
  'promises',
  'clearanceTests',
  'visits',
  'documents',
  'photos',
  'calendarEntries',
] as const;

const text = (row: StoredRow | undefined, key: string): string => {
  const value = row?.[key];
  return typeof value === 'string' ? value : '';
};
const idOf = (row: StoredRow): string => text(row, 'id');

/** What one record hangs on, and what it is listed by. */
const BRIEF_KEYS = ['id', 'customerId', 'propertyId', 'jobId', 'pourId', 'name', 'number', 'title', 'changedAt', 'deletedAt'] as const;

/** A record in brief: enough to list it, to follow what hangs on it and to tell whether two are the same. A book of these is small. */
export function briefRow(row: StoredRow): StoredRow {
  const print = new Print();
  print.add(JSON.stringify(row));
  return { ...Object.fromEntries(BRIEF_KEYS.filter((key) => key in row).map((key) => [key, row[key]])), print: print.text() };
}

/** The key of a record among those of all tables. */
export function rowKey(table: TableName, row: StoredRow): string {
  return `${table}/${idOf(row)}`;
}

/** A book by id and by what its records hang on. */
class Index {
  private readonly byId = new Map<string, StoredRow>();
  private readonly hanging = new Map<string, Held[]>();

  constructor(rows: BookRows) {
    for (const [table, list] of Object.entries(rows) as [TableName, readonly StoredRow[]][])
      for (const row of list) this.byId.set(rowKey(table, row), row);
    const hang = (table: TableName, key: string): void => {
      for (const row of rows[table]) {
        const on = `${table}/${text(row, key)}`;
        const others = this.hanging.get(on);
        if (others === undefined) this.hanging.set(on, [{ table, row }]);
        else others.push({ table, row });
      }
    };
    for (const table of JOB_TABLES) hang(table, 'jobId');
    hang('pourEvents', 'pourId');
    hang('properties', 'customerId');
    hang('rooms', 'propertyId');
  }

  get(table: TableName, id: string): StoredRow | undefined {
    return this.byId.get(`${table}/${id}`);
  }

  private on(table: TableName, id: string): readonly Held[] {
    return this.hanging.get(`${table}/${id}`) ?? [];
  }

  /** A customer with houses and rooms. */
  customer(id: string): Held[] {
    const customer = this.get('customers', id);
    const houses = this.on('properties', id);
    return [
      ...(customer === undefined ? [] : [{ table: 'customers' as const, row: customer }]),
      ...houses,
      ...houses.flatMap(({ row }) => this.on('rooms', idOf(row))),
    ];
  }

  /** A job with everything of its own. */
  job(id: string): Held[] {
    const job = this.get('jobs', id);
    const own = JOB_TABLES.flatMap((table) => this.on(table, id));
    return [
      ...(job === undefined ? [] : [{ table: 'jobs' as const, row: job }]),
      ...own,
      ...own.filter((held) => held.table === 'pours').flatMap(({ row }) => this.on('pourEvents', idOf(row))),
    ];
  }

  /** What a job stands on: its customer, its house and that house's rooms. */
  under(id: string): Held[] {
    const job = this.get('jobs', id);
    const customer = this.get('customers', text(job, 'customerId'));
    const house = this.get('properties', text(job, 'propertyId'));
    return [
      ...(customer === undefined ? [] : [{ table: 'customers' as const, row: customer }]),
      ...(house === undefined ? [] : [{ table: 'properties' as const, row: house }, ...this.on('rooms', idOf(house))]),
    ];
  }
}

const same = (a: StoredRow | undefined, b: StoredRow): boolean => JSON.stringify(a) === JSON.stringify(b);
const isHere = (row: StoredRow): boolean => row['deletedAt'] === null || row['deletedAt'] === undefined;
const lastChange = (held: readonly Held[]): string =>
  held.reduce((latest, { row }) => (text(row, 'changedAt') > latest ? text(row, 'changedAt') : latest), '');

/**
 * Every customer and job of a copy, against the book: customers by name, jobs by number, the newest first. Both books whole, or both
 * in brief.
 */
export function importLines(copyRows: BookRows, presentRows: BookRows): ImportLine[] {
  const [copy, present] = [new Index(copyRows), new Index(presentRows)];
  const line = (kind: ImportLine['kind'], id: string, name: string, theirs: readonly Held[], ours: readonly Held[]): ImportLine => {
    const isNew = present.get(kind === 'job' ? 'jobs' : 'customers', id) === undefined;
    const equal = theirs.length === ours.length && theirs.every(({ table, row }) => same(present.get(table, idOf(row)), row));
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
      const who = text(copy.get('customers', text(row, 'customerId')), 'name');
      const name = [text(row, 'number'), who, text(row, 'title')].filter((part) => part !== '').join(', ');
      return line('job', idOf(row), name, copy.job(idOf(row)), present.job(idOf(row)));
    });
  return [...customers, ...jobs];
}

const stringsIn = (value: unknown, into: Set<string>): void => {
  if (typeof value === 'string') into.add(value);
  else if (Array.isArray(value)) for (const item of value) stringsIn(item, into);
  else if (typeof value === 'object' && value !== null) for (const item of Object.values(value)) stringsIn(item, into);
};

/** Gives the jobs that are new here and whose number is taken another, after the highest of that year. */
const renumber = (puts: Map<string, Held>, numbered: readonly StoredRow[]): { readonly from: string; readonly to: string }[] => {
  const taken = new Map(numbered.map((row) => [text(row, 'number'), idOf(row)]));
  const changed: { from: string; to: string }[] = [];
  for (const [key, { table, row }] of puts) {
    if (table !== 'jobs') continue;
    const number = text(row, 'number');
    const holder = taken.get(number);
    if (holder === undefined || holder === idOf(row)) {
      taken.set(number, idOf(row));
      continue;
    }
    const [prefix = ''] = number.split('-');
    const serials = [...taken.keys()].filter((n) => n.startsWith(`${prefix}-`)).map((n) => Number(n.split('-').at(-1)));
    const to = `${prefix}-${
      jobNumber(2000, Math.max(0, ...serials.filter(Number.isFinite)) + 1)
        .split('-')
        .at(-1) ?? ''
    }`;
    taken.set(to, idOf(row));
    changed.push({ from: number, to });
    puts.set(key, { table, row: { ...row, number: to } });
  }
  return changed;
};

/** Customers and jobs of a copy, by id. */
export type Chosen = { readonly customers: ReadonlySet<string>; readonly jobs: ReadonlySet<string> };

/**
 * The records that bringing these in reads, of both books, by `rowKey`.
 * @param copyRows the copy, whole or in brief; so for the book
 */
export function importKeys(copyRows: BookRows, presentRows: BookRows, chosen: Chosen): ReadonlySet<string> {
  const [copy, present] = [new Index(copyRows), new Index(presentRows)];
  const held = [
    ...[...chosen.customers].flatMap((id) => copy.customer(id)),
    ...[...chosen.jobs].flatMap((id) => [...copy.job(id), ...copy.under(id), ...present.job(id)]),
    // A job names its materials anywhere within it; there are few.
    ...copyRows.materials.map((row) => ({ table: 'materials' as const, row })),
  ];
  return new Set(held.map(({ table, row }) => rowKey(table, row)));
}

/**
 * What bringing these in would write.
 * @param copyRows of the copy at least what `importKeys` names; so for the book
 * @param numbered every job of the book, whole or in brief: their numbers are taken
 */
export function importPlan(copyRows: BookRows, presentRows: BookRows, chosen: Chosen, numbered: readonly StoredRow[]): ImportPlan {
  const [copy, present] = [new Index(copyRows), new Index(presentRows)];
  const puts = new Map<string, Held>();
  const removes = new Map<string, { table: TableName; id: string }>();
  let left = 0;
  const take = (held: Held, over: boolean): void => {
    const key = rowKey(held.table, held.row);
    const ours = present.get(held.table, idOf(held.row));
    if (puts.has(key) || (ours !== undefined && (!over || same(ours, held.row)))) return;
    if (checkRow(held.table, held.row).ok) puts.set(key, held);
    else left += 1;
  };
  for (const id of chosen.customers) for (const held of copy.customer(id)) take(held, true);
  for (const id of chosen.jobs) {
    const theirs = copy.job(id);
    for (const held of theirs) take(held, true);
    for (const held of copy.under(id)) take(held, false);
    const kept = new Set(theirs.map(({ table, row }) => rowKey(table, row)));
    for (const { table, row } of present.job(id))
      if (!kept.has(rowKey(table, row))) removes.set(rowKey(table, row), { table, id: idOf(row) });
  }
  const named = new Set<string>();
  for (const { row } of puts.values()) stringsIn(row, named);
  for (const row of copyRows.materials) if (named.has(idOf(row))) take({ table: 'materials', row }, false);
  const renumbered = renumber(puts, numbered);
  return { puts: [...puts.values()], removes: [...removes.values()], renumbered, left };
}
