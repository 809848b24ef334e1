/** Readings entered on site or pasted from a spreadsheet, and the places still to be read. */
import type { Point } from '../book/fields.ts';
import type { Reading, Survey } from '../book/plan-fields.ts';
import { parseSignedLength } from '../measure/length.ts';
import { INCH_M } from '../measure/length-units.ts';
import type { Parsed } from '../measure/parsed.ts';
import { SAME_SPOT_M } from './heights.ts';

/** Unit of a bare number at the rod: inches, sixteenths of an inch, or millimeters. An entered unit always takes precedence. */
export type TypedIn = 'inch' | 'sixteenth' | 'mm';

/** A reading with another value, place or note. What was confirmed is a value at its place, so another one is asked about again. */
export function changedReading(reading: Reading, change: Partial<Omit<Reading, 'id'>>): Reading {
  const next = { ...reading, ...change };
  const isSame = next.valueM === reading.valueM && next.xM === reading.xM && next.yM === reading.yM;
  return isSame ? next : { ...next, confirmed: false };
}

/**
 * Parses one value read at the rod, in meters. A distance down from the laser cannot be negative; a height can.
 * @param typedIn unit of a bare number
 * @param method the survey method
 */
export function parseReading(text: string, typedIn: TypedIn, method: Survey['method'], locale?: string): Parsed<number> {
  const read = parseSignedLength(text, typedIn === 'mm' ? 'metric' : 'us', 'depth', locale);
  const isSixteenths = typedIn === 'sixteenth' && /^[+-]?\s*\d+$/.test(text.trim());
  const count = Number(text.replaceAll(/\s/g, ''));
  const value: Parsed<number> = isSixteenths ? sixteenths(text, count) : read;
  if (value.ok && value.value < 0 && method === 'distance-down') {
    return {
      ok: false,
      message: `“${text.trim()}”: a reading down from the laser cannot be negative. Enter it without the sign, or switch to elevations.`,
    };
  }
  return value;
}

/** 5 m in sixteenths of an inch: the longest rod, as in measure/length.ts. */
const MOST_SIXTEENTHS = 3149;

function sixteenths(text: string, count: number): Parsed<number> {
  if (Math.abs(count) > MOST_SIXTEENTHS) return { ok: false, message: `“${text.trim()}”: that is longer than a rod. Check the value.` };
  return { ok: true, value: (count * INCH_M) / 16 };
}

/** A reading within this share of the spacing counts for a suggested place. Common practice, no source. */
const NEAR_BY_SHARE = 1 / 3;

/**
 * Suggested places not read yet, in walking order.
 * @param spacingM spacing of the places; a reading within a third of it counts for the place. Zero requires a reading at the
 * place itself.
 */
export function placesLeft(places: readonly Point[], readings: readonly Pick<Reading, 'xM' | 'yM'>[], spacingM = 0): readonly Point[] {
  const withinM = Math.max(SAME_SPOT_M, spacingM * NEAR_BY_SHARE);
  return places.filter((place) => !readings.some((r) => Math.hypot(r.xM - place.xM, r.yM - place.yM) <= withinM));
}

/**
 * A line of a pasted column: its value, or its error, and the unread point it goes to. A blank line between others has no
 * entry and leaves its point unread.
 */
export type ColumnLine = { readonly line: number; readonly text: string; readonly place: number; readonly read: Parsed<number> };

/**
 * A pasted column. `mixedAt` is the first line that has a unit where the first figure has none, or the other way round; null
 * when all lines are alike.
 */
export type Column = { readonly lines: readonly ColumnLine[]; readonly mixedAt: ColumnLine | null };

/** Parses a column of values, one per line. Mixed units are reported, not guessed. */
export function readColumn(text: string, typedIn: TypedIn, method: Survey['method'], locale?: string): Column {
  const rows = text.split(/\r?\n/).map((row, i) => ({ line: i + 1, text: row.trim() }));
  const firstRow = rows.findIndex((row) => row.text !== '');
  const lines = rows
    .filter((row) => row.text !== '')
    .map((row) => ({ ...row, place: row.line - 1 - firstRow, read: parseReading(row.text, typedIn, method, locale) }));
  // Lines too large to be a reading count as well, because a millimeter taken for an inch is a typical mixture.
  const figures = lines.filter((row) => /\d/.test(row.text));
  const first = figures[0];
  const mixedAt = first === undefined ? null : (figures.find((row) => carriesUnit(row.text) !== carriesUnit(first.text)) ?? null);
  return { lines, mixedAt };
}

const carriesUnit = (text: string): boolean => /["'′″a-z]/i.test(text);

const BARE_UNIT: Readonly<Record<TypedIn, string>> = { mm: 'millimeters', inch: 'inches', sixteenth: 'sixteenths of an inch' };

/**
 * The problem of a line of a column, and the place on the plan its value would go to; null beyond the last place. Lines
 * beyond it are reported once, at that place.
 */
export type ColumnProblem = { readonly line: number; readonly point: Point | null; readonly message: string };

/** The message for lines beyond the last place. */
function beyondWords({ lines }: Column, places: number): string {
  const remedy = 'Use a smaller spacing, or delete some lines.';
  const last = lines.findLast((line) => line.place < places);
  const firstBeyond = lines.find((line) => line.place >= places);
  if (last === undefined || firstBeyond === undefined) return `Every suggested point is read, so no line has a point. ${remedy}`;
  const more = lines.filter((line) => line.place >= places).length - 1;
  const rest = more === 0 ? 'has none' : `and ${more} more have none`;
  const ends = places === 1 ? 'The 1 point left is for' : `The ${places} points left end at`;
  return `${ends} line ${last.line}. Line ${firstBeyond.line}, ${firstBeyond.text}, ${rest}. ${remedy}`;
}

/**
 * Problems that prevent importing a column, line by line, each at the place its value would go to.
 * @param places places still to be read, in walking order: the column's lines go to them in turn
 * @param mixtureIsMeant the user confirmed that lines with and without a unit are right
 */
export function columnProblems(column: Column, typedIn: TypedIn, places: readonly Point[], mixtureIsMeant = false): ColumnProblem[] {
  const problems: ColumnProblem[] = [];
  for (const row of column.lines) {
    const point = places[row.place] ?? null;
    if (row === column.mixedAt && !mixtureIsMeant) {
      const mixture = carriesUnit(row.text)
        ? 'carries a unit and the lines before it do not'
        : 'carries no unit and the lines before it do';
      const message = `Line ${row.line}, ${row.text}, ${mixture}. A number alone is ${BARE_UNIT[typedIn]}: enter a unit on every line, or confirm.`;
      problems.push({ line: row.line, point, message });
    }
    if (!row.read.ok) problems.push({ line: row.line, point, message: `Line ${row.line}: ${row.read.message}` });
  }
  const firstBeyond = column.lines.find((line) => line.place >= places.length);
  if (firstBeyond !== undefined)
    problems.push({ line: firstBeyond.line, point: places.at(-1) ?? null, message: beyondWords(column, places.length) });
  return problems;
}
