/** How long a pour can be delayed, from the time left at every edge that has to be met while it is wet. */
import { liveOf } from './log-time.ts';
import { notDammed, type PourRecordPlan, type PourState } from './pour-state.ts';

/** Minutes per batch until enough batches are placed to measure it: typical, common practice, no source. */
const TYPICAL_PACE_MIN = 3.5;

/** Minutes per batch of the batches placed so far; the typical pace before three of them. */
export function paceMin(state: PourState): number {
  const placements = state.batches.flatMap((b) => (b.placedMin === null ? [] : [b.placedMin])).sort((a, b) => a - b);
  const spanMin = (placements.at(-1) ?? 0) - (placements[0] ?? 0);
  return placements.length > 2 && spanMin > 0 ? spanMin / (placements.length - 1) : TYPICAL_PACE_MIN;
}

/**
 * Minutes the pour can be delayed before the first open edge exceeds its healing time, with edges met in order at the pace so far; null
 * without an open edge. When negative, a cold joint forms even without a delay.
 * @param first batches still placed at that pace before the delay
 */
export function edgeSlackMin(plan: PourRecordPlan, state: PourState, first = 0): number | null {
  const { layout } = plan;
  if (layout === null) return state.oldestEdge?.leftMin ?? null;
  const pace = paceMin(state);
  const open = notDammed(state.batches, liveOf(state)).filter((b) => b.discardedMin === null);
  const placedMin = new Map(open.flatMap((b) => (b.placedMin === null ? [] : [[b.number, b.placedMin]])));
  const ahead = layout.batches.filter((batch) => !state.covered.has(batch.number));
  const turnMin = new Map(ahead.map((batch, i) => [batch.number, state.nowMin + (i + 1) * pace]));
  const delayed = new Set(ahead.slice(first).map((batch) => batch.number));
  let slack: number | null = null;
  for (const join of layout.joins)
    for (const { older, newer } of join.points) {
      const since = delayed.has(older) ? undefined : (turnMin.get(older) ?? placedMin.get(state.covered.get(older) ?? 0));
      const metMin = delayed.has(newer) ? turnMin.get(newer) : undefined;
      if (since === undefined || metMin === undefined) continue;
      const pointSlack = plan.healingMin - (metMin - since);
      if (slack === null || pointSlack < slack) slack = pointSlack;
    }
  return slack;
}
