/**
 * Forecasts whether the bags will last. The total of the pour is estimated from the lanes finished so far, damped by the plan's
 * figure: a normal prior on the ratio of bags used to bags planned, narrowed by each finished lane (the conjugate
 * normal model, as in Gelman et al., Bayesian Data Analysis, chapter 2; from memory). Between finished lanes the forecast
 * does not change, so a single batch never moves it. Bags thrown or scraped out are not floor: they count neither as progress nor as bags
 * to pour with.
 */
import type { PourRecordPlan, PourState } from './pour-state.ts';

export type ForecastSpread = {
  /** One standard deviation of the ratio before the pour: survey, texture and yield. Typical, until jobs say otherwise. */
  readonly planShare: number;
  /** One standard deviation of the material used on one batch's floor, as a share of a batch, independent for each batch. Typical. */
  readonly stretchShare: number;
  /** One standard deviation of the true position of the finished edge, as a share of a batch. Typical: half a batch. */
  readonly edgeShare: number;
};
export const TYPICAL_SPREAD: ForecastSpread = { planShare: 0.08, stretchShare: 0.15, edgeShare: 0.25 };

/** Share of pours whose outcome is within the range. */
export const FORECAST_RATE = 0.9;
/** Two-sided 90 % point of the normal distribution. */
const Z_90 = 1.644854;

/** Bags used for the finished part of the pour, and the bags planned for that part. */
export type Observation = { readonly plannedBags: number; readonly usedBags: number };

export type BagsEstimate = {
  /** Total bags for the whole pour. */
  readonly total: { readonly low: number; readonly likely: number; readonly high: number };
};

/** Estimates the total of the pour. With nothing finished it is the plan with its own spread. */
export function estimateBags(
  plannedTotal: number,
  batchBags: number,
  observation: Observation | null,
  spread: ForecastSpread,
): BagsEstimate {
  const planned = Math.min(plannedTotal, Math.max(0, observation?.plannedBags ?? 0));
  const rest = plannedTotal - planned;
  if (!observation || planned <= 0) {
    const reach = Z_90 * Math.sqrt((rest * spread.planShare) ** 2 + spread.stretchShare ** 2 * batchBags * rest);
    return { total: { low: Math.max(0, rest - reach), likely: rest, high: rest + reach } };
  }
  const used = observation.usedBags;
  const walk = spread.stretchShare ** 2 * batchBags;
  const edge = rest > 0 ? (spread.edgeShare * batchBags) ** 2 : 0;
  const seenWeight = planned ** 2 / (walk * planned + edge);
  // Weight of the finished part against the plan.
  const trust = seenWeight / (1 / spread.planShare ** 2 + seenWeight);
  const ratio = 1 - trust + trust * (used / planned);
  const carried = (rest * trust) / planned;
  // An edge logged too far forward lowers the ratio and leaves more floor, so the two errors add up.
  const error = Math.sqrt(
    (rest * (1 - trust) * spread.planShare) ** 2 + carried ** 2 * walk * planned + walk * rest + (1 + carried) ** 2 * edge,
  );
  const likely = used + ratio * rest;
  return { total: { low: Math.max(used, likely - Z_90 * error), likely, high: likely + Z_90 * error } };
}

export type Verdict = 'enough' | 'tight' | 'short';

/** Bags beyond the high end of the shown range that clear a warning: one spare bag, so that the verdict agrees with the figures. */
const SPARE_BAGS = 1;

/**
 * The verdict after a new estimate, given the previous one. It gets worse at once but better only with a margin, so that noise does not
 * flip it: short ends once the bags reach the high end of the shown range, and one bag more is always enough. After bags are brought in,
 * pass `before` as null.
 */
export function verdictAfter(before: Verdict | null, total: BagsEstimate['total'], bagsBrought: number): Verdict {
  const spareBags = bagsBrought - Math.ceil(total.high - 1e-9);
  if (spareBags >= (before === null || before === 'enough' ? 0 : SPARE_BAGS)) return 'enough';
  return spareBags < 0 && (before === 'short' || total.likely > bagsBrought) ? 'short' : 'tight';
}

export type PourForecast = {
  readonly estimate: BagsEstimate;
  /** Bags still needed, never negative. */
  readonly needed: { readonly low: number; readonly likely: number; readonly high: number };
  readonly bagsLeft: number;
  readonly verdict: Verdict;
  /** Whole bags missing at the high end of the range; 0 when there are enough. */
  readonly shortBags: number;
  /** Unfinished lanes, numbered through the pour. */
  readonly lanesLeft: readonly number[];
};

/**
 * Bags used up to the end of a lane. The batch that reaches it goes on past it, by anything up to a batch, so the true figure is between the
 * bags without that batch and with it: the planned one where it lies there. Where the plan needs no such batch, it is half of it more.
 */
function usedUpTo(plannedBags: number, floorBags: number, batchBags: number): number {
  const leastBags = floorBags - batchBags;
  return leastBags < plannedBags - 1e-6 ? Math.min(floorBags, plannedBags) : leastBags + batchBags / 2;
}

/** A lane that used this many times its planned bags was passed without a mark, or leaks. Our choice, no source. */
const OPEN_MOST = 1.6;

/**
 * The forecast of a pour in its current state; null without a layout. The finished lanes are processed in the order
 * they were logged, and each updates the verdict. The range reaches no higher than the bags the estimate has in reserve for the floor that
 * is left: they come from this floor's own readings. Once all planned batches are placed, floor is left only where the log places more.
 * @param bagsToBring bags of the estimate for this floor, its reserve included; null where it is unknown
 */
export function forecastPour(
  plan: PourRecordPlan,
  state: PourState,
  spread: ForecastSpread,
  bagsToBring: number | null = null,
): PourForecast | null {
  const { layout } = plan;
  if (!layout) return null;
  const bagsPerM3 = layout.bagsPerBatch / layout.batchM3;
  const plannedTotal = layout.volumeM3 * bagsPerM3;
  const batchBags = layout.bagsPerBatch;
  const bagsOf = (roomId: string, lane: number) => {
    const s = layout.lanes.find((candidate) => candidate.roomId === roomId && candidate.inRoom === lane);
    return s ? s.volumeM3 * bagsPerM3 : 0;
  };
  const reserveBags = bagsToBring === null ? Infinity : Math.max(0, bagsToBring - plannedTotal);
  const estimated = (observation: Observation | null): BagsEstimate => {
    const { total } = estimateBags(plannedTotal, batchBags, observation, spread);
    const leftShare = Math.max(0, 1 - (observation?.plannedBags ?? 0) / plannedTotal);
    const reserve = leftShare === 0 ? 0 : reserveBags * leftShare;
    return { total: { ...total, high: Math.min(total.high, total.likely + reserve) } };
  };
  const firstBrought = state.bagsBrought - addedBags(state, -Infinity);
  let planned = 0;
  let verdict: Verdict | null = verdictAfter(null, estimated(null).total, firstBrought);
  let added = 0;
  let observation: Observation | null = null;
  for (const finished of state.lanesDone) {
    planned += bagsOf(finished.roomId, finished.lane);
    observation = { plannedBags: planned, usedBags: usedUpTo(planned, finished.bagsUsed, batchBags) };
    const addedNow = addedBags(state, finished.min);
    verdict = verdictAfter(
      addedNow > added ? null : verdict,
      estimated(observation).total,
      firstBrought + addedNow - thrownOutBags(state, finished.min),
    );
    added = addedNow;
  }
  let estimate = estimated(observation);
  const lanesLeft = layout.lanes.filter((s) => !state.lanesDone.some((d) => d.roomId === s.roomId && d.lane === s.inRoom));
  const next = lanesLeft[0];
  const onFloor = state.batches.filter((b) => b.discardedMin === null);
  const floorBags = onFloor.reduce((sum, b) => sum + b.bags, 0);
  const placedBags = onFloor.reduce((sum, b) => sum + (b.placedMin === null ? 0 : b.bags), 0);
  if (next) {
    // An open lane that took two batches more than planned counts before its end is logged; with one more, the log may be late.
    const plannedEnd = planned + next.volumeM3 * bagsPerM3;
    const isUnmarked = placedBags - (state.lanesDone.at(-1)?.bagsUsed ?? 0) > OPEN_MOST * next.volumeM3 * bagsPerM3 + batchBags;
    const isOver = placedBags - 2 * batchBags >= plannedEnd - 1e-6;
    const open = estimated({ plannedBags: plannedEnd, usedBags: usedUpTo(plannedEnd, placedBags, batchBags) });
    if (isOver && !isUnmarked && open.total.likely > estimate.total.likely) estimate = open;
  }
  if (firstBrought + added < state.bagsBrought) verdict = null;
  const isLaid = onFloor.length <= layout.batches.length && layout.batches.every((batch) => state.covered.has(batch.number));
  const isOpen = next !== undefined && !isLaid;
  // With more batches placed than planned and a lane open, the last one has reached its end, or part of another is needed.
  if (isOpen && onFloor.length > layout.batches.length)
    estimate = { total: { ...estimate.total, high: Math.max(estimate.total.high, floorBags + batchBags / 2) } };
  const neededOf = (bags: number) => (isOpen ? Math.max(0, bags - floorBags) : 0);
  const needed = { low: neededOf(estimate.total.low), likely: neededOf(estimate.total.likely), high: neededOf(estimate.total.high) };
  // A counted stack overrides what the log says was brought.
  const final = isOpen ? verdictAfter(verdict, estimate.total, state.bagsLeft + floorBags) : 'enough';
  return {
    estimate,
    needed,
    bagsLeft: state.bagsLeft,
    verdict: final,
    shortBags: final === 'enough' ? 0 : Math.max(0, Math.ceil(needed.high - state.bagsLeft - 1e-9)),
    lanesLeft: lanesLeft.map((s) => s.number),
  };
}

/** Bags added during the pour up to a minute of the log; all of them for minus infinity. */
function addedBags(state: PourState, untilMin: number): number {
  return state.entries.reduce((sum, { event, min, undone }) => {
    const counts = !undone && event.kind === 'bags-added' && (untilMin === -Infinity || min <= untilMin);
    return counts ? sum + event.bags : sum;
  }, 0);
}

/** Bags thrown or scraped out up to a minute of the log. */
function thrownOutBags({ batches }: PourState, untilMin: number): number {
  return batches.reduce((sum, b) => sum + (b.discardedMin !== null && b.discardedMin <= untilMin ? b.bags : 0), 0);
}
