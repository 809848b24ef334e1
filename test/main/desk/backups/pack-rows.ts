/** Packs all data in memory and reads it back. */
import { type OpenedBackup, openBackupBytes } from '../../../../main/desk/backups/read-backup.ts';
import { BackupWriter } from '../../../../main/desk/backups/write-backup.ts';
import type { StoredRow } from '../../../../shared-core/book/migrations/all-steps.ts';
import { type BookRows, rangeText } from '../../../../shared-core/book/backup.ts';
import { TABLE_NAMES, type TableName } from '../../../../shared-core/book/tables.ts';
import type { Parsed } from '../../../../shared-core/measure/parsed.ts';

export const AT = '2026-05-12T11:05:00.000Z';
export const DATASET = '0a1b2c3d';
export const NAMING = { dataset: DATASET, madeAt: AT, reason: 'manual' } as const;
/** Small ranges, so that a table has several. */
const RANGE = 7;
export const byId = (rows: readonly StoredRow[]) => [...rows].sort((a, b) => (String(a['id']) < String(b['id']) ? -1 : 1));
export const emptyBook = (): BookRows => Object.fromEntries(TABLE_NAMES.map((t) => [t, []])) as unknown as BookRows;

/** Rows as one range of a backup. */
export const rangeBytes = (rows: readonly unknown[]): Buffer => Buffer.from(rangeText(rows.map((row) => JSON.stringify(row))));
/** The rows of a table in a backup. */
export const tableOf = (backup: OpenedBackup, table: TableName): unknown =>
  JSON.parse(backup.rows(table, 0, Number.MAX_SAFE_INTEGER).bytes.toString());

export function packRows(rows: BookRows, pictures: ReadonlyMap<string, Uint8Array> = new Map(), beside: readonly string[] = []): Buffer {
  const writer = new BackupWriter(NAMING);
  for (const table of TABLE_NAMES)
    for (let from = 0; from < rows[table].length; from += RANGE) writer.add(table, rangeBytes(byId(rows[table]).slice(from, from + RANGE)));
  for (const [name, bytes] of pictures) writer.addPicture(name, Buffer.from(bytes));
  writer.finish(beside);
  return writer.take();
}

export function rowsOf(book: OpenedBackup): BookRows {
  return Object.fromEntries(TABLE_NAMES.map((table) => [table, tableOf(book, table)])) as unknown as BookRows;
}

export function unpackRows(bytes: Uint8Array): Parsed<BookRows> {
  const book = openBackupBytes(bytes);
  return book.ok ? { ok: true, value: rowsOf(book.value) } : book;
}
