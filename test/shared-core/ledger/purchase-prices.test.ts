import { expect, it } from 'vitest';
import { changedPrices, quotesMovedBy } from '../../../shared-core/ledger/purchase-prices.ts';
import { sampleAt } from '../../sample-at.ts';

const book = sampleAt('2026-05-12T15:00:00Z');
const quote = book.quotes.find(({ state }) => state === 'issued');
const sheet = book.materials.find(({ id }) => id === 'sample-topping');
if (quote === undefined || sheet === undefined) throw new Error('the sample has no open quote with topping');
const priceThen = sheet.prices.at(-1)?.minor ?? 0;
const raised = { ...sheet, prices: [...sheet.prices, { from: '2026-05-10', minor: priceThen + 250, note: '' }] };

it('names the open quotes that a new price affects, with the additional cost of their bags', () => {
  const bags = quote.priced.options[0]?.bags ?? 0;
  const [moved] = quotesMovedBy(raised, book.quotes, '2026-05-12');
  // By hand: 2.50 more on each bag of the quote.
  expect(moved).toMatchObject({ number: '26-022', quotedMinor: priceThen, moreMinor: bags * 250 });
  expect(quotesMovedBy(sheet, book.quotes, '2026-05-12')).toEqual([]);
  expect(quotesMovedBy(raised, book.quotes, '2026-05-09')).toEqual([]);
  expect(quotesMovedBy(raised, [{ ...quote, state: 'accepted' }], '2026-05-12')).toEqual([]);
});

it('gives a price per container that a purchase changed, over all lines of that material', () => {
  const line = (quantity: number, amountMinor: number, materialId: string | null) => ({
    ...{ text: 'x', quantity, unit: 'bag', amountMinor, materialId, lot: '', expiresOn: null },
  });
  // By hand: 3 bags for 105.00 and 1 for 45.00 is 37.50 each.
  const lines = [line(3, 10_500, sheet.id), line(1, 4_500, sheet.id), line(1, 999, null)];
  expect(changedPrices(lines, book.materials, '2026-05-12').map(({ minor }) => minor)).toEqual([3_750]);
  expect(changedPrices([line(2, 2 * priceThen, sheet.id)], book.materials, '2026-05-12')).toEqual([]);
});
