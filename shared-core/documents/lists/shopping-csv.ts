/** The shopping list as comma-separated values (RFC 4180), safe to open in a spreadsheet. */
import type { ShoppingList } from '../../material/shopping.ts';
import { csvText } from '../../table/csv.ts';

const HEADER = ['Containers', 'Container', 'Item', 'Needed', 'Rooms'];

/**
 * One row per item to buy, CRLF line ends, a header row.
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
  return csvText([HEADER, ...rows]);
}
