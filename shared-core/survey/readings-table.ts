/**
 * Imports a table of floor readings from another program: guesses its columns, units, and signs, lets the user correct them,
 * and converts the rows to readings.
 */
import type { Point } from '../book/fields.ts';
import type { Plan, Reading, Survey } from '../book/plan-fields.ts';
import { type CellTable, isBlankRow, joinDecimals, rowWidth, type SeparatedTable } from '../table/cell-table.ts';
import type { ImportQuestion, LeftOut } from '../table/import-check.ts';
import { parseMixedNumber, plainFractions } from '../measure/fraction.ts';
import { formatLength } from '../measure/length-format.ts';
import { parseSignedLength } from '../measure/length.ts';
import { FOOT_M, INCH_M } from '../measure/length-units.ts';
import type { Parsed } from '../measure/parsed.ts';
import type { UnitSystem } from '../measure/unit-system.ts';
import { nearestOnSegment } from '../plan/point.ts';
import { pointInRoom } from '../plan/region.ts';

/** Unit of the numbers in a column. `typed` parses each cell like an entry field, with its own unit or the business's. */
export type ColumnUnit = 'm' | 'cm' | 'mm' | 'in' | 'sixteenth' | 'ft' | 'typed';

/** The column choices and how to parse them. */
export type ReadingsChoice = {
  /** Rows above the first reading. */
  readonly headRows: number;
  /** Null: the readings go to the suggested points in walking order, and a blank cell leaves its point unread. */
  readonly xColumn: number | null;
  readonly yColumn: number | null;
  readonly valueColumn: number;
  readonly noteColumn: number | null;
  readonly xUnit: ColumnUnit;
  readonly yUnit: ColumnUnit;
  readonly valueUnit: ColumnUnit;
  /** Elevations rise with the floor; readings down from the laser decrease as it rises. */
  readonly method: Survey['method'];
  /** The decimal sign. */
  readonly decimal: 'point' | 'comma';
  /** Joins numbers that an unquoted decimal comma split. */
  readonly joinsDecimals: boolean;
  /** Points outside the walls: asked about, skipped, or imported. */
  readonly leavesOutside: boolean;
};

export type ReadingsQuestion = ImportQuestion<
  'method' | 'other-method' | 'outside' | 'wide' | 'decimal' | 'unit' | 'part' | 'unreadable' | 'places',
  ReadingsChoice
>;

/** A row as it would be imported, with its source cell. */
export type ReadingRow = { readonly row: number; readonly text: string; readonly reading: Omit<Reading, 'id'> };

/** The rows that would be imported. Nothing is stored yet. */
export type ReadingsPreview = {
  readonly rows: readonly ReadingRow[];
  readonly leftOut: readonly LeftOut[];
  readonly questions: readonly ReadingsQuestion[];
};

/** The plan and survey the table is imported into. */
export type ReadingsInto = {
  readonly units: UnitSystem;
  readonly locale: string;
  readonly method: Survey['method'];
  /** Number of readings in the survey: an empty survey takes the method of the table. */
  readonly has: number;
  readonly plan: Pick<Plan, 'outline' | 'holes'>;
  /** Suggested points still to be read, in walking order. */
  readonly places: readonly Point[];
};

const COLUMN_WORDS = {
  x: /^(?:across|x|easting)(?![a-z])/i,
  y: /^(?:down(?! from)|y|northing)(?![a-z])/i,
  value: /^(?:height|elev(?:ation)?|level|distance|reading|value|z|rod|laser|down from)(?![a-z])/i,
  note: /^(?:note|comment|remark|description)s?\b/i,
} as const;
const UNIT_WORDS: Readonly<Record<string, ColumnUnit>> = {
  m: 'm',
  meter: 'm',
  meters: 'm',
  cm: 'cm',
  mm: 'mm',
  millimeters: 'mm',
  in: 'in',
  inch: 'in',
  inches: 'in',
  '"': 'in',
  ft: 'ft',
  foot: 'ft',
  feet: 'ft',
  "'": 'ft',
};
/** Exact by NIST SP 811, appendix B.8. */
const UNIT_M: Readonly<Record<Exclude<ColumnUnit, 'typed'>, number>> = {
  m: 1,
  cm: 0.01,
  mm: 0.001,
  in: INCH_M,
  sixteenth: INCH_M / 16,
  ft: FOOT_M,
};
const UNIT_WORD = `(?:${Object.keys(UNIT_WORDS).join('|')})`;
const HEAD_END = String.raw`\.?\s*[)\]]?\s*$`;
const HEAD_UNIT = new RegExp(String.raw`[([_,\s]\s*(${UNIT_WORD})${HEAD_END}`, 'i');
const PART_WORDS = 'halves|quarters?|eighths?|sixteenths?|thirty-seconds?|tenths?|hundredths?|thousandths?';
/** A part of a unit: `1/16 in.`, `16ths`, `sixteenths of an inch`, `0.01 ft`, `in./16`. */
const HEAD_PART = new RegExp(
  String.raw`(?<![\d/.])(?:(1\s*/\s*\d+(?:ths?|nds?)?|\d*\.\d+(?=\s*${UNIT_WORD})|(?:8|10|16|32|64|100|1000)(?:ths?|nds?)|\b(?:${PART_WORDS}))[\s-]*(?:of\s+)?(?:an?\s+)?(${UNIT_WORD})?|${UNIT_WORD}\.?\s*/\s*\d+(?:ths?)?)${HEAD_END}`,
  'i',
);
const SIXTEENTH = /^(?:1\s*\/\s*16(?:ths?)?|16ths?|sixteenths?)$/i;

/**
 * The unit in a heading after its word: `x (m)`, `y [mm]`, `z, in.`, `height_mm`, `z (1/16 in.)`; null without one.
 * `part`: a part of a unit that no column has, such as `1/8 in.`, or the nearest part a number is rounded to.
 */
export function unitInHead(heading: string): ColumnUnit | 'part' | null {
  const plain = plainFractions(heading);
  const [found, part = '', unit = 'in'] = HEAD_PART.exec(plain) ?? [];
  if (found !== undefined)
    return SIXTEENTH.test(part) && UNIT_WORDS[unit.toLowerCase()] === 'in' && !/nearest|±/i.test(plain) ? 'sixteenth' : 'part';
  return UNIT_WORDS[HEAD_UNIT.exec(plain)?.[1]?.toLowerCase() ?? ''] ?? null;
}

const DOWN_WORDS = /(?:distance|down)(?![a-z])/i;
const HEIGHT_WORDS = /\b(?:height|elev(?:ation)?|level)(?![a-z])/i;

function methodInHead(heading: string): Survey['method'] | null {
  if (DOWN_WORDS.test(heading)) return 'distance-down';
  return HEIGHT_WORDS.test(heading) ? 'height' : null;
}

/** Guesses the decimal sign: a comma not followed by exactly three digits can only be a decimal comma. */
function decimalOf(cells: readonly string[], delimiter: string): ReadingsChoice['decimal'] {
  if (cells.some((cell) => /^[+-]?(?:\d+,(?:\d{1,2}|\d{4,})|0,\d+)$/.test(cell))) return 'comma';
  return delimiter === ';' && cells.some((cell) => /^[+-]?\d+,\d+$/.test(cell)) ? 'comma' : 'point';
}

const HEAD_LINES = 10;

/** Guesses columns, units, signs and the decimal sign from the head and the cells. */
export function guessReadings({ table, delimiter }: SeparatedTable, into: Pick<ReadingsInto, 'units' | 'method'>): ReadingsChoice | null {
  const column = (row: readonly string[], word: RegExp): number => row.findIndex((cell) => word.test(cell.trim()));
  const headRow = table.slice(0, HEAD_LINES).findIndex((row) => column(row, COLUMN_WORDS.value) >= 0);
  const head = headRow < 0 ? [] : (table[headRow] ?? []);
  const body = table.slice(headRow + 1).filter((row) => !isBlankRow(row));
  const width = Math.max(0, ...body.map(rowWidth), headRow < 0 ? 0 : rowWidth(head));
  if (width === 0) return null;
  const columnFor = (word: RegExp): number | null => {
    const index = column(head, word);
    return index < 0 ? null : index;
  };
  const isPlain = headRow < 0;
  const valueColumn = isPlain ? (width >= 3 ? 2 : 0) : (columnFor(COLUMN_WORDS.value) ?? 0);
  const xColumn = isPlain ? (width >= 3 ? 0 : null) : columnFor(COLUMN_WORDS.x);
  const yColumn = isPlain ? (width >= 3 ? 1 : null) : columnFor(COLUMN_WORDS.y);
  const unit = (index: number | null): ColumnUnit => {
    const named = index === null ? null : unitInHead(head[index] ?? '');
    return named === null || named === 'part' ? 'typed' : named;
  };
  const cells = body.flatMap((row) => [xColumn, yColumn, valueColumn].map((index) => (index === null ? '' : (row[index] ?? '').trim())));
  return {
    headRows: headRow + 1,
    xColumn: yColumn === null ? null : xColumn,
    yColumn: xColumn === null ? null : yColumn,
    valueColumn,
    noteColumn: isPlain ? (width >= 4 ? 3 : null) : columnFor(COLUMN_WORDS.note),
    xUnit: unit(xColumn),
    yUnit: unit(yColumn),
    valueUnit: unit(valueColumn),
    method: methodInHead(head[valueColumn] ?? '') ?? into.method,
    decimal: decimalOf(cells, delimiter),
    joinsDecimals: false,
    leavesOutside: false,
  };
}

/** One cell as a length in meters. */
function readCell(text: string, unit: ColumnUnit, kind: 'length' | 'depth', choice: ReadingsChoice, into: ReadingsInto): Parsed<number> {
  const cell = text.trim().replace(/^'(?=[-+\d])/, '');
  if (cell === '') return { ok: false, message: kind === 'depth' ? 'no reading' : 'no place' };
  const figure = choice.decimal === 'comma' ? cell.replace(/\.(?=\d{3}\b)/g, '').replace(',', '.') : cell.replace(/,(?=\d{3}\b)/g, '');
  const isFigure = /^[+\-−]?(?:\d+\.?\d*|\.\d+)(?:e[+-]?\d+)?$/i.test(figure);
  if (unit !== 'typed' && isFigure) return { ok: true, value: Number(figure.replace('−', '-')) * UNIT_M[unit] };
  // A fraction without a unit of its own has that of its column too.
  const [, sign = '', mixed = ''] = /^([+\-−]?)(.*)$/.exec(cell) ?? [];
  const fraction = unit === 'typed' ? null : parseMixedNumber(mixed, into.locale);
  if (unit !== 'typed' && fraction?.ok === true) return { ok: true, value: (/[-−]/.test(sign) ? -1 : 1) * fraction.value * UNIT_M[unit] };
  const read = parseSignedLength(isFigure ? figure : cell, into.units, kind, isFigure ? 'en-US' : into.locale);
  return read;
}

/** Distance of a point outside the walls, meters; 0 inside. */
function outsideM(point: Point, plan: ReadingsInto['plan']): number {
  if (plan.outline.length < 3 || pointInRoom(point, { outline: plan.outline, holes: [] }) !== 'outside') return 0;
  const { outline } = plan;
  return Math.min(...outline.map((from, i) => nearestOnSegment(point, from, outline[(i + 1) % outline.length] ?? from).offM));
}
/** A point this little outside the walls is not asked about: width of a rod's foot beside the wall. Common practice. */
const AT_WALL_M = 0.15;
/** Maximum plausible difference of readings in one room; a wrong unit exceeds it. Common practice, no source. */
const MOST_DIFFERENCE_M = 1;

/**
 * Parses a table with the chosen columns and reports the result.
 * @param from the table; row numbers count from 1 as in the file
 * @returns the rows that would be imported; a table without a readable row has no rows, and a reason for each
 */
export function previewReadings({ table, delimiter }: SeparatedTable, choice: ReadingsChoice, into: ReadingsInto): ReadingsPreview {
  const origin = into.plan.outline[0] ?? { xM: 0, yM: 0 };
  const headWidth = rowWidth(table[choice.headRows - 1] ?? []);
  const numberColumns = [choice.xColumn, choice.yColumn, choice.valueColumn].filter((index) => index !== null).sort((a, b) => a - b);
  const seen: Seen = { rows: [], leftOut: [], outside: [], wide: 0, canJoin: true, ambiguous: 0, certain: false, read: 0, beyond: 0 };
  let walked = 0;
  for (const [i, raw] of table.entries()) {
    if (i < choice.headRows) continue;
    const isBlank = isBlankRow(raw) || (choice.xColumn === null && (raw[choice.valueColumn] ?? '').trim() === '');
    const walk = walked;
    if (choice.xColumn === null) walked += 1;
    if (isBlank) continue;
    seen.read += 1;
    const leaveOut = (why: string): void => void seen.leftOut.push({ row: i + 1, why });
    let row = raw;
    if (delimiter === ',' && headWidth > 0 && rowWidth(raw) > headWidth) {
      const joined = joinDecimals(raw, headWidth, numberColumns);
      seen.wide += 1;
      seen.canJoin &&= joined !== null;
      if (!choice.joinsDecimals || joined === null) {
        leaveOut(`${rowWidth(raw)} cells under ${headWidth} headings`);
        continue;
      }
      row = joined;
    }
    const text = (row[choice.valueColumn] ?? '').trim();
    const numbers = numberColumns.map((index) => (row[index] ?? '').trim());
    if (numbers.some((cell) => /^[+-]?[1-9]\d{0,2},\d{3}$/.test(cell))) seen.ambiguous += 1;
    seen.certain ||= numbers.some((cell) => /\d\.\d/.test(cell) || /^[+-]?(?:\d+,(?:\d{1,2}|\d{4,})|0,\d+)$/.test(cell));
    const rowChoice = choice.joinsDecimals && row !== raw ? { ...choice, decimal: 'comma' as const } : choice;
    const place = placeOf(row, rowChoice, into, origin, walk);
    const value = readCell(text, choice.valueUnit, 'depth', rowChoice, into);
    if (!place.ok || !value.ok) {
      if (!place.ok && place.message === BEYOND) seen.beyond += 1;
      leaveOut(!place.ok ? place.message : value.ok ? '' : value.message);
      continue;
    }
    if (choice.method === 'distance-down' && value.value < 0) {
      leaveOut(`“${text}”: a reading down from the laser cannot be negative`);
      continue;
    }
    const far = outsideM(place.value, into.plan);
    if (far > AT_WALL_M) {
      seen.outside.push({ row: i + 1, far });
      if (choice.leavesOutside) {
        leaveOut(`${formatLength(far, into.units, into.locale)} outside the walls`);
        continue;
      }
    }
    const note = choice.noteColumn === null ? '' : (row[choice.noteColumn] ?? '').trim().slice(0, 200);
    seen.rows.push({ row: i + 1, text, reading: { ...place.value, valueM: value.value, note: note === '' ? null : note } });
  }
  return { rows: seen.rows, leftOut: seen.leftOut, questions: questionsOf(seen, choice, into, table) };
}

type Seen = {
  readonly rows: ReadingRow[];
  readonly leftOut: LeftOut[];
  readonly outside: { readonly row: number; readonly far: number }[];
  wide: number;
  canJoin: boolean;
  /** Cells such as `1,250`, and whether another cell shows what the comma means. */
  ambiguous: number;
  certain: boolean;
  read: number;
  beyond: number;
};

const BEYOND = 'no suggested point is left for it';

function placeOf(row: readonly string[], choice: ReadingsChoice, into: ReadingsInto, origin: Point, walk: number): Parsed<Point> {
  if (choice.xColumn === null || choice.yColumn === null) {
    const place = into.places[walk];
    return place === undefined ? { ok: false, message: BEYOND } : { ok: true, value: { xM: place.xM, yM: place.yM } };
  }
  const x = readCell(row[choice.xColumn] ?? '', choice.xUnit, 'length', choice, into);
  const y = readCell(row[choice.yColumn] ?? '', choice.yUnit, 'length', choice, into);
  if (!x.ok) return x;
  return y.ok ? { ok: true, value: { xM: x.value + origin.xM, yM: y.value + origin.yM } } : y;
}

const METHOD_WORDS: Readonly<Record<Survey['method'], string>> = { height: 'elevations', 'distance-down': 'readings down from the laser' };
const rowsWord = (n: number): string => (n === 1 ? '1 row' : `${n} rows`);

function questionsOf(seen: Seen, choice: ReadingsChoice, into: ReadingsInto, table: CellTable): readonly ReadingsQuestion[] {
  const questions: ReadingsQuestion[] = [];
  const head = (table[choice.headRows - 1]?.[choice.valueColumn] ?? '').trim();
  const named = methodInHead(head);
  if (named !== null && named !== choice.method)
    questions.push({
      kind: 'method',
      message: `The heading “${head}” names ${METHOD_WORDS[named]}, and they are read as ${METHOD_WORDS[choice.method]}. High and low would be swapped.`,
      suggest: { method: named },
    });
  if (into.has > 0 && choice.method !== into.method)
    questions.push({
      kind: 'other-method',
      blocks: true,
      message: `These are ${METHOD_WORDS[choice.method]}. This survey has ${into.has} ${METHOD_WORDS[into.method]}. The two cannot be combined: import into an empty survey, or change how the column reads.`,
      suggest: {},
    });
  const farthest = Math.max(0, ...seen.outside.map(({ far }) => far));
  if (seen.outside.length > 0 && !choice.leavesOutside)
    questions.push({
      kind: 'outside',
      message: `${seen.outside.length === 1 ? '1 point is' : `${seen.outside.length} points are`} outside the walls, by up to ${formatLength(farthest, into.units, into.locale)}. Check the unit of the columns, or leave ${seen.outside.length === 1 ? 'it' : 'them'} out.`,
      suggest: { leavesOutside: true },
    });
  if (seen.wide > 0 && !choice.joinsDecimals)
    questions.push({
      kind: 'wide',
      message: `${rowsWord(seen.wide)} ${seen.wide === 1 ? 'has' : 'have'} more cells than the headings. A decimal comma may have split a number in two, such as 18,9.`,
      suggest: seen.canJoin ? { joinsDecimals: true } : {},
    });
  if (seen.ambiguous > 0 && !seen.certain)
    questions.push({
      kind: 'decimal',
      message: `A comma before three digits can mark thousands or decimals. It is read as ${choice.decimal === 'comma' ? 'a decimal comma' : 'thousands'}. Is that right?`,
      suggest: { decimal: choice.decimal === 'comma' ? 'point' : 'comma' },
    });
  const heads = table[choice.headRows - 1] ?? [];
  const columns = [
    { column: choice.valueColumn, unit: choice.valueUnit },
    { column: choice.xColumn, unit: choice.xUnit },
    { column: choice.yColumn, unit: choice.yUnit },
  ];
  const inParts = columns.flatMap(({ column, unit }) => (column === null || unit !== 'typed' ? [] : (heads[column] ?? '').trim()));
  const part = inParts.find((heading) => unitInHead(heading) === 'part');
  if (part !== undefined)
    questions.push({
      kind: 'part',
      message: `The heading “${part}” names a part of a unit, and the numbers are read in whole units. Choose the unit of that column, or convert the numbers in the file first.`,
      suggest: {},
    });
  const values = seen.rows.map(({ reading }) => reading.valueM);
  const spread = values.length === 0 ? 0 : Math.max(...values) - Math.min(...values);
  if (spread > MOST_DIFFERENCE_M)
    questions.push({
      kind: 'unit',
      message: `The readings differ by ${formatLength(spread, into.units, into.locale)}. Check the unit of the readings.`,
      suggest: {},
    });
  if (seen.beyond > 0)
    questions.push({
      kind: 'places',
      message: `${rowsWord(seen.beyond)} ${seen.beyond === 1 ? 'goes' : 'go'} beyond the ${into.places.length} suggested points. Use a smaller spacing, or choose the columns of their places.`,
      suggest: {},
    });
  const unreadable =
    seen.leftOut.length - seen.beyond - (choice.leavesOutside ? seen.outside.length : 0) - (choice.joinsDecimals ? 0 : seen.wide);
  if (unreadable > 0)
    questions.push({
      kind: 'unreadable',
      message: `${rowsWord(unreadable)} of ${seen.read} could not be read and ${unreadable === 1 ? 'is' : 'are'} left out. Are the columns right?`,
      suggest: {},
    });
  return questions;
}
