/**
 * Where to stop when the pour cannot continue because power, water, the mixer, a crew member or bags are missing. Calculated from the wet edges
 * and the material that can still be placed: the lane to close, the place of the dam, and the minutes left.
 */
import type { Point } from '../book/fields.ts';
import { acrossM, cornersOf, pointAt } from './axes.ts';
import { bagsPerM3, coverOf } from './cover.ts';
import { edgeSlackMin } from './edge-slack.ts';
import type { PlannedLane } from './lane.ts';
import type { PourLayout } from './layout.ts';
import { liveOf } from './log-time.ts';
import type { PourRecordPlan, PourState } from './pour-state.ts';

export type DamLine = { readonly roomId: string; readonly from: Point; readonly to: Point; readonly lengthM: number };

export type StopPlan = {
  /** `wait`: the outage ends before the edge sets; `lane-end`: finish the lane and dam its edge; `here`: dam at the front. */
  readonly kind: 'wait' | 'lane-end' | 'here';
  /** The lane to close; null before the first batch. */
  readonly lane: number | null;
  /** Batches to place first: the mixed ones, and more if the bags allow. */
  readonly batches: number;
  /** Minutes until the oldest open edge exceeds its healing time, or of `wait` the minutes until the edges have to be met again; 0 when
   * they are past; null when no edge is open. */
  readonly leftMin: number | null;
  /** The lines of the dams. */
  readonly dams: readonly DamLine[];
};

export type StopInput = {
  /** Bags that can still be placed: the mixed ones, or all that are left when only the bags run short. */
  readonly bags: number;
  /** Minutes the outage is expected to last; null when unknown. */
  readonly outageMin: number | null;
};

/** Bags already mixed that can still be placed: a batch past its working time is thrown out. */
export const placeableBags = ({ inHand }: PourState): number => inHand.reduce((sum, b) => sum + (b.tooOld ? 0 : b.bags), 0);

/** Minutes to set a dam in wet material: typical, common practice, no source. */
export const DAM_MIN = 4;

function laneSpan(lane: PlannedLane): { readonly low: number; readonly high: number } {
  const v = cornersOf(lane.pieces).map((p) => acrossM(lane.axes, p));
  return { low: Math.min(...v), high: Math.max(...v) };
}

const damOf = (roomId: string, from: Point, to: Point): DamLine => ({
  roomId,
  from,
  to,
  lengthM: Math.hypot(to.xM - from.xM, to.yM - from.yM),
});

/** Dams along the edge of a finished lane where the next lane of the same section would meet it. */
function laneEdge(layout: PourLayout, lane: PlannedLane): DamLine[] {
  return layout.joins
    .filter((join) => join.kind === 'lane' && join.older === lane.number)
    .map((join) => damOf(lane.roomId, join.from, join.to));
}

/** The place along a lane that is reached after a number of planned bags. */
function placeOf(layout: PourLayout, lane: PlannedLane, bags: number): number {
  const perM3 = bagsPerM3(layout);
  let restM3 = bags / perM3 - lane.startM3;
  let position = 0;
  for (const piece of layout.batches.flatMap((batch) => batch.pieces.filter((p) => p.lane === lane.number))) {
    const share = piece.volumeM3 > 0 ? Math.min(1, Math.max(0, restM3 / piece.volumeM3)) : 0;
    position = lane.forward ? piece.fromM + share * (piece.toM - piece.fromM) : piece.toM - share * (piece.toM - piece.fromM);
    restM3 -= piece.volumeM3;
    if (restM3 <= 0) break;
  }
  return position;
}

/** Dams at a front inside a lane: across it, and along the previous lane where its edge is still open. */
function frontDams(layout: PourLayout, lane: PlannedLane, bags: number): DamLine[] {
  const u = placeOf(layout, lane, bags);
  const { low, high } = laneSpan(lane);
  const across = damOf(lane.roomId, pointAt(lane.axes, u, low), pointAt(lane.axes, u, high));
  const along = layout.joins
    .filter((join) => join.kind === 'lane' && join.newer === lane.number)
    .flatMap((join): DamLine[] => {
      const ends = [join.from, join.to].map((p) => ({ p, u: p.xM * lane.axes.ux + p.yM * lane.axes.uy }));
      const open = ends.filter((end) => (lane.forward ? end.u > u : end.u < u));
      if (open.length === 0) return [];
      if (open.length === 2) return [damOf(lane.roomId, join.from, join.to)];
      const v = acrossM(lane.axes, join.from);
      return open.map((end) => damOf(lane.roomId, pointAt(lane.axes, u, v), end.p));
    });
  return [across, ...along].filter((dam) => dam.lengthM > 0.01);
}

/** Where to stop; null without a layout. */
export function stopPlan(plan: PourRecordPlan, state: PourState, input: StopInput): StopPlan | null {
  const { layout } = plan;
  if (layout === null) return null;
  const leftMin = state.oldestEdge === null ? null : Math.max(0, state.oldestEdge.leftMin);
  // An edge has to last until the crew gets back to it, not until the outage ends.
  const waitMin = leftMin === null ? null : Math.min(leftMin, edgeSlackMin(plan, state) ?? leftMin);
  if (input.outageMin !== null && waitMin !== null && input.outageMin + DAM_MIN <= waitMin)
    return { kind: 'wait', lane: null, batches: 0, leftMin: waitMin, dams: [] };
  const { frontBags, totalBags } = coverOf(layout, liveOf(state), plan.hasLater);
  const reach = Math.min(totalBags, frontBags + input.bags);
  const perM3 = bagsPerM3(layout);
  const endOf = (lane: PlannedLane) => (lane.startM3 + lane.volumeM3) * perM3;
  const slack = layout.bagsPerBatch * 0.05;
  const batchesTo = (bags: number) => Math.max(0, Math.ceil((bags - frontBags) / layout.bagsPerBatch - 0.05));
  // The farthest reachable lane end that is not behind the front.
  const end = layout.lanes.filter((lane) => endOf(lane) <= reach + slack && endOf(lane) >= frontBags - slack).at(-1);
  if (end !== undefined && frontBags > slack)
    return { kind: 'lane-end', lane: end.number, batches: batchesTo(endOf(end)), leftMin, dams: laneEdge(layout, end) };
  if (reach <= slack) return { kind: 'here', lane: null, batches: 0, leftMin, dams: [] };
  const lane = layout.lanes.find((candidate) => endOf(candidate) > reach - slack) ?? layout.lanes.at(-1);
  if (lane === undefined) return null;
  return { kind: 'here', lane: lane.number, batches: batchesTo(reach), leftMin, dams: frontDams(layout, lane, reach) };
}
