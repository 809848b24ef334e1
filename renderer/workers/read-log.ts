/** A logger's table: parsed once, then read with one choice of columns after another. */
import Papa from 'papaparse';
import { guessLogChoice, type LogChoice, type LogTable } from '../../shared-core/cure/log-choice.ts';
import { type LogPreview, previewLog } from '../../shared-core/cure/log-preview.ts';
import type { Parsed } from '../../shared-core/measure/parsed.ts';

/** How a table is to be read. */
export interface LogAsked {
  /** What the business uses, where the table does not say. */
  readonly home: Pick<LogChoice, 'unit' | 'dateOrder' | 'timeZone'>;
  /** What the person chose otherwise than guessed. */
  readonly changed: Partial<LogChoice>;
}

/** What came of it. */
export interface LogRead {
  /** The head and the first rows, to choose columns by. */
  readonly top: LogTable;
  /** Null when no column holds moments or none holds numbers. */
  readonly guess: LogChoice | null;
  readonly preview: Parsed<LogPreview> | null;
}

const TOP_ROWS = 50;

/** Rows and cells of comma- or tab-separated text. */
export function parseLog(text: string): LogTable {
  const trimmed = text.trim();
  return trimmed === '' ? [] : Papa.parse<string[]>(trimmed, { skipEmptyLines: true }).data;
}

/** Reads a table as asked. Nothing is stored. */
export function readLog(table: LogTable, { home, changed }: LogAsked, nowMs: number, onShare?: (share: number) => void): LogRead {
  const guess = guessLogChoice(table, home);
  const preview = guess === null ? null : previewLog(table, { ...guess, ...changed }, nowMs, onShare);
  return { top: table.slice(0, TOP_ROWS + (guess?.headRows ?? 0)), guess, preview };
}
