/** Price of a container on a day, from its price history. */
import type { Material } from '../book/material.ts';

/** A price in force, and since when. */
export type PriceInForce = { readonly minor: number; readonly from: string };

/**
 * The price of one container on a day: the newest that is effective by then.
 * @param day `2026-05-12`
 * @returns null when no price is effective yet
 */
export function priceOnDay(material: Pick<Material, 'prices'>, day: string): PriceInForce | null {
  const inOrder = material.prices.toSorted((a, b) => (a.from < b.from ? -1 : a.from > b.from ? 1 : 0));
  const price = inOrder.findLast((p) => p.from <= day);
  return price === undefined ? null : { minor: price.minor, from: price.from };
}
