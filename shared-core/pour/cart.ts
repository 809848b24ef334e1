/** Capacity of the cart or hopper that carries a pour. */
import type { Crew } from '../book/job.ts';
import { LITER_M3 } from '../measure/volume.ts';

type Cart = Pick<Crew, 'carry' | 'cartBatches' | 'cartHoldsL'>;

/** Full batches that fit in the cart; null by hand, or while its capacity is unknown. */
export function batchesHeld(cart: Cart, batchM3: number): number | null {
  if (cart.carry !== 'cart' || cart.cartHoldsL == null || !(batchM3 > 0)) return null;
  return Math.floor((cart.cartHoldsL * LITER_M3) / batchM3 + 1e-9);
}

/** A load that does not fit in the cart: its batches and liters, what the cart holds, and how many batches would fit. */
export type CartOverload = { readonly batches: number; readonly loadL: number; readonly holdsL: number; readonly fit: number };

/** The load that does not fit in the cart; null when it fits or the capacity is unknown. */
export function cartOverload(cart: Cart, batchM3: number): CartOverload | null {
  const fit = batchesHeld(cart, batchM3);
  if (fit === null || cart.cartHoldsL == null || fit >= cart.cartBatches) return null;
  return { batches: cart.cartBatches, loadL: (cart.cartBatches * batchM3) / LITER_M3, holdsL: cart.cartHoldsL, fit };
}
