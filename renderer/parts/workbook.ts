/** Writes tables as one workbook (ECMA-376) with typed cells: numbers, days as dates, phone numbers as text. */
import type { DataCell, DataTable, Holds } from '../../shared-core/documents/lists/data-table.ts';

/** A sheet has at most 1,048,576 rows (ECMA-376, 18.3.1.73); a longer table is only a CSV file. */
const MOST_ROWS = 1_000_000;

const DATE_FORMAT: Readonly<Partial<Record<Holds, string>>> = { day: 'yyyy-mm-dd', local: 'yyyy-mm-dd hh:mm' };

function cellOf(value: DataCell, holds: Holds): object | null {
  if (value === null || value === '') return null;
  // Workbook dates have no zone, so the wall-clock time is written.
  if (holds === 'day' || holds === 'local')
    return {
      value: new Date(`${String(value).replace(' ', 'T')}${holds === 'day' ? 'T00:00' : ''}:00Z`),
      type: Date,
      format: DATE_FORMAT[holds],
    };
  if (holds === 'money') return { value: Number(value), type: Number, format: '#,##0.00' };
  if (holds === 'number') return { value: Number(value), type: Number };
  return { value: String(value), type: String };
}

/** The bytes of a workbook with one sheet per table that has rows. */
export async function workbookOf(tables: readonly DataTable[]): Promise<Uint8Array> {
  const { default: writeWorkbook } = await import('write-excel-file/universal');
  const sheets = tables
    .filter(({ rows }) => rows.length > 0 && rows.length <= MOST_ROWS)
    .map(({ name, columns, rows }) => ({
      sheet: name.slice(0, 31),
      stickyRowsCount: 1,
      columns: columns.map(({ title, holds }) => ({ width: holds === 'text' ? 24 : Math.max(12, title.length + 2) })),
      data: [
        columns.map(({ title }) => ({ value: title, type: String, fontWeight: 'bold' })),
        ...Array.from(rows, (row) => row.map((value, i) => cellOf(value, columns[i]?.holds ?? 'text'))),
      ],
    }));
  const blob = await writeWorkbook(sheets as Parameters<typeof writeWorkbook>[0]).toBlob();
  return new Uint8Array(await blob.arrayBuffer());
}
