/** A whole book packed in memory, and read back whole. */
import { type OpenedBook, openBookBytes } from '../../../../main/desk/snapshots/read-book.ts';
import { BookWriter } from '../../../../main/desk/snapshots/write-book.ts';
import type { StoredRow } from '../../../../shared-core/book/migrations/list.ts';
import type { BookRows } from '../../../../shared-core/book/snapshot.ts';
import { TABLE_NAMES } from '../../../../shared-core/book/tables.ts';
import type { Parsed } from '../../../../shared-core/measure/parsed.ts';

export const AT = '2026-05-12T11:05:00.000Z';
export const byId = (rows: readonly StoredRow[]) => [...rows].sort((a, b) => (String(a['id']) < String(b['id']) ? -1 : 1));
export const emptyBook = (): BookRows => Object.fromEntries(TABLE_NAMES.map((t) => [t, []])) as unknown as BookRows;

/** The bytes of a copy, its photos inside. */
export function packRows(rows: BookRows, pictures: ReadonlyMap<string, Uint8Array> = new Map(), beside: readonly string[] = []): Buffer {
  const writer = new BookWriter(AT, 'asked');
  for (const table of TABLE_NAMES) writer.add(table, byId(rows[table]));
  for (const [name, bytes] of pictures) writer.addPicture(name, bytes);
  writer.finish(beside);
  return writer.take();
}

/** Every row of an opened copy. */
export function rowsOf(book: OpenedBook): BookRows {
  return Object.fromEntries(TABLE_NAMES.map((table) => [table, book.rows(table, 0, Number.MAX_SAFE_INTEGER)])) as unknown as BookRows;
}

export function unpackRows(bytes: Uint8Array): Parsed<BookRows> {
  const book = openBookBytes(bytes);
  return book.ok ? { ok: true, value: rowsOf(book.value) } : book;
}
