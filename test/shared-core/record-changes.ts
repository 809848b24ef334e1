/** Records with one field changed at a time, as the schemas allow it: what a test gives to code that should tell each of them apart. */
import { checkRow } from '../../shared-core/book/rows.ts';
import type { TableName } from '../../shared-core/book/tables.ts';

type Json = null | boolean | number | string | readonly Json[] | { readonly [key: string]: Json };
type Path = readonly (string | number)[];

const isObject = (value: Json): value is { readonly [key: string]: Json } =>
  value !== null && typeof value === 'object' && !Array.isArray(value);
const INSTANT = /^\d{4}-\d\d-\d\dT/;
const DAY = /^\d{4}-\d\d-\d\d$/;
const movedBy = (text: string, days: number): string => {
  const moved = new Date(Date.parse(text) + days * 86_400_000).toISOString();
  return DAY.test(text) ? moved.slice(0, 10) : moved;
};

/** Every place of a record, with the place's name: numbers of items left out, the item's kind put in. */
function* placesOf(value: Json, path: Path, name: string, skip: RegExp): Generator<readonly [Path, string, Json]> {
  if (path.length > 0) yield [path, name, value];
  if (skip.test(name)) return;
  if (Array.isArray(value)) {
    for (const [i, item] of (value as readonly Json[]).entries()) {
      const kind = isObject(item) ? (item['kind'] ?? item['state']) : '';
      yield* placesOf(item, [...path, i], `${name}#${typeof kind === 'string' ? kind : ''}`, skip);
    }
  } else if (isObject(value))
    for (const [key, item] of Object.entries(value)) yield* placesOf(item, [...path, key], `${name}.${key}`, skip);
}

function withAt(value: Json, path: Path, put: Json): Json {
  const [first, ...rest] = path;
  if (first === undefined) return put;
  if (Array.isArray(value)) return (value as readonly Json[]).map((item, i) => (i === first ? withAt(item, rest, put) : item));
  const object = value as { readonly [key: string]: Json };
  return { ...object, [first]: withAt(object[first] ?? null, rest, put) };
}

/** What may be put in place of a value: nothing, the other words of its kind, other days, other amounts, fewer items. */
function insteadOf(value: Json, name: string, words: readonly string[]): readonly (readonly [string, Json])[] {
  if (value === null)
    return [...words.slice(0, 2), ...(/At$/.test(name) ? ['2026-11-16T15:30:00.000Z'] : /On$|Until$/.test(name) ? ['2026-11-16'] : [])].map(
      (word) => [word, word],
    );
  if (typeof value === 'boolean') return [[String(!value), !value]];
  if (typeof value === 'number')
    return [
      ['none', 0],
      ['more', value * 2 + 1],
      ['null', null],
    ];
  if (typeof value === 'string') {
    if (INSTANT.test(value) || DAY.test(value))
      return [
        ['earlier', movedBy(value, -40)],
        ['later', movedBy(value, 40)],
        ['null', null],
      ];
    return [['empty', ''], ['null', null], ...words.filter((word) => word !== value).map((word) => [word, word] as const)];
  }
  if (Array.isArray(value))
    return value.length === 0
      ? []
      : [
          ['without the first', value.slice(1)],
          ['empty', []],
        ];
  return [['null', null]];
}

/**
 * Changes of a record that its schema accepts, the first at each place. @param skip names of places whose inside stays as it is
 * @param others more records of the table, for the words a field can have
 */
export function changesOf<R extends { readonly id: string }>(
  table: TableName,
  record: R,
  { skip, others = [] }: { readonly skip: RegExp; readonly others?: readonly object[] },
): readonly (readonly [name: string, changed: R])[] {
  const words = new Map<string, Set<string>>();
  for (const row of [record, ...others])
    for (const [, name, value] of placesOf(row as unknown as Json, [], '', skip))
      if (typeof value === 'string' && /^[a-z]+(-[a-z]+)*$/.test(value)) words.set(name, (words.get(name) ?? new Set()).add(value));
  const seen = new Set<string>();
  const changes: (readonly [string, R])[] = [];
  for (const [path, name, value] of placesOf(record, [], '', skip)) {
    if (seen.has(name) || /\.(id|createdAt|kind)$/.test(name)) continue;
    seen.add(name);
    for (const [what, put] of insteadOf(value, name, [...(words.get(name) ?? [])].slice(0, 6))) {
      const changed = withAt(record, path, put) as unknown as R;
      if (!checkRow(table, changed).ok) continue;
      changes.push([`${table}${name} ${what}`, changed]);
      // Of a number that may be nothing, that is enough.
      if (what === 'none') break;
    }
  }
  return changes;
}
