/** What to do with a batch that is no good: worked out from its working time and from what every open edge can still wait. */
import type { PourRecordPlan, PourState } from './pour-state.ts';
import { paceMin } from './run-out.ts';

/** Scraping a batch out while it is wet takes about this long: typical, common practice, no source. */
export const SCRAPE_MIN = 3;

export type BadBatchPlan = {
  /**
   * `throw-out`: not placed yet; `scrape`: out now, the next batch fills its place; `leave`: the edges cannot wait, so it stays, marked, and
   * is cut out after it sets; `too-late`: past its working time, cut out after it sets.
   */
  readonly kind: 'throw-out' | 'scrape' | 'leave' | 'too-late';
  /** Minutes it can still be scraped out; 0 when not. */
  readonly leftMin: number;
};

/**
 * Minutes the pour can be held up before the first open edge passes its healing time, every edge met in its turn at the pace so far; null
 * without an open edge. Below zero an edge goes cold even without a delay.
 */
export function edgeSlackMin(plan: PourRecordPlan, state: PourState): number | null {
  const { layout } = plan;
  if (layout === null) return state.oldestEdge?.leftMin ?? null;
  const placedMin = new Map(
    state.batches.flatMap((b) => (b.placedMin === null || b.discardedMin !== null ? [] : [[b.number, b.placedMin]])),
  );
  const pace = paceMin(state);
  const order = layout.batches.filter((batch) => !state.covered.has(batch.number)).map((batch) => batch.number);
  const turn = new Map(order.map((number, i) => [number, i + 1]));
  let slack: number | null = null;
  for (const join of layout.joins)
    for (const point of join.points) {
      const since = placedMin.get(state.covered.get(point.older) ?? 0);
      const metIn = turn.get(point.newer);
      if (since === undefined || metIn === undefined) continue;
      const left = plan.healingMin - (state.nowMin - since) - metIn * pace;
      if (slack === null || left < slack) slack = left;
    }
  return slack;
}

/** What to do with one batch. */
export function badBatchPlan(plan: PourRecordPlan, state: PourState, number: number): BadBatchPlan {
  const batch = state.batches.find((b) => b.number === number);
  if (batch === undefined || batch.placedMin === null) return { kind: 'throw-out', leftMin: 0 };
  const leftMin = Math.floor(plan.workingTimeMin - (state.nowMin - (batch.mixedMin ?? batch.placedMin)));
  if (leftMin <= 0) return { kind: 'too-late', leftMin: 0 };
  const slack = edgeSlackMin(plan, state);
  const delayMin = SCRAPE_MIN + paceMin(state);
  return { kind: slack !== null && slack < delayMin ? 'leave' : 'scrape', leftMin };
}
