/** What in the book cannot be read. Such rows are kept as they are, left out of every view, counted and shown. */
import { checkRow, type RowOf } from '../../shared-core/book/rows.ts';
import { TABLE_NAMES, type TableName } from '../../shared-core/book/tables.ts';
import { book } from './database.ts';

export type Unreadable = { readonly table: TableName; readonly id: string; readonly where: string; readonly message: string };

const unreadable = new Map<string, Unreadable>();
const keyOf = (table: TableName, id: unknown): string => `${table}/${String(id)}`;

/** Leaves out rows that the last check could not read. */
export function readable<T extends TableName>(table: T, rows: RowOf<T>[]): RowOf<T>[] {
  return unreadable.size === 0 ? rows : rows.filter((row) => !unreadable.has(keyOf(table, row.id)));
}

/** What the last check could not read. */
export function unreadableRows(): Unreadable[] {
  return [...unreadable.values()];
}

/** Reads every row through its schema and remembers those that fail. Writes nothing. */
export async function checkBook(): Promise<Unreadable[]> {
  unreadable.clear();
  for (const table of TABLE_NAMES) {
    await book()
      .table<{ id?: unknown }>(table)
      .each((row) => {
        const check = checkRow(table, row);
        if (!check.ok) unreadable.set(keyOf(table, row.id), { table, id: String(row.id), where: check.where, message: check.message });
      });
  }
  return unreadableRows();
}
