/** Record fields in words, for the comparison of a backup with your data. */
import type { FieldDifference } from '../../shared-core/book/merge-records.ts';
import type { StoredRow } from '../../shared-core/book/migrations/all-steps.ts';
import { formatInstant } from '../../shared-core/measure/moment.ts';
import { formatNumber } from '../../shared-core/measure/number.ts';
import { capital } from '../../shared-core/measure/first-letter.ts';

/** Units at the end of field names. */
const UNITS: readonly (readonly [end: RegExp, unit: string, times: number])[] = [
  [/Minor$/, '', 0.01],
  [/M3$/, 'm³', 1],
  [/M2$/, 'm²', 1],
  [/Km$/, 'km', 1],
  [/Kg$/, 'kg', 1],
  [/Min$/, 'min', 1],
  [/C$/, '°C', 1],
  [/M$/, 'm', 1],
  [/L$/, 'L', 1],
  [/(?:Humidity|Share|^share)$/, '%', 100],
];
const unitOf = (name: string) => UNITS.find(([end]) => end.test(name));

const wordsOf = (name: string): string => {
  const unit = unitOf(name);
  const plain = unit === undefined || unit[1] === '%' ? name : name.replace(unit[0], '');
  const words = plain.replace(/([a-z])([A-Z])/g, '$1 $2').toLowerCase();
  return unit === undefined || unit[1] === '' ? words : `${words} (${unit[1]})`;
};

/**
 * The name of a list item, if it has one.
 * @param named names of rooms and materials by id
 */
function itemWords(id: string, item: unknown, named: (id: string) => string | null): string {
  const own = typeof item === 'object' && item !== null ? (item as Readonly<Record<string, unknown>>) : {};
  return named(id) ?? (typeof own['name'] === 'string' ? own['name'] : typeof own['signedText'] === 'string' ? own['signedText'] : id);
}

/** A path as a reader sees it: `Rooms, Hall, level, minimum thickness (m)`. */
export function fieldWords({ path, ours, theirs }: FieldDifference, named: (id: string) => string | null): string {
  const parts = path
    .split(/[.[]/)
    .map((part) => (part.endsWith(']') ? itemWords(part.slice(0, -1), theirs ?? ours, named) : wordsOf(part)));
  const words = parts.join(', ');
  return capital(words);
}

/** A value as a reader sees it. */
export function valueWords(path: string, value: unknown, named: (id: string) => string | null, zone: string, locale: string): string {
  if (value === undefined) return 'Missing';
  if (value === null || value === '') return 'Empty';
  if (typeof value === 'boolean') return value ? 'Yes' : 'No';
  if (typeof value === 'number') {
    const times = unitOf(path.split(/[.[]/).at(-1) ?? '')?.[2] ?? 1;
    return formatNumber(value * times, { most: 4 }, locale);
  }
  if (typeof value === 'string') {
    if (/^\d{4}-\d{2}-\d{2}T[\d:.]+Z$/.test(value)) return formatInstant(value, zone, 'long', locale);
    const name = named(value) ?? value;
    return name.length > 120 ? `${name.slice(0, 117)}…` : name;
  }
  if (Array.isArray(value)) return value.length === 1 ? '1 item' : `${value.length} items`;
  const entries = Object.entries(value as StoredRow).filter(([key, inner]) => key !== 'id' && typeof inner !== 'object');
  const words = entries.slice(0, 4).map(([key, inner]) => `${wordsOf(key)}: ${valueWords(key, inner, named, zone, locale)}`);
  return words.join(', ');
}
