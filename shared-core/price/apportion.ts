/** Apportions an amount so that the parts add up exactly. */
import { exact, floorExact, over, plus, roundHalfUp, sumExact, times, ZERO, type Exact } from './exact.ts';

/**
 * Shares an amount out by weight. Each part is within one minor unit of its exact share; the odd units go to the
 * largest remainders, earlier parts first among equals (the largest-remainder rule).
 * @param totalMinor whole minor units, of either sign
 * @param weights none below zero
 * @returns whole minor units, one a weight, adding to the total; all zero weights share equally. Empty for no weights.
 */
export function apportion(totalMinor: number, weights: readonly Exact[]): number[] {
  if (weights.length === 0) return [];
  if (totalMinor < 0) return apportion(-totalMinor, weights).map((part) => (part === 0 ? 0 : -part));
  const sum = sumExact(weights);
  const shares = sum.num === 0n ? weights.map(() => exact(1)) : weights;
  const whole = sum.num === 0n ? exact(weights.length) : sum;
  const exactParts = shares.map((weight) => over(times(exact(totalMinor), weight), whole));
  const floors = exactParts.map(floorExact);
  let remaining = BigInt(totalMinor) - floors.reduce((a, b) => a + b, 0n);
  const byRemainder = exactParts
    .map((part, index) => ({ index, remainder: plus(part, { num: -(floors[index] ?? 0n), den: 1n }) }))
    .sort((a, b) => {
      const difference = b.remainder.num * a.remainder.den - a.remainder.num * b.remainder.den;
      return difference === 0n ? a.index - b.index : difference > 0n ? 1 : -1;
    });
  for (const { index } of byRemainder) {
    if (remaining <= 0n) break;
    floors[index] = (floors[index] ?? 0n) + 1n;
    remaining -= 1n;
  }
  return floors.map(Number);
}

/**
 * Splits an amount into successive stages. Each running total is rounded once, so the first stage is exactly its
 * share of the whole and the last takes what is left.
 * @param totalMinor whole minor units
 * @param shares parts of one, in order; they are calculated against their own sum
 * @returns whole minor units adding to the total
 */
export function splitInStages(totalMinor: number, shares: readonly number[]): number[] {
  const parts = shares.map(exact);
  const sum = sumExact(parts);
  if (sum.num === 0n) return apportion(totalMinor, parts);
  let running = ZERO;
  let before = 0;
  return parts.map((part) => {
    running = plus(running, part);
    const upTo = roundHalfUp(over(times(exact(totalMinor), running), sum));
    const stage = upTo - before;
    before = upTo;
    return stage;
  });
}
