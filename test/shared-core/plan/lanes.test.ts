import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { areaOf, regionAreaM2, type Region, roomRegion } from '../../../shared-core/plan/region.ts';
import { lanesOfRegion } from '../../../shared-core/plan/lanes.ts';
import { roomLanes } from './room-lanes.ts';
import { anyComb, anyRegion, L_ROOM, moved, opening, plan, RECTANGLE, U_ROOM } from './rooms.ts';

const anyAngle = fc.double({ min: -180, max: 180, noNaN: true });

/** Width of a region across lanes at an angle. */
const acrossM = ({ outline }: Region, angleDeg: number): number => {
  const turn = (angleDeg * Math.PI) / 180;
  const across = outline.map((p) => p.yM * Math.cos(turn) - p.xM * Math.sin(turn));
  return Math.max(...across) - Math.min(...across);
};

describe('lanes', () => {
  it('start at the wall farthest from the exit', () => {
    const atTop = plan(RECTANGLE, { openings: [opening({ wall: 0, isWayOut: true })] });
    const lanes = roomLanes(atTop, 1, 0);
    expect(lanes.map(areaOf)).toEqual([5, 5, 5]);
    expect(Math.min(...(lanes[0]?.[0]?.outline.map((p) => p.yM) ?? []))).toBe(2);
    const atBottom = roomLanes(plan(RECTANGLE, { openings: [opening({ wall: 2, isWayOut: true })] }), 1, 0);
    expect(Math.max(...(atBottom[0]?.[0]?.outline.map((p) => p.yM) ?? []))).toBe(1);
  });

  it('leave the remainder to the last lane', () => {
    const lanes = lanesOfRegion({ outline: RECTANGLE, holes: [] }, 0.8, 90, null);
    expect(lanes).toHaveLength(7);
    expect(areaOf(lanes[6] ?? [])).toBeCloseTo((5 - 6 * 0.8) * 3, 12);
  });

  it('fall into pieces where the room does', () => {
    const lanes = lanesOfRegion({ outline: U_ROOM, holes: [] }, 2, 0, null);
    expect(lanes.map((pieces) => pieces.length)).toEqual([2, 1]);
  });

  it('add up to the room, at any width and angle', () => {
    fc.assert(
      fc.property(fc.oneof(anyRegion, anyComb), fc.double({ min: 0.3, max: 4, noNaN: true }), anyAngle, (region, width, angle) => {
        const total = lanesOfRegion(region, width, angle, null).reduce((sum, lane) => sum + areaOf(lane), 0);
        expect(Math.abs(total - regionAreaM2(region))).toBeLessThan(1e-8);
      }),
    );
  });

  it('are the same when room and angle are rotated and moved together', () => {
    fc.assert(
      fc.property(anyRegion, fc.double({ min: 0.5, max: 3, noNaN: true }), anyAngle, anyAngle, (region, width, angle, turn) => {
        fc.pre(Math.abs((acrossM(region, angle) / width) % 1) > 1e-6);
        const own = lanesOfRegion(region, width, angle, { xM: 50, yM: 61 }).map(areaOf);
        const out = moved({ outline: [{ xM: 50, yM: 61 }], holes: [] }, turn, 12, -7).outline[0] ?? null;
        const other = lanesOfRegion(moved(region, turn, 12, -7), width, angle + turn, out).map(areaOf);
        expect(other).toHaveLength(own.length);
        for (const [i, area] of own.entries()) expect(Math.abs(area - (other[i] ?? 0))).toBeLessThan(1e-7);
      }),
    );
  });

  it('are none for an invalid width', () => {
    const region = roomRegion(plan(L_ROOM));
    for (const width of [0, -1, Number.NaN, 0.0001]) expect(lanesOfRegion(region, width, 0, null)).toEqual([]);
  });
});
