/** Compares and merges two versions of one record, field by field. */
import type { StoredRow } from './migrations/all-steps.ts';
import { isObject } from './migrations/parts.ts';

/** A field in which two versions differ. `undefined` where a version has none. */
export type FieldDifference = {
  /** Names of the fields down to it, `rooms[sample-hall].level.levelM`: an item of a list is named by its id. */
  readonly path: string;
  readonly ours: unknown;
  readonly theirs: unknown;
};

/** Whether two values have the same content. */
export const isSame = (a: unknown, b: unknown): boolean => JSON.stringify(a) === JSON.stringify(b);

/** The id of a list item. */
const ITEM_KEYS = ['id', 'roomId', 'itemKey', 'key'];
function itemKey(item: unknown): string | null {
  if (!isObject(item)) return null;
  const key = ITEM_KEYS.find((name) => typeof item[name] === 'string');
  return key === undefined ? null : String(item[key]);
}

/** The items of a list by their names; null for a list whose items have none, or one name twice. */
function itemsOf(value: unknown): ReadonlyMap<string, unknown> | null {
  if (!Array.isArray(value)) return null;
  const items = new Map<string, unknown>();
  for (const item of value as readonly unknown[]) {
    const key = itemKey(item);
    if (key === null || items.has(key)) return null;
    items.set(key, item);
  }
  return items;
}

/** Stamps are not compared, because they differ with every change. */
const STAMPS = new Set(['changedAt', 'createdAt']);
const inner = (path: string, name: string): string => (path === '' ? name : `${path}.${name}`);

function differ(ours: unknown, theirs: unknown, path: string): readonly FieldDifference[] {
  if (isSame(ours, theirs)) return [];
  if (isObject(ours) && isObject(theirs))
    return [...new Set([...Object.keys(ours), ...Object.keys(theirs)])]
      .filter((name) => !STAMPS.has(name))
      .flatMap((name) => differ(ours[name], theirs[name], inner(path, name)));
  const [a, b] = [itemsOf(ours), itemsOf(theirs)];
  if (a === null || b === null) return [{ path, ours, theirs }];
  const differing = [...new Set([...a.keys(), ...b.keys()])].flatMap((key) => differ(a.get(key), b.get(key), `${path}[${key}]`));
  // The same items in another order.
  return differing.length > 0 ? differing : [{ path, ours, theirs }];
}

/** The fields in which a record of the backup differs from yours. */
export function differences(ours: StoredRow, theirs: StoredRow): readonly FieldDifference[] {
  return differ(ours, theirs, '');
}

function merge(ours: unknown, theirs: unknown, path: string, taken: ReadonlySet<string>): unknown {
  if (taken.has(path)) return theirs;
  if (isSame(ours, theirs)) return ours;
  if (isObject(ours) && isObject(theirs)) {
    const names = [...new Set([...Object.keys(ours), ...Object.keys(theirs)])];
    const merged = names.map((name) => [name, merge(ours[name], theirs[name], inner(path, name), taken)] as const);
    return Object.fromEntries(merged.filter(([, value]) => value !== undefined));
  }
  const [a, b] = [itemsOf(ours), itemsOf(theirs)];
  if (a === null || b === null) return ours;
  return [...new Set([...a.keys(), ...b.keys()])].flatMap((key) => {
    const item = merge(a.get(key), b.get(key), `${path}[${key}]`, taken);
    return item === undefined ? [] : [item];
  });
}

/**
 * A record with the fields that still are as they were set given back as they were before.
 * @param set the record as it was written over `before`
 */
export function givenBack(present: StoredRow, set: StoredRow, before: StoredRow): StoredRow {
  const edited = new Set(differences(set, present).map(({ path }) => path));
  const untouched = differences(present, before).flatMap(({ path }) => (edited.has(path) ? [] : [path]));
  return mergeRows(present, before, new Set(untouched));
}

/**
 * Your record with some fields of the backup's.
 * @param taken paths of `differences`
 */
export function mergeRows(ours: StoredRow, theirs: StoredRow, taken: ReadonlySet<string>): StoredRow {
  const merged = merge(ours, theirs, '', taken) as StoredRow;
  const [mine, other] = [ours['changedAt'], theirs['changedAt']];
  if (typeof mine !== 'string') return merged;
  return { ...merged, changedAt: typeof other === 'string' && other > mine ? other : mine };
}
