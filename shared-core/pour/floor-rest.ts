/** Work left on a placed floor: the part to pour, the edges it meets and the areas to patch. */
import type { Point } from '../book/fields.ts';
import type { Defect } from '../book/pour-record.ts';
import { distanceM, nearestOnSegment } from '../plan/point.ts';
import { areaOf, pointInRegion, type Region } from '../plan/region.ts';
import { openFloor, type RoomFloor } from './placed-floor.ts';
import type { FloorRegion } from './pour-regions.ts';

/** An edge where open floor meets placed floor, meters on the room's axes. */
export type JointLine = { readonly from: Point; readonly to: Point };

/** Suspect floor named by one mark. */
type Patch = {
  /** Id of the log entry that marked it. */
  readonly id: string;
  readonly defect: Defect;
  readonly floor: readonly Region[];
  readonly areaM2: number;
  /** Depth poured there, m; null when not logged. */
  readonly thicknessM: number | null;
};

export type FloorRest = {
  /** Floor still to place, and the part of it that was scraped or cut out. */
  readonly openM2: number;
  readonly takenOutM2: number;
  /** Instant when floor was last removed; null where none was. */
  readonly takenOutAt: string | null;
  /** Share of the room still to place, 0 to 1. */
  readonly openShare: number;
  readonly joints: readonly JointLine[];
  readonly jointM: number;
  /** Instant when floor at the edges was last placed; null where nothing is placed or the time is not logged. */
  readonly sinceAt: string | null;
  readonly patches: readonly Patch[];
  /** Suspect floor without a named defect, and its batches. */
  readonly toCheck: readonly Region[];
  readonly toCheckM2: number;
  readonly toCheckBatches: readonly number[];
  /** Instant when the first of the patches and suspect floor was marked; null where one is known from the pour itself. */
  readonly foundAt: string | null;
};

/** Edges closer than this are one edge, since clipping rounds, m. */
const SAME_EDGE_M = 2e-3;
/** Anything shorter than this is a corner and not an edge, m. */
const SHORT_M = 0.01;

const isOpen = ({ state }: FloorRegion): boolean => state === 'not-placed' || state === 'taken-out';

function edgesOf(regions: readonly FloorRegion[]): JointLine[] {
  const rings = regions.flatMap((region) => region.floor.flatMap((piece) => [piece.outline, ...piece.holes]));
  return rings.flatMap((ring) => ring.map((from, i) => ({ from, to: ring[(i + 1) % ring.length] ?? from })));
}

/** The overlap of two edges, in meters along the first; null when they do not overlap. */
function overlap(edge: JointLine, other: JointLine): readonly [number, number] | null {
  const lengthM = distanceM(edge.from, edge.to);
  if (lengthM < SHORT_M) return null;
  const [ux, uy] = [(edge.to.xM - edge.from.xM) / lengthM, (edge.to.yM - edge.from.yM) / lengthM];
  const along = (p: Point): number => (p.xM - edge.from.xM) * ux + (p.yM - edge.from.yM) * uy;
  const offM = (p: Point): number => Math.abs((p.yM - edge.from.yM) * ux - (p.xM - edge.from.xM) * uy);
  if (offM(other.from) > SAME_EDGE_M || offM(other.to) > SAME_EDGE_M) return null;
  const [a, b] = [along(other.from), along(other.to)].sort((x, y) => x - y);
  const fromM = Math.max(0, a ?? 0);
  const toM = Math.min(lengthM, b ?? 0);
  return toM - fromM < SHORT_M ? null : [fromM, toM];
}

/** Edges between open and placed floor, each once. */
function jointLines(open: readonly FloorRegion[], placed: readonly FloorRegion[]): JointLine[] {
  const others = edgesOf(placed);
  return edgesOf(open).flatMap((edge): JointLine[] => {
    const spans = others.flatMap((other) => {
      const span = overlap(edge, other);
      return span === null ? [] : [span];
    });
    const joined: [number, number][] = [];
    for (const [from, to] of spans.sort((a, b) => a[0] - b[0])) {
      const last = joined.at(-1);
      if (last !== undefined && from <= last[1] + SHORT_M) last[1] = Math.max(last[1], to);
      else joined.push([from, to]);
    }
    const lengthM = distanceM(edge.from, edge.to);
    const pointAlong = (m: number): Point => ({
      xM: edge.from.xM + ((edge.to.xM - edge.from.xM) * m) / lengthM,
      yM: edge.from.yM + ((edge.to.yM - edge.from.yM) * m) / lengthM,
    });
    return joined.map(([from, to]) => ({ from: pointAlong(from), to: pointAlong(to) }));
  });
}

function patchesOf(regions: readonly FloorRegion[]): Patch[] {
  const patchByMark = new Map<string, Patch>();
  for (const { state, mark, floor, areaM2, thicknessM } of regions) {
    if (state !== 'suspect' || mark === null || mark.defect === null) continue;
    const earlier = patchByMark.get(mark.id);
    patchByMark.set(mark.id, {
      id: mark.id,
      defect: mark.defect,
      floor: [...(earlier?.floor ?? []), ...floor],
      areaM2: (earlier?.areaM2 ?? 0) + areaM2,
      thicknessM: earlier?.thicknessM ?? thicknessM,
    });
  }
  return [...patchByMark.values()];
}

/** Work left on a room's last lift; null before any pour, and when all of it is placed and sound. */
export function floorRest({ lift }: Pick<RoomFloor, 'lift'>): FloorRest | null {
  if (lift === null) return null;
  const open = lift.extent === 'whole' ? [] : lift.regions.filter(isOpen);
  const placed = lift.regions.filter((region) => !isOpen(region));
  const patches = patchesOf(lift.regions);
  const toCheck = placed.filter((region) => region.state === 'suspect' && (region.mark?.defect ?? null) === null);
  if (open.length === 0 && patches.length === 0 && toCheck.length === 0) return null;
  const joints = jointLines(open, placed);
  const found = placed.filter(({ state }) => state === 'suspect').map(({ mark }) => mark?.instant ?? null);
  const times = placed.flatMap((region) => region.placedAt ?? []);
  const openM2 = open.reduce((sum, region) => sum + region.areaM2, 0);
  return {
    openM2,
    takenOutM2: open.reduce((sum, region) => sum + (region.state === 'taken-out' ? region.areaM2 : 0), 0),
    takenOutAt:
      open
        .flatMap(({ state, mark }) => (state === 'taken-out' && mark !== null ? [mark.instant] : []))
        .toSorted()
        .at(-1) ?? null,
    openShare: lift.areaM2 > 0 ? openM2 / lift.areaM2 : 0,
    joints,
    jointM: joints.reduce((sum, line) => sum + distanceM(line.from, line.to), 0),
    sinceAt: times.length === 0 ? null : times.reduce((a, b) => (a > b ? a : b)),
    patches,
    toCheck: toCheck.flatMap((region) => region.floor),
    toCheckM2: toCheck.reduce((sum, region) => sum + areaOf(region.floor), 0),
    toCheckBatches: [...new Set(toCheck.flatMap((region) => region.batch ?? []))].sort((a, b) => a - b),
    foundAt: found.reduce((a, b) => (a === null || b === null ? null : a < b ? a : b), found[0] ?? null),
  };
}

/** Edges between floor of one pour and floor of an earlier pour of the same lift. */
export function pourJoints({ lift }: Pick<RoomFloor, 'lift'>): readonly JointLine[] {
  const regions = lift?.regions.filter((region) => !isOpen(region)) ?? [];
  const pours = [...new Set(regions.map((region) => region.pourId))];
  return pours.slice(1).flatMap((id, i) =>
    jointLines(
      regions.filter((region) => region.pourId === id),
      regions.filter((region) => pours.slice(0, i + 1).includes(region.pourId)),
    ),
  );
}

/** Points on the placed floor farther than this from the open floor do not help to match its height, m. Our choice, no source. */
const TIE_REACH_M = 1.5;
/** Maximum number of points requested on the placed floor. */
const TIE_MOST = 4;

/** A room's suggested points to measure for the open floor: all that are on it, and a few on the placed floor next to it. */
export function restPoints(points: readonly Point[], floor: RoomFloor): readonly Point[] {
  const open = openFloor(floor);
  const { joints = [] } = floorRest(floor) ?? {};
  const isOpenAt = (point: Point): boolean => open.some((piece) => pointInRegion(point, piece) !== 'outside');
  const reach = (point: Point): number => Math.min(Infinity, ...joints.map((line) => nearestOnSegment(point, line.from, line.to).offM));
  const ties = points
    .filter((point) => !isOpenAt(point) && reach(point) <= TIE_REACH_M)
    .sort((a, b) => reach(b) - reach(a))
    .slice(0, TIE_MOST);
  return points.filter((point) => ties.includes(point) || isOpenAt(point));
}
