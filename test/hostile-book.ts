/**
 * The sample book with hostile words in every text field: whatever its schema takes as text holds markup, a spreadsheet's
 * formula, a PDF's operators, a calendar's own lines and RTF. Fields are found by trying: where the schema takes the words, they stay.
 */
import { checkRow } from '../shared-core/book/rows.ts';
import { TABLE_NAMES, type TableName } from '../shared-core/book/tables.ts';
import type { SampleBook } from '../shared-core/sample/sample-book.ts';
import { sampleAt } from './sample-at.ts';

/** Short enough for the shortest text field; the number tells the fields apart. */
export const hostileText = (n: number): string =>
  `=${n}+cmd|' /C x'!A0 <img src=x data-hostile onerror=alert(1)> ) Tj /JS (x) {\\rtf1 \\b y} END:VEVENT, "z"; <b>`;
export const HOSTILE_MARK = "+cmd|' /C x'!A0";

type Json = null | boolean | number | string | Json[] | { [key: string]: Json };
/** Names of other records are text too, and the book hangs together by them; kinds of values that only happen to be text. */
const IS_NAME = /(^id$|Id$|Ids$|^uid$|^key$|Key$|^sha256$|^mediaType$|^file$|^locale$|^currency$|^timeZone$|^number$|^flooring$|^frozen$)/;

/** Every place of a value where text stands, but for names of records. */
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

/** @returns the book, and how many fields hold hostile words, by table */
export function hostileBook(now: string): { readonly book: SampleBook; readonly fields: ReadonlyMap<TableName, number> } {
  const book: Record<string, unknown> = { ...sampleAt(now) };
  const fields = new Map<TableName, number>();
  let n = 0;
  for (const table of TABLE_NAMES) {
    book[table] = (book[table] as readonly Json[]).map((row) => {
      // What a quote froze is the same records once more.
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
