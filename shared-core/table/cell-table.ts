/** Parses tables from other programs: text separated by commas, semicolons, or tabs (RFC 4180), as rows of cells. */
import Papa from 'papaparse';

/**
 * Rows of cells from a file of separated values or a worksheet. Blank rows are kept, so that row numbers match the file's.
 */
export type CellTable = readonly (readonly string[])[];

/** A table and its delimiter; an empty delimiter where no character can split a cell, as in a workbook. */
export type SeparatedTable = { readonly table: CellTable; readonly delimiter: string };

const DELIMITERS = ['\t', ';', ',', '|'];

const isOfQuotes = ({ type }: Papa.ParseError): boolean => type === 'Quotes';

/** Cells of a line whose quotes do not pair: quotes around a whole cell are removed, others are text. */
const plainCells = (line: string, delimiter: string): string[] =>
  line.split(delimiter).map((cell) => (/^"(?:[^"]|"")*"$/.test(cell) ? cell.slice(1, -1).replaceAll('""', '"') : cell));

/** Parses text in which a quote is not closed, or closed in the middle of a cell: that row ends with its line, and takes no row after it. */
function mendedTable(text: string, { delimiter, linebreak }: Papa.ParseMeta): string[][] {
  const table: string[][] = [];
  let from = 0;
  const readWhole = (start: number): void => {
    Papa.parse<string[]>(text.slice(start), {
      delimiter,
      newline: linebreak as '\n',
      step: ({ data, errors, meta }, parser) => {
        if (errors.some(isOfQuotes)) {
          parser.abort();
          return;
        }
        table.push(data);
        from = start + meta.cursor;
      },
    });
  };
  while (from < text.length) {
    readWhole(from);
    if (from >= text.length) break;
    const end = text.indexOf(linebreak, from);
    table.push(plainCells(text.slice(from, end < 0 ? text.length : end), delimiter));
    from = end < 0 ? text.length : end + linebreak.length;
  }
  return table;
}

/** A first line that names the delimiter, as spreadsheets read and write it: `sep=;`. */
const NAMED_DELIMITER = /^"?sep=([\t;,|])"?(?=[\r\n])/i;

/** Parses separated text to rows and cells; a byte order mark is dropped, and a line that names the delimiter is left blank. */
export function parseTable(text: string): SeparatedTable {
  const whole = text.replace(/^\uFEFF/, '').replace(/\s+$/, '');
  const plain = whole.replace(NAMED_DELIMITER, '');
  if (plain === '') return { table: [], delimiter: '' };
  const delimiter = NAMED_DELIMITER.exec(whole)?.[1];
  const { data, errors, meta } = Papa.parse<string[]>(plain, { delimiter, delimitersToGuess: DELIMITERS });
  return { table: errors.some(isOfQuotes) ? mendedTable(plain, meta) : data, delimiter: meta.delimiter };
}

/** Whether pasted text has several columns: tabs or semicolons, or two commas in a line. */
export function hasColumns(text: string): boolean {
  return /[\t;]/.test(text.trim()) || text.split(/\r?\n/).some((line) => (line.match(/,/g) ?? []).length >= 2);
}

/** Whether every cell of a row is blank. */
export function isBlankRow(row: readonly string[]): boolean {
  return row.every((cell) => cell.trim() === '');
}

/** Number of cells in a row, without blank ones at its end. */
export function rowWidth(row: readonly string[]): number {
  return row.findLastIndex((cell) => cell.trim() !== '') + 1;
}

/** Whether a number in these columns looks split in two: whole digits, and only digits in the next cell. */
export function looksSplit(row: readonly string[], numberColumns: readonly number[]): boolean {
  return numberColumns.some((column) => /^\s*[+-]?\d+\s*$/.test(row[column] ?? '') && /^\s*\d+\s*$/.test(row[column + 1] ?? ''));
}

/**
 * Repairs a row wider than its head in a comma-separated table, where an unquoted decimal comma split `18,9` into `18` and
 * `9`.
 * @returns the row with each number of the given columns joined again; null where it is not wider by exactly that many cells
 */
export function joinDecimals(row: readonly string[], headWidth: number, numberColumns: readonly number[]): readonly string[] | null {
  if (numberColumns.length === 0 || rowWidth(row) !== headWidth + numberColumns.length) return null;
  const joined: string[] = [];
  let index = 0;
  for (let column = 0; column < headWidth; column += 1) {
    const cell = row[index] ?? '';
    index += 1;
    if (numberColumns.includes(column)) {
      const digits = row[index] ?? '';
      if (!/^\s*[+-]?\d+\s*$/.test(cell) || !/^\d+\s*\D*$/.test(digits)) return null;
      joined.push(`${cell},${digits}`);
      index += 1;
    } else joined.push(cell);
  }
  return joined;
}
