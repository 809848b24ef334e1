import { describe, expect, test } from 'vitest';
import {
  cornersInPlace,
  inWalkAxes,
  missingLengths,
  placedPoints,
  sideToward,
  tapeOfOutline,
} from '../../../shared-core/plan/tape-room.ts';
import { SHAPE_TURNS } from '../../../shared-core/plan/tape.ts';
import { xy } from '../../outlines.ts';

const L = xy('0,0 6,0 6,2 3,2 3,5 0,5').map(([xM, yM]) => ({ xM, yM }));

describe('a room between its corners and its tape', () => {
  test('an L reads back with the turns of an L and its own lengths', () => {
    const { sides } = tapeOfOutline(L);
    expect(sides.map((s) => s.turnDeg)).toEqual([...SHAPE_TURNS.l]);
    expect(sides.map((s) => s.lengthM)).toEqual([6, 2, 3, 3, 3, 5]);
  });
  test('an outline keeps its place after conversion to a walk and back, rotated and moved', () => {
    const turned = placedPoints(L, { start: { xM: 2, yM: -1 }, headingDeg: 33 });
    const { sides, place } = tapeOfOutline(turned);
    for (const [i, corner] of cornersInPlace(sides, place).entries()) {
      expect(corner.xM).toBeCloseTo(turned[i]?.xM ?? Number.NaN, 9);
      expect(corner.yM).toBeCloseTo(turned[i]?.yM ?? Number.NaN, 9);
    }
  });
  test('a point comes back from the axes of a walk', () => {
    const place = { start: { xM: 2, yM: -1 }, headingDeg: 123 };
    const [placed] = placedPoints([inWalkAxes({ xM: 0.7, yM: 4 }, place)], place);
    expect(placed?.xM).toBeCloseTo(0.7, 12);
    expect(placed?.yM).toBeCloseTo(4, 12);
  });
  test('two unmeasured sides of an L are those that close it', () => {
    expect(missingLengths(SHAPE_TURNS.l, [6, 2, 3, 3, null, null])).toEqual([null, null, null, null, 3, 5]);
  });
  // A right triangle of sides 3, 4 and 5 (Euclid I.47), its legs not measured: the turns are those of its outer angles.
  test('two unmeasured sides that do not meet at right angles with the known one are those that close it', () => {
    const sharp = (Math.atan2(3, 4) * 180) / Math.PI;
    const lengths = missingLengths([180 - sharp, 90, 90 + sharp], [5, null, null]);
    expect(lengths[1]).toBeCloseTo(4, 9);
    expect(lengths[2]).toBeCloseTo(3, 9);
    // An isosceles triangle with angles of 30°, 30° and 120°: the legs are the base divided by the square root of 3.
    const [, , leg] = missingLengths([150, 60, 150], [Math.sqrt(3), null, null]);
    expect(leg).toBeCloseTo(1, 9);
  });
  test('one unmeasured side across the gap is not guessed', () => {
    expect(missingLengths(SHAPE_TURNS.rectangle, [4, 3, 4.5, null])).toEqual([null, null, null, null]);
  });
  test('more than two unmeasured sides are not guessed', () => {
    expect(missingLengths(SHAPE_TURNS.rectangle, [4, null, null, null])).toEqual([null, null, null, null]);
  });
  test('a press nearly at a right angle becomes square, with its length along the square', () => {
    const next = sideToward([{ lengthM: 4, turnDeg: 90 }], { xM: 4.2, yM: 3 }, 10);
    expect(next.turnBeforeDeg).toBe(90);
    expect(next.lengthM).toBeCloseTo(3, 12);
  });
});
