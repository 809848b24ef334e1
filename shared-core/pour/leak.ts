/**
 * Leak alarm: bags used in a lane against the bags planned for it. A lane that took more than the spread of yield and depth explains is
 * named with what to check. The spread is that of the forecast.
 */
import { bagsPerM3 } from './cover.ts';
import type { ForecastSpread } from './forecast.ts';
import type { PourRecordPlan, PourState } from './pour-state.ts';

export type LeakAlarm = {
  /** Lane number through the pour. */
  readonly lane: number;
  readonly usedBags: number;
  readonly plannedBags: number;
  /** The lane is not marked finished: its end may have been passed without a mark. */
  readonly isOpen: boolean;
};

/** Standard deviations beyond the plan: about one false alarm in 700 lanes of a normal spread. Ours to choose. */
const ALARM_SD = 3;

/** The most bags a lane may take before something is wrong with it. */
export function alarmBags(plannedBags: number, batchBags: number, spread: ForecastSpread): number {
  const sd = Math.sqrt(
    (plannedBags * spread.planShare) ** 2 + spread.stretchShare ** 2 * batchBags * plannedBags + 2 * (spread.edgeShare * batchBags) ** 2,
  );
  // A batch begun in the lane may end in the next one.
  return plannedBags + ALARM_SD * sd + batchBags / 2;
}

/** The latest lane that took too much; null when none did, or without a layout. */
export function leakAlarm(plan: PourRecordPlan, state: PourState, spread: ForecastSpread): LeakAlarm | null {
  const { layout } = plan;
  if (layout === null) return null;
  const perM3 = bagsPerM3(layout);
  const placedBags = state.batches.reduce((sum, b) => sum + (b.placedMin === null || b.discardedMin !== null ? 0 : b.bags), 0);
  let before = 0;
  let alarm: LeakAlarm | null = null;
  for (const lane of layout.lanes) {
    const done = state.lanesDone.find((d) => d.roomId === lane.roomId && d.lane === lane.inRoom);
    const plannedBags = lane.volumeM3 * perM3;
    const usedBags = (done?.bagsUsed ?? placedBags) - before;
    if (usedBags > alarmBags(plannedBags, layout.bagsPerBatch, spread))
      alarm = { lane: lane.number, usedBags, plannedBags, isOpen: done === undefined };
    if (done === undefined) break;
    before = done.bagsUsed;
  }
  return alarm;
}
