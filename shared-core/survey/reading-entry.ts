/** Readings as they are typed on site or pasted from a sheet, and which places are still to be read. */
import type { Point } from '../book/fields.ts';
import type { Reading, Survey } from '../book/plan-fields.ts';
import { parseSignedLength } from '../measure/length.ts';
import { INCH_M } from '../measure/length-units.ts';
import type { Parsed } from '../measure/parsed.ts';

/** What a bare number at the staff is: inches, sixteenths of an inch, or millimeters. A unit that is typed always counts. */
export type TypedIn = 'inch' | 'sixteenth' | 'mm';

/** A reading within this of a suggested place was taken there: the staff's foot and a hand's breadth. Common practice. */
export const TAKEN_THERE_M = 0.1;

/**
 * Reads one value at the staff, in meters. A distance down from the level line is not below zero; a height may be.
 * @param text what was typed
 * @param typedIn what a number alone is
 * @param method how the survey is read
 * @param locale BCP 47 tag whose decimal sign is meant
 */
export function parseReading(text: string, typedIn: TypedIn, method: Survey['method'], locale?: string): Parsed<number> {
  const read = parseSignedLength(text, typedIn === 'mm' ? 'metric' : 'us', 'depth', locale);
  const isSixteenths = typedIn === 'sixteenth' && /^[+-]?\s*\d+$/.test(text.trim());
  const count = Number(text.replaceAll(/\s/g, ''));
  const value: Parsed<number> = isSixteenths ? sixteenths(text, count) : read;
  if (value.ok && value.value < 0 && method === 'distance-down') {
    return {
      ok: false,
      message: `${text.trim()}: a distance down from the level line is not below zero. Read heights instead, or type it without the sign.`,
    };
  }
  return value;
}

/** A staff of 5 m at most, as everywhere. */
const MOST_SIXTEENTHS = 3149;

function sixteenths(text: string, count: number): Parsed<number> {
  if (Math.abs(count) > MOST_SIXTEENTHS) return { ok: false, message: `${text.trim()}: that is more sixteenths than a staff has.` };
  return { ok: true, value: (count * INCH_M) / 16 };
}

/** A reading this near to a suggested place, by the spacing, says what the place would: common practice, no source. */
const NEAR_BY_SHARE = 1 / 3;

/**
 * Places of the walk not read yet, in their order.
 * @param spacingM between places; a reading within a third of it stands for the place. Zero asks for one right there.
 */
export function placesLeft(places: readonly Point[], readings: readonly Pick<Reading, 'xM' | 'yM'>[], spacingM = 0): readonly Point[] {
  const withinM = Math.max(TAKEN_THERE_M, spacingM * NEAR_BY_SHARE);
  return places.filter((place) => !readings.some((r) => Math.hypot(r.xM - place.xM, r.yM - place.yM) <= withinM));
}

/** A line of a pasted column: its value, or what is wrong with it. Empty lines are left out. */
export type ColumnLine = { readonly line: number; readonly text: string; readonly read: Parsed<number> };

/** A pasted column, and whether it mixes numbers alone with numbers that carry a unit. */
export type Column = { readonly lines: readonly ColumnLine[]; readonly mixesUnits: boolean };

/** Reads a column of values, one a line. A mixture of units is told, not guessed at. */
export function readColumn(text: string, typedIn: TypedIn, method: Survey['method'], locale?: string): Column {
  const rows = text.split(/\r?\n/).map((row, i) => ({ line: i + 1, text: row.trim() }));
  const lines = rows.filter((row) => row.text !== '').map((row) => ({ ...row, read: parseReading(row.text, typedIn, method, locale) }));
  // Lines too large to be read count as well: a millimeter taken for an inch is just what a mixture makes.
  const figures = lines.filter((row) => /\d/.test(row.text));
  const bare = figures.filter((row) => !/["'′″a-z]/i.test(row.text));
  return { lines, mixesUnits: bare.length > 0 && bare.length < figures.length };
}
