/** Which prices of a new book are typical. */
import { expect, it } from 'vitest';
import { newBusiness } from '../../../shared-core/book/typical-business.ts';
import { typicalMaterials } from '../../../shared-core/material/typical-materials.ts';
import { typicalPriceWords } from '../../../shared-core/price/typical-prices.ts';

const NOW = '2026-11-30T15:00:00Z';
const DAY = '2026-11-30';
const business = newBusiness(NOW, 'America/New_York', 'en-US');
const materials = typicalMaterials((slug) => slug, NOW, 'America/New_York');
const fine = 'Self-leveling underlayment, fine';
const paid = { ...business, costs: { ...business.costs, ownHourMinor: 6500 } };

it('are named until the owner enters his own', () => {
  expect(typicalPriceWords(business, materials, [fine, 'Pour and finish'], DAY)).toBe(
    `Typical figures, not yours: labor rates and the price of “${fine}”. Enter your own under Settings and Materials before you issue the quote.`,
  );
  expect(typicalPriceWords(paid, materials, [fine, 'Primer, wood'], DAY)).toMatch(
    /: the prices of “[^”]+” and “[^”]+”\. Enter your own under Materials /,
  );
  expect(typicalPriceWords(business, materials, [], DAY)).toMatch(/: labor rates\. Enter your own under Settings /);
  expect(typicalPriceWords(paid, materials, ['Pour and finish'], DAY)).toBeNull();
});

it('give way to a newer price of the owner', () => {
  const own = materials.map((m) => ({ ...m, prices: m.prices.map((price) => ({ ...price, minor: 4150, note: '' })) }));
  expect(typicalPriceWords(paid, own, [fine], DAY)).toBeNull();
});
