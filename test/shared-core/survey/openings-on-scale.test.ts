/** The floors beyond the openings are measured from the readings' own zero, so that a change of the readings may leave them without one. */
import { describe, expect, it } from 'vitest';
import type { Survey } from '../../../shared-core/book/plan-fields.ts';
import { openingsCleared, openingsOnScale } from '../../../shared-core/survey/scale.ts';
import { opening } from '../plan/rooms.ts';

const reading = (id: string, valueM: number) => ({ id, xM: 0, yM: 0, valueM, note: null, confirmed: false });
const survey = (change: Partial<Survey> = {}): Survey => ({
  ...{ method: 'distance-down', takenAt: '2026-05-12T15:00:00.000Z', readingErrorM: 0.0015 },
  readings: [reading('a', 1.2), reading('b', 1.21)],
  ...change,
});
const openings = [
  opening({ id: 'door', adjoiningM: -1.19 }),
  opening({ id: 'porch', adjoiningM: null }),
  opening({ id: 'level', adjoiningM: 0.5 }),
];
const heights = (before: Survey, after: Survey) => openingsOnScale(openings, before, after).map(({ adjoiningM }) => adjoiningM);
const later = { takenAt: '2026-05-13T15:00:00.000Z' };

describe('the floors beyond the openings', () => {
  it('stay while the readings are of one setup', () => {
    expect(heights(survey(), survey({ readings: [reading('a', 1.2)] }))).toEqual([-1.19, null, 0.5]);
  });

  it('turn over where the same readings are read the other way up, and have to be measured again where one is another', () => {
    const up = survey({ method: 'height' });
    expect(heights(survey(), up)).toEqual([1.19, null, -0.5]);
    for (const readings of [[reading('a', 1.2), reading('c', 1.21)], [reading('c', 1.2), reading('b', 1.21)], [reading('a', 1.2)]])
      expect(heights(survey(), { ...up, readings })).toEqual([null, null, null]);
    expect(heights(survey(), { ...up, ...later })).toEqual([null, null, null]);
  });

  it('have to be measured again after another setup, and the openings that lost one are named', () => {
    const after = openingsOnScale(openings, survey(), survey(later));
    expect(after.map(({ adjoiningM }) => adjoiningM)).toEqual([null, null, null]);
    expect(openingsCleared(openings, after).map(({ id }) => id)).toEqual(['door', 'level']);
    expect(openingsCleared(openings, after.slice(0, 2)).map(({ id }) => id)).toEqual(['door']);
    expect(openingsCleared(openings, openings)).toEqual([]);
  });
});
