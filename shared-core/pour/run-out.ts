/** What to do when the bags will not last, by which batch, and in which words. */
import { formatDepth } from '../measure/length-format.ts';
import { formatNumber } from '../measure/number.ts';
import type { UnitSystem } from '../measure/unit-system.ts';
import type { PourForecast } from './forecast.ts';
import type { PourLayout } from './layout.ts';
import type { PourState } from './pour-state.ts';

export type RunOutChoice = {
  readonly kind: 'thin' | 'stop' | 'fetch';
  /** The batch before which it must be done. */
  readonly beforeBatch: number;
  readonly words: string;
};

export type RunOut = {
  readonly verdict: PourForecast['verdict'];
  /** The first word or two, shown large: `Enough.`, `Tight.`, `Short.` */
  readonly head: string;
  readonly words: string;
  readonly choices: readonly RunOutChoice[];
  /** The soonest batch by which something must be chosen; null when the bags last. */
  readonly actBeforeBatch: number | null;
};

export type RunOutLimits = {
  /** Planned depth at the thinnest place still to be poured, and the least the sheet allows there, m. */
  readonly thinnestM: number;
  readonly leastM: number;
  /** Minutes to fetch more bags, door to door; null when there are none to be had. */
  readonly fetchMin: number | null;
  readonly units: UnitSystem;
  readonly locale?: string;
};

/** Minutes a batch when nothing has landed yet to tell: typical, common practice, no source. */
const TYPICAL_PACE_MIN = 3.5;

/** The run-out forecast in words, with what can still be done about it. */
export function runOutOf(layout: PourLayout, state: PourState, forecast: PourForecast, limits: RunOutLimits): RunOut {
  const low = formatNumber(Math.floor(forecast.needed.low), { most: 0 }, limits.locale);
  const high = formatNumber(Math.ceil(forecast.needed.high), { most: 0 }, limits.locale);
  const left = formatNumber(Math.max(0, forecast.bagsLeft), { most: 1 }, limits.locale);
  const needs = low === high ? high : `${low} to ${high}`;
  const range = `${left} ${Number(left) === 1 ? 'bag' : 'bags'} left. ${needs} needed.`;
  if (forecast.verdict === 'enough') return { verdict: 'enough', head: 'Enough.', words: range, choices: [], actBeforeBatch: null };
  const choices = [thin(layout, state, forecast, limits), fetch(layout, state, forecast, limits), stop(layout, state, forecast)].filter(
    (choice) => choice !== null,
  );
  const head = forecast.verdict === 'tight' ? 'Tight.' : 'Short.';
  const said = choices.map((choice) => choice.words).join(' Or: ');
  return {
    verdict: forecast.verdict,
    head,
    words: `${range} ${said || 'Nothing is left to thin and no joint lies ahead: stop at the wet edge, square it against a dam, and pour the rest another day.'}`,
    choices,
    actBeforeBatch: choices.length > 0 ? Math.min(...choices.map((choice) => choice.beforeBatch)) : state.nextToMix,
  };
}

function thin(layout: PourLayout, state: PourState, f: PourForecast, limits: RunOutLimits): RunOutChoice | null {
  const roomM = limits.thinnestM - limits.leastM;
  const rest = layout.lanes.filter((s) => f.lanesLeft.includes(s.number));
  const areaM2 = rest.reduce((sum, s) => sum + s.areaM2, 0);
  const bagM3 = layout.batchM3 / layout.bagsPerBatch;
  if (roomM <= 0 || areaM2 <= 0) return null;
  // The next strip is partly poured: only the floor not yet covered can be made thinner.
  const first = rest[0];
  const poured = first ? layout.batches.filter((b) => b.number < state.nextToLand).flatMap((b) => b.pieces) : [];
  const openM2 = areaM2 - poured.filter((p) => f.lanesLeft.includes(p.lane)).reduce((sum, p) => sum + p.areaM2, 0);
  const byM = openM2 > 0 ? (f.shortBags * bagM3) / openM2 : Infinity;
  if (byM > roomM) return null;
  let uncovered = openM2;
  let before = state.nextToLand;
  for (const batch of layout.batches.slice(state.nextToLand - 1)) {
    if (uncovered * roomM < f.shortBags * bagM3) break;
    before = batch.number;
    uncovered -= batch.areaM2;
  }
  const names = rest.map((s) => s.number);
  const lanes = names.length === 1 ? `strip ${names[0]}` : `strips ${names[0]} to ${names.at(-1)}`;
  return {
    kind: 'thin',
    beforeBatch: before,
    words: `Thin ${lanes} by ${formatDepth(byM, limits.units, limits.locale)}, before batch ${before}: later there is too little floor left to thin.`,
  };
}

function fetch(layout: PourLayout, state: PourState, f: PourForecast, limits: RunOutLimits): RunOutChoice | null {
  if (limits.fetchMin === null) return null;
  const runsOutAt = state.nextToMix + Math.floor(Math.max(0, f.bagsLeft) / layout.bagsPerBatch + 1e-9);
  const placements = state.batches.flatMap((b) => (b.placedMin === null ? [] : [b.placedMin])).sort((a, b) => a - b);
  const spanMin = (placements.at(-1) ?? 0) - (placements[0] ?? 0);
  const paceMin = placements.length > 2 && spanMin > 0 ? spanMin / (placements.length - 1) : TYPICAL_PACE_MIN;
  const before = Math.floor(runsOutAt - limits.fetchMin / paceMin);
  if (before < state.nextToMix) return null;
  const bags = f.shortBags === 1 ? 'one more bag' : `${f.shortBags} more bags`;
  return { kind: 'fetch', beforeBatch: before, words: `Send for ${bags} before batch ${before}; they must be here by batch ${runsOutAt}.` };
}

function stop(layout: PourLayout, state: PourState, f: PourForecast): RunOutChoice | null {
  const bagM3 = layout.batchM3 / layout.bagsPerBatch;
  // Judged at the high end, so that a stop that is chosen can be reached.
  const reach = f.needed.high > 0 ? f.bagsLeft / f.needed.high : 0;
  const openM3 = layout.volumeM3 - (state.nextToLand - 1) * layout.batchM3;
  const canLayM3 = (state.nextToLand - 1) * layout.batchM3 + openM3 * Math.min(1, reach);
  const ends = layout.lanes.filter((s) => f.lanesLeft.includes(s.number) && s.startM3 + s.volumeM3 <= canLayM3 + bagM3 * 1e-6);
  const last = ends.at(-1);
  if (!last || last.number === layout.lanes.length) return null;
  const bayEnd = layout.lanes[last.number]?.bay !== last.bay;
  const before = Math.max(state.nextToLand, Math.floor(last.startM3 / layout.batchM3) + 1);
  const where = bayEnd ? `at the joint after strip ${last.number}` : `after strip ${last.number}, against a dam set there`;
  return { kind: 'stop', beforeBatch: before, words: `Stop ${where}: decide before batch ${before}.` };
}
