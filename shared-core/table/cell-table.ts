/** Tables as other programs write them: text between commas, semicolons or tabs (RFC 4180), read into rows of cells. */
import Papa from 'papaparse';

/**
 * Rows of cells, as a file of separated values or a sheet of a workbook gives them. Blank rows stay, so that row numbers are the
 * file's.
 */
export type CellTable = readonly (readonly string[])[];

/** A table and the character between its cells; an empty delimiter where no character can split a cell, as in a workbook. */
export type SeparatedTable = { readonly table: CellTable; readonly delimiter: string };

const DELIMITERS = ['\t', ';', ',', '|'];

/** Rows and cells of separated text; a byte order mark is left out. */
export function parseTable(text: string): SeparatedTable {
  const plain = text.replace(/^\uFEFF/, '').replace(/\s+$/, '');
  if (plain === '') return { table: [], delimiter: '' };
  const { data, meta } = Papa.parse<string[]>(plain, { delimitersToGuess: DELIMITERS });
  return { table: data, delimiter: meta.delimiter };
}

/** Whether pasted text has several columns: tabs or semicolons, or two commas in a line. */
export function hasColumns(text: string): boolean {
  return /[\t;]/.test(text.trim()) || text.split(/\r?\n/).some((line) => (line.match(/,/g) ?? []).length >= 2);
}

/** A row of which every cell is blank. */
export function isBlankRow(row: readonly string[]): boolean {
  return row.every((cell) => cell.trim() === '');
}

/** How many cells per row has, blank ones at its end left out. */
export function rowWidth(row: readonly string[]): number {
  return row.findLastIndex((cell) => cell.trim() !== '') + 1;
}

/** Whether a number of these columns looks split in two: whole digits, and digits alone in the next cell. */
export function looksSplit(row: readonly string[], numberColumns: readonly number[]): boolean {
  return numberColumns.some((at) => /^\s*[+-]?\d+\s*$/.test(row[at] ?? '') && /^\s*\d+\s*$/.test(row[at + 1] ?? ''));
}

/**
 * A row wider than its head in a table with commas: an unquoted decimal comma has split `18,9` into `18` and `9`.
 * @returns the row with each number of the given columns joined again; null where it is not wider by just as many cells
 */
export function joinDecimals(row: readonly string[], headWidth: number, numberColumns: readonly number[]): readonly string[] | null {
  if (numberColumns.length === 0 || rowWidth(row) !== headWidth + numberColumns.length) return null;
  const joined: string[] = [];
  let at = 0;
  for (let column = 0; column < headWidth; column += 1) {
    const cell = row[at] ?? '';
    at += 1;
    if (numberColumns.includes(column)) {
      const digits = row[at] ?? '';
      if (!/^\s*[+-]?\d+\s*$/.test(cell) || !/^\d+\s*\D*$/.test(digits)) return null;
      joined.push(`${cell},${digits}`);
      at += 1;
    } else joined.push(cell);
  }
  return joined;
}
