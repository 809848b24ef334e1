/** Edits to a plan that keep its openings on their walls and its diagonals on their corners. */
import type { Point } from '../book/fields.ts';
import type { Opening, Plan } from '../book/plan-fields.ts';
import { between, distanceM } from './point.ts';
import { signedAreaM2 } from './polygon.ts';

const atIndex = (plan: Plan, index: number): Point => plan.outline[index % plan.outline.length] ?? { xM: 0, yM: 0 };

/** The plan with one corner moved; unchanged when there is no such corner. */
export function withCornerAt(plan: Plan, corner: number, to: Point): Plan {
  return { ...plan, outline: plan.outline.map((p, i) => (i === corner ? to : p)) };
}

/** A point moved outward from a wall that has a length, or into the room where `outM` is negative, m. */
function movedOut(plan: Plan, wall: number, p: Point, outM: number): Point {
  const [a, b] = [atIndex(plan, wall), atIndex(plan, wall + 1)];
  const lengthM = distanceM(a, b);
  const way = signedAreaM2(plan.outline) >= 0 ? outM / lengthM : -outM / lengthM;
  return { xM: p.xM + (b.yM - a.yM) * way, yM: p.yM - (b.xM - a.xM) * way };
}

/** The plan with one wall moved outward (into the room when negative), both corners perpendicular to it. */
export function withWallMoved(plan: Plan, wall: number, outM: number): Plan {
  const [a, b] = [atIndex(plan, wall), atIndex(plan, wall + 1)];
  if (distanceM(a, b) === 0) return plan;
  const next = (wall + 1) % plan.outline.length;
  return { ...plan, outline: plan.outline.map((p, i) => (i === wall || i === next ? movedOut(plan, wall, p, outM) : p)) };
}

function shifted(openings: readonly Opening[], moved: (opening: Opening) => { readonly wall: number; readonly fromM: number }): Opening[] {
  return openings.map((opening) => ({ ...opening, ...moved(opening) }));
}

/** The plan with a new corner in a wall, `alongM` from the wall's first corner. */
export function withCornerIn(plan: Plan, wall: number, alongM: number): Plan {
  const [a, b] = [atIndex(plan, wall), atIndex(plan, wall + 1)];
  const share = alongM / distanceM(a, b);
  if (!(share > 0 && share < 1)) return plan;
  return {
    ...plan,
    outline: [...plan.outline.slice(0, wall + 1), between(a, b, share), ...plan.outline.slice(wall + 1)],
    openings: shifted(plan.openings, (o) => {
      if (o.wall !== wall) return { wall: o.wall > wall ? o.wall + 1 : o.wall, fromM: o.fromM };
      const isPast = o.fromM + o.widthM / 2 > alongM;
      return isPast ? { wall: wall + 1, fromM: Math.max(0, o.fromM - alongM) } : { wall, fromM: o.fromM };
    }),
    diagonals: plan.diagonals.map((d) => ({ ...d, from: d.from > wall ? d.from + 1 : d.from, to: d.to > wall ? d.to + 1 : d.to })),
  };
}

/** The plan without one corner: its two walls become one, openings keep their distance along it, and its diagonals are deleted. */
export function withoutCorner(plan: Plan, corner: number): Plan {
  const count = plan.outline.length;
  const before = (corner - 1 + count) % count;
  const addedM = distanceM(atIndex(plan, before), atIndex(plan, corner));
  const renumbered = (index: number): number => (index > corner ? index - 1 : index);
  return {
    ...plan,
    outline: plan.outline.filter((_, i) => i !== corner),
    openings: shifted(plan.openings, (o) =>
      o.wall === corner ? { wall: renumbered(before), fromM: o.fromM + addedM } : { wall: renumbered(o.wall), fromM: o.fromM },
    ),
    diagonals: plan.diagonals
      .filter(({ from, to }) => from !== corner && to !== corner)
      .map((d) => ({ ...d, from: renumbered(d.from), to: renumbered(d.to) })),
  };
}

/** A bump-out adds floor beyond the wall, as a bay or an alcove does; a notch takes floor out of the room, as a chimney does. */
export type BayKind = 'bump-out' | 'notch';
/** Where it starts from the wall's first corner, and its size, meters. */
type Bay = { readonly fromM: number; readonly widthM: number; readonly deepM: number };

/**
 * The plan with a bump-out or a notch in a wall: four new corners. An end at a corner of the wall reuses that corner.
 * @param deepM above 0
 */
export function withBay(plan: Plan, wall: number, kind: BayKind, { fromM, widthM, deepM }: Bay): Plan {
  const outM = kind === 'bump-out' ? deepM : -deepM;
  const [a, b] = [atIndex(plan, wall), atIndex(plan, wall + 1)];
  const lengthM = distanceM(a, b);
  if (fromM < 0 || fromM + widthM > lengthM + 1e-9 || !(widthM > 0) || !(deepM > 0)) return plan;
  const [near, far] = [between(a, b, fromM / lengthM), between(a, b, (fromM + widthM) / lengthM)];
  const startsAtCorner = fromM < 1e-9;
  const endsAtCorner = fromM + widthM > lengthM - 1e-9;
  const added = [
    ...(startsAtCorner ? [] : [near]),
    movedOut(plan, wall, near, outM),
    movedOut(plan, wall, far, outM),
    ...(endsAtCorner ? [] : [far]),
  ];
  // One that ends at a corner reuses that corner, and the adjoining wall gets longer.
  const more = added.length;
  const bayWall = wall + (startsAtCorner ? 1 : 2);
  return {
    ...plan,
    outline: [...plan.outline.slice(0, wall + 1), ...added, ...plan.outline.slice(wall + 1)],
    openings: shifted(plan.openings, (o) => {
      if (o.wall !== wall) return { wall: o.wall > wall ? o.wall + more : o.wall, fromM: o.fromM };
      const middle = o.fromM + o.widthM / 2;
      if (middle < fromM) return { wall, fromM: o.fromM };
      if (middle <= fromM + widthM) return { wall: bayWall, fromM: Math.max(0, o.fromM - fromM) };
      return { wall: wall + more, fromM: Math.max(0, o.fromM - fromM - widthM) };
    }),
    diagonals: plan.diagonals.map((d) => ({ ...d, from: d.from > wall ? d.from + more : d.from, to: d.to > wall ? d.to + more : d.to })),
  };
}

/** Snaps a point to the column or row of another point within `withinM`, or else to whole steps. */
export function snapped(point: Point, to: readonly Point[], withinM: number, stepM: number): Point {
  const near = (value: number, others: readonly number[]): number => {
    const best = [...others].sort((a, b) => Math.abs(a - value) - Math.abs(b - value))[0];
    return best !== undefined && Math.abs(best - value) <= withinM ? best : Math.round(value / stepM) * stepM;
  };
  return {
    xM: near(
      point.xM,
      to.map((p) => p.xM),
    ),
    yM: near(
      point.yM,
      to.map((p) => p.yM),
    ),
  };
}

/** The corners of an axis-aligned rectangle, clockwise on the drawing. */
export function boxCorners(leftM: number, topM: number, widthM: number, heightM: number): Point[] {
  return [
    { xM: leftM, yM: topM },
    { xM: leftM + widthM, yM: topM },
    { xM: leftM + widthM, yM: topM + heightM },
    { xM: leftM, yM: topM + heightM },
  ];
}

/** Left, top, width and height when the corners form an axis-aligned rectangle; null otherwise. */
export function boxOf(
  corners: readonly Point[],
): { readonly leftM: number; readonly topM: number; readonly widthM: number; readonly heightM: number } | null {
  if (corners.length !== 4) return null;
  const xs = corners.map((p) => p.xM);
  const ys = corners.map((p) => p.yM);
  const [leftM, topM] = [Math.min(...xs), Math.min(...ys)];
  const [widthM, heightM] = [Math.max(...xs) - leftM, Math.max(...ys) - topM];
  const isUpright = boxCorners(leftM, topM, widthM, heightM).every((c) => corners.some((p) => distanceM(p, c) < 1e-9));
  return isUpright && widthM > 0 && heightM > 0 ? { leftM, topM, widthM, heightM } : null;
}

/** Moves all points by the same offset. */
export function movedBy(points: readonly Point[], xM: number, yM: number): Point[] {
  return points.map((p) => ({ xM: p.xM + xM, yM: p.yM + yM }));
}

/** Distance of a point outward from the line of a wall, meters; negative inside the room. */
export function outOfWallM(plan: Plan, wall: number, point: Point): number {
  const [a, b] = [atIndex(plan, wall), atIndex(plan, wall + 1)];
  const lengthM = distanceM(a, b);
  if (lengthM === 0) return 0;
  const acrossM = ((point.xM - a.xM) * (b.yM - a.yM) - (point.yM - a.yM) * (b.xM - a.xM)) / lengthM;
  return signedAreaM2(plan.outline) >= 0 ? acrossM : -acrossM;
}

/** Rounds a length to the nearest whole step. */
export function stepped(lengthM: number, stepM: number): number {
  return Math.round(lengthM / stepM) * stepM;
}
