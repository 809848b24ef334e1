/** A piece of floor: one outline and the cutouts inside it. Used for clipping, lanes and bays. */
import type { Point } from '../book/fields.ts';
import type { Plan } from '../book/plan-fields.ts';
import { nearestOnSegment, sidesOf } from './point.ts';
import { ringAreaM2, ringPerimeterM } from './polygon.ts';

export type Region = { readonly outline: readonly Point[]; readonly holes: readonly (readonly Point[])[] };

/** The floor of a room: its outline less its cutouts. */
export function roomRegion(plan: Pick<Plan, 'outline' | 'holes'>): Region {
  return { outline: plan.outline, holes: plan.holes.map((hole) => hole.corners) };
}

/** Area of a region in m². */
export function regionAreaM2(region: Region): number {
  return region.holes.reduce((area, hole) => area - ringAreaM2(hole), ringAreaM2(region.outline));
}

/** Area of several regions together in m². */
export const areaOf = (regions: readonly Region[]): number => regions.reduce((sum, region) => sum + regionAreaM2(region), 0);

/** Floor area of a room in m²: the outline less the cutouts. */
export function roomAreaM2(plan: Pick<Plan, 'outline' | 'holes'>): number {
  return regionAreaM2(roomRegion(plan));
}

/** Length of the room's edges in meters: walls and cutouts, since a perimeter strip goes around both. */
export function roomPerimeterM(plan: Pick<Plan, 'outline' | 'holes'>): { readonly wallsM: number; readonly holesM: number } {
  return { wallsM: ringPerimeterM(plan.outline), holesM: plan.holes.reduce((sum, hole) => sum + ringPerimeterM(hole.corners), 0) };
}

export type Whereabouts = 'inside' | 'outside' | 'edge';

/**
 * Whether a point is inside, on the edge of or outside a ring, by counting crossings of a ray.
 * @param ring corners in order, in either direction
 * @param edgeM distance within which a point counts as on a side, meters
 */
export function pointInRing(point: Point, ring: readonly Point[], edgeM = 1e-9): Whereabouts {
  let isInside = false;
  for (const { from, to } of sidesOf(ring)) {
    if (nearestOnSegment(point, from, to).offM <= edgeM) return 'edge';
    if (from.yM > point.yM !== to.yM > point.yM) {
      const xM = from.xM + ((point.yM - from.yM) / (to.yM - from.yM)) * (to.xM - from.xM);
      if (xM > point.xM) isInside = !isInside;
    }
  }
  return isInside ? 'inside' : 'outside';
}

/** Whether a point is inside, on the edge of or outside a region. Inside a cutout is outside the region. */
export function pointInRegion(point: Point, region: Region, edgeM = 1e-9): Whereabouts {
  const outer = pointInRing(point, region.outline, edgeM);
  if (outer === 'outside') return 'outside';
  let isOnEdge = outer === 'edge';
  for (const hole of region.holes) {
    const position = pointInRing(point, hole, edgeM);
    if (position === 'inside') return 'outside';
    isOnEdge ||= position === 'edge';
  }
  return isOnEdge ? 'edge' : 'inside';
}

/** Whether a point is inside, on the edge of or outside a room's floor. */
export function pointInRoom(point: Point, plan: Pick<Plan, 'outline' | 'holes'>, edgeM = 1e-9): Whereabouts {
  return pointInRegion(point, roomRegion(plan), edgeM);
}
