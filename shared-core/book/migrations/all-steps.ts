/**
 * The steps from one version of the records to the next: one file per version beside this one, append-only, pure functions.
 * Version 1 is the first, so the list is empty until the records change for the first time.
 */
import type { z } from 'zod';
import { TABLES, type TableName } from '../tables.ts';
import { mapParts, partSchemas } from './parts.ts';

/** A row as it was stored, not yet checked against any schema. */
export type StoredRow = Readonly<Record<string, unknown>>;

export type Migration = {
  /** The version this step leads to. */
  readonly to: number;
  /**
   * Changes by schema, applied wherever the schema is embedded, such as an address in customers and properties. A step that moves
   * a part reads the old place in the function of the parent record.
   */
  readonly changes: readonly { readonly schema: z.ZodType; readonly change: (part: StoredRow) => StoredRow }[];
};

export const MIGRATIONS: readonly Migration[] = [];

/** Whether a step changes anything in the rows of a table. */
export function touchesTable(step: Migration, table: TableName): boolean {
  const parts = partSchemas(TABLES[table].schema);
  return step.changes.some(({ schema }) => parts.has(schema));
}

const takeStep = (table: TableName, row: StoredRow, step: Migration): StoredRow =>
  mapParts(row, TABLES[table].schema, (part, schema) =>
    step.changes.reduce((current, { schema: target, change }) => (target === schema ? change(current) : current), part as StoredRow),
  ) as StoredRow;

/**
 * Migrates one stored row through every step between two versions. @throws RangeError when the list has a gap, which is an error
 * in the program
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
    current = takeStep(table, current, step);
  }
  return current;
}
