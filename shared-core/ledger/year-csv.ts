/** The bookkeeper's tables as CSV (RFC 4180): money in decimals, days as YYYY-MM-DD, and an index of their contents. */
import { csvText } from '../table/csv.ts';
import { decimalMoney } from '../price/money.ts';
import type { YearCell, YearTable } from './year-tables.ts';

/**
 * One table as CSV text.
 * @param currency three capital letters, for the decimals of its money
 */
export function yearCsv(table: YearTable, currency: string): string {
  const cell = (value: YearCell, i: number): string => {
    if (value === null) return '';
    return table.columns[i]?.holds === 'money' ? decimalMoney(Number(value), currency) : String(value);
  };
  return csvText([table.columns.map((c) => c.title), ...table.rows.map((cells) => cells.map(cell))]);
}

const CONTENTS: Readonly<Record<YearTable['name'], string>> = {
  income: 'Money received and refunded, on the day it moved.',
  expenses: 'Purchases, on the day they were paid.',
  'expenses by category': 'Purchases added up by category.',
  'sales tax': 'Sales tax invoiced, by jurisdiction.',
  mileage: 'Drives with date, purpose, and distance.',
  labor: 'Hours worked by person and task, at cost.',
  'contractor payments': 'Amounts paid to each contractor, for Form 1099-NEC.',
  'unpaid invoices': 'Invoices open on the last day.',
};

const FORMATS: Readonly<Record<YearTable['columns'][number]['holds'], string>> = {
  text: 'Text',
  day: 'Date, YYYY-MM-DD',
  money: 'Amount, decimal point, no thousands separator',
  number: 'Number, decimal point',
};

/** An index of the folder, as CSV: each file, its contents, its rows, and a row for each of its columns. */
export function yearIndexCsv(tables: readonly YearTable[], from: string, to: string): string {
  const rows = tables.flatMap((t) =>
    t.columns.map(({ title, holds }, i) => [
      `${t.name}.csv`,
      i === 0 ? CONTENTS[t.name] : '',
      i === 0 ? String(t.rows.length) : '',
      title,
      FORMATS[holds],
    ]),
  );
  return csvText([['File', `Contents, ${from} to ${to}`, 'Rows', 'Column', 'Format'], ...rows]);
}
