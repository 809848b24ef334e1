/** The shopping list as comma-separated values (RFC 4180), safe to open in a spreadsheet. */
import type { Business } from '../../book/business.ts';
import type { ShoppingList } from '../../material/shopping.ts';
import { csvText } from '../../table/csv.ts';
import { amountWords, itemName } from '../shopping-list.ts';

const HEADER = ['Containers', 'Container', 'Item', 'Needed', 'Rooms'];

/**
 * One row per item to buy, CRLF line ends, a header row.
 * @param list the job's shopping list
 */
export function shoppingCsv(list: ShoppingList, { units, locale }: Pick<Business, 'units' | 'locale'>): string {
  const rows = list.items.map((item) => [
    item.containers === null ? '' : String(item.containers),
    item.container,
    itemName(item),
    amountWords(item.need, item.unit, units, locale),
    item.rooms.join('; '),
  ]);
  return csvText([HEADER, ...rows]);
}
