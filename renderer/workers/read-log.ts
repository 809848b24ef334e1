/** A logger's table: parsed once, then read with one choice of columns after another. */
import { guessLogChoice, type LogChoice } from '../../shared-core/cure/log-choice.ts';
import { type LogKnown, type LogPreview, previewLog } from '../../shared-core/cure/log-preview.ts';
import { type CellTable, parseTable } from '../../shared-core/table/cell-table.ts';
import { type NamedTable, readTables } from '../parts/read-table.ts';
import type { Parsed } from '../../shared-core/measure/parsed.ts';

/** How a table is to be read. */
export interface LogAsked {
  /** What the business uses, where the table does not say. */
  readonly home: Pick<LogChoice, 'unit' | 'dateOrder' | 'timeZone'>;
  /** What the person chose otherwise than guessed. */
  readonly changed: Partial<LogChoice>;
  readonly known: LogKnown;
  /** Which sheet of a workbook. */
  readonly sheet: number;
}

/** What came of it. */
export interface LogRead {
  /** The head and the first rows, to choose columns by. */
  readonly top: CellTable;
  /** Names of the sheets of a workbook; one name for other files. */
  readonly sheets: readonly string[];
  /** Null when no column holds moments or none holds numbers. */
  readonly guess: LogChoice | null;
  readonly preview: Parsed<LogPreview> | null;
}

const TOP_ROWS = 50;

/** The tables of a pasted text or a file; a sentence about a file that is none. */
export async function openLogTables(source: File | string): Promise<readonly NamedTable[] | string> {
  if (typeof source === 'string') return pastedTables(source);
  const read = await readTables(source);
  return read.ok ? read.value : read.message;
}

/** The table of a pasted text. */
export function pastedTables(text: string): readonly NamedTable[] {
  return [{ ...parseTable(text), name: 'pasted' }];
}

/** How many rows all tables have together. */
export const rowsOf = (tables: readonly NamedTable[]): number => tables.reduce((sum, { table }) => sum + table.length, 0);

/** Reads a table as asked. Nothing is stored. */
export function readLog(
  tables: readonly NamedTable[],
  { home, changed, known, sheet }: LogAsked,
  nowMs: number,
  onShare?: (share: number) => void,
): LogRead {
  const from = tables[sheet] ?? { table: [], delimiter: '' };
  const guess = guessLogChoice(from.table, home);
  const preview = guess === null ? null : previewLog(from, { ...guess, ...changed }, known, nowMs, onShare);
  return { top: from.table.slice(0, TOP_ROWS + (guess?.headRows ?? 0)), sheets: tables.map(({ name }) => name), guess, preview };
}
