/** Capacity of the cart or hopper that carries a pour. */
import type { Crew } from '../book/job.ts';
import { formatNumber } from '../measure/number.ts';
import type { UnitSystem } from '../measure/unit-system.ts';
import { formatLiquid, LITER_M3 } from '../measure/volume.ts';

type Cart = Pick<Crew, 'carry' | 'cartBatches' | 'cartHoldsL'>;

/** Full batches that fit in the cart; null by hand, or while its capacity is unknown. */
export function batchesHeld(cart: Cart, batchM3: number): number | null {
  if (cart.carry !== 'cart' || cart.cartHoldsL == null || !(batchM3 > 0)) return null;
  return Math.floor((cart.cartHoldsL * LITER_M3) / batchM3 + 1e-9);
}

/** A message when the load does not fit in the cart; null when it fits or the capacity is unknown. */
export function cartProblem(cart: Cart, batchM3: number, units: UnitSystem, locale?: string): string | null {
  const capacity = batchesHeld(cart, batchM3);
  if (capacity === null || cart.cartHoldsL == null || capacity >= cart.cartBatches) return null;
  const loadL = (cart.cartBatches * batchM3) / LITER_M3;
  const load = `${formatNumber(cart.cartBatches, { most: 0 }, locale)} batches are ${formatLiquid(loadL, units, locale)}, and the cart holds ${formatLiquid(cart.cartHoldsL, units, locale)}`;
  return capacity === 0 ? `${load}: not even one batch goes in.` : `${load}: load ${formatNumber(capacity, { most: 0 }, locale)}.`;
}
