/** Record fields in words, for the comparison of a backup with your data. */
import type { FieldDifference } from '../../shared-core/book/merge-records.ts';
import type { StoredRow } from '../../shared-core/book/migrations/all-steps.ts';
import { formatArea } from '../../shared-core/measure/area.ts';
import { formatCoverage } from '../../shared-core/measure/coverage.ts';
import { formatDay } from '../../shared-core/measure/day.ts';
import { formatDensity } from '../../shared-core/measure/density.ts';
import { formatDuration, MINUTE_S } from '../../shared-core/measure/duration.ts';
import { capital } from '../../shared-core/measure/first-letter.ts';
import { formatDepth, formatDistance, formatLength } from '../../shared-core/measure/length-format.ts';
import { FOOT_M } from '../../shared-core/measure/length-units.ts';
import { formatMass } from '../../shared-core/measure/mass.ts';
import { formatInstant } from '../../shared-core/measure/moment.ts';
import { formatNumber } from '../../shared-core/measure/number.ts';
import { formatPercent } from '../../shared-core/measure/percent.ts';
import { formatLoad, formatStrength } from '../../shared-core/measure/pressure.ts';
import { formatSpeed } from '../../shared-core/measure/speed.ts';
import { formatTemperature } from '../../shared-core/measure/temperature.ts';
import type { UnitSystem } from '../../shared-core/measure/unit-system.ts';
import { formatLiquid, formatVolume } from '../../shared-core/measure/volume.ts';
import { formatMoney } from '../../shared-core/price/money.ts';
import type { LineUnit } from '../../shared-core/price/line.ts';
import { rateWords } from '../../shared-core/price/rate-words.ts';

/** How the company's values are written. */
export type ValueSetting = { readonly units: UnitSystem; readonly locale: string; readonly zone: string; readonly currency: string };

type Format = (value: number, units: UnitSystem, locale: string, currency: string) => string;
/** Rates, by the unit before `Minor`: not whole minor units, and per the unit that the company uses. */
const RATES: readonly (readonly [end: RegExp, unit: LineUnit])[] = [
  [/M2Minor$/, 'm2'],
  [/M3Minor$/, 'm3'],
  [/MMinor$/, 'm'],
  [/KgMinor$/, 'kg'],
  [/[kK]mMinor$/, 'km'],
  [/[hH]ourMinor$/, 'h'],
];
/** Units at the end of field names, and how a value in them is written. */
const UNITS: readonly (readonly [end: RegExp, format: Format])[] = [
  ...RATES.map(([end, unit]): readonly [RegExp, Format] => [
    end,
    (value, units, locale, currency) => rateWords(value, unit, units, currency, locale),
  ]),
  [/Minor$/, (value, _, locale, currency) => formatMoney(value, currency, locale)],
  [/^year/, String],
  [/M2PerL$/, formatCoverage],
  [/MPerS$/, formatSpeed],
  [/KgM3$/, formatDensity],
  [/M3$/, formatVolume],
  [/M2$/, formatArea],
  [/Km$/, formatDistance],
  [/Kg$/, formatMass],
  [/G$/, (value, _, locale) => `${formatNumber(value, { most: 1 }, locale)} g`],
  [/Min$/, (value, _, locale) => formatDuration(value * MINUTE_S, locale)],
  [/LoadPa$|^loadPa$/, formatLoad],
  [/Pa$/, formatStrength],
  [/C$/, (value, units, locale) => formatTemperature(value, units, locale)],
  [/M$/, (value, units, locale) => (Math.abs(value) < FOOT_M ? formatDepth : formatLength)(value, units, locale)],
  [/L$/, formatLiquid],
  [/Humidity$|Share$|^(?:share|rate)$/, (value, _, locale) => formatPercent(value, 4, locale)],
];
const unitOf = (name: string) => UNITS.find(([end]) => end.test(name));

/** A field's name without its unit, which its value has. */
const wordsOf = (name: string): string =>
  name
    .replace(/(?:(?:M2|M3|M|Kg|Km)?Minor|M2PerL|MPerS|KgM3|M3|M2|Km|Kg|G|Min|Pa|C|M|L)$/, '')
    .replace(/([a-z])([A-Z])/g, '$1 $2')
    .toLowerCase();

/**
 * The name of a list item, if it has one.
 * @param named names of rooms and materials by id
 */
function itemWords(id: string, item: unknown, named: (id: string) => string | null): string {
  const own = typeof item === 'object' && item !== null ? (item as Readonly<Record<string, unknown>>) : {};
  return named(id) ?? (typeof own['name'] === 'string' ? own['name'] : typeof own['signedText'] === 'string' ? own['signedText'] : id);
}

/** A path as a reader sees it: `Rooms, Hall, level, least thickness`. */
export function fieldWords({ path, ours, theirs }: FieldDifference, named: (id: string) => string | null): string {
  const parts = path
    .split(/[.[]/)
    .map((part) => (part.endsWith(']') ? itemWords(part.slice(0, -1), theirs ?? ours, named) : wordsOf(part)));
  const words = parts.join(', ');
  return capital(words);
}

/** Both values of a field that differs. Two numbers that read the same are told apart by the numbers that are stored. */
export function bothWords(
  { path, ours, theirs }: FieldDifference,
  named: (id: string) => string | null,
  setting: ValueSetting,
): { readonly ours: string; readonly theirs: string } {
  const words = (value: unknown): string => valueWords(path, value, named, setting);
  const isSame = typeof ours === 'number' && typeof theirs === 'number' && words(ours) === words(theirs);
  const told = (value: unknown): string => (isSame ? `${words(value)} (${String(value)})` : words(value));
  return { ours: told(ours), theirs: told(theirs) };
}

/** A value as a reader sees it. */
export function valueWords(path: string, value: unknown, named: (id: string) => string | null, setting: ValueSetting): string {
  const { units, locale, zone, currency } = setting;
  if (value === undefined) return 'Missing';
  if (value === null || value === '') return 'Empty';
  if (typeof value === 'boolean') return value ? 'Yes' : 'No';
  if (typeof value === 'number') {
    const unit = unitOf(path.split(/[.[]/).at(-1) ?? '');
    return unit === undefined ? formatNumber(value, { most: 4 }, locale) : unit[1](value, units, locale, currency);
  }
  if (typeof value === 'string') {
    if (/^\d{4}-\d{2}-\d{2}T[\d:.]+Z$/.test(value)) return formatInstant(value, zone, 'field', locale);
    if (/^\d{4}-\d{2}-\d{2}$/.test(value)) return formatDay(value, 'field', locale);
    // Kinds are stored as `vinyl-asbestos`.
    const name = named(value) ?? (/^[a-z]+(-[a-z]+)*$/.test(value) ? value.replaceAll('-', ' ') : value);
    return name.length > 120 ? `${name.slice(0, 117)}…` : name;
  }
  if (Array.isArray(value)) return value.length === 1 ? '1 item' : `${value.length} items`;
  const entries = Object.entries(value as StoredRow).filter(([key, inner]) => key !== 'id' && typeof inner !== 'object');
  const words = entries.slice(0, 4).map(([key, inner]) => `${wordsOf(key)}: ${valueWords(key, inner, named, setting)}`);
  return words.join(', ');
}
