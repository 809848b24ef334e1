/** Choices when the bags will not last, each with its figures and the batch before which it must be made. */
import type { PourForecast } from './forecast.ts';
import type { PourLayout } from './layout.ts';
import type { PourState } from './pour-state.ts';

/** A choice, and the batch before which it must be made. */
export type RunOutChoice = { readonly beforeBatch: number } & (
  | { readonly kind: 'thin'; readonly lanes: readonly number[]; readonly byM: number }
  /** Minutes of the round trip, minutes until the bags run out, and minutes an edge stays open after that. */
  | { readonly kind: 'fetch'; readonly bags: number; readonly fetchMin: number; readonly bagsLastMin: number; readonly edgeMin: number }
  /** `isJoint`: the lane ends at a dammed joint of the plan. */
  | { readonly kind: 'stop'; readonly lane: number; readonly isJoint: boolean }
);

export type RunOut = {
  readonly verdict: PourForecast['verdict'];
  readonly choices: readonly RunOutChoice[];
};

export type RunOutLimits = {
  /** Planned depth at the thinnest place still to be poured, and the data sheet's minimum depth there, m. */
  readonly thinnestM: number;
  readonly leastM: number;
  /** Minutes to get more bags, round trip; null when none are available. */
  readonly fetchMin: number | null;
  /** Minutes an edge stays open; bags that arrive later are too late. */
  readonly healingMin: number;
};

/** Minutes per batch until enough batches are placed to measure it: typical, common practice, no source. */
const TYPICAL_PACE_MIN = 3.5;
/** A smaller change of the average depth is too fine to control when spreading, m. Our choice, no source. */
const LEAST_THINNING_M = 0.0008;

/** The choices for a forecast that are still possible. */
export function runOutOf(layout: PourLayout, state: PourState, forecast: PourForecast, limits: RunOutLimits): RunOut {
  const { verdict } = forecast;
  if (verdict === 'enough') return { verdict, choices: [] };
  const choices = [thin(layout, state, forecast, limits), fetch(layout, state, forecast, limits), stop(layout, state, forecast)].filter(
    (choice) => choice !== null,
  );
  return { verdict, choices };
}

/** Planned batches with open floor, in order. */
const openBatches = (layout: PourLayout, state: PourState) => layout.batches.filter((b) => !state.covered.has(b.number));

function thin(layout: PourLayout, state: PourState, f: PourForecast, limits: RunOutLimits): RunOutChoice | null {
  const spareM = limits.thinnestM - limits.leastM;
  const bagM3 = layout.batchM3 / layout.bagsPerBatch;
  const open = openBatches(layout, state);
  const openM2 = open.reduce((sum, batch) => sum + batch.areaM2, 0);
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
  const names = [...new Set(open.flatMap((batch) => batch.pieces.map((piece) => piece.lane)))].sort((a, b) => a - b);
  return { kind: 'thin', beforeBatch: before, lanes: names, byM };
}

/** Minutes per batch of the batches placed so far; the typical pace before three of them. */
export function paceMin(state: PourState): number {
  const placements = state.batches.flatMap((b) => (b.placedMin === null ? [] : [b.placedMin])).sort((a, b) => a - b);
  const spanMin = (placements.at(-1) ?? 0) - (placements[0] ?? 0);
  return placements.length > 2 && spanMin > 0 ? spanMin / (placements.length - 1) : TYPICAL_PACE_MIN;
}

function fetch(layout: PourLayout, state: PourState, f: PourForecast, limits: RunOutLimits): RunOutChoice | null {
  if (limits.fetchMin === null) return null;
  const open = openBatches(layout, state).length - state.inHand.length;
  const batchesLeft = Math.floor(Math.max(0, f.bagsLeft) / layout.bagsPerBatch + 1e-9);
  // Bags that run out only after the last planned batch are needed for that batch.
  const runsOutAt = state.nextToMix + Math.min(batchesLeft, Math.max(0, open - 1));
  const pace = paceMin(state);
  const before = Math.floor(runsOutAt - (limits.fetchMin - limits.healingMin) / pace);
  if (before < state.nextToMix) return null;
  return {
    kind: 'fetch',
    beforeBatch: Math.min(before, runsOutAt),
    bags: f.shortBags,
    fetchMin: limits.fetchMin,
    bagsLastMin: (runsOutAt - state.nextToMix) * pace,
    edgeMin: limits.healingMin,
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
