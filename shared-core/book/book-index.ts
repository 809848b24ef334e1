/** Records by id, and the records of each customer and job. */
import type { BookRows } from './backup.ts';
import type { StoredRow } from './migrations/all-steps.ts';
import type { TableName } from './tables.ts';

/** A record with the table it is in. */
export type Held = { readonly table: TableName; readonly row: StoredRow };

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
  'ledger',
  'leads',
] as const;

/** A text of a record; empty where it has none of that name. */
export const text = (row: StoredRow | undefined, key: string): string => {
  const value = row?.[key];
  return typeof value === 'string' ? value : '';
};
/** A record's id. */
export const idOf = (row: StoredRow): string => text(row, 'id');

/** The key of a record among those of all tables. */
export function rowKey(table: TableName, row: StoredRow): string {
  return `${table}/${idOf(row)}`;
}

/** Records by id and by their parent records. */
export class Index {
  private readonly byId = new Map<string, StoredRow>();
  private readonly hanging = new Map<string, Held[]>();

  constructor(rows: BookRows) {
    for (const [table, list] of Object.entries(rows) as [TableName, readonly StoredRow[]][])
      for (const row of list) this.byId.set(rowKey(table, row), row);
    const hang = (table: TableName, key: string): void => {
      for (const row of rows[table]) {
        const parentKey = `${table}/${text(row, key)}`;
        const others = this.hanging.get(parentKey);
        if (others === undefined) this.hanging.set(parentKey, [{ table, row }]);
        else others.push({ table, row });
      }
    };
    for (const table of JOB_TABLES) hang(table, 'jobId');
    hang('leads', 'customerId');
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

  /** A customer with properties, rooms, and leads that are no job yet. */
  customer(id: string): Held[] {
    const customer = this.get('customers', id);
    const houses = this.on('properties', id);
    const isHere = (propertyId: string): boolean => propertyId === '' || houses.some(({ row }) => idOf(row) === propertyId);
    const leads = this.on('leads', id).filter(({ row }) => text(row, 'jobId') === '' && isHere(text(row, 'propertyId')));
    return [
      ...(customer === undefined ? [] : [{ table: 'customers' as const, row: customer }]),
      ...houses,
      ...houses.flatMap(({ row }) => this.on('rooms', idOf(row))),
      ...leads,
    ];
  }

  /** A job with its own records. */
  job(id: string): Held[] {
    const job = this.get('jobs', id);
    const own = JOB_TABLES.flatMap((table) => this.on(table, id));
    return [
      ...(job === undefined ? [] : [{ table: 'jobs' as const, row: job }]),
      ...own,
      ...own.filter((record) => record.table === 'pours').flatMap(({ row }) => this.on('pourEvents', idOf(row))),
    ];
  }

  /** The records a job needs: its customer, its property and the property's rooms. */
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
