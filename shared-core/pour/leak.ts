/**
 * Leak alarm: compares the bags used in a lane with the bags planned for it. A lane that used more than the spread of yield and depth explains is
 * reported. Lanes end where the crew logs their end; without logged ends the alarm compares at the planned end of each lane.
 * It uses the spread of the forecast.
 */
import { bagsPerM3 } from './cover.ts';
import type { ForecastSpread } from './forecast.ts';
import type { PourLayout } from './layout.ts';
import type { PourRecordPlan, PourState } from './pour-state.ts';

export type LeakAlarm = {
  /** Lane number through the pour. */
  readonly lane: number;
  readonly usedBags: number;
  readonly plannedBags: number;
  /**
   * Where the bags are counted to. `lane`: the logged end of the lane. `open`: lanes are logged, and this one is not finished.
   * `plan`: no lane is logged, so bags from the start are compared with all lanes up to this one, which should be full by plan.
   */
  readonly upTo: 'lane' | 'open' | 'plan';
};

/** Standard deviations beyond the plan: about one false alarm in 700 lanes of a normal spread. Our choice, no source. */
const ALARM_SD = 3;

/** Maximum bags for a lane before the alarm. */
export function alarmBags(plannedBags: number, batchBags: number, spread: ForecastSpread): number {
  const sd = Math.sqrt(
    (plannedBags * spread.planShare) ** 2 + spread.stretchShare ** 2 * batchBags * plannedBags + 2 * (spread.edgeShare * batchBags) ** 2,
  );
  // A batch that starts in the lane may end in the next one.
  return plannedBags + ALARM_SD * sd + batchBags / 2;
}

/** The latest lane that used too many bags; null when none did, or without a layout. */
export function leakAlarm(plan: PourRecordPlan, state: PourState, spread: ForecastSpread): LeakAlarm | null {
  const { layout } = plan;
  if (layout === null) return null;
  const perM3 = bagsPerM3(layout);
  const placedBags = state.batches.reduce((sum, b) => sum + (b.placedMin === null || b.discardedMin !== null ? 0 : b.bags), 0);
  if (state.lanesDone.length === 0) return plannedEnd(layout, placedBags, spread);
  let before = 0;
  let alarm: LeakAlarm | null = null;
  for (const lane of layout.lanes) {
    const logged = state.lanesDone.find((d) => d.roomId === lane.roomId && d.lane === lane.inRoom);
    const plannedBags = lane.volumeM3 * perM3;
    const usedBags = (logged?.bagsUsed ?? placedBags) - before;
    if (usedBags > alarmBags(plannedBags, layout.bagsPerBatch, spread))
      alarm = { lane: lane.number, usedBags, plannedBags, upTo: logged === undefined ? 'open' : 'lane' };
    if (logged === undefined) break;
    before = logged.bagsUsed;
  }
  return alarm;
}

/**
 * Without logged lane ends: the last lane whose planned end was just exceeded by more than the spread, shown until the next batch
 * is placed; for the last lane it stays.
 */
function plannedEnd(layout: PourLayout, usedBags: number, spread: ForecastSpread): LeakAlarm | null {
  let plannedBags = 0;
  let planAlarm: LeakAlarm | null = null;
  for (const lane of layout.lanes) {
    plannedBags += lane.volumeM3 * bagsPerM3(layout);
    const excess = usedBags - alarmBags(plannedBags, layout.bagsPerBatch, spread);
    const isLast = lane === layout.lanes.at(-1);
    if (excess > 0 && (isLast || excess <= layout.bagsPerBatch)) planAlarm = { lane: lane.number, usedBags, plannedBags, upTo: 'plan' };
  }
  return planAlarm;
}
