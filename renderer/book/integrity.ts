/**
 * Finds records that cannot be read or do not fit together. Each row is validated before a view gets it, and all data is checked in the
 * background. Nothing is repaired or hidden without a report.
 */
import { type DataProblem, bookChecker } from '../../shared-core/book/data-check.ts';
import { withCurrentParts } from '../../shared-core/book/current-parts.ts';
import { checkRow, type RowOf } from '../../shared-core/book/rows.ts';
import type { StoredRow } from '../../shared-core/book/migrations/all-steps.ts';
import { TABLE_NAMES, type TableName } from '../../shared-core/book/tables.ts';
import { book } from './database.ts';

/** Validated rows by key and change time, so that each is validated once. */
const checked = new Map<string, boolean>();
const CHECKED_MOST = 400_000;

const word = (value: unknown): string => (typeof value === 'string' || typeof value === 'number' ? `${value}` : '');
const versionOf = (table: TableName, row: Readonly<Record<string, unknown>>): string =>
  `${book().name}/${table}/${word(row['id'])}/${word(row['changedAt'] ?? row['seq'])}`;

const isReadable = (table: TableName, row: Readonly<Record<string, unknown>>): boolean => {
  const version = versionOf(table, row);
  const known = checked.get(version);
  if (known !== undefined) return known;
  const check = checkRow(table, row);
  if (checked.size > CHECKED_MOST) checked.clear();
  checked.set(version, check.ok);
  return check.ok;
};

/** Removes rows that do not match their schema. */
export function readable<T extends TableName>(table: T, rows: RowOf<T>[]): RowOf<T>[] {
  return rows.filter((row) => isReadable(table, row)).map((row) => withCurrentParts(table, row));
}

/** Clears the cache when another database is opened. */
export function forgetChecks(): void {
  checked.clear();
}

const PIECE = 100;

/**
 * Checks all data a piece at a time.
 * @param pause resolves when there is time for the next piece; false stops
 * @returns the problems, or null when it was stopped
 */
export async function checkBook(pause: () => Promise<boolean> = () => Promise.resolve(true)): Promise<DataProblem[] | null> {
  const found = await goThrough(pause);
  if (found === null || found.length === 0) return found;
  // An edit between two pieces can look like a problem, so problems are checked again.
  const again = await goThrough(pause);
  if (again === null) return null;
  const still = new Set(again.map((oddity) => JSON.stringify(oddity)));
  return found.filter((oddity) => still.has(JSON.stringify(oddity)));
}

async function goThrough(pause: () => Promise<boolean>): Promise<DataProblem[] | null> {
  const checker = bookChecker();
  for (const table of TABLE_NAMES) {
    const rows = book().table<StoredRow, string>(table);
    for (let after = ''; ; ) {
      if (!(await pause())) return null;
      const piece = await rows.where(':id').above(after).limit(PIECE).toArray();
      for (const row of piece) checker.see(table, row);
      const last = piece.at(-1);
      if (last === undefined || piece.length < PIECE) break;
      after = String(last['id']);
    }
  }
  for (const name of await book().pictures.toCollection().primaryKeys()) checker.seePicture(name);
  return checker.finish();
}
