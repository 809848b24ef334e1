/**
 * The sample data with hostile text in every text field: markup, a spreadsheet formula, PDF operators, calendar lines and RTF, wherever the
 * schema accepts it.
 */
import { TABLE_NAMES, type TableName, TABLES } from '../shared-core/book/tables.ts';
import { sampleBook } from '../shared-core/sample/sample-book.ts';
import type { SampleBook } from '../shared-core/sample/whole-jobs.ts';

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
  const book: Record<string, unknown> = { ...sampleBook(now) };
  const fields = new Map<TableName, number>();
  let n = 0;
  for (const table of TABLE_NAMES) {
    book[table] = (book[table] as readonly Json[]).map((row) => {
      // A quote's frozen records have the same fields.
      const places = textPlaces(row);
      const first = n + 1;
      n += places.length;
      const withHostile = (chosen: ReadonlySet<number>): Json =>
        [...chosen].reduce((now, i) => withAt(now, places[i] ?? [], hostileText(first + i)), row);
      // All at once; then without those that the schema names. Those it names only by a record around them are tried alone.
      const taken = new Set(places.keys());
      const unsure = new Set<number>();
      const schema = TABLES[table].schema;
      for (let { error } = schema.safeParse(withHostile(taken)); error !== undefined; ) {
        for (const { path } of error.issues)
          for (const i of taken) {
            if (!path.every((step, depth) => places[i]?.[depth] === step)) continue;
            taken.delete(i);
            if (path.length < (places[i]?.length ?? 0)) unsure.add(i);
          }
        ({ error } = schema.safeParse(withHostile(taken)));
      }
      let hostile = withHostile(taken);
      for (const i of unsure) {
        const tried = withAt(hostile, places[i] ?? [], hostileText(first + i));
        if (!schema.safeParse(tried).success) continue;
        taken.add(i);
        hostile = tried;
      }
      fields.set(table, (fields.get(table) ?? 0) + taken.size);
      return hostile;
    });
  }
  return { book: book as unknown as SampleBook, fields };
}
