/** Questions about a table of floor readings before it is imported. */
import { formatLength } from '../measure/length-format.ts';
import { type CellTable, isBlankRow, rowWidth } from '../table/cell-table.ts';
import type { ImportQuestion } from '../table/import-check.ts';
import type { Survey } from '../book/plan-fields.ts';
import { isOfLengths, methodInHead, pointColumns, type ReadingsChoice, type ReadingsInto, unitInHead } from './readings-choice.ts';

export type ReadingsQuestion = ImportQuestion<
  'method' | 'other-method' | 'columns' | 'again' | 'outside' | 'wide' | 'decimal' | 'part' | 'unit' | 'places' | 'unreadable',
  ReadingsChoice
>;

/** What was met while the rows were read. */
export type ReadingsSeen = {
  readonly choice: ReadingsChoice;
  readonly into: ReadingsInto;
  readonly table: CellTable;
  /** Values of the rows that would be imported, meters. */
  readonly values: readonly number[];
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
  readonly unreadable: number;
};

/** Maximum plausible difference of readings in one room; a wrong unit exceeds it. Common practice, no source. */
const MOST_DIFFERENCE_M = 1;
const METHOD_WORDS: Readonly<Record<Survey['method'], string>> = { height: 'elevations', 'distance-down': 'readings down from the laser' };
const rowsWord = (n: number): string => (n === 1 ? '1 row' : `${n} rows`);

const pointsWord = (n: number): string => (n === 1 ? '1 point' : `${n} points`);

function methodQuestions({ choice, into, table, kept }: ReadingsSeen): ReadingsQuestion[] {
  const head = (table[choice.headRows - 1]?.[choice.valueColumn] ?? '').trim();
  const named = methodInHead(head);
  const questions: ReadingsQuestion[] = [];
  if (named !== null && named !== choice.method)
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

function unitQuestions({ choice, into, table, values }: ReadingsSeen): ReadingsQuestion[] {
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
  const spread = values.length === 0 ? 0 : Math.max(...values) - Math.min(...values);
  if (spread > MOST_DIFFERENCE_M)
    questions.push({
      kind: 'unit',
      message: `The readings differ by ${formatLength(spread, into.units, into.locale)}. Check the unit of the readings.`,
      suggest: {},
    });
  return questions;
}

function rowsQuestion({ unreadable, read }: ReadingsSeen): ReadingsQuestion[] {
  if (unreadable === 0) return [];
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
    ...unitQuestions(seen),
    ...rowsQuestion(seen),
  ];
}
