/** Decides what to do with a bad batch from its working time and the time left at every open edge. */
import { edgeSlackMin, paceMin } from './edge-slack.ts';
import type { PourRecordPlan, PourState } from './pour-state.ts';

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
