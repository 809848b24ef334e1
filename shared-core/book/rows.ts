/** The record type of each table, and reading one row through its schema. */
import type { z } from 'zod';
import { TABLES, type TableName } from './tables.ts';

export type RowOf<T extends TableName> = z.infer<(typeof TABLES)[T]['schema']>;

export type RowCheck<T extends TableName> = { ok: true; row: RowOf<T> } | { ok: false; where: string; message: string };

/**
 * Checks a row against its table's schema.
 * @param table the table the row belongs to
 * @param row anything
 * @returns the row, or the first thing wrong with it: where (`rooms.0.stage`) and a sentence.
 */
export function checkRow<T extends TableName>(table: T, row: unknown): RowCheck<T> {
  const result = TABLES[table].schema.safeParse(row);
  if (result.success) return { ok: true, row: result.data as RowOf<T> };
  const issue = result.error.issues[0];
  if (issue === undefined) return { ok: false, where: '', message: 'This record cannot be read.' };
  const message =
    issue.code === 'unrecognized_keys'
      ? `This record has a field that this version does not know: ${issue.keys.join(', ')}.`
      : issue.message;
  return { ok: false, where: issue.path.join('.'), message };
}
