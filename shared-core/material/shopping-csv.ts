/** The shopping list as comma-separated values (RFC 4180), safe to open in a spreadsheet. */
import type { ShoppingList } from './shopping.ts';

const HEADER = ['Containers', 'Container', 'Item', 'Needed', 'Rooms'];

/**
 * One row a thing to buy, CRLF line ends, a header row.
 * @param list the job's shopping list
 */
export function shoppingCsv(list: ShoppingList): string {
  const rows = list.items.map((item) => [
    item.containers === null ? '' : String(item.containers),
    item.container,
    item.name,
    item.needWords,
    item.rooms.join('; '),
  ]);
  return [HEADER, ...rows].map((row) => `${row.map(csvCell).join(',')}\r\n`).join('');
}

/**
 * One cell. Text that a spreadsheet would take for a formula (it starts with = + - @, a tab or a return) gets an
 * apostrophe in front, the guard the OWASP notes on CSV injection recommend; a plain number does not need it.
 */
export function csvCell(text: string): string {
  const isNumber = /^-?\d+(\.\d+)?$/.test(text);
  const guarded = !isNumber && /^[=+\-@\t\r\uFF1D\uFF0B\uFF0D\uFF20]/.test(text.replace(/^[ \u00a0]+/, '')) ? `'${text}` : text;
  return /[",\r\n]/.test(guarded) ? `"${guarded.replaceAll('"', '""')}"` : guarded;
}
