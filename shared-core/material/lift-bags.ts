/** The bags of each lift of a room: what the next pour takes, and what the lifts after it still take. */
import type { BagCount } from './bag-count.ts';
import { hasAggregate, liftsAboveM, type LiftPlan } from './lifts.ts';

/** Volumes of a fill that lie deeper than some depths, cubic meters, in the order of the depths, which are meters. */
export type DeeperVolumes = (depthsM: readonly number[]) => readonly number[];

/**
 * The bags of each lift before rounding, the lowest first; null while the volume of a lift is not known.
 * @param bagM3 what a bag puts on the floor in a lift, cubic meters: its yield less its waste
 */
export function bagsOfLifts(
  lifts: LiftPlan | null,
  bags: Pick<BagCount, 'exactBags'>,
  deeper: DeeperVolumes | null,
  bagM3: (withAggregate: boolean) => number,
): readonly number[] | null {
  if (lifts === null || lifts.count < 2) return [bags.exactBags];
  if (deeper === null) return null;
  // A lift is what lies deeper than the lifts over it, less what lies deeper than that lift as well.
  const numbers = Array.from({ length: lifts.count }, (_, i) => i + 1);
  const volumesM3 = deeper(numbers.map((lift) => liftsAboveM(lifts, lift)));
  return numbers.map((lift, i) => Math.max(0, (volumesM3[i] ?? 0) - (volumesM3[i - 1] ?? 0)) / bagM3(hasAggregate(lifts, lift)));
}

/** The bags of one lift before rounding; null while they are not known. @param lift from 1, the lowest; past the last it is the last */
export const bagsOfLift = (liftBags: readonly number[] | null, lift: number): number | null =>
  liftBags?.[Math.min(lift, liftBags.length) - 1] ?? null;

/**
 * Bags to have on site for what is placed of a room: its share of those quoted, and never fewer than it needs.
 * @param placedBags bags that it takes, before rounding
 */
export function bagsToBring({ quotedBags, exactBags }: Pick<BagCount, 'quotedBags' | 'exactBags'>, placedBags: number): number {
  const share = exactBags > 0 ? quotedBags / exactBags : 1;
  return Math.ceil(placedBags * Math.max(1, share) - 1e-6);
}
