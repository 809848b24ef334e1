/** Lines for F-numbers: ASTM E1155-96(2001), 3.2.8, twelve readings or more at 12 in; E1155M 7.3.1 to 7.3.3: 600 mm off the edges, lines 1.2 m apart. */
import { describe, expect, it } from 'vitest';
import { F_INTERVAL_M, fLinePlaces, linePlacesLeft } from '../../../shared-core/survey/f-lines.ts';
import { fNumbersOf } from '../../../shared-core/survey/f-numbers.ts';
import { readFloor } from '../../../shared-core/survey/read-floor.ts';
import { planOf, rectangle, surveyOf } from './floors.ts';
import { xy } from '../../outlines.ts';

const L_SHAPE = xy('0,0 2,0 2,3 7,3 7,6 0,6');

describe('lines for F-numbers', () => {
  it('in their order give the F-numbers, as many lines as the room fits', () => {
    for (const units of ['us', 'metric'] as const) {
      const plan = planOf(rectangle(6, 4));
      const { points } = fLinePlaces(plan, units);
      const read = readFloor(plan, surveyOf(points.map((p) => [p.xM, p.yM, 0.002 * Math.sin(3 * p.xM)])), 'us');
      expect(read.ok).toBe(true);
      const numbers = read.ok ? read.floor.fNumbers : null;
      // 4 m across: 0.6 off each wall leaves 2.8, which is three lines 1.2 apart.
      expect(numbers?.lines).toHaveLength(3);
      const steps = Math.floor((6 - 1.2) / F_INTERVAL_M[units] + 1e-9) + 1;
      for (const line of numbers?.lines ?? []) expect(line.readingIds).toHaveLength(steps);
      expect(numbers?.flat).toBeGreaterThan(0);
      expect(numbers?.level).toBeGreaterThan(0);
    }
  });

  it('stay on the floor and leave out what is too short for twelve readings', () => {
    const plan = planOf(L_SHAPE);
    const { points } = fLinePlaces(plan, 'metric');
    expect(points.length).toBeGreaterThanOrEqual(24);
    // The arm of 2 m takes seven readings at 300 mm, too few for a line.
    expect(points.every((p) => p.yM > 3)).toBe(true);
    expect(fLinePlaces(planOf(rectangle(3, 3)), 'us').points).toEqual([]);
  });

  it('run across the longest wall where only that way is long enough, as in a room whose long wall has a bay', () => {
    // 16 by 12 ft; a bay of 2 ft splits the upper wall, and a niche of 6 in. the lower one. Across, 10.5 ft are free: eleven readings.
    const feet = xy('0,0 5,0 5,-2 11,-2 11,0 16,0 16,12 10,12 10,12.5 4,12.5 4,12 0,12');
    const bay = planOf(feet.map(([x, y]) => [x * 0.3048, y * 0.3048] as const));
    const { points } = fLinePlaces(bay, 'us');
    expect(points.length).toBeGreaterThanOrEqual(12);
    expect(new Set(points.map(({ yM }) => yM.toFixed(3))).size).toBeLessThan(points.length / 11);
  });

  it('require each reading at its place: one a hand beside it leaves a gap', () => {
    const { points } = fLinePlaces(planOf(rectangle(6, 4)), 'us');
    const [first] = points;
    if (first === undefined) throw new Error('no line');
    expect(linePlacesLeft(points, [first])).toHaveLength(points.length - 1);
    expect(linePlacesLeft(points, [{ xM: first.xM + 0.08, yM: first.yM }])).toHaveLength(points.length);
  });

  it('are none where nothing was read at 12 in.', () => {
    expect(fNumbersOf([])).toBeNull();
  });
});
