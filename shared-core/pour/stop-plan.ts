/**
 * Where to stop when the pour cannot continue because power, water, the mixer, a crew member or bags are missing. Calculated from the wet edges
 * and the material that can still be placed: the lane to close, the place of the dam, and the minutes left.
 */
import type { Point } from '../book/fields.ts';
import { between, distanceM, DUST_M, SAME_PLACE_M } from '../plan/point.ts';
import { bagsPerM3, coverOf } from './cover.ts';
import { edgeSlackMin } from './edge-slack.ts';
import { acrossLane, type Join } from './joins.ts';
import type { PlannedLane } from './lane.ts';
import type { PourLayout } from './layout.ts';
import { liveOf } from './log-time.ts';
import type { PourRecordPlan, PourState } from './pour-state.ts';

type RoomLine = { readonly roomId: string; readonly from: Point; readonly to: Point };

export type DamLine = RoomLine & {
  readonly lengthM: number;
  /** Of a dam in an open doorway: its line on the plan of the other room. */
  readonly across?: RoomLine;
};

/** The lines of dams on the plan of a room: a dam in an open doorway is on the plans of both rooms. */
export const damsInRoom = (dams: readonly DamLine[], roomId: string): readonly RoomLine[] =>
  dams.flatMap((dam) => [dam, dam.across].flatMap((line) => (line?.roomId === roomId ? [line] : [])));

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

const damOf = (roomId: string, from: Point, to: Point): DamLine => ({
  roomId,
  from,
  to,
  lengthM: distanceM(from, to),
});

/** The share of a line from `a` to `b` on which its value is at most `limit`: start and end, 0 to 1. */
function shareUpTo(a: number, b: number, limit: number): readonly [number, number] {
  if (Math.abs(b - a) < 1e-12) return a <= limit ? [0, 1] : [0, 0];
  // A place on a lane is no finer than a millionth of it.
  const share = Math.round(Math.min(1, Math.max(0, (limit - a) / (b - a))) * 1e6) / 1e6;
  return b > a ? [0, share] : [share, 1];
}

/** Volume of the pour that is placed when the share of a batch is. */
const passedM3 = ({ batchM3, batches }: PourLayout, batch: number, part: number): number =>
  (batch - 1) * batchM3 + part * (batches[batch - 1]?.volumeM3 ?? 0);

/** Dams along every wet side at a stop: where the older side of a lane or open doorway is placed by then and the newer side is not. */
function sideDams(layout: PourLayout, stopBags: number): DamLine[] {
  const stopM3 = stopBags / bagsPerM3(layout) + layout.batchM3 * 1e-9;
  const found: DamLine[] = [];
  for (const join of layout.joins) {
    if (join.kind === 'batch') continue;
    const dams: DamLine[] = [];
    const olderM3 = join.points.map((p) => passedM3(layout, p.older, p.olderPart));
    const newerM3 = join.points.map((p) => passedM3(layout, p.newer, p.newerPart));
    let open: DamLine | null = null;
    join.points.forEach(({ point: b }, i) => {
      const a = join.points[i - 1]?.point ?? b;
      const placed = shareUpTo(olderM3[i - 1] ?? 0, olderM3[i] ?? 0, stopM3);
      const bare = shareUpTo(-(newerM3[i - 1] ?? 0), -(newerM3[i] ?? 0), -stopM3);
      const [from, to] = [Math.max(placed[0], bare[0]), Math.min(placed[1], bare[1])];
      if (distanceM(a, b) * (to - from) < DUST_M) return;
      const start: Point = open !== null && distanceM(open.to, between(a, b, from)) < SAME_PLACE_M ? open.from : between(a, b, from);
      if (open !== null && start === open.from) dams.pop();
      open = damOf(layout.lanes[join.newer - 1]?.roomId ?? '', start, between(a, b, to));
      dams.push(open);
    });
    const roomId = layout.lanes[join.older - 1]?.roomId ?? '';
    found.push(...dams.filter((dam) => dam.lengthM > 0.01).map((dam) => onOlderSide(join, roomId, dam)));
  }
  return found;
}

/** A dam of an open doorway in the room with the wet material, and across it in the other; any other dam as it is. */
function onOlderSide({ from, lengthM, olderSide }: Join, roomId: string, dam: DamLine): DamLine {
  if (olderSide === undefined) return dam;
  const older = (p: Point): Point => between(olderSide.from, olderSide.to, distanceM(from, p) / lengthM);
  return { ...damOf(roomId, older(dam.from), older(dam.to)), across: { roomId: dam.roomId, from: dam.from, to: dam.to } };
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

/** The dam across a lane at a front inside it. */
function frontDam(layout: PourLayout, lane: PlannedLane, bags: number): DamLine {
  const { from, to } = acrossLane(lane, placeOf(layout, lane, bags));
  return damOf(lane.roomId, from, to);
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
    return { kind: 'lane-end', lane: end.number, batches: batchesTo(endOf(end)), leftMin, dams: sideDams(layout, endOf(end)) };
  if (reach <= slack) return { kind: 'here', lane: null, batches: 0, leftMin, dams: [] };
  const lane = layout.lanes.find((candidate) => endOf(candidate) > reach - slack) ?? layout.lanes.at(-1);
  if (lane === undefined) return null;
  const dams = [frontDam(layout, lane, reach), ...sideDams(layout, reach)];
  return { kind: 'here', lane: lane.number, batches: batchesTo(reach), leftMin, dams };
}
