/** Questions about a table of floor readings before it is imported. */
import { formatDepth, formatLength } from '../measure/length-format.ts';
import { type CellTable, isBlankRow, rowWidth } from '../table/cell-table.ts';
import type { ImportQuestion } from '../table/import-check.ts';
import type { Reading, Survey } from '../book/plan-fields.ts';
import {
  isBare,
  isOfLengths,
  methodInHead,
  pointColumns,
  type ReadingsChoice,
  type ReadingsInto,
  UNIT_M,
  UNIT_NAMES,
  unitInHead,
} from './readings-choice.ts';

export type ReadingsQuestion = ImportQuestion<
  | 'method'
  | 'other-method'
  | 'columns'
  | 'again'
  | 'outside'
  | 'wide'
  | 'decimal'
  | 'part'
  | 'place-unit'
  | 'unit'
  | 'places'
  | 'unreadable',
  ReadingsChoice
>;

/** What was met while the rows were read. */
export type ReadingsSeen = {
  readonly choice: ReadingsChoice;
  readonly into: ReadingsInto;
  readonly table: CellTable;
  /** Places and values of the rows that would be imported, meters. */
  readonly taken: readonly Pick<Reading, 'xM' | 'yM' | 'valueM'>[];
  /** Readings that stay in the survey. */
  readonly kept: number;
  /** Places read again: of the survey, and within the file with another value. */
  readonly known: number;
  readonly twice: number;
  /** How far each point outside the walls is off, meters. */
  readonly outside: readonly number[];
  readonly wide: number;
  readonly canJoin: boolean;
  /** Cells such as `1,250`, and whether another cell shows what the comma means. */
  readonly ambiguous: number;
  readonly certain: boolean;
  readonly read: number;
  readonly beyond: number;
  /** Rows that could not be read, and those of them that are negative under `distance-down`. */
  readonly unreadable: number;
  readonly negative: number;
};

/** Maximum plausible difference of readings in one room; a wrong unit exceeds it. Common practice, no source. */
const MOST_DIFFERENCE_M = 1;
const METHOD_WORDS: Readonly<Record<Survey['method'], string>> = { height: 'elevations', 'distance-down': 'readings down from the laser' };
const rowsWord = (n: number): string => (n === 1 ? '1 row' : `${n} rows`);

const pointsWord = (n: number): string => (n === 1 ? '1 point' : `${n} points`);

function methodQuestions({ choice, into, table, taken, kept }: ReadingsSeen): ReadingsQuestion[] {
  const head = (table[choice.headRows - 1]?.[choice.valueColumn] ?? '').trim();
  const named = methodInHead(head);
  const questions: ReadingsQuestion[] = [];
  const isHeight = choice.method === 'height';
  const other = isHeight ? 'distance-down' : 'height';
  // Only an elevation can be negative, also where a level writes readings down with a minus sign.
  const isCertain = isHeight && (named === null ? taken.some(({ valueM }) => valueM < 0) : taken.every(({ valueM }) => valueM <= 0));
  if (named === null && !isCertain)
    questions.push({
      kind: 'method',
      message: `${head === '' ? 'The file' : `The heading “${head}”`} does not say what the readings are. They are read as ${METHOD_WORDS[choice.method]}. If they are ${METHOD_WORDS[other]}, high and low would be swapped.`,
      suggest: { method: other },
    });
  if (named !== null && named !== choice.method && !isCertain)
    questions.push({
      kind: 'method',
      message: `The heading “${head}” names ${METHOD_WORDS[named]}, and they are read as ${METHOD_WORDS[choice.method]}. High and low would be swapped.`,
      suggest: { method: named },
    });
  if (kept > 0 && choice.method !== into.method)
    questions.push({
      kind: 'other-method',
      blocks: true,
      message: `These are ${METHOD_WORDS[choice.method]}. This survey has ${kept} ${METHOD_WORDS[into.method]}. The two cannot be combined: import into an empty survey, or change how the column reads.`,
      suggest: {},
    });
  return questions;
}

/** A table without headings whose columns can be meant in another way. */
function columnsQuestion({ choice, into, table }: ReadingsSeen): ReadingsQuestion[] {
  if (choice.headRows > 0) return [];
  const body = table.filter((row) => !isBlankRow(row));
  const { xColumn, yColumn, noteColumn } = choice;
  // Point number, northing, easting, elevation: a usual order of total stations. Common practice, no source.
  if (xColumn === 1 && yColumn === 2)
    return [
      {
        kind: 'columns',
        message:
          'The second column is read as across, and the third as down. Many survey files have a point number first, northing (up) second, and easting (across) third. Which does this file have?',
        suggest: { xColumn: 2, yColumn: 1, fromBelow: true },
      },
    ];
  if (noteColumn === null || !isOfLengths(body, noteColumn, choice, into)) return [];
  return [
    {
      kind: 'columns',
      message:
        'The column of notes has only numbers. Does the first column number the points? Check which columns are across, down and readings.',
      suggest: noteColumn === 3 ? pointColumns(Math.max(...body.map(rowWidth))) : {},
    },
  ];
}

function againQuestion({ choice, known, twice }: ReadingsSeen): ReadingsQuestion[] {
  if (choice.latestOnly || known + twice === 0) return [];
  const parts = [
    ...(known === 0 ? [] : [`${pointsWord(known)} already ${known === 1 ? 'has' : 'have'} a reading`]),
    ...(twice === 0 ? [] : [`${pointsWord(twice)} ${twice === 1 ? 'is' : 'are'} in the file more than once with different readings`]),
  ];
  const message = `${parts.join(', and ')}. Replace the earlier readings, or keep all: then the mean of each point is used.`;
  return [{ kind: 'again', message, suggest: { latestOnly: true } }];
}

function placeQuestions({ choice, into, outside, beyond }: ReadingsSeen): ReadingsQuestion[] {
  const questions: ReadingsQuestion[] = [];
  if (outside.length > 0 && !choice.leavesOutside)
    questions.push({
      kind: 'outside',
      message: `${pointsWord(outside.length)} ${outside.length === 1 ? 'is' : 'are'} outside the walls, by up to ${formatLength(Math.max(...outside), into.units, into.locale)}. Check the origin and the unit of the columns, or leave ${outside.length === 1 ? 'it' : 'them'} out.`,
      suggest: { leavesOutside: true },
    });
  if (beyond > 0)
    questions.push({
      kind: 'places',
      message: `${rowsWord(beyond)} ${beyond === 1 ? 'goes' : 'go'} beyond the ${into.places.length} suggested points. Use a smaller spacing, or choose the columns of their places.`,
      suggest: {},
    });
  return questions;
}

function numberQuestions({ choice, wide, canJoin, ambiguous, certain }: ReadingsSeen): ReadingsQuestion[] {
  const questions: ReadingsQuestion[] = [];
  if (wide > 0 && !choice.joinsDecimals)
    questions.push({
      kind: 'wide',
      message: `${rowsWord(wide)} ${wide === 1 ? 'has' : 'have'} more cells than the headings. A decimal comma may have split a number in two, such as 18,9.`,
      suggest: canJoin ? { joinsDecimals: true } : {},
    });
  if (ambiguous > 0 && !certain)
    questions.push({
      kind: 'decimal',
      message: `A comma before three digits can mark thousands or decimals. It is read as ${choice.decimal === 'comma' ? 'a decimal comma' : 'thousands'}. Is that right?`,
      suggest: { decimal: choice.decimal === 'comma' ? 'point' : 'comma' },
    });
  return questions;
}

/** Points that cover less of the room than this share of its width and its depth make their unit doubtful. Common practice, no source. */
const LEAST_SHARE = 1 / 3;
/** Points may exceed the room by this share, as plans are rounded. Common practice, no source. */
const MOST_SHARE = 1.1;
const PLACE_UNITS = ['ft', 'm', 'in', 'cm', 'mm'] as const;

const extent = (of: readonly number[]): number => Math.max(...of) - Math.min(...of);

/** Columns without a unit, in the heading or in their cells: the points are compared with the room, and the readings with the points. */
function bareQuestions({ choice, into, table, taken }: ReadingsSeen): ReadingsQuestion[] {
  const { xColumn, yColumn, xUnit, valueUnit } = choice;
  const body = table.slice(choice.headRows);
  const heads = table[choice.headRows - 1] ?? [];
  const isUnnamed = (column: number | null): column is number =>
    column !== null && unitInHead(heads[column] ?? '') === null && isBare(body, column);
  if (!isUnnamed(xColumn) || !isUnnamed(yColumn) || xUnit !== choice.yUnit || xUnit === 'typed' || taken.length < 3) return [];
  const questions: ReadingsQuestion[] = [];
  const length = (m: number): string => formatLength(m, into.units, into.locale);
  const [width, depth] = [extent(taken.map(({ xM }) => xM)), extent(taken.map(({ yM }) => yM))];
  const room = [extent(into.plan.outline.map(({ xM }) => xM)), extent(into.plan.outline.map(({ yM }) => yM))] as const;
  const shareIn = (unit: (typeof PLACE_UNITS)[number] | typeof xUnit): number =>
    (UNIT_M[unit] / UNIT_M[xUnit]) * Math.max(width / room[0], depth / room[1]);
  const [best = xUnit] = PLACE_UNITS.filter((unit) => shareIn(unit) <= MOST_SHARE).toSorted((a, b) => shareIn(b) - shareIn(a));
  if (best !== xUnit || shareIn(xUnit) < LEAST_SHARE) {
    const covered = (unit: typeof xUnit): string =>
      `${length((width * UNIT_M[unit]) / UNIT_M[xUnit])} by ${length((depth * UNIT_M[unit]) / UNIT_M[xUnit])}`;
    const instead = best === xUnit ? '' : ` Read as ${UNIT_NAMES[best]}, they cover ${covered(best)}.`;
    questions.push({
      kind: 'place-unit',
      message: `The columns of places name no unit. Read as ${UNIT_NAMES[xUnit]}, the points cover ${covered(xUnit)} of a room of ${length(room[0])} by ${length(room[1])}.${instead}`,
      suggest: best === xUnit ? {} : { xUnit: best, yUnit: best },
    });
  }
  if (valueUnit === 'typed' || valueUnit === xUnit || !isUnnamed(choice.valueColumn)) return questions;
  const isFraction = body.some((row) => /[/⁄¼½¾⅛⅜⅝⅞]/.test(row[choice.valueColumn] ?? ''));
  const spreadM = extent(taken.map(({ valueM }) => valueM));
  const otherM = (spreadM * UNIT_M[xUnit]) / UNIT_M[valueUnit];
  const depthOf = (m: number): string => formatDepth(m, into.units, into.locale);
  if (!isFraction && spreadM > 0 && otherM <= MOST_DIFFERENCE_M)
    questions.push({
      kind: 'unit',
      message: `The column of readings names no unit. Read as ${UNIT_NAMES[valueUnit]}, they differ by ${depthOf(spreadM)}. Read as ${UNIT_NAMES[xUnit]}, like the places, they differ by ${depthOf(otherM)}.`,
      suggest: { valueUnit: xUnit },
    });
  return questions;
}

function unitQuestions({ choice, into, table, taken }: ReadingsSeen): ReadingsQuestion[] {
  const heads = table[choice.headRows - 1] ?? [];
  const columns = [
    { column: choice.valueColumn, unit: choice.valueUnit },
    { column: choice.xColumn, unit: choice.xUnit },
    { column: choice.yColumn, unit: choice.yUnit },
  ];
  const inParts = columns.flatMap(({ column, unit }) => (column === null || unit !== 'typed' ? [] : (heads[column] ?? '').trim()));
  const part = inParts.find((heading) => unitInHead(heading) === 'part');
  const questions: ReadingsQuestion[] = [];
  if (part !== undefined)
    questions.push({
      kind: 'part',
      message: `The heading “${part}” names a part of a unit, and the numbers are read in whole units. Choose the unit of that column, or convert the numbers in the file first.`,
      suggest: {},
    });
  const spread = taken.length === 0 ? 0 : extent(taken.map(({ valueM }) => valueM));
  if (spread > MOST_DIFFERENCE_M)
    questions.push({
      kind: 'unit',
      message: `The readings differ by ${formatLength(spread, into.units, into.locale)}. Check the unit of the readings.`,
      suggest: {},
    });
  return questions;
}

function rowsQuestion({ choice, table, unreadable, negative, read }: ReadingsSeen): ReadingsQuestion[] {
  if (unreadable === 0) return [];
  if (negative === unreadable) {
    const isNamed = methodInHead((table[choice.headRows - 1]?.[choice.valueColumn] ?? '').trim()) !== null;
    const message = `${rowsWord(negative)} of ${read} ${negative === 1 ? 'is' : 'are'} negative and left out. A reading down from the laser cannot be negative. Are these elevations?`;
    return [{ kind: 'unreadable', message, suggest: isNamed && negative < read ? {} : { method: 'height' } }];
  }
  const message = `${rowsWord(unreadable)} of ${read} could not be read and ${unreadable === 1 ? 'is' : 'are'} left out. Are the columns right?`;
  return [{ kind: 'unreadable', message, suggest: {} }];
}

/** All questions about a table, the most important first. */
export function readingsQuestions(seen: ReadingsSeen): readonly ReadingsQuestion[] {
  return [
    ...methodQuestions(seen),
    ...columnsQuestion(seen),
    ...againQuestion(seen),
    ...placeQuestions(seen),
    ...numberQuestions(seen),
    ...bareQuestions(seen),
    ...unitQuestions(seen),
    ...rowsQuestion(seen),
  ];
}
