import fc from 'fast-check';
import polygonClipping from 'polygon-clipping';
import { describe, expect, it } from 'vitest';
import type { Point } from '../../../shared-core/book/fields.ts';
import { areaInRoomM2, overlapM2 } from '../../../shared-core/plan/overlap.ts';
import { drawnPart } from '../../../shared-core/plan/part-of-room.ts';
import { anyComb, anyRegion, points } from './rooms.ts';

const pairs = (ring: readonly Point[]) => ring.map((p): [number, number] => [p.xM, p.yM]);
const ringArea = (ring: readonly [number, number][]) =>
  Math.abs(
    ring.reduce((twice, [x, y], i) => twice + x * (ring[(i + 1) % ring.length]?.[1] ?? 0) - y * (ring[(i + 1) % ring.length]?.[0] ?? 0), 0),
  ) / 2;
const multiArea = (shape: readonly (readonly [number, number][])[][]) =>
  shape.reduce((all, rings) => all + rings.reduce((area, ring, i) => area + (i === 0 ? 1 : -1) * ringArea(ring), 0), 0);

// Independent of the program's triangles: polygon-clipping, a general-purpose library (Martinez and others, 2009).
describe('the area two drawn parts have in common', () => {
  it('matches a polygon library, for any shapes in either direction', () => {
    fc.assert(
      fc.property(anyRegion, anyComb, fc.boolean(), (one, other, isTurned) => {
        const ring = isTurned ? [...one.outline].reverse() : one.outline;
        const theirs = multiArea(polygonClipping.intersection([pairs(one.outline)], [pairs(other.outline)]));
        expect(overlapM2(ring, other.outline)).toBeCloseTo(theirs, 8);
        expect(overlapM2(other.outline, ring)).toBeCloseTo(theirs, 8);
      }),
      { numRuns: 60 },
    );
  });
  it('of a part over a wall and a column is the floor that is there', () => {
    const plan = {
      outline: points([0, 0], [4, 0], [4, 3], [0, 3]),
      holes: [{ id: 'column-01', kind: 'column' as const, name: '', corners: points([1, 1], [2, 1], [2, 2], [1, 2]) }],
    };
    // 1.5 m of the part are inside, 2 m deep; half the column, 0.5 by 1 m, is not floor.
    expect(areaInRoomM2(plan, points([-1, 0.5], [1.5, 0.5], [1.5, 2.5], [-1, 2.5]))).toBeCloseTo(1.5 * 2 - 0.5, 12);
    expect(drawnPart(plan, points([5, 0], [6, 0], [6, 1]))).toMatchObject({ ok: false });
    expect(drawnPart(plan, points([0, 0], [2, 2], [2, 0], [0, 2]))).toMatchObject({ ok: false, message: expect.stringMatching(/crosses/) });
    expect(drawnPart(plan, points([0, 0], [1, 0]))).toMatchObject({ ok: false, message: expect.stringMatching(/at least 3/) });
  });
});
