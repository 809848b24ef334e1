/** Leveling without a laser, compared with a published adjustment and with loops calculated by hand. */
import { describe, expect, it } from 'vitest';
import type { LevelRun, Survey } from '../../../shared-core/book/plan-fields.ts';
import { adjust, badClosing, endOf, levelFloor, type Observation, surveyFromRuns } from '../../../shared-core/survey/level-network.ts';
import { newLevelChoice } from '../../../shared-core/book/new-records.ts';
import { SURVEY_OPTIONS } from './floors.ts';
import { surveyRoom } from '../../../shared-core/survey/survey-room.ts';
import { box } from '../pour/floors.ts';

/**
 * C. D. Ghilani, Adjustment Computations, section 12.3 (from memory): seven differences between benchmarks X (100.00 ft) and
 * Y (107.50 ft) and stations A, B and C, with the lengths of the lines in miles.
 */
const [A, B, C] = [0, 1, 2];
const LINES: readonly (readonly [terms: Observation['terms'], value: number, miles: number])[] = [
  [[[A, 1]], 100 + 5.1, 4],
  [[[A, -1]], -107.5 + 2.34, 3],
  [[[C, 1]], 107.5 - 1.25, 2],
  [[[C, -1]], -100 - 6.13, 3],
  [
    [
      [B, 1],
      [A, -1],
    ],
    -0.68,
    2,
  ],
  [[[B, 1]], 107.5 - 3, 2],
  [
    [
      [C, 1],
      [B, -1],
    ],
    1.7,
    2,
  ],
];

describe('a published leveling network', () => {
  it('has the unweighted heights of the book', () => {
    const solved = adjust(
      3,
      LINES.map(([terms, value]) => ({ terms, value, sd: 1 })),
    );
    expect(solved?.values.map((value) => Number(value.toFixed(3)))).toEqual([105.141, 104.483, 106.188]);
  });
  it('has the weighted heights of the book, the weights inverse to the lengths', () => {
    const solved = adjust(
      3,
      LINES.map(([terms, value, miles]) => ({ terms, value, sd: Math.sqrt(miles) })),
    );
    expect(solved?.values.map((value) => Number(value.toFixed(3)))).toEqual([105.15, 104.489, 106.197]);
  });
  it('is refused where an unknown is left open', () => {
    expect(
      adjust(2, [
        {
          terms: [
            [0, 1],
            [1, -1],
          ],
          value: 1,
          sd: 1,
        },
      ]),
    ).toBeNull();
  });
});

const STEP = 1.8288;
const run = (of: Partial<LevelRun> & Pick<LevelRun, 'id'>): LevelRun => ({
  tool: 'level',
  from: { xM: 0, yM: 0 },
  angleDeg: 0,
  stepM: STEP,
  valuesM: [],
  againM: null,
  ...of,
});
/** A plane that rises 1 mm/m across and 2 mm/m down. */
const plane = (xM: number, yM: number): number => 0.001 * xM + 0.002 * yM;
/** Twice across, once down, back and up: six setups of a level around a rectangle. */
const loop = (misclosure = 0): LevelRun[] => {
  const right = run({ id: 'run-1', valuesM: [0.001 * STEP, 0.001 * STEP] });
  const down = run({ id: 'run-2', from: endOf(right), angleDeg: 90, valuesM: [0.002 * STEP] });
  const backRun = run({ id: 'run-3', from: endOf(down), angleDeg: 180, valuesM: [-0.001 * STEP, -0.001 * STEP] });
  const up = run({ id: 'run-4', from: endOf(backRun), angleDeg: 270, valuesM: [-0.002 * STEP + misclosure] });
  return [right, down, backRun, up];
};

describe('a level carried around and back to its start', () => {
  it('gives the plane without closing error', () => {
    const solved = levelFloor(loop());
    if (!solved.ok) throw new Error(solved.message);
    expect(solved.floor.readings).toHaveLength(6);
    for (const { xM, yM, valueM } of solved.floor.readings) expect(valueM).toBeCloseTo(plane(xM, yM), 9);
    expect(solved.floor.closings).toHaveLength(1);
    expect(solved.floor.closings[0]?.errorM).toBeCloseTo(0, 12);
    expect(badClosing(solved.floor.closings)).toBeNull();
  });
  it('spreads a closing error evenly over its six setups, as in any textbook loop, and widens the reading error', () => {
    const error = 0.006;
    const solved = levelFloor(loop(error));
    const even = levelFloor(loop());
    if (!solved.ok || !even.ok) throw new Error('not solved');
    const heightAt = (i: number): number =>
      (solved.floor.readings[i]?.valueM ?? 0) - plane(solved.floor.readings[i]?.xM ?? 0, solved.floor.readings[i]?.yM ?? 0);
    // Equal weights: each setup takes error / 6 (Ghilani, section 12: corrections in proportion to the number of setups).
    [1, 2, 3, 4, 5].forEach((i) => expect(heightAt(i)).toBeCloseTo((-error / 6) * i, 9));
    expect(solved.floor.closings[0]).toMatchObject({ setups: 6 });
    expect(solved.floor.closings[0]?.errorM).toBeCloseTo(error, 12);
    expect(solved.floor.readingErrorM).toBeGreaterThan(even.floor.readingErrorM);
    expect(badClosing(solved.floor.closings)).toBeNull();
    const far = levelFloor(loop(0.02));
    if (!far.ok) throw new Error(far.message);
    expect(badClosing(far.floor.closings)?.errorM).toBeCloseTo(0.02, 12);
  });
});

describe('other runs', () => {
  it('a straightedge shows bumps but no slope: alone it is refused, on a level’s points it is tied', () => {
    // Gaps under a 10 ft edge with a 3 mm dip in its center.
    const edge = run({ id: 'edge-1', tool: 'straightedge', stepM: STEP, valuesM: [0, 0.003, 0] });
    expect(levelFloor([edge])).toMatchObject({ ok: false });
    const tied = levelFloor([...loop(), { ...edge, stepM: STEP }]);
    if (!tied.ok) throw new Error(tied.message);
    // The level reports no dip, the edge 3 mm: the solution is between.
    const dip = plane(STEP, 0) - (tied.floor.readings[1]?.valueM ?? 0);
    expect(dip).toBeGreaterThan(0);
    expect(dip).toBeLessThan(0.003);
  });
  it('a water level needs no slope, and its drift is its closing error', () => {
    const values = [0, 1, 2, 3].map((i) => 0.9 - plane(i, 0));
    const wet = run({ id: 'water-1', tool: 'water-level', stepM: 1, valuesM: values, againM: 0.902 });
    const across = run({
      id: 'water-2',
      tool: 'water-level',
      from: { xM: 3, yM: 0 },
      angleDeg: 90,
      stepM: 1,
      valuesM: [0.5 - plane(3, 0), 0.5 - plane(3, 1)],
    });
    const solved = levelFloor([wet, across]);
    if (!solved.ok) throw new Error(solved.message);
    expect(solved.floor.closings[0]?.errorM).toBeCloseTo(0.002, 12);
    const last = solved.floor.readings.at(-1);
    expect((last?.valueM ?? 0) - (solved.floor.readings[3]?.valueM ?? 0)).toBeCloseTo(0.002, 9);
  });
  it('a run that meets no other is named', () => {
    const apart = run({ id: 'apart', from: { xM: 9, yM: 9 }, valuesM: [0.001] });
    expect(levelFloor([...loop(), apart])).toEqual({ ok: false, message: 'Run 5 meets no other run. Start it at a point of another run.' });
  });
  it('give the same surface and volume as laser readings of the same heights', () => {
    const solved = levelFloor(loop());
    if (!solved.ok) throw new Error(solved.message);
    const plan = {
      outline: [...box(0, 0, 2 * STEP, STEP).outline],
      holes: [],
      openings: [],
      placedAt: { xM: 0, yM: 0, turnDeg: 0 },
      diagonals: [],
    };
    const survey: Survey = {
      method: 'height',
      takenAt: null,
      readings: [...solved.floor.readings],
      readingErrorM: solved.floor.readingErrorM,
    };
    const surveyed = surveyRoom(plan, survey, { ...newLevelChoice(), leastThicknessM: 0.003 }, { ...SURVEY_OPTIONS, units: 'us' });
    if (surveyed.state !== 'surveyed') throw new Error(surveyed.message);
    // A plane under a level 3 mm over its highest corner: area times (3 mm + half of the rise), by hand.
    const rise = plane(2 * STEP, STEP);
    expect(surveyed.level.fill.volumeM3).toBeCloseTo(2 * STEP * STEP * (0.003 + rise / 2), 6);
    expect(surveyed.level.range.sdM3).toBeGreaterThan(0);
  });
});

describe('a survey from runs', () => {
  const empty: Survey = { method: 'distance-down', takenAt: null, readings: [], readingErrorM: 0.0015 };
  it('has their points as heights, and none while a loop does not close', () => {
    expect(surveyFromRuns(empty, loop())).toMatchObject({ method: 'height', runs: loop() });
    expect(surveyFromRuns(empty, loop()).readings).toHaveLength(6);
    expect(surveyFromRuns(empty, loop(0.02)).readings).toEqual([]);
  });
  it('keeps a point confirmed through an edit of a run, until its height changes', () => {
    const solved = surveyFromRuns(empty, loop());
    const confirmed = { ...solved, readings: solved.readings.map((reading, i) => ({ ...reading, confirmed: i === 3 })) };
    const ofPoints = (runs: readonly LevelRun[]) => surveyFromRuns(confirmed, runs).readings.map((reading) => reading.confirmed);
    expect(ofPoints(loop())).toEqual([false, false, false, true, false, false]);
    expect(ofPoints(loop().map((one) => ({ ...one, valuesM: one.valuesM.map((value) => 3 * value) })))).not.toContain(true);
  });
  it('is for laser readings again once its last run is deleted', () => {
    const solved = surveyFromRuns({ ...empty, over: 'once-out' }, loop());
    expect(solved.readingErrorM).not.toBe(empty.readingErrorM);
    expect(surveyFromRuns(solved, [])).toStrictEqual({ ...empty, over: 'once-out' });
  });
});
