/** Reads tables from a file by its content: delimited text, or workbook sheets (ECMA-376). Other spreadsheets are refused by name. */
import { isBlankRow, parseTable, type SeparatedTable } from '../../shared-core/table/cell-table.ts';
import type { Parsed } from '../../shared-core/measure/parsed.ts';
import { readText } from './read-text.ts';

/** One table; a workbook has one per sheet. */
export type NamedTable = SeparatedTable & { readonly name: string };

/** File types for a file dialog. */
export const TABLE_FILES = ['.csv', '.txt', '.tsv', '.xlsx', 'text/csv', 'text/plain', 'text/tab-separated-values'];

/** A cell takes about 100 bytes, so a larger workbook may exhaust the memory of a small computer. */
const MOST_WORKBOOK_BYTES = 30_000_000;

const AS_CSV = 'Open it in a spreadsheet program and save it as CSV or as an Excel workbook (.xlsx).';

/** Unsupported spreadsheets, by their first bytes or by an entry name inside a zip. */
function otherKind(bytes: Uint8Array): string | null {
  const begins = (...head: readonly number[]): boolean => head.every((byte, i) => bytes[i] === byte);
  // Compound File Binary, [MS-CFB] 2.2: workbooks before 2007, and encrypted ones.
  if (begins(0xd0, 0xcf, 0x11, 0xe0)) return `This is an older or encrypted Excel workbook (.xls). ${AS_CSV}`;
  if (begins(0x25, 0x50, 0x44, 0x46)) return 'This is a PDF, not a table. Export the readings as CSV.';
  if (!begins(0x50, 0x4b)) return null;
  const top = new TextDecoder('latin1').decode(bytes.slice(0, 4000));
  if (top.includes('opendocument.spreadsheet')) return `This is an OpenDocument spreadsheet (.ods). ${AS_CSV}`;
  if (top.includes('Index/Document.iwa')) return `This is a Numbers spreadsheet. ${AS_CSV}`;
  const all = new TextDecoder('latin1').decode(bytes.slice(-66_000)) + top;
  return all.includes('xl/worksheets/') ? null : 'This is a zip archive, not a table. Unpack it and choose the file inside.';
}

/** A cell as text. Workbook dates have no zone (ECMA-376, 18.17.4); wall-clock time is given as UTC. */
function cellText(cell: unknown): string {
  if (cell instanceof Date) {
    // Serial dates are binary fractions of a day, so a millisecond of rounding is removed.
    const rounded = new Date(Math.round(cell.getTime() / 1000) * 1000);
    return Number.isNaN(rounded.getTime()) ? '' : rounded.toISOString().slice(0, 19).replace('T', ' ');
  }
  return typeof cell === 'string' ? cell : typeof cell === 'number' || typeof cell === 'boolean' ? String(cell) : '';
}

/**
 * The tables of a file: one for delimited text, or one per sheet that is not blank.
 * @returns the tables, or a sentence that names the file type
 */
export async function readTables(file: Blob & { readonly name?: string }): Promise<Parsed<readonly NamedTable[]>> {
  const head = new Uint8Array(await file.slice(0, 4).arrayBuffer());
  const isZip = head[0] === 0x50 && head[1] === 0x4b;
  const isOther = head[0] === 0xd0 || (head[0] === 0x25 && head[1] === 0x50);
  if (!isZip && !isOther) return { ok: true, value: [{ ...parseTable(await readText(file)), name: file.name ?? '' }] };
  if (file.size > MOST_WORKBOOK_BYTES)
    return { ok: false, message: 'This workbook is larger than 30 MB. Save the sheet as CSV and import that.' };
  const bytes = new Uint8Array(await file.arrayBuffer());
  const other = otherKind(bytes);
  if (other !== null) return { ok: false, message: other };
  try {
    const { default: readWorkbook } = await import('read-excel-file/universal');
    const sheets = await readWorkbook(bytes.buffer);
    const tables = sheets.map(({ sheet, data }) => ({ name: sheet, delimiter: '', table: data.map((row) => row.map(cellText)) }));
    const filled = tables.filter(({ table }) => table.some((row) => !isBlankRow(row)));
    return filled.length > 0 ? { ok: true, value: filled } : { ok: false, message: 'This workbook has no filled sheet.' };
  } catch {
    return { ok: false, message: `This workbook could not be read. ${AS_CSV}` };
  }
}
