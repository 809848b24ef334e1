/**
 * Joins, where material meets material placed earlier. The age of a join at a point is the time between the two
 * placements; a dammed joint is not a join. Every join has a few points, enough to find its maximum age, each
 * with the batch on either side and the share of that batch placed when it reaches the point.
 */
import type { Point } from '../book/fields.ts';
import { distanceM, nearestOnSegment, sidesOf } from '../plan/point.ts';
import { pointInRegion } from '../plan/region.ts';
import { acrossM, alongM, cornersOf, pointAt, ringsOf, spansAlong } from './axes.ts';
import { placeOfVolume } from './lane-profile.ts';
import { runningM3, type DoorwaySide, type OpenDoorway, type PourLane } from './lane.ts';

export type JoinPoint = {
  readonly point: Point;
  /** Batch numbers. */
  readonly newer: number;
  readonly older: number;
  /** Share of the batch placed when it reaches the point, 0 to 1. */
  readonly newerPart: number;
  readonly olderPart: number;
};

export type Join = {
  /** `lane`: side by side; `batch`: end to end in one lane; `doorway`: across an open doorway between rooms, on the newer room's axes. */
  readonly kind: 'lane' | 'batch' | 'doorway';
  /** Lane numbers for `lane` and `doorway`, batch numbers for `batch`. */
  readonly newer: number;
  readonly older: number;
  readonly from: Point;
  readonly to: Point;
  readonly lengthM: number;
  readonly points: readonly JoinPoint[];
  /** Of a doorway: the same line on the older room's axes. */
  readonly olderSide?: { readonly from: Point; readonly to: Point } | undefined;
};

/** Tells the joins of a layout apart. A column can split an edge between two lanes into two joins, so their place is part of it. */
export const joinKey = ({ kind, newer, older, from }: Pick<Join, 'kind' | 'newer' | 'older' | 'from'>): string =>
  `${kind}-${newer}-${older}-${from.xM}-${from.yM}`;

/** When the placing of each batch starts and ends, minutes from the start of the pour; index 0 is batch 1. */
export type Laid = { readonly startMin: ArrayLike<number>; readonly endMin: ArrayLike<number> };

export type JoinAge = {
  readonly join: Join;
  /** The maximum age along the join, minutes, and its place. */
  readonly mostMin: number;
  readonly point: Point;
  readonly newerBatch: number;
  readonly olderBatch: number;
};

/** The maximum age along each join for given placing times. */
export function joinAges(joins: readonly Join[], laid: Laid): JoinAge[] {
  return joins.map((join) => {
    let most: JoinAge = { join, mostMin: 0, point: join.from, newerBatch: 0, olderBatch: 0 };
    for (const p of join.points) {
      const age = passMin(laid, p.newer, p.newerPart) - passMin(laid, p.older, p.olderPart);
      if (age > most.mostMin || most.newerBatch === 0) {
        most = { join, mostMin: Math.max(0, age), point: p.point, newerBatch: p.newer, olderBatch: p.older };
      }
    }
    return most;
  });
}

function passMin(laid: Laid, batch: number, part: number): number {
  const start = laid.startMin[batch - 1] ?? 0;
  return start + part * ((laid.endMin[batch - 1] ?? start) - start);
}

/** The cumulative volume of a pour, divided into batches; the last may be a partial batch. */
export type Pouring = { readonly batchM3: number; readonly count: number; readonly volumeM3: number };

/** All joins of a pour: lanes in order, then batches in order, then open doorways. */
export function joinsOf(lanes: readonly PourLane[], pour: Pouring, doorways: readonly OpenDoorway[]): Join[] {
  const joins: Join[] = [];
  lanes.forEach((newer, i) => {
    const older = lanes[i - 1];
    if (!older || older.bay !== newer.bay) return;
    joins.push(...sideBySide(older, newer, pour));
  });
  for (let k = 1; k < pour.count; k++) {
    const join = endToEnd(lanes, k, pour);
    if (join) joins.push(join);
  }
  for (const doorway of doorways) {
    const join = acrossDoorway(lanes, doorway, pour);
    if (join) joins.push(join);
  }
  return joins;
}

/** Offset into a lane that avoids its edge but still stands for it: 10 micrometers. */
const INSIDE_M = 1e-5;

function sideBySide(older: PourLane, newer: PourLane, pour: Pouring): Join[] {
  const axes = newer.axes;
  const across = (lane: PourLane) => cornersOf(lane.pieces).map((p) => acrossM(axes, p));
  const olderV = across(older);
  const newerV = across(newer);
  const upward = Math.min(...newerV) + Math.max(...newerV) >= Math.min(...olderV) + Math.max(...olderV);
  const olderEdge = upward ? Math.max(...olderV) : Math.min(...olderV);
  const newerEdge = upward ? Math.min(...newerV) : Math.max(...newerV);
  // Lanes that do not touch, for example across a lane without floor, share no edge.
  if (Math.abs(olderEdge - newerEdge) > 1e-3) return [];
  const step = upward ? INSIDE_M : -INSIDE_M;
  const shared = overlaps(spansAlong(older.pieces, axes, olderEdge - step), spansAlong(newer.pieces, axes, newerEdge + step));
  return shared
    .filter(([from, to]) => to - from > 1e-4)
    .map(([from, to]) => {
      const cuts = [from, to, ...breaks(older, from, to, pour), ...breaks(newer, from, to, pour)].sort((a, b) => a - b);
      const points: JoinPoint[] = [];
      for (let i = 0; i + 1 < cuts.length; i++) {
        const a = cuts[i] ?? 0;
        const b = cuts[i + 1] ?? 0;
        if (b - a < 1e-9) continue;
        const middle = (a + b) / 2;
        const newBatch = batchAt(runningM3(newer, middle), pour);
        const oldBatch = batchAt(runningM3(older, middle), pour);
        for (const u of [a, b]) {
          points.push({
            point: pointAt(axes, u, newerEdge),
            newer: newBatch,
            older: oldBatch,
            newerPart: partOf(newBatch, runningM3(newer, u), pour),
            olderPart: partOf(oldBatch, runningM3(older, u), pour),
          });
        }
      }
      return {
        kind: 'lane' as const,
        newer: newer.number,
        older: older.number,
        from: pointAt(axes, from, newerEdge),
        to: pointAt(axes, to, newerEdge),
        lengthM: to - from,
        points,
      };
    });
}

function overlaps(a: readonly number[], b: readonly number[]): [number, number][] {
  const found: [number, number][] = [];
  for (let i = 0; i + 1 < a.length; i += 2) {
    for (let j = 0; j + 1 < b.length; j += 2) {
      const from = Math.max(a[i] ?? 0, b[j] ?? 0);
      const to = Math.min(a[i + 1] ?? 0, b[j + 1] ?? 0);
      if (to > from) found.push([from, to]);
    }
  }
  return found;
}

/** Places between two ends where the slope of the age may change: ends of batches and changes of the lane's width. */
function breaks(lane: PourLane, from: number, to: number, pour: Pouring): number[] {
  const places = lane.profile.startsM.filter((u) => u > from && u < to);
  const first = Math.ceil(lane.startM3 / pour.batchM3);
  const last = Math.floor((lane.startM3 + lane.volumeM3) / pour.batchM3);
  for (let k = Math.max(1, first); k <= last && k < pour.count; k++) {
    const inLaneM3 = k * pour.batchM3 - lane.startM3;
    const u = placeOfVolume(lane.profile, lane.forward ? inLaneM3 : lane.volumeM3 - inLaneM3);
    if (u > from && u < to) places.push(u);
  }
  return places;
}

function batchAt(passedM3: number, pour: Pouring): number {
  return Math.min(pour.count, Math.max(1, Math.floor(passedM3 / pour.batchM3) + 1));
}

function partOf(batch: number, passedM3: number, pour: Pouring): number {
  const start = (batch - 1) * pour.batchM3;
  const end = batch === pour.count ? pour.volumeM3 : start + pour.batchM3;
  return end > start ? Math.min(1, Math.max(0, (passedM3 - start) / (end - start))) : 0;
}

function endToEnd(lanes: readonly PourLane[], k: number, pour: Pouring): Join | null {
  const volumeM3 = k * pour.batchM3;
  const slack = pour.batchM3 * 1e-6;
  const lane = lanes.find((s) => volumeM3 > s.startM3 + slack && volumeM3 < s.startM3 + s.volumeM3 - slack);
  if (!lane) return null;
  const inLaneM3 = volumeM3 - lane.startM3;
  const u = placeOfVolume(lane.profile, lane.forward ? inLaneM3 : lane.volumeM3 - inLaneM3);
  const { from, to, point } = acrossLane(lane, u);
  return {
    kind: 'batch',
    newer: k + 1,
    older: k,
    from,
    to,
    lengthM: Math.hypot(to.xM - from.xM, to.yM - from.yM),
    points: [{ point, newer: k + 1, older: k, newerPart: 0, olderPart: 1 }],
  };
}

/** The line across a lane at `u` along its axes, with its middle. */
export function acrossLane(
  { axes, pieces }: Pick<PourLane, 'axes' | 'pieces'>,
  u: number,
): { readonly from: Point; readonly to: Point; readonly point: Point } {
  const v = cornersOf(pieces).map((p) => acrossM(axes, p));
  const [low, high] = [Math.min(...v), Math.max(...v)];
  return { from: pointAt(axes, u, low), to: pointAt(axes, u, high), point: pointAt(axes, u, (low + high) / 2) };
}

/** Number of parts a doorway is divided into; it limits the precision of a batch's end inside it. */
const DOORWAY_PARTS = 8;

function acrossDoorway(lanes: readonly PourLane[], { sides }: OpenDoorway, pour: Pouring): Join | null {
  const points: JoinPoint[] = [];
  const [sideA, sideB] = sides;
  const along = (side: DoorwaySide, share: number): Point => ({
    xM: side.from.xM + share * (side.to.xM - side.from.xM),
    yM: side.from.yM + share * (side.to.yM - side.from.yM),
  });
  let newerLane: PourLane | null = null;
  let olderLane: PourLane | null = null;
  const passAt = (share: number) =>
    [sideA, sideB].flatMap((side) => {
      const point = along(side, share);
      const lane = nearest(lanes, side.roomId, point);
      return lane === null ? [] : [{ lane, point, m3: runningM3(lane, alongM(lane.axes, point)) }];
    });
  for (let i = 0; i < DOORWAY_PARTS; i++) {
    // In pairs, one for each end of a part, as along a lane.
    for (const end of [i, i + 1]) {
      const [a, b] = passAt(0.001 + (0.998 * end) / DOORWAY_PARTS);
      if (a === undefined || b === undefined) return null;
      const [newer, older] = a.m3 > b.m3 ? [a, b] : [b, a];
      newerLane = newer.lane;
      olderLane = older.lane;
      const newBatch = batchAt(newer.m3, pour);
      const oldBatch = batchAt(older.m3, pour);
      points.push({
        point: newer.point,
        newer: newBatch,
        older: oldBatch,
        newerPart: partOf(newBatch, newer.m3, pour),
        olderPart: partOf(oldBatch, older.m3, pour),
      });
    }
  }
  if (newerLane === null || olderLane === null) return null;
  const [side, other] = newerLane.roomId === sideA.roomId ? [sideA, sideB] : [sideB, sideA];
  const { from, to } = side;
  const olderSide = { from: other.from, to: other.to };
  return { kind: 'doorway', newer: newerLane.number, older: olderLane.number, from, to, lengthM: distanceM(from, to), points, olderSide };
}

/** The lane of a room nearest to a point on its edge. */
function nearest(lanes: readonly PourLane[], roomId: string, point: Point): PourLane | null {
  let best: PourLane | null = null;
  let bestM = Infinity;
  for (const lane of lanes) {
    if (lane.roomId !== roomId) continue;
    const distance = lane.pieces.some((piece) => pointInRegion(point, piece) !== 'outside') ? 0 : edgeDistanceM(lane, point);
    if (distance < bestM) {
      bestM = distance;
      best = lane;
    }
  }
  return best;
}

function edgeDistanceM(lane: PourLane, point: Point): number {
  const sides = ringsOf(lane.pieces).flatMap((ring) => sidesOf(ring));
  return Math.min(...sides.map((side) => nearestOnSegment(point, side.from, side.to).offM));
}
