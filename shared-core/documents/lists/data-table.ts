/** An exported table: named columns with their formats, the same in a CSV file and a workbook. */
import { minuteOfInstant } from '../../measure/moment.ts';
import { decimalMoney } from '../../price/money.ts';
import { csvCell, csvText, phoneCell } from '../../table/csv.ts';

/**
 * What a cell holds. `money` is a decimal number in the row's currency; `day` is `2026-05-12`; `instant` is UTC by ISO 8601;
 * `local` is wall-clock time, `2026-05-12 14:05`.
 */
export type Holds = 'text' | 'phone' | 'number' | 'money' | 'day' | 'instant' | 'local';
export type DataCell = string | number | null;
export type DataColumn = { readonly title: string; readonly holds: Holds; readonly about: string };
export type DataTable = {
  readonly name: string;
  readonly about: string;
  readonly columns: readonly DataColumn[];
  readonly rows: TableRows;
};
/** Rows that may be filled only as they are read, because all cells of a large list do not fit in memory. */
export type TableRows = Iterable<readonly DataCell[]> & { readonly length: number };

/**
 * The rows of the longest list that a workbook holds; a longer one is only a CSV file. A sheet may have 1,048,576 rows (ECMA-376,
 * 18.3.1.73), but a workbook of many such sheets opens slowly or not at all on a small computer.
 */
export const SHEET_ROWS_MOST = 100_000;

/** A column and how a row fills it. */
export type ColumnOf<Row> = DataColumn & { readonly cellOf: (row: Row) => DataCell };

type Get<Row, Value> = (row: Row) => Value | null | undefined;

const plainColumn =
  (holds: Holds, empty: '' | null) =>
  <Row>(title: string, fieldOf: Get<Row, string>, about = ''): ColumnOf<Row> => ({
    title,
    holds,
    about,
    cellOf: (row) => fieldOf(row) ?? empty,
  });
export const text = plainColumn('text', '');
export const phone = plainColumn('phone', '');
export const day = plainColumn('day', null);

/** A figure rounded to what was measured. @param decimals digits kept after the point */
export const number = <Row>(title: string, decimals: number, fieldOf: Get<Row, number>, about = ''): ColumnOf<Row> => ({
  title,
  holds: 'number',
  about,
  cellOf: (row) => {
    const value = fieldOf(row);
    return value === null || value === undefined ? null : Number(value.toFixed(decimals));
  },
});

/** An amount as a decimal number. @param fieldOf whole minor units and their currency */
export const money = <Row>(title: string, fieldOf: Get<Row, readonly [minor: number, currency: string]>, about = ''): ColumnOf<Row> => ({
  title,
  holds: 'money',
  about,
  cellOf: (row) => {
    const value = fieldOf(row);
    return value === null || value === undefined ? null : decimalMoney(value[0], value[1]);
  },
});

/** An instant in two columns: in UTC, and as the clock on site shows it. @param zone the time zone of a row */
export function moments<Row>(title: string, zone: (row: Row) => string, fieldOf: Get<Row, string>, about = ''): readonly ColumnOf<Row>[] {
  // Rows of one survey or visit share their instant.
  let last = { instant: '', zone: '', local: '' };
  const localOf = (instant: string, place: string): string => {
    if (instant !== last.instant || place !== last.zone) last = { instant, zone: place, local: minuteOfInstant(instant, place) };
    return last.local;
  };
  return [
    { title: `${title} (UTC)`, holds: 'instant', about, cellOf: (row) => fieldOf(row) ?? null },
    {
      title: `${title} (local)`,
      holds: 'local',
      about: 'The same moment by the clock on site.',
      cellOf: (row) => {
        const instant = fieldOf(row);
        return instant === null || instant === undefined ? null : localOf(instant, zone(row));
      },
    },
  ];
}

/** Rows, in an array or made as they are read. */
export type Rows<Row> = Iterable<Row> & { readonly length: number };

/** Rows made again at each reading, because all of a large list at once fill the memory. They are counted here. */
export function madeRows<Row>(make: () => Generator<Row, void>): Rows<Row> {
  let length = 0;
  for (const rows = make(); rows.next().done !== true; ) length += 1;
  return { length, [Symbol.iterator]: make };
}

/** A table whose cells are filled as they are read. */
export function dataTable<Row>(name: string, about: string, rows: Rows<Row>, columns: readonly ColumnOf<Row>[]): DataTable {
  return {
    name,
    about,
    columns: columns.map(({ title, holds, about: words }) => ({ title, holds, about: words })),
    rows: {
      length: rows.length,
      *[Symbol.iterator]() {
        for (const row of rows) yield columns.map(({ cellOf }) => cellOf(row));
      },
    },
  };
}

/** The first line of a table as CSV, with the titles of its columns. */
export const csvHead = (columns: readonly DataColumn[]): string => csvText([columns.map(({ title }) => title)]);

/** Writes the rows of a table as CSV, in order. A cell equal to the one above it, as most are, is not written again. */
export function csvLines(columns: readonly DataColumn[]): (row: readonly DataCell[]) => string {
  const above: (DataCell | undefined)[] = columns.map(() => undefined);
  const written: string[] = columns.map(() => '');
  return (row) => {
    let line = '';
    for (let i = 0; i < row.length; i += 1) {
      const value = row[i] ?? null;
      if (value !== above[i]) {
        above[i] = value;
        written[i] = value === null ? '' : csvCell(columns[i]?.holds === 'phone' ? phoneCell(String(value)) : String(value));
      }
      line += i === 0 ? (written[i] ?? '') : `,${written[i] ?? ''}`;
    }
    return `${line}\r\n`;
  };
}

/** The table as CSV. */
export function dataCsv({ columns, rows }: DataTable): string {
  const line = csvLines(columns);
  let csv = csvHead(columns);
  for (const row of rows) csv += line(row);
  return csv;
}

const HOLDS_WORDS: Readonly<Record<Holds, string>> = {
  text: 'text',
  phone: 'phone number, as text',
  number: 'number',
  money: 'amount in the currency of the row',
  day: 'day, year-month-day',
  instant: 'moment in UTC (ISO 8601)',
  local: 'wall-clock time on site',
};

/** What every column of the tables holds: one row per column. Units stand in the column titles. */
export function columnsTable(tables: readonly DataTable[]): DataTable {
  const rows = tables.flatMap((table) => table.columns.map((column) => ({ table, column })));
  return dataTable('columns', 'Contents of each list and column.', rows, [
    text('List', ({ table }) => table.name),
    text('Column', ({ column }) => column.title),
    text('Format', ({ column }) => HOLDS_WORDS[column.holds]),
    text('Description', ({ table, column }) => (column.about === '' && column === table.columns[0] ? table.about : column.about)),
    number('Rows', 0, ({ table }) => table.rows.length),
    text('File', ({ table }) => (table.rows.length > SHEET_ROWS_MOST ? 'CSV only' : 'CSV and workbook')),
  ]);
}
