/** Reads a table of floor readings from another program with the chosen columns. */
import type { Point } from '../book/fields.ts';
import type { Reading } from '../book/plan-fields.ts';
import { isBlankRow, joinDecimals, rowWidth, type SeparatedTable } from '../table/cell-table.ts';
import type { LeftOut } from '../table/import-check.ts';
import { formatLength } from '../measure/length-format.ts';
import type { Parsed } from '../measure/parsed.ts';
import { nearestOnSegment } from '../plan/point.ts';
import { pointInRoom } from '../plan/region.ts';
import { spotsOf } from './heights.ts';
import { readCell, type ReadingsChoice, type ReadingsInto } from './readings-choice.ts';
import { readingsQuestions, type ReadingsQuestion } from './readings-questions.ts';

/** A row as it would be imported, with its source cell. */
export type ReadingRow = { readonly row: number; readonly text: string; readonly reading: Omit<Reading, 'id'> };

/** The rows that would be imported. Nothing is stored yet. */
export type ReadingsPreview = {
  readonly rows: readonly ReadingRow[];
  /** Ids of the survey's readings that the rows replace. */
  readonly replaces: readonly string[];
  readonly leftOut: readonly LeftOut[];
  readonly questions: readonly ReadingsQuestion[];
};

/** Distance of a point outside the walls, meters; 0 inside. */
function outsideM(point: Point, plan: ReadingsInto['plan']): number {
  if (plan.outline.length < 3 || pointInRoom(point, { outline: plan.outline, holes: [] }) !== 'outside') return 0;
  const { outline } = plan;
  return Math.min(...outline.map((from, i) => nearestOnSegment(point, from, outline[(i + 1) % outline.length] ?? from).offM));
}
/** A point this little outside the walls is not asked about: width of a rod's foot beside the wall. Common practice. */
const AT_WALL_M = 0.15;
const isFigureSplit = (cell: string): boolean => /^[+-]?[1-9]\d{0,2},\d{3}$/.test(cell);
const isFigureCertain = (cell: string): boolean => /\d\.\d/.test(cell) || /^[+-]?(?:\d+,(?:\d{1,2}|\d{4,})|0,\d+)$/.test(cell);

/** The rows as read, before places that are read again are looked for. */
function readRows({ table, delimiter }: SeparatedTable, choice: ReadingsChoice, into: ReadingsInto) {
  const origin = originOf(choice, into.plan.outline);
  const headWidth = rowWidth(table[choice.headRows - 1] ?? []);
  const numberColumns = [choice.xColumn, choice.yColumn, choice.valueColumn].filter((index) => index !== null).sort((a, b) => a - b);
  const rows: ReadingRow[] = [];
  const leftOut: LeftOut[] = [];
  const outside: number[] = [];
  const seen = { wide: 0, canJoin: true, ambiguous: 0, certain: false, read: 0, beyond: 0, unreadable: 0, negative: 0 };
  let walked = 0;
  for (const [i, raw] of table.entries()) {
    if (i < choice.headRows) continue;
    const isBlank = isBlankRow(raw) || (choice.xColumn === null && (raw[choice.valueColumn] ?? '').trim() === '');
    const walk = walked;
    if (choice.xColumn === null) walked += 1;
    if (isBlank) continue;
    seen.read += 1;
    const leaveOut = (why: string): void => void leftOut.push({ row: i + 1, why });
    let row = raw;
    if (delimiter === ',' && headWidth > 0 && rowWidth(raw) > headWidth) {
      const joined = joinDecimals(raw, headWidth, numberColumns);
      seen.wide += 1;
      seen.canJoin &&= joined !== null;
      if (!choice.joinsDecimals || joined === null) {
        if (choice.joinsDecimals) seen.unreadable += 1;
        leaveOut(`${rowWidth(raw)} cells under ${headWidth} headings`);
        continue;
      }
      row = joined;
    }
    const text = (row[choice.valueColumn] ?? '').trim();
    const numbers = numberColumns.map((index) => (row[index] ?? '').trim());
    if (numbers.some(isFigureSplit)) seen.ambiguous += 1;
    seen.certain ||= numbers.some(isFigureCertain);
    const rowChoice = choice.joinsDecimals && row !== raw ? { ...choice, decimal: 'comma' as const } : choice;
    const place = placeOf(row, rowChoice, into, origin, walk);
    const value = readValue(text, rowChoice, into);
    if (!place.ok || !value.ok) {
      if (!place.ok && place.message === BEYOND) seen.beyond += 1;
      else seen.unreadable += 1;
      if (place.ok && isNegativeDown(text, rowChoice, into)) seen.negative += 1;
      leaveOut(!place.ok ? place.message : value.ok ? '' : value.message);
      continue;
    }
    const far = outsideM(place.value, into.plan);
    if (far > AT_WALL_M) {
      outside.push(far);
      if (choice.leavesOutside) {
        leaveOut(`${formatLength(far, into.units, into.locale)} outside the walls`);
        continue;
      }
    }
    const note = choice.noteColumn === null ? '' : (row[choice.noteColumn] ?? '').trim().slice(0, 200);
    rows.push({ row: i + 1, text, reading: { ...place.value, valueM: value.value, note: note === '' ? null : note, confirmed: false } });
  }
  return { rows, leftOut, outside, seen };
}

/** Places that the rows read again: readings of the survey, and earlier rows with the row that repeats each. */
function readAgain(rows: readonly ReadingRow[], readings: readonly Reading[]) {
  const incoming = new Map(rows.map((row): [Reading, ReadingRow] => [{ id: '', ...row.reading }, row]));
  const spots = spotsOf('height', [...readings, ...incoming.keys()]).map((spot) => ({
    before: spot.readings.filter((reading) => !incoming.has(reading)),
    rows: spot.readings.flatMap((reading) => incoming.get(reading) ?? []),
  }));
  const known = spots.filter((spot) => spot.before.length > 0 && spot.rows.length > 0);
  const differs = ({ rows: of }: { readonly rows: readonly ReadingRow[] }): boolean =>
    of.some(({ reading }) => reading.valueM !== of[0]?.reading.valueM);
  return {
    known: known.length,
    twice: spots.filter(differs).length,
    replaces: known.flatMap(({ before }) => before.map(({ id }) => id)),
    repeated: new Map(spots.flatMap(({ rows: of }) => of.slice(0, -1).map((row) => [row, of.at(-1)?.row ?? row.row] as const))),
  };
}

/**
 * Parses a table with the chosen columns and reports the result.
 * @param from the table; row numbers count from 1 as in the file
 * @returns the rows that would be imported; a table without a readable row has no rows, and a reason for each
 */
export function previewReadings(from: SeparatedTable, choice: ReadingsChoice, into: ReadingsInto): ReadingsPreview {
  const { rows: read, leftOut, outside, seen } = readRows(from, choice, into);
  const { known, twice, ...again } = readAgain(read, into.readings);
  const { latestOnly } = choice;
  const rows = latestOnly ? read.filter((row) => !again.repeated.has(row)) : read;
  const replaces = latestOnly ? again.replaces : [];
  const repeated = latestOnly ? [...again.repeated].map(([{ row }, by]) => ({ row, why: `row ${by} reads this point again` })) : [];
  const kept = into.readings.length - replaces.length;
  const questions = readingsQuestions({
    choice,
    into,
    table: from.table,
    taken: rows.map(({ reading }) => reading),
    kept,
    known,
    twice,
    outside,
    ...seen,
  });
  return { rows, replaces, leftOut: [...leftOut, ...repeated].toSorted((a, b) => a.row - b.row), questions };
}

const BEYOND = 'no suggested point is left for it';

/** The corner that places are measured from. */
function originOf({ fromBelow }: ReadingsChoice, outline: readonly Point[]): Point {
  const [first] = outline;
  if (first === undefined) return { xM: 0, yM: 0 };
  return fromBelow ? { xM: Math.min(...outline.map(({ xM }) => xM)), yM: Math.max(...outline.map(({ yM }) => yM)) } : first;
}

function placeOf(row: readonly string[], choice: ReadingsChoice, into: ReadingsInto, origin: Point, walk: number): Parsed<Point> {
  if (choice.xColumn === null || choice.yColumn === null) {
    const place = into.places[walk];
    return place === undefined ? { ok: false, message: BEYOND } : { ok: true, value: { xM: place.xM, yM: place.yM } };
  }
  const x = readCell(row[choice.xColumn] ?? '', choice.xUnit, 'wall', choice, into);
  const y = readCell(row[choice.yColumn] ?? '', choice.yUnit, 'wall', choice, into);
  if (!x.ok) return x;
  return y.ok ? { ok: true, value: { xM: origin.xM + x.value, yM: origin.yM + (choice.fromBelow ? -y.value : y.value) } } : y;
}

function isNegativeDown(text: string, choice: ReadingsChoice, into: ReadingsInto): boolean {
  const value = readCell(text, choice.valueUnit, 'depth', choice, into);
  return value.ok && choice.method === 'distance-down' && value.value < 0;
}

function readValue(text: string, choice: ReadingsChoice, into: ReadingsInto): Parsed<number> {
  return isNegativeDown(text, choice, into)
    ? { ok: false, message: `“${text}”: a reading down from the laser cannot be negative` }
    : readCell(text, choice.valueUnit, 'depth', choice, into);
}
