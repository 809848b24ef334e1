/** Rooms for tests: known shapes, and random ones that are valid by construction. */
import fc from 'fast-check';
import type { Point } from '../../../shared-core/book/fields.ts';
import type { Hole, Opening, Plan } from '../../../shared-core/book/plan-fields.ts';
import type { Region } from '../../../shared-core/plan/region.ts';

export const points = (...pairs: readonly (readonly [number, number])[]): Point[] => pairs.map(([xM, yM]) => ({ xM, yM }));

export const hole = (id: string, corners: Point[]): Hole => ({ id, kind: 'column', name: id, corners });

export const opening = (over: Partial<Opening>): Opening => ({
  id: 'door-1',
  kind: 'doorway',
  name: 'Door',
  wall: 0,
  fromM: 0.5,
  widthM: 0.9,
  adjoiningM: null,
  adjoiningFlooring: '',
  edge: 'dam',
  isWayOut: false,
  ...over,
});

export const plan = (outline: Point[], over: Partial<Plan> = {}): Plan => ({
  outline,
  holes: [],
  openings: [],
  placedAt: { xM: 0, yM: 0, turnDeg: 0 },
  diagonals: [],
  ...over,
});

export const RECTANGLE = points([0, 0], [5, 0], [5, 3], [0, 3]);
/** 6 by 4 with a 2.5 by 1.5 corner missing: 20.25 square meters. */
export const L_ROOM = points([0, 0], [6, 0], [6, 2.5], [3.5, 2.5], [3.5, 4], [0, 4]);
/** 7 by 4 with a 3 by 2.5 notch from the top: 20.5 square meters. */
export const U_ROOM = points([0, 0], [2, 0], [2, 2.5], [5, 2.5], [5, 0], [7, 0], [7, 4], [0, 4]);

/** A star-shaped outline, which never crosses itself and is usually not convex. */
const ring = (least: number, most: number) =>
  fc.array(fc.double({ min: least, max: most, noNaN: true }), { minLength: 5, maxLength: 24 }).map((radii) =>
    radii.map((radius, i): Point => {
      const angle = (2 * Math.PI * (i + 0.1)) / radii.length;
      return { xM: 3 + radius * Math.cos(angle), yM: 2 + radius * Math.sin(angle) };
    }),
  );

/** A room with random corners around a random cutout. */
export const anyRegion: fc.Arbitrary<Region> = fc
  .tuple(ring(2, 6), ring(0.2, 0.9), fc.boolean())
  .map(([outline, inner, isHollow]) => ({ outline, holes: isHollow ? [inner] : [] }));

/** A comb, whose arms cut lanes into many pieces; corners are whole numbers, so that cuts pass through them. */
export const anyComb: fc.Arbitrary<Region> = fc.array(fc.integer({ min: 1, max: 6 }), { minLength: 2, maxLength: 7 }).map((arms) => {
  const outline: Point[] = [];
  for (const [i, arm] of arms.entries()) outline.push(...points([2 * i, arm], [2 * i + 1, arm], [2 * i + 1, 0.5], [2 * i + 2, 0.5]));
  const end = 2 * arms.length;
  outline.push(...points([end, 0.25], [end, -1], [0, -1]));
  return { outline, holes: [points([0.25, -0.5], [end - 0.5, -0.5], [end - 0.5, 0], [0.25, 0])] };
});

export function moved(region: Region, turnDeg: number, byXM: number, byYM: number): Region {
  const [cos, sin] = [Math.cos((turnDeg * Math.PI) / 180), Math.sin((turnDeg * Math.PI) / 180)];
  const move = (p: Point): Point => ({ xM: p.xM * cos - p.yM * sin + byXM, yM: p.xM * sin + p.yM * cos + byYM });
  return { outline: region.outline.map(move), holes: region.holes.map((corners) => corners.map(move)) };
}
