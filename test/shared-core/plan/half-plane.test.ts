import fc from 'fast-check';
import polygonClipping, { type MultiPolygon, type Polygon } from 'polygon-clipping';
import { describe, expect, it } from 'vitest';
import type { Point } from '../../../shared-core/book/fields.ts';
import { baysOf, splitByLine } from '../../../shared-core/plan/bays.ts';
import { clipToHalfPlane, type HalfPlane, otherSide } from '../../../shared-core/plan/half-plane.ts';
import { directionOf } from '../../../shared-core/plan/point.ts';
import { type Region, regionAreaM2 } from '../../../shared-core/plan/region.ts';
import { anyComb, anyRegion, L_ROOM, points, U_ROOM } from './rooms.ts';

const sum = (regions: readonly Region[]) => regions.reduce((area, region) => area + regionAreaM2(region), 0);
const halfAt = (angleDeg: number, through: Point): HalfPlane => {
  const { x, y } = directionOf(angleDeg);
  return { normal: { x, y }, offsetM: through.xM * x + through.yM * y };
};
/** The clipped side as a square of 200 m, for libraries that only know polygons. */
const squareOf = ({ normal, offsetM }: HalfPlane): Point[] => {
  const foot = { xM: normal.x * offsetM, yM: normal.y * offsetM };
  const pointOf = (across: number, along: number): Point => ({
    xM: foot.xM + normal.x * across - normal.y * along,
    yM: foot.yM + normal.y * across + normal.x * along,
  });
  return [pointOf(0, -100), pointOf(200, -100), pointOf(200, 100), pointOf(0, 100)];
};
const pairs = (ring: readonly Point[]) => ring.map((p): [number, number] => [p.xM, p.yM]);
const asPolygon = (region: Region): Polygon => [pairs(region.outline), ...region.holes.map(pairs)];
const shoelace = (ring: readonly [number, number][]) =>
  ring.reduce((twice, [x, y], i) => twice + x * (ring[(i + 1) % ring.length]?.[1] ?? 0) - y * (ring[(i + 1) % ring.length]?.[0] ?? 0), 0) /
  2;
const multiArea = (shape: MultiPolygon) =>
  shape.reduce((all, rings) => all + rings.reduce((area, ring, i) => area + (i === 0 ? 1 : -1) * Math.abs(shoelace(ring)), 0), 0);

const anyCut = fc.tuple(
  fc.double({ min: 0, max: 360, noNaN: true }),
  fc.double({ min: -1, max: 7, noNaN: true }),
  fc.double({ min: -3, max: 6, noNaN: true }),
);

describe('clipping a region along a line', () => {
  it('keeps exactly one side of an L-shaped room', () => {
    const clipped = clipToHalfPlane({ outline: L_ROOM, holes: [] }, { normal: { x: 0, y: 1 }, offsetM: 1 });
    expect(clipped).toHaveLength(1);
    expect(sum(clipped)).toBeCloseTo(6 * 1.5 + 3.5 * 1.5, 12);
  });

  it('gives the two arms of a U as two pieces', () => {
    const arms = clipToHalfPlane({ outline: U_ROOM, holes: [] }, { normal: { x: 0, y: -1 }, offsetM: -2 });
    expect(arms.map((arm) => regionAreaM2(arm))).toEqual([4, 4]);
  });

  it('cuts along a wall without slivers', () => {
    const half = { normal: { x: 0, y: 1 }, offsetM: 2.5 };
    expect(clipToHalfPlane({ outline: U_ROOM, holes: [] }, half).map(regionAreaM2)).toEqual([10.5]);
    expect(clipToHalfPlane({ outline: U_ROOM, holes: [] }, otherSide(half)).map(regionAreaM2)).toEqual([5, 5]);
  });

  it('opens a cutout that the line crosses and keeps one that it misses', () => {
    const region = {
      outline: points([0, 0], [6, 0], [6, 4], [0, 4]),
      holes: [points([1, 1], [2, 1], [2, 2], [1, 2]), points([4, 1], [5, 1], [5, 2], [4, 2])],
    };
    const right = clipToHalfPlane(region, { normal: { x: 1, y: 0 }, offsetM: 1.5 });
    expect(right).toHaveLength(1);
    expect(right[0]?.holes).toHaveLength(1);
    expect(sum(right)).toBeCloseTo(4.5 * 4 - 0.5 - 1, 12);
  });

  it('loses nothing: both sides together are the region', () => {
    fc.assert(
      fc.property(fc.oneof(anyRegion, anyComb), anyCut, (region, [angle, xM, yM]) => {
        const half = halfAt(angle, { xM, yM });
        const together = sum(clipToHalfPlane(region, half)) + sum(clipToHalfPlane(region, otherSide(half)));
        expect(Math.abs(together - regionAreaM2(region))).toBeLessThan(1e-9);
      }),
    );
  });

  it('agrees with polygon-clipping', () => {
    fc.assert(
      fc.property(fc.oneof(anyRegion, anyComb), anyCut, (region, [angle, xM, yM]) => {
        const half = halfAt(angle, { xM, yM });
        const own = sum(clipToHalfPlane(region, half));
        const square = squareOf(half);
        expect(Math.abs(own - multiArea(polygonClipping.intersection(asPolygon(region), [pairs(square)])))).toBeLessThan(1e-6);
      }),
      { numRuns: 200 },
    );
  });

  it('loses nothing where the line passes through corners', () => {
    fc.assert(
      fc.property(
        anyComb,
        fc.integer({ min: -1, max: 7 }),
        fc.constantFrom(0, 45, 90, 135, 180, 225, 270, 315),
        (region, offset, angle) => {
          const half = halfAt(angle, { xM: offset, yM: offset });
          const [one, other] = [clipToHalfPlane(region, half), clipToHalfPlane(region, otherSide(half))];
          expect(Math.abs(sum(one) + sum(other) - regionAreaM2(region))).toBeLessThan(1e-9);
          const theirs = multiArea(polygonClipping.intersection(asPolygon(region), [pairs(squareOf(half))]));
          expect(Math.abs(sum(one) - theirs)).toBeLessThan(1e-6);
        },
      ),
    );
  });
});

describe('sections', () => {
  it('come from a dam across the room', () => {
    const bays = splitByLine({ outline: L_ROOM, holes: [] }, { xM: 3.5, yM: 0 }, { xM: 3.5, yM: 4 });
    expect(bays.map(regionAreaM2).sort((a, b) => a - b)).toEqual([6.25, 14]);
  });

  it('add up to the room, whatever the dams', () => {
    fc.assert(
      fc.property(anyRegion, anyCut, anyCut, (region, [, ax, ay], [, bx, by]) => {
        fc.pre(Math.hypot(ax - bx, ay - by) > 0.01);
        const dams = [
          { from: { xM: ax, yM: ay }, to: { xM: bx, yM: by } },
          { from: { xM: by, yM: ax }, to: { xM: ay + 1, yM: bx } },
        ];
        expect(Math.abs(sum(baysOf(region, dams)) - regionAreaM2(region))).toBeLessThan(1e-9);
      }),
    );
  });

  it('are the room itself when the dam has no direction', () => {
    expect(splitByLine({ outline: L_ROOM, holes: [] }, { xM: 1, yM: 1 }, { xM: 1, yM: 1 })).toHaveLength(1);
  });
});
