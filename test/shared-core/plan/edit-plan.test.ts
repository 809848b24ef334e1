import { describe, expect, test } from 'vitest';
import type { Plan } from '../../../shared-core/book/plan-fields.ts';
import {
  boxCorners,
  boxOf,
  movedBy,
  outOfWallM,
  snapped,
  stepped,
  withBay,
  withCornerAt,
  withCornerIn,
  withoutCorner,
  withWallMoved,
} from '../../../shared-core/plan/edit-plan.ts';
import { placedOpenings } from '../../../shared-core/plan/openings.ts';
import { ringAreaM2 } from '../../../shared-core/plan/polygon.ts';
import { planProblems } from '../../../shared-core/plan/problems.ts';
import { points } from '../../outlines.ts';
import { opening as openingOf } from './rooms.ts';

const opening = (wall: number, fromM: number) => openingOf({ id: `door-${wall}`, name: '', wall, fromM, widthM: 0.8 });
const plan: Plan = {
  outline: boxCorners(0, 0, 5, 4),
  holes: [],
  openings: [opening(0, 3), opening(2, 1)],
  placedAt: { xM: 0, yM: 0, turnDeg: 0 },
  diagonals: [{ from: 0, to: 2, lengthM: 6.4 }],
};
const middles = (p: Plan) => placedOpenings(p).map(({ middle }) => middle);

describe('changing a plan', () => {
  test('a wall moved out enlarges the room by its length times the distance, whichever way the corners run', () => {
    expect(ringAreaM2(withWallMoved(plan, 1, 0.5).outline)).toBeCloseTo(22, 12);
    const other = { ...plan, outline: [...plan.outline].reverse() };
    expect(ringAreaM2(withWallMoved(other, 1, 0.5).outline)).toBeCloseTo(22, 12);
  });
  test('a new corner does not move an opening', () => {
    for (const [i, middle] of middles(withCornerIn(plan, 0, 2)).entries()) {
      expect(middle.xM).toBeCloseTo(middles(plan)[i]?.xM ?? Number.NaN, 12);
      expect(middle.yM).toBeCloseTo(middles(plan)[i]?.yM ?? Number.NaN, 12);
    }
  });
  test('a corner added and deleted leaves the plan unchanged', () => {
    expect(withoutCorner(withCornerIn(plan, 0, 2), 1)).toEqual(plan);
  });
  test('a deleted corner deletes the diagonal measured to it', () => {
    expect(withoutCorner(plan, 2).diagonals).toEqual([]);
    expect(withoutCorner(plan, 1).diagonals).toEqual([{ from: 0, to: 1, lengthM: 6.4 }]);
  });
  test.each([
    ['within the wall', 1, 2],
    ['from its first corner', 0, 2],
    ['to its last corner', 3, 2],
    ['over all of it', 0, 5],
  ])('a bump-out %s adds its own area and keeps the plan valid', (_, fromM, widthM) => {
    const bayed = withBay({ ...plan, openings: [opening(2, 1)] }, 0, 'bump-out', { fromM, widthM, deepM: 0.6 });
    expect(ringAreaM2(bayed.outline)).toBeCloseTo(20 + widthM * 0.6, 12);
    expect(planProblems({ ...bayed, diagonals: [] }, 'metric')).toEqual([]);
    expect(middles(bayed)[0]).toEqual(middles(plan)[1]);
  });
  test('a notch removes its area, and an opening beside it in its wall does not move', () => {
    const nibbed = withBay(plan, 0, 'notch', { fromM: 0.5, widthM: 1, deepM: 0.4 });
    expect(ringAreaM2(nibbed.outline)).toBeCloseTo(20 - 0.4, 12);
    expect(middles(nibbed)[0]?.xM).toBeCloseTo(3.4, 12);
    expect(middles(nibbed)[0]?.yM).toBe(0);
  });
  test('a bump-out wider than its wall changes nothing', () => {
    expect(withBay(plan, 0, 'bump-out', { fromM: 4, widthM: 2, deepM: 0.6 })).toBe(plan);
  });
  test('a point beyond a wall is outside the room by its distance', () => {
    expect(outOfWallM(plan, 0, { xM: 2, yM: -0.3 })).toBeCloseTo(0.3, 12);
    expect(outOfWallM(plan, 0, { xM: 2, yM: 0.3 })).toBeCloseTo(-0.3, 12);
  });
  test('in or out is the same whichever way round the corners run, and a wall of no length has no sides', () => {
    const other = { ...plan, outline: [...plan.outline].reverse() };
    // Its third wall, from (5, 0) to (0, 0), is the first of the other.
    expect(outOfWallM(other, 2, { xM: 2, yM: -0.3 })).toBeCloseTo(0.3, 12);
    expect(outOfWallM(other, 2, { xM: 2, yM: 0.3 })).toBeCloseTo(-0.3, 12);
    expect(outOfWallM(plan, 1, { xM: 5.25, yM: 1 })).toBeCloseTo(0.25, 12);
    const none = {
      ...plan,
      outline: points('1,1 1,1 4,1'),
    };
    expect(outOfWallM(none, 0, { xM: 3, yM: 7 })).toBe(0);
    expect(withWallMoved(none, 0, 1)).toBe(none);
  });
  test('a corner, or all corners, are where they were moved to, and no other', () => {
    expect(withCornerAt(plan, 1, { xM: 6, yM: -1 }).outline).toEqual(points('0,0 6,-1 5,4 0,4'));
    expect(movedBy([{ xM: 1, yM: 2 }], 0.5, -3)).toEqual([{ xM: 1.5, yM: -1 }]);
    expect(stepped(1.234, 0.05)).toBeCloseTo(1.25, 12);
    expect(stepped(1.22, 0.05)).toBeCloseTo(1.2, 12);
  });
  test('a new corner at an end of its wall changes nothing; behind it, openings and diagonals keep their corners', () => {
    expect(withCornerIn(plan, 0, 0)).toBe(plan);
    expect(withCornerIn(plan, 0, 5)).toBe(plan);
    const cut = withCornerIn(plan, 0, 2);
    expect(cut.openings.map(({ wall, fromM }) => [wall, fromM])).toEqual([
      [1, 1],
      [3, 1],
    ]);
    expect(cut.diagonals).toEqual([{ from: 0, to: 3, lengthM: 6.4 }]);
    // A door whose middle is before the new corner stays in the first piece.
    expect(withCornerIn(plan, 0, 3.5).openings[0]).toMatchObject({ wall: 0, fromM: 3 });
  });
  test('a dragged corner snaps to the row of another when near, else to whole steps', () => {
    expect(snapped({ xM: 1.234, yM: 3.96 }, plan.outline, 0.1, 0.01)).toEqual({ xM: 1.23, yM: 4 });
  });
  test('a box is recognized by its corners, and nothing else is a box', () => {
    expect(boxOf(boxCorners(1, 2, 3, 4))).toEqual({ leftM: 1, topM: 2, widthM: 3, heightM: 4 });
    expect(boxOf(points('0,0 2,0.1 2,1 0,1'))).toBeNull();
  });
});
