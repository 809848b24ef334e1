/** A logger's table, parsed once and then read with different column choices. */
import { guessLogChoice, type LogChoice } from '../../shared-core/cure/log-choice.ts';
import { type LogKnown, type LogPreview, type LogProblem, previewLog } from '../../shared-core/cure/log-preview.ts';
import { type CellTable, parseTable } from '../../shared-core/table/cell-table.ts';
import { type NamedTable, readTables } from '../parts/read-table.ts';
import type { Found } from '../../shared-core/measure/parsed.ts';

export interface LogAsked {
  /** Defaults of the company, for what the table does not say. */
  readonly home: Pick<LogChoice, 'unit' | 'dateOrder' | 'timeZone'>;
  /** Choices that replace guesses. */
  readonly changed: Partial<LogChoice>;
  readonly known: LogKnown;
  /** Index of the workbook sheet. */
  readonly sheet: number;
}

export interface LogRead {
  /** Heading and first rows, to choose columns by. */
  readonly top: CellTable;
  /** Names of the workbook's sheets; one name for other files. */
  readonly sheets: readonly string[];
  /** Null when no column has dates or none has numbers. */
  readonly guess: LogChoice | null;
  readonly preview: Found<LogPreview, LogProblem> | null;
}

const TOP_ROWS = 50;

/** Tables of a pasted text or a file, or a sentence about a file without one. */
export async function openLogTables(source: File | string): Promise<readonly NamedTable[] | string> {
  if (typeof source === 'string') return pastedTables(source);
  const read = await readTables(source);
  return read.ok ? read.value : read.message;
}

export function pastedTables(text: string): readonly NamedTable[] {
  return [{ ...parseTable(text), name: 'pasted' }];
}

/** Total rows of all tables. */
export const rowsOf = (tables: readonly NamedTable[]): number => tables.reduce((sum, { table }) => sum + table.length, 0);

/** Reads a table with the given choices. Stores nothing. */
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
