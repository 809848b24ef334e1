/** Two setups of one laser, tied by one spot that was read from both: common practice of leveling, no source. */
import { describe, expect, it } from 'vitest';
import type { Survey } from '../../../shared-core/book/plan-fields.ts';
import { INCH_M } from '../../../shared-core/measure/length-units.ts';
import { openingsBySetup } from '../../../shared-core/survey/moved-laser.ts';
import { readFloor } from '../../../shared-core/survey/read-floor.ts';
import { changedReading } from '../../../shared-core/survey/reading-entry.ts';
import { opening } from '../plan/rooms.ts';
import { gridReadings, numbers, planOf, rectangle, surveyOf } from './floors.ts';

const ROOM = planOf(rectangle(6, 4));
const askedOf = (survey: Survey) => {
  const read = readFloor(ROOM, survey, 'us');
  if (!read.ok) throw new Error(read.message);
  return read.floor.problems.filter(({ kind }) => kind === 'moved');
};
/** An even floor with the scatter of a rod; the readings past a line are off by the laser's move. */
const moved = (byM: number, isPast: (x: number, y: number) => boolean, seed = 3): Survey => {
  const next = numbers(seed);
  const scatterM = (): number => 0.001 * (next() + next() + next() - 1.5);
  return surveyOf(
    gridReadings(6, 4, 9, 6, (x, y) => 1.2 + 0.002 * x - 0.001 * y + scatterM() + (isPast(x, y) ? byM : 0)),
    'distance-down',
  );
};

describe('a laser that was moved', () => {
  it('is asked about where a straight step of one height divides the readings, across, down, or aslant', () => {
    for (const isPast of [(x: number) => x > 3, (_: number, y: number) => y > 2.4, (x: number, y: number) => x + y > 5]) {
      for (const inches of [0.25, 0.5, -0.5, 10]) {
        const asked = askedOf(moved(inches * INCH_M, isPast));
        expect(asked).toHaveLength(1);
        expect(asked[0]?.message).toContain('Was the laser moved?');
      }
    }
  });

  it('is tied by the shift of one spot read from both setups, or is said not to have moved', () => {
    const byM = 0.5 * INCH_M;
    const survey = moved(byM, (_, y) => y > 2.4);
    const [asked] = askedOf(survey);
    const later = asked?.laterIds ?? [];
    expect(later).toEqual(survey.readings.filter(({ yM }) => yM > 2.4).map(({ id }) => id));
    const tied = survey.readings.map((r) => (later.includes(r.id) ? changedReading(r, { valueM: r.valueM - byM }) : r));
    expect(askedOf({ ...survey, readings: tied })).toEqual([]);
    const confirmed = survey.readings.map((r) => (asked?.readingIds.includes(r.id) === true ? { ...r, confirmed: true } : r));
    expect(askedOf({ ...survey, readings: confirmed })).toEqual([]);
  });

  it('takes a floor beyond a doorway to be of the later setup where the nearest reading is', () => {
    const survey = moved(0.5 * INCH_M, (_, y) => y > 2.4);
    const later = askedOf(survey)[0]?.laterIds ?? [];
    // Walls 1 and 3 of the rectangle are at y = 0 and y = 4.
    const openings = [
      opening({ id: 'near', wall: 0, adjoiningM: -1.2 }),
      opening({ id: 'far', wall: 2, adjoiningM: -1.2 }),
      opening({ id: 'unmeasured', wall: 2, adjoiningM: null }),
    ];
    expect(openingsBySetup({ ...ROOM, openings }, survey.readings, later).map(({ opening: { id }, isLater }) => [id, isLater])).toEqual([
      ['near', false],
      ['far', true],
    ]);
  });

  it('is not asked about on an even floor, a slope, a crown, a dip, waves, or a rough floor', () => {
    const next = numbers(8);
    const floors: readonly ((x: number, y: number) => number)[] = [
      () => 0,
      (x, y) => 0.02 * x - 0.01 * y,
      (x) => 0.004 * Math.abs(x - 3),
      (x, y) => -0.02 * Math.exp(-((x - 2) ** 2 + (y - 2) ** 2)),
      (x) => 0.006 * Math.sin((2 * Math.PI * x) / 6),
      (x) => 0.006 * Math.sin((Math.PI * (x - 3)) / 6),
      (x, y) => 0.004 * Math.sin(1.3 * x) * Math.cos(0.9 * y),
      () => 0.012 * next(),
    ];
    for (const height of floors)
      for (const [columns, rows] of [
        [4, 3],
        [9, 6],
      ] as const)
        expect(askedOf(surveyOf(gridReadings(6, 4, columns, rows, (x, y) => height(x, y) + 0.001 * (next() - 0.5))))).toEqual([]);
  });
});
