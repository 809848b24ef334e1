/** Choices when the bags will not last, each with its figures and the batch before which it must be made. */
import { edgeSlackMin, paceMin } from './edge-slack.ts';
import type { PourForecast } from './forecast.ts';
import type { PourLayout } from './layout.ts';
import type { PourRecordPlan, PourState } from './pour-state.ts';

/** A choice, and the batch before which it must be made. */
export type RunOutChoice = { readonly beforeBatch: number } & (
  | { readonly kind: 'thin'; readonly lanes: readonly number[]; readonly byM: number }
  /** Minutes of the round trip, minutes until the bags run out, and minutes the edges can wait after that; null when none is open then. */
  | {
      readonly kind: 'fetch';
      readonly bags: number;
      readonly fetchMin: number;
      readonly bagsLastMin: number;
      readonly edgeMin: number | null;
    }
  /** `isJoint`: the lane ends at a dammed joint of the plan. */
  | { readonly kind: 'stop'; readonly lane: number; readonly isJoint: boolean }
);

export type RunOut = {
  readonly verdict: PourForecast['verdict'];
  readonly choices: readonly RunOutChoice[];
};

export type RunOutLimits = {
  /** The data sheet's minimum thickness of this pour, m. */
  readonly leastM: number;
  /** Minutes to get more bags, round trip; null when none are available. */
  readonly fetchMin: number | null;
};

/** A smaller change of the average depth is too fine to control when spreading, m. Our choice, no source. */
const LEAST_THINNING_M = 0.0008;

/** The choices for a forecast that are still possible; none where no bag is missing. */
export function runOutOf(plan: PourRecordPlan, state: PourState, forecast: PourForecast, limits: RunOutLimits): RunOut {
  const { verdict } = forecast;
  const { layout } = plan;
  if (forecast.shortBags === 0 || layout === null) return { verdict, choices: [] };
  const choices = [
    thin(layout, state, forecast, limits),
    fetch(layout, plan, state, forecast, limits.fetchMin),
    stop(layout, state, forecast),
  ].filter((choice) => choice !== null);
  return { verdict, choices };
}

/** Planned batches with open floor, in order. */
const openBatches = (layout: PourLayout, state: PourState) => layout.batches.filter((b) => !state.covered.has(b.number));

function thin(layout: PourLayout, state: PourState, f: PourForecast, limits: RunOutLimits): RunOutChoice | null {
  const bagM3 = layout.batchM3 / layout.bagsPerBatch;
  const open = openBatches(layout, state);
  const openM2 = open.reduce((sum, batch) => sum + batch.areaM2, 0);
  const names = new Set(open.flatMap((batch) => batch.pieces.map((piece) => piece.lane)));
  // A gauge set lower thins every place of a lane, the shallowest too.
  const thinnestM = Math.min(...layout.lanes.flatMap((lane) => (names.has(lane.number) ? [lane.leastDepthM] : [])));
  const spareM = thinnestM - limits.leastM;
  if (spareM <= 0 || openM2 <= 0) return null;
  const byM = (f.shortBags * bagM3) / openM2;
  if (byM > spareM || byM < LEAST_THINNING_M) return null;
  let uncovered = openM2;
  let before = state.nextToLand;
  for (const [i, batch] of open.entries()) {
    if (uncovered * spareM < f.shortBags * bagM3) break;
    before = state.nextToLand + i;
    uncovered -= batch.areaM2;
  }
  return { kind: 'thin', beforeBatch: before, lanes: [...names].sort((a, b) => a - b), byM };
}

function fetch(layout: PourLayout, plan: PourRecordPlan, state: PourState, f: PourForecast, fetchMin: number | null): RunOutChoice | null {
  if (fetchMin === null) return null;
  const open = openBatches(layout, state).length - state.inHand.length;
  const batchesLeft = Math.floor(Math.max(0, f.bagsLeft) / layout.bagsPerBatch + 1e-9);
  // Bags that run out only after the last planned batch are needed for that batch.
  const runsOutAt = state.nextToMix + Math.min(batchesLeft, Math.max(0, open - 1));
  const pace = paceMin(state);
  const slackMin = edgeSlackMin(plan, state, state.inHand.length + runsOutAt - state.nextToMix);
  // The first of the new bags has to be mixed before it meets an edge.
  const edgeMin = slackMin === null ? null : Math.max(0, slackMin - pace);
  const before = edgeMin === null ? runsOutAt : Math.floor(runsOutAt - (fetchMin - edgeMin) / pace);
  if (before < state.nextToMix) return null;
  return {
    kind: 'fetch',
    beforeBatch: Math.min(before, runsOutAt),
    bags: f.shortBags,
    fetchMin,
    bagsLastMin: (runsOutAt - state.nextToMix) * pace,
    edgeMin,
  };
}

function stop(layout: PourLayout, state: PourState, f: PourForecast): RunOutChoice | null {
  const bagM3 = layout.batchM3 / layout.bagsPerBatch;
  // Uses the high end of the range, so that the chosen stop can be reached.
  const reach = f.needed.high > 0 ? f.bagsLeft / f.needed.high : 0;
  const openM3 = openBatches(layout, state).reduce((sum, batch) => sum + batch.volumeM3, 0);
  const canLayM3 = layout.volumeM3 - openM3 * (1 - Math.min(1, reach));
  const ends = layout.lanes.filter((s) => f.lanesLeft.includes(s.number) && s.startM3 + s.volumeM3 <= canLayM3 + bagM3 * 1e-6);
  const last = ends.at(-1);
  if (!last || last.number === layout.lanes.length) return null;
  const bayEnd = layout.lanes[last.number]?.bay !== last.bay;
  const planned = layout.batches.findIndex((batch) => batch.pieces.some((piece) => piece.lane === last.number)) + 1;
  const before = Math.max(state.nextToLand, planned);
  return { kind: 'stop', beforeBatch: before, lane: last.number, isJoint: bayEnd };
}
