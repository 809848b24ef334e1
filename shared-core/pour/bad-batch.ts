/** Decides what to do with a bad batch from its working time and the time left at every open edge. */
import type { PourRecordPlan, PourState } from './pour-state.ts';
import { paceMin } from './run-out.ts';

/** Minutes to scrape out a wet batch: typical, common practice, no source. */
export const SCRAPE_MIN = 3;

export type BadBatchPlan = {
  /**
   * `throw-out`: not placed yet. `scrape`: scrape out now, and the next batch fills the gap. `leave`: the edges cannot wait, so mark it and
   * cut it out after it sets. `too-late`: past its working time, so cut it out after it sets.
   */
  readonly kind: 'throw-out' | 'scrape' | 'leave' | 'too-late';
  /** Minutes left to scrape it out; 0 when it is too late. */
  readonly leftMin: number;
};

/**
 * Minutes the pour can be delayed before the first open edge exceeds its healing time, with edges met in order at the pace so far; null
 * without an open edge. When negative, a cold joint forms even without a delay.
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
      const pointSlack = plan.healingMin - (state.nowMin - since) - metIn * pace;
      if (slack === null || pointSlack < slack) slack = pointSlack;
    }
  return slack;
}

/** The action for one bad batch. */
export function badBatchPlan(plan: PourRecordPlan, state: PourState, number: number): BadBatchPlan {
  const batch = state.batches.find((b) => b.number === number);
  if (batch === undefined || batch.placedMin === null) return { kind: 'throw-out', leftMin: 0 };
  const leftMin = Math.floor(plan.workingTimeMin - (state.nowMin - (batch.mixedMin ?? batch.placedMin)));
  if (leftMin <= 0) return { kind: 'too-late', leftMin: 0 };
  const slack = edgeSlackMin(plan, state);
  const delayMin = SCRAPE_MIN + paceMin(state);
  return { kind: slack !== null && slack < delayMin ? 'leave' : 'scrape', leftMin };
}
