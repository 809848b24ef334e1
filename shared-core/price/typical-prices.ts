/** Which prices behind a quote are typical figures that the owner never replaced. */
import type { Business } from '../book/business.ts';
import type { Material } from '../book/material.ts';
import { newBusiness } from '../book/typical-business.ts';
import { TYPICAL_PRICE } from '../material/typical-materials.ts';
import { formatListAnd } from '../measure/list.ts';
import { priceOnDay } from './price-on-day.ts';

/** The costs in Settings that are still typical. */
export function typicalCosts({ costs, createdAt, timeZone, locale }: Business): (keyof Business['costs'])[] {
  const typical = newBusiness(createdAt, timeZone, locale).costs;
  return (Object.keys(costs) as (keyof Business['costs'])[]).filter((key) => costs[key] === typical[key]);
}

const isTypicalPrice = ({ prices }: Pick<Material, 'prices'>, day: string): boolean => {
  const current = priceOnDay({ prices }, day);
  return prices.findLast(({ from }) => from === current?.from)?.note === TYPICAL_PRICE;
};

/**
 * A sentence naming the labor rates and material prices of a price that are still typical; null where all are the owner's.
 * @param names of the priced lines
 * @param day the day whose prices count, ISO
 */
export function typicalPriceWords(
  business: Business,
  materials: readonly Pick<Material, 'name' | 'prices'>[],
  names: readonly string[],
  day: string,
): string | null {
  const costs = typicalCosts(business);
  const isLaborTypical = costs.includes('ownHourMinor') && costs.includes('helperHourMinor');
  const ofMaterials = materials.filter((m) => names.includes(m.name) && isTypicalPrice(m, day)).map(({ name }) => name);
  const parts = [
    ...(isLaborTypical ? ['labor rates'] : []),
    ...(ofMaterials.length === 0
      ? []
      : [`${ofMaterials.length === 1 ? 'the price' : 'the prices'} of ${formatListAnd(ofMaterials.map((name) => `“${name}”`))}`]),
  ];
  if (parts.length === 0) return null;
  const where = formatListAnd([...(isLaborTypical ? ['Settings'] : []), ...(ofMaterials.length === 0 ? [] : ['Materials'])]);
  return `Typical figures, not yours: ${formatListAnd(parts)}. Enter your own under ${where} before you issue the quote.`;
}
