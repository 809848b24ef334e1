/**
 * The steps from one version of the book to the next: one file a version beside this one, append-only, pure row functions.
 * Version 1 is the first, so the list is empty until the records change for the first time.
 */
import type { TableName } from '../tables.ts';

/** A row as it was stored, not yet checked against any schema. */
export type StoredRow = Readonly<Record<string, unknown>>;

export type Migration = {
  /** The version this step leads to. */
  readonly to: number;
  /** One pure function a table whose rows change. */
  readonly rows: Partial<Record<TableName, (row: StoredRow) => StoredRow>>;
};

export const MIGRATIONS: readonly Migration[] = [];

/**
 * Carries one stored row from a version to another through every step between them.
 * @throws RangeError when the list has a gap: the program itself is wrong then, not the book.
 */
export function migrateRow(
  table: TableName,
  row: StoredRow,
  from: number,
  to: number,
  steps: readonly Migration[] = MIGRATIONS,
): StoredRow {
  let current = row;
  for (let version = from + 1; version <= to; version += 1) {
    const step = steps.find((s) => s.to === version);
    if (step === undefined) throw new RangeError(`There is no step to version ${version}.`);
    current = step.rows[table]?.(current) ?? current;
  }
  return current;
}
