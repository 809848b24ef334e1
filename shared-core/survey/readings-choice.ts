/** The columns, units and signs of a table of floor readings from another program: guessed first, then corrected by the user. */
import type { Point } from '../book/fields.ts';
import type { Plan, Reading, Survey } from '../book/plan-fields.ts';
import { isBlankRow, rowWidth, type SeparatedTable } from '../table/cell-table.ts';
import { parseMixedNumber, plainFractions } from '../measure/fraction.ts';
import { parseSignedLength } from '../measure/length.ts';
import { FOOT_M, INCH_M } from '../measure/length-units.ts';
import type { Parsed } from '../measure/parsed.ts';
import type { UnitSystem } from '../measure/unit-system.ts';

/** Unit of the numbers in a column. `typed` parses each cell like an entry field: with its own unit, or the one `bareUnit` gives. */
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
  /** Places are from the bottom-left corner and up, as northings are; otherwise from the first corner and down. */
  readonly fromBelow: boolean;
  readonly valueUnit: ColumnUnit;
  /** Elevations rise with the floor; readings down from the laser decrease as it rises. */
  readonly method: Survey['method'];
  /** The decimal sign. */
  readonly decimal: 'point' | 'comma';
  /** Joins numbers that an unquoted decimal comma split. */
  readonly joinsDecimals: boolean;
  /** Points outside the walls: asked about, skipped, or imported. */
  readonly leavesOutside: boolean;
  /** Where one place is read again, only its last reading counts; otherwise all are kept, and their mean is the height. */
  readonly latestOnly: boolean;
};

/** Choices with a change. Readings are replaced as they were seen: another setting may reach others, so that it is asked again. */
export const nextChoice = (choice: Partial<ReadingsChoice>, change: Partial<ReadingsChoice>): Partial<ReadingsChoice> => ({
  ...choice,
  latestOnly: false,
  ...change,
});

/** The plan and survey the table is imported into. */
export type ReadingsInto = {
  readonly units: UnitSystem;
  readonly locale: string;
  readonly method: Survey['method'];
  /** Readings in the survey: an empty survey takes the method of the table. */
  readonly readings: readonly Reading[];
  readonly plan: Pick<Plan, 'outline' | 'holes'>;
  /** Suggested points still to be read, in walking order. */
  readonly places: readonly Point[];
};

const COLUMN_WORDS = {
  x: /^(?:across|x|e(?:ast(?:ing)?)?)(?![a-z])/i,
  y: /^(?:down(?! from)|y|n(?:orth(?:ing)?)?)(?![a-z])/i,
  value: /^(?:height|elev(?:ation)?|level|distance|reading|value|z|rod|laser|down from)(?![a-z])/i,
  note: /^(?:note|comment|remark|description)s?\b/i,
} as const;
/** A column that counts up from the bottom of the plan. */
const NORTH = /\bnorth|^n(?![a-z])/i;
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
export const UNIT_NAMES: Readonly<Record<Exclude<ColumnUnit, 'typed'>, string>> = {
  m: 'meters',
  cm: 'centimeters',
  mm: 'millimeters',
  in: 'inches',
  sixteenth: 'sixteenths of an inch',
  ft: 'feet',
};
/** Unit of a number alone: that of the wall fields for a place, that of the rod for a reading. */
export const bareUnit = (kind: 'wall' | 'depth', units: UnitSystem): 'ft' | 'm' | 'in' | 'mm' =>
  kind === 'wall' ? (units === 'us' ? 'ft' : 'm') : units === 'us' ? 'in' : 'mm';
/** Exact by NIST SP 811, appendix B.8. */
export const UNIT_M: Readonly<Record<Exclude<ColumnUnit, 'typed'>, number>> = {
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
const HEIGHT_WORDS = /\b(?:height|elev(?:ation)?|level|z)(?![a-z])/i;

/** What a heading says about the sign of its readings; null where it says nothing. */
export function methodInHead(heading: string): Survey['method'] | null {
  if (DOWN_WORDS.test(heading)) return 'distance-down';
  return HEIGHT_WORDS.test(heading) ? 'height' : null;
}

/** Guesses the decimal sign: a comma not followed by exactly three digits can only be a decimal comma. */
function decimalOf(cells: readonly string[], delimiter: string): ReadingsChoice['decimal'] {
  if (cells.some((cell) => /^[+-]?(?:\d+,(?:\d{1,2}|\d{4,})|0,\d+)$/.test(cell))) return 'comma';
  return delimiter === ';' && cells.some((cell) => /^[+-]?\d+,\d+$/.test(cell)) ? 'comma' : 'point';
}

/** One cell as a length in meters. */
export function readCell(
  text: string,
  unit: ColumnUnit,
  kind: 'wall' | 'depth',
  { decimal }: Pick<ReadingsChoice, 'decimal'>,
  into: Pick<ReadingsInto, 'units' | 'locale'>,
): Parsed<number> {
  const cell = text.trim().replace(/^'(?=[-+\d])/, '');
  if (cell === '') return { ok: false, message: kind === 'depth' ? 'no reading' : 'no place' };
  const figure = decimal === 'comma' ? cell.replace(/\.(?=\d{3}\b)/g, '').replace(',', '.') : cell.replace(/,(?=\d{3}\b)/g, '');
  const isFigure = /^[+\-−]?(?:\d+\.?\d*|\.\d+)(?:e[+-]?\d+)?$/i.test(figure);
  if (unit !== 'typed' && isFigure) return { ok: true, value: Number(figure.replace('−', '-')) * UNIT_M[unit] };
  // A fraction without a unit of its own has that of its column too.
  const [, sign = '', mixed = ''] = /^([+\-−]?)(.*)$/.exec(cell) ?? [];
  const fraction = unit === 'typed' ? null : parseMixedNumber(mixed, into.locale);
  if (unit !== 'typed' && fraction?.ok === true) return { ok: true, value: (/[-−]/.test(sign) ? -1 : 1) * fraction.value * UNIT_M[unit] };
  const read = parseSignedLength(isFigure ? figure : cell, into.units, kind, isFigure ? 'en-US' : into.locale);
  return read;
}

/** The filled cells of a column. */
const filled = (body: SeparatedTable['table'], column: number): string[] =>
  body.map((row) => (row[column] ?? '').trim()).filter((cell) => cell !== '');

/** Whether no cell of a column has a unit of its own. */
export function isBare(body: SeparatedTable['table'], column: number): boolean {
  const cells = filled(body, column);
  return cells.length > 0 && cells.every((cell) => /\d/.test(cell) && !/["″”a-z]|.['’′]/i.test(cell));
}

/** Whether each cell is a number one higher than the one before: `1`, `2`, `3`. */
const isCount = (cells: readonly string[]): boolean =>
  cells.length > 1 && cells.every((cell, i) => /^\d+$/.test(cell) && (i === 0 || Number(cell) - Number(cells[i - 1]) === 1));

type Columns = Pick<ReadingsChoice, 'xColumn' | 'yColumn' | 'valueColumn' | 'noteColumn'>;

/** Columns of a table whose first column numbers the points. */
export const pointColumns = (width: number): Columns => ({ xColumn: 1, yColumn: 2, valueColumn: 3, noteColumn: width > 4 ? 4 : null });

/** Whether a column is filled with lengths alone. */
export function isOfLengths(
  body: SeparatedTable['table'],
  column: number,
  choice: Pick<ReadingsChoice, 'decimal'>,
  into: Pick<ReadingsInto, 'units' | 'locale'>,
): boolean {
  const cells = filled(body, column);
  return cells.length > 0 && cells.every((cell) => readCell(cell, 'typed', 'depth', choice, into).ok);
}

/** Whether the first column numbers the points. */
const hasPointNumbers = (body: SeparatedTable['table']): boolean => isCount(filled(body, 0));

const HEAD_LINES = 10;

/** Columns of a table without headings: across, down, reading and note, with or without point numbers before them; or readings alone. */
function plainColumns({ table, delimiter }: SeparatedTable, width: number, into: Pick<ReadingsInto, 'units' | 'locale'>): Columns {
  if (width < 3) return { xColumn: null, yColumn: null, valueColumn: 0, noteColumn: null };
  const decimal = decimalOf(
    table.flatMap((row) => row.slice(0, 4).map((cell) => cell.trim())),
    delimiter,
  );
  if (width >= 4 && hasPointNumbers(table) && isOfLengths(table, 3, { decimal }, into)) return pointColumns(width);
  return { xColumn: 0, yColumn: 1, valueColumn: 2, noteColumn: width >= 4 ? 3 : null };
}

/** Columns by their headings. */
function headedColumns(head: readonly string[]): Columns {
  const columnFor = (word: RegExp): number | null => {
    const index = head.findIndex((cell) => word.test(cell.trim()));
    return index < 0 ? null : index;
  };
  const [xColumn, yColumn] = [columnFor(COLUMN_WORDS.x), columnFor(COLUMN_WORDS.y)];
  return {
    xColumn: yColumn === null ? null : xColumn,
    yColumn: xColumn === null ? null : yColumn,
    valueColumn: columnFor(COLUMN_WORDS.value) ?? 0,
    noteColumn: columnFor(COLUMN_WORDS.note),
  };
}

/** Guesses columns, units, signs and the decimal sign from the head and the cells. */
export function guessReadings(
  { table, delimiter }: SeparatedTable,
  into: Pick<ReadingsInto, 'units' | 'locale' | 'method'>,
): ReadingsChoice | null {
  const headRow = table.slice(0, HEAD_LINES).findIndex((row) => row.some((cell) => COLUMN_WORDS.value.test(cell.trim())));
  const head = headRow < 0 ? [] : (table[headRow] ?? []);
  const body = table.slice(headRow + 1).filter((row) => !isBlankRow(row));
  const width = Math.max(0, ...body.map(rowWidth), rowWidth(head));
  if (width === 0) return null;
  const columns = headRow < 0 ? plainColumns({ table: body, delimiter }, width, into) : headedColumns(head);
  const { xColumn, yColumn, valueColumn } = columns;
  const unit = (index: number | null, kind: 'wall' | 'depth'): ColumnUnit => {
    const named = index === null ? 'part' : (unitInHead(head[index] ?? '') ?? (isBare(body, index) ? bareUnit(kind, into.units) : 'part'));
    return named === 'part' ? 'typed' : named;
  };
  const cells = body.flatMap((row) => [xColumn, yColumn, valueColumn].map((index) => (index === null ? '' : (row[index] ?? '').trim())));
  return {
    headRows: headRow + 1,
    ...columns,
    xUnit: unit(xColumn, 'wall'),
    yUnit: unit(yColumn, 'wall'),
    fromBelow: yColumn !== null && NORTH.test((head[yColumn] ?? '').trim()),
    valueUnit: unit(valueColumn, 'depth'),
    // Only an elevation can be negative.
    method:
      methodInHead(head[valueColumn] ?? '') ??
      (filled(body, valueColumn).some((cell) => /^'?[-−]\s*[\d.]/.test(cell)) ? 'height' : into.method),
    decimal: decimalOf(cells, delimiter),
    joinsDecimals: false,
    leavesOutside: false,
    latestOnly: false,
  };
}
