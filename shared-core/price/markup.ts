/**
 * From cost to price. A markup is a share of the cost, a margin is a share of the price:
 * 40 % markup on 100 asks 140, 40 % margin on 100 asks 166.67.
 */
import type { Pricing } from '../book/business.ts';
import { formatNumber } from '../measure/number.ts';
import type { Parsed } from '../measure/parsed.ts';
import { exact, minus, ONE, over, plus, times, type Exact } from './exact.ts';

/**
 * The factor from cost to price.
 * @param method `markup` or `margin`
 * @param share 0.4 is 40 %
 * @returns the exact factor, or why there is none: a margin of 100 % and more leaves no price.
 */
export function priceFactor(method: Pricing['method'], share: number): Parsed<Exact> {
  if (!Number.isFinite(share) || share < 0) return { ok: false, message: `A ${method} is at least 0%.` };
  if (method === 'markup') return { ok: true, value: plus(ONE, exact(share)) };
  if (share >= 1) {
    return { ok: false, message: `A margin of ${percent(share)} is not possible. Enter less than 100%.` };
  }
  return { ok: true, value: over(ONE, minus(ONE, exact(share))) };
}

/**
 * The same share expressed as the other method: 40 % markup is 28.6 % margin.
 * @returns the other share, or null where there is none
 */
export function otherShare(method: Pricing['method'], share: number): number | null {
  if (method === 'markup') return share / (1 + share);
  return share < 1 ? share / (1 - share) : null;
}

/** The margin that a method and its share leave; null where there is none. */
export const marginShare = (method: Pricing['method'], share: number): number | null =>
  method === 'margin' ? (share < 1 ? share : null) : otherShare(method, share);

/** Markup or margin explained in one sentence, with the other beside it. */
export function explainShare(method: Pricing['method'], share: number): string {
  const other = otherShare(method, share);
  if (method === 'markup') return `${percent(share)} is added to the cost. This is a margin of ${percent(other ?? 0)}.`;
  return other === null
    ? 'A margin is a share of the price and stays below 100%.'
    : `${percent(share)} of the price is margin. This is a markup of ${percent(other)}.`;
}

function percent(share: number): string {
  return `${formatNumber(share * 100, { most: 1 })}%`;
}

/** The cost times the factor, exactly. */
export function priceOf(costMinor: number, factor: Exact): Exact {
  return times(exact(costMinor), factor);
}
