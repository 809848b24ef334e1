/** The bookkeeper's tables as CSV (RFC 4180): money in decimals, days as YYYY-MM-DD, and an index that says what each holds. */
import { csvCell } from '../material/shopping-csv.ts';
import { decimalMoney } from '../price/money.ts';
import type { YearCell, YearTable } from './year-tables.ts';

const row = (cells: readonly string[]): string => `${cells.map(csvCell).join(',')}\r\n`;

/**
 * One table as CSV text.
 * @param currency three capital letters, for the decimals of its money
 */
export function yearCsv(table: YearTable, currency: string): string {
  const cell = (value: YearCell, i: number): string => {
    if (value === null) return '';
    return table.columns[i]?.holds === 'money' ? decimalMoney(Number(value), currency) : String(value);
  };
  return [table.columns.map((c) => c.title), ...table.rows.map((cells) => cells.map(cell))].map(row).join('');
}

const CONTENTS: Readonly<Record<YearTable['name'], string>> = {
  income: 'Money received and refunded, on the day it moved.',
  expenses: 'Purchases, on the day they were paid.',
  'expenses by category': 'Purchases added up by category.',
  'sales tax': 'Sales tax invoiced, by jurisdiction.',
  mileage: 'Drives with date, purpose, and distance.',
  'contractor payments': 'Amounts paid to each contractor, for Form 1099-NEC.',
  'unpaid invoices': 'Invoices open on the last day.',
};

/** An index of the folder, as CSV: each file, what it holds, its rows. */
export function yearIndexCsv(tables: readonly YearTable[], from: string, to: string): string {
  const rows = tables.map((t) => [`${t.name}.csv`, CONTENTS[t.name], String(t.rows.length)]);
  return [['File', `Contents, ${from} to ${to}`, 'Rows'], ...rows].map(row).join('');
}
