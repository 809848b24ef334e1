/**
 * What in the book cannot be read or does not hold together. Every row is read through its schema before a view gets it; the whole
 * book is gone through in the background. Nothing is repaired or left out in silence.
 */
import { type DataProblem, bookChecker } from '../../shared-core/book/data-check.ts';
import { withCurrentParts } from '../../shared-core/book/current-parts.ts';
import { checkRow, type RowOf } from '../../shared-core/book/rows.ts';
import type { StoredRow } from '../../shared-core/book/migrations/list.ts';
import { TABLE_NAMES, type TableName } from '../../shared-core/book/tables.ts';
import { book } from './database.ts';

/** Rows read before, by what they are and when they last changed: each is checked once. */
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

/** Leaves out rows that their schema cannot read. */
export function readable<T extends TableName>(table: T, rows: RowOf<T>[]): RowOf<T>[] {
  return rows.filter((row) => isReadable(table, row)).map((row) => withCurrentParts(table, row));
}

/** Forgets what was read: another book stands in its place. */
export function forgetChecks(): void {
  checked.clear();
}

const PIECE = 100;

/**
 * Goes through the whole book a piece at a time, letting the screens go first.
 * @param pause resolves when there is time for the next piece; gives false to stop
 * @returns what is odd, or null when it was stopped
 */
export async function checkBook(pause: () => Promise<boolean> = () => Promise.resolve(true)): Promise<DataProblem[] | null> {
  const found = await goThrough(pause);
  if (found === null || found.length === 0) return found;
  // An edit between two pieces can look odd: what is odd is so when it is looked at again.
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
