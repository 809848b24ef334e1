/** Minutes left to spread and to spike each placed batch that is still workable. */
import type { PourLimits } from './clocks.ts';
import type { PourState } from './pour-state.ts';

/** Minutes after placing to spread a batch with the gauge rake: typical, common practice, no source. */
export const SPREAD_MIN = 3;
/** Minutes from mixing to placing when the mixing was not logged: typical, common practice, no source. */
const BEFORE_PLACED_MIN = 4;

export type WorkClock = {
  readonly batch: number;
  /** Minutes left to spread it; 0 when time is up. */
  readonly spreadLeftMin: number;
  /** Minutes left to spike and smooth it. */
  readonly spikeLeftMin: number;
};

/**
 * Minutes left to spike and smooth a batch: until its healing time after it was placed, when a mark no longer closes (what ASTM C1708 measures
 * as healing time), and no longer than its working time after the water. Negative when it is over.
 */
export function spikeLeftMin(limits: PourLimits, sinceWaterMin: number, sincePlacedMin: number): number {
  return Math.min(limits.healingMin - sincePlacedMin, limits.workingTimeMin - sinceWaterMin);
}

/** Minutes to spike and smooth a batch after it is placed, for a batch placed as soon as is usual. */
export const spikeMin = (limits: PourLimits): number => spikeLeftMin(limits, BEFORE_PLACED_MIN, 0);

/** Placed batches that can still be spiked, oldest first. */
export function workClocks(plan: PourLimits, state: PourState): readonly WorkClock[] {
  return state.batches.flatMap((batch): WorkClock[] => {
    if (batch.placedMin === null || batch.discardedMin !== null) return [];
    const sinceMin = state.nowMin - batch.placedMin;
    const waterMin = batch.mixedMin ?? batch.placedMin - BEFORE_PLACED_MIN;
    const leftMin = spikeLeftMin(plan, state.nowMin - waterMin, sinceMin);
    if (leftMin <= 0) return [];
    return [
      {
        batch: batch.number,
        spreadLeftMin: Math.max(0, Math.min(SPREAD_MIN - sinceMin, leftMin)),
        spikeLeftMin: leftMin,
      },
    ];
  });
}
