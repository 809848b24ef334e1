/**
 * The sample data with hostile text in every text field: markup, a spreadsheet formula, PDF operators, calendar lines and RTF, wherever the
 * schema accepts it.
 */
import { checkRow } from '../shared-core/book/rows.ts';
import { TABLE_NAMES, type TableName } from '../shared-core/book/tables.ts';
import type { SampleBook } from '../shared-core/sample/sample-book.ts';
import { sampleAt } from './sample-at.ts';

/** Short enough for the shortest text field; the number identifies the field. */
export const hostileText = (n: number): string =>
  `=${n}+cmd|' /C x'!A0 <img src=x data-hostile onerror=alert(1)> ) Tj /JS (x) {\\rtf1 \\b y} END:VEVENT, "z"; <b>`;
export const HOSTILE_MARK = "+cmd|' /C x'!A0";

type Json = null | boolean | number | string | Json[] | { [key: string]: Json };
/** Not replaced: ids of other records, which link the data, and enum values that are text. */
const IS_NAME = /(^id$|Id$|Ids$|^uid$|^key$|Key$|^sha256$|^mediaType$|^file$|^locale$|^currency$|^timeZone$|^number$|^flooring$|^frozen$)/;

/** Every path of a value that is text, except ids. */
const textPlaces = (value: Json, path: readonly (string | number)[] = []): (readonly (string | number)[])[] => {
  if (typeof value === 'string') return [path];
  if (Array.isArray(value)) return value.flatMap((item, i) => textPlaces(item, [...path, i]));
  if (value === null || typeof value !== 'object') return [];
  return Object.entries(value).flatMap(([key, item]) => (IS_NAME.test(key) ? [] : textPlaces(item, [...path, key])));
};
const withAt = (value: Json, path: readonly (string | number)[], text: string): Json => {
  const [first, ...rest] = path;
  if (first === undefined) return text;
  if (Array.isArray(value)) return value.map((item, i) => (i === first ? withAt(item, rest, text) : item));
  const object = value as { [key: string]: Json };
  return { ...object, [first]: withAt(object[first] ?? null, rest, text) };
};

/** @returns the data, and the number of fields with hostile text, by table */
export function hostileBook(now: string): { readonly book: SampleBook; readonly fields: ReadonlyMap<TableName, number> } {
  const book: Record<string, unknown> = { ...sampleAt(now) };
  const fields = new Map<TableName, number>();
  let n = 0;
  for (const table of TABLE_NAMES) {
    book[table] = (book[table] as readonly Json[]).map((row) => {
      // A quote's frozen records have the same fields.
      let hostile = row;
      for (const place of textPlaces(row)) {
        const tried = withAt(hostile, place, hostileText(n + 1));
        if (!checkRow(table, tried).ok) continue;
        n += 1;
        fields.set(table, (fields.get(table) ?? 0) + 1);
        hostile = tried;
      }
      return hostile;
    });
  }
  return { book: book as unknown as SampleBook, fields };
}
