/** Places doorways on the plan and finds the exit. */
import type { Point } from '../book/fields.ts';
import type { Opening, Plan } from '../book/plan-fields.ts';
import { between, distanceM, nearestOnSegment, sidesOf } from './point.ts';
import { signedAreaM2 } from './polygon.ts';

/** An opening on the plan: its two jambs, its middle, and the direction into the room (unit vector). */
export type PlacedOpening = {
  readonly opening: Opening;
  readonly from: Point;
  readonly to: Point;
  readonly middle: Point;
  readonly inward: { readonly x: number; readonly y: number };
};

/** Wall `index` of the plan: from that corner to the next; null when there is no such wall. */
export function wallOf(
  plan: Pick<Plan, 'outline'>,
  index: number,
): { readonly from: Point; readonly to: Point; readonly lengthM: number } | null {
  const wall = sidesOf(plan.outline)[index];
  return wall === undefined ? null : { ...wall, lengthM: distanceM(wall.from, wall.to) };
}

/** An opening moved to another wall: at its distance from the corner, or as far along as a shorter wall lets it. */
export function movedToWall(plan: Pick<Plan, 'outline'>, opening: Opening, wall: number): Opening {
  const lengthM = wallOf(plan, wall)?.lengthM ?? 0;
  return { ...opening, wall, fromM: Math.max(0, Math.min(opening.fromM, lengthM - opening.widthM)) };
}

/** An opening placed on its wall; null when its wall is missing or has no length. */
export function placeOpening(plan: Pick<Plan, 'outline'>, opening: Opening): PlacedOpening | null {
  const wall = wallOf(plan, opening.wall);
  if (wall === null || wall.lengthM === 0) return null;
  const pointAt = (alongM: number) => between(wall.from, wall.to, alongM / wall.lengthM);
  const side = signedAreaM2(plan.outline) >= 0 ? 1 : -1;
  return {
    opening,
    from: pointAt(opening.fromM),
    to: pointAt(opening.fromM + opening.widthM),
    middle: pointAt(opening.fromM + opening.widthM / 2),
    inward: { x: (-side * (wall.to.yM - wall.from.yM)) / wall.lengthM, y: (side * (wall.to.xM - wall.from.xM)) / wall.lengthM },
  };
}

/** Whether an opening leads outside, so that the new floor has to stay below its sill or track. */
export function isExterior({ kind }: Pick<Opening, 'kind'>): boolean {
  return kind === 'exterior-door' || kind === 'sliding-door';
}

/** What an opening is called: where it leads to, or its kind. */
export function openingName({ name, kind }: Pick<Opening, 'name' | 'kind'>): string {
  return name.trim() === '' ? kind.replace('-', ' ') : name.trim();
}

/** Every opening that has a wall on the plan. */
export function placedOpenings(plan: Pick<Plan, 'outline' | 'openings'>): readonly PlacedOpening[] {
  return plan.openings.flatMap((opening) => placeOpening(plan, opening) ?? []);
}

/** The middle of the exit: the opening marked as exit, or the only opening; null when neither exists. */
export function wayOutPoint(plan: Pick<Plan, 'outline' | 'openings'>): Point | null {
  const placed = placedOpenings(plan);
  const marked = placed.find(({ opening }) => opening.isWayOut);
  return (marked ?? (placed.length === 1 ? placed[0] : undefined))?.middle ?? null;
}

/** The wall nearest to a point, the nearest point on it, and the distance; null while nothing is drawn. */
export function nearestWall(
  plan: Pick<Plan, 'outline'>,
  point: Point,
): { readonly wall: number; readonly point: Point; readonly alongM: number; readonly offM: number } | null {
  let best: { wall: number; point: Point; alongM: number; offM: number } | null = null;
  for (const [wall, side] of sidesOf(plan.outline).entries()) {
    const near = nearestOnSegment(point, side.from, side.to);
    if (best === null || near.offM < best.offM) best = { wall, ...near };
  }
  return best;
}
