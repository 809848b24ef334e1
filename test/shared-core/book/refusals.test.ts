/**
 * Every field of every record, given what it should not take: which values are refused, and the sentence a person reads. The stored table
 * is read and approved: after a change that was meant, run
 * `npx vitest run --config build/vitest.config.ts test/shared-core/book/refusals -u` and read the difference.
 */
import { describe, expect, it } from 'vitest';
import { checkRow } from '../../../shared-core/book/rows.ts';
import { TABLE_NAMES, type TableName } from '../../../shared-core/book/tables.ts';
import { sampleAt } from '../../sample-at.ts';

type Json = null | boolean | number | string | Json[] | { [key: string]: Json };
type Path = readonly (string | number)[];

/** A record small enough to be checked often: the first two items of a list, and one of each kind. */
function shortened(value: Json): Json {
  if (Array.isArray(value)) {
    const kinds = new Set<Json>();
    return value
      .filter((item, i) => {
        if (item === null || typeof item !== 'object' || Array.isArray(item) || item['kind'] === undefined) return i < 4;
        const isNew = !kinds.has(item['kind']);
        kinds.add(item['kind']);
        return isNew;
      })
      .map(shortened);
  }
  if (value === null || typeof value !== 'object') return value;
  return Object.fromEntries(Object.entries(value).map(([key, one]) => [key, shortened(one)]));
}
const placesOf = (value: Json, path: Path = []): readonly Path[] => {
  if (Array.isArray(value)) return [path, ...value.flatMap((item, i) => placesOf(item, [...path, i]))];
  if (value === null || typeof value !== 'object') return [path];
  return [path, ...Object.entries(value).flatMap(([key, item]) => placesOf(item, [...path, key]))];
};
function withAt(value: Json, path: Path, put: Json | undefined): Json {
  const [first, ...rest] = path;
  if (first === undefined) return put ?? null;
  if (Array.isArray(value)) return value.map((item, i) => (i === first ? withAt(item, rest, put) : item));
  const object = value as { [key: string]: Json };
  if (rest.length === 0 && put === undefined) return Object.fromEntries(Object.entries(object).filter(([key]) => key !== first));
  return { ...object, [first]: withAt(object[first] ?? null, rest, put) };
}
const at = (value: Json, path: Path): Json =>
  path.reduce<Json>((inner, step) => (inner as { [key: string | number]: Json })[step] ?? null, value);

function grouped<T>(list: readonly T[], nameOf: (one: T) => string): ReadonlyMap<string, readonly T[]> {
  const groups = new Map<string, T[]>();
  for (const one of list) groups.set(nameOf(one), [...(groups.get(nameOf(one)) ?? []), one]);
  return groups;
}

const WRONG: Readonly<Record<string, Json | undefined>> = {
  missing: undefined,
  null: null,
  text: 'x',
  empty: '',
  long: 'x'.repeat(20_000),
  less: -1e9,
  zero: 0,
  half: 0.5,
  more: 1e9,
  'no items': [],
};

/** Copies of other tables' records. */
const COPIED = /^(frozen|plans|asPoured)\./;

/** By the field's place without the numbers of its items: what each wrong value gets. */
function refusals(table: TableName, rows: readonly Json[]): ReadonlyMap<string, string> {
  const told = new Map<string, string>();
  for (const row of rows.map(shortened)) {
    if (!checkRow(table, row).ok) continue;
    for (const path of placesOf(row)) {
      const kind = (
        path
          .map((_, i) => at(row, path.slice(0, i + 1)))
          .findLast((one) => one !== null && typeof one === 'object' && !Array.isArray(one)) as { kind?: string } | undefined
      )?.kind;
      const place = `${path.map((step) => (typeof step === 'number' ? '#' : step)).join('.')}${kind === undefined ? '' : ` (${kind})`}`;
      if (path.length === 0 || told.has(place) || COPIED.test(place)) continue;
      const answers = Object.entries(WRONG).map(([name, wrong]) => {
        const checked = checkRow(table, withAt(row, path, wrong));
        return [name, checked.ok ? 'taken' : checked.message] as const;
      });
      const byAnswer = grouped(answers, ([, answer]) => answer);
      told.set(place, [...byAnswer].map(([answer, names]) => `${names.map(([name]) => name).join(', ')}: ${answer}`).join(' / '));
    }
  }
  return told;
}

/** Many records of a table have the same fields. */
const ENOUGH = 6;

describe('wrong values', () => {
  it.each(TABLE_NAMES)('in %s', async (table) => {
    const all = sampleAt('2026-11-13T15:00:00.000Z')[table] as unknown as readonly Json[];
    const kinds = grouped(all, (row) => String((row as { kind?: string }).kind));
    const rows = [...kinds.values()].flatMap((ofKind) => (kinds.size > 1 ? ofKind.slice(0, 1) : ofKind.slice(0, ENOUGH)));
    const lines = [...refusals(table, rows)].map(([place, answers]) => `${place} = ${answers}`);
    await expect(`${lines.join('\n')}\n`).toMatchFileSnapshot(`./approved/${table}.txt`);
  });
});
