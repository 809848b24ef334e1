import { describe, expect, it } from 'vitest';
import { fittedPlane, planeAtM } from '../../../shared-core/survey/plane.ts';

const spotsOf = (points: readonly (readonly [number, number, number])[]) => ({
  xM: Float64Array.from(points, ([x]) => x),
  yM: Float64Array.from(points, ([, y]) => y),
  zM: Float64Array.from(points, ([, , z]) => z),
  spotCount: points.length,
});
const grid = [0, 1, 2, 3].flatMap((x) => [0, 1, 2].map((y) => [x, y] as const));

describe('the plane that fits readings best', () => {
  it('is the plane they lie on', () => {
    const plane = fittedPlane(spotsOf(grid.map(([x, y]) => [x, y, 0.5 + 0.01 * x - 0.02 * y])));
    expect(plane.slopeX).toBeCloseTo(0.01, 12);
    expect(plane.slopeY).toBeCloseTo(-0.02, 12);
    expect(planeAtM(plane, 2, 1)).toBeCloseTo(0.5, 12);
  });

  it('leaves residuals that add up to nothing, and leaves out what does not count', () => {
    // The normal equations of least squares: residuals are orthogonal to 1, x and y.
    const points = grid.map(([x, y], i) => [x, y, ((i * 7) % 5) / 100] as const);
    const plane = fittedPlane(spotsOf(points));
    const off = points.map(([x, y, z]) => z - planeAtM(plane, x, y));
    for (const weigh of [() => 1, (i: number) => points[i]?.[0] ?? 0, (i: number) => points[i]?.[1] ?? 0])
      expect(off.reduce((sum, d, i) => sum + d * weigh(i), 0)).toBeCloseTo(0, 12);
    const slip = [...grid.map(([x, y]) => [x, y, 0.3] as const), [1, 1, 5] as const];
    expect(
      planeAtM(
        fittedPlane(spotsOf(slip), (i) => i < grid.length),
        1,
        1,
      ),
    ).toBeCloseTo(0.3, 12);
  });
});
