/** A change of a survey, and the floors beyond the doorways that were measured with it. */
import { describe, expect, it } from 'vitest';
import { newRoom } from '../../../shared-core/book/new-records.ts';
import type { LevelRun, Opening, Reading, Survey } from '../../../shared-core/book/plan-fields.ts';
import type { Room } from '../../../shared-core/book/room.ts';
import { surveyFromRuns } from '../../../shared-core/survey/level-network.ts';
import { emptySurvey, withSurvey, withTiedSetups } from '../../../renderer/book/plan-commands.ts';
import type { Update } from '../../../renderer/book/write.ts';
import { xyz } from '../../outlines.ts';

const FIRST = '2026-05-12T15:05:00.000Z';
const LATER = '2026-05-13T15:05:00.000Z';
const doorway: Opening = {
  ...{ id: 'doorway-01', kind: 'doorway', name: 'kitchen', wall: 0, fromM: 1, widthM: 0.8, adjoiningM: -1.25, adjoiningFlooring: 'oak' },
  ...{ edge: 'dam', isWayOut: false },
};
const readings = (set: string, byM = 0): Reading[] =>
  xyz('0,0,1.27 4,0,1.28 4,3,1.26 0,3,1.27').map(([xM, yM, valueM], i) => ({
    id: `${set}-${i}`,
    xM,
    yM,
    valueM: valueM + byM,
    note: null,
    confirmed: false,
  }));
const blank = newRoom({ id: 'room-01', now: FIRST }, 'property-01', 'Hall');
const room: Room = { ...blank, plan: { ...blank.plan, openings: [doorway] } };
const change = (now: Room, update: Update<Survey>, at = FIRST): Room => withSurvey('before', update, at)(now);
const beyond = (now: Room): number | null | undefined => now.plan.openings[0]?.adjoiningM;
const read = change(room, { readings: readings('first') });

describe('a survey started again', () => {
  it('has no runs, whose next edit would bring the old points back, and keeps its settings', () => {
    const before = surveyFromRuns({ ...blank.survey, takenAt: FIRST, over: 'as-found' }, [run(0)]);
    expect(before.readings.length).toBeGreaterThan(0);
    expect(emptySurvey(before)).toMatchObject({ takenAt: null, readings: [], over: 'as-found', method: 'distance-down' });
    expect(emptySurvey(before).runs).toBeUndefined();
  });
});

describe('the floors beyond the doorways, measured with the readings', () => {
  it('stay while readings of the same setup are added, corrected and deleted, and were measured before the first', () => {
    expect(beyond(read)).toBe(-1.25);
    expect(read.survey.takenAt).toBe(FIRST);
    const [one, ...others] = read.survey.readings;
    const corrected = change(read, { readings: [{ ...(one as Reading), valueM: 1.3 }, ...others.slice(1), ...readings('more')] }, LATER);
    expect(beyond(corrected)).toBe(-1.25);
    expect(corrected.survey.takenAt).toBe(FIRST);
  });

  it('keep their numbers when the reading type is changed, as the readings do, and have them back', () => {
    const up = change(read, { method: 'height' });
    expect(beyond(up)).toBe(1.25);
    expect(beyond(change(up, { method: 'distance-down' }))).toBe(-1.25);
    expect(beyond(change(room, { method: 'height' }))).toBe(1.25);
  });

  it.each<[string, Room]>([
    ['all readings are deleted', change(read, { readings: [] })],
    ['all readings are replaced', change(read, { readings: readings('second', 0.0127) }, LATER)],
    ['elevations are imported before any reading', change(room, { method: 'height', readings: readings('file') })],
    ['runs are entered without a laser', change(room, (now) => surveyFromRuns(now, [run(0)]))],
  ])('have to be measured again when %s', (_, after) => {
    expect(beyond(after)).toBeNull();
  });

  it('hold for runs while these begin at the same point', () => {
    const measured = (now: Room): Room => ({ ...now, plan: { ...now.plan, openings: [{ ...doorway, adjoiningM: 0.01 }] } });
    const level = measured(change(room, (now) => surveyFromRuns(now, [run(0)])));
    expect(beyond(change(level, (now) => surveyFromRuns(now, [run(0), run(0, 90)])))).toBe(0.01);
    expect(beyond(change(level, (now) => surveyFromRuns(now, [run(1)])))).toBeNull();
  });
});

// One spot read as 1.2700 m before and 1.2573 m after the laser was set 1/2 in. lower: what was read after is 1/2 in. more.
it('two setups of the laser are tied for readings and floors beyond alike, up or down', () => {
  const tied = { readingIds: ['first-2', 'first-3'], openingIds: ['doorway-01'], shiftM: 0.0127 };
  const down = withTiedSetups('before', tied, LATER)(read);
  expect(down.survey.readings.map(({ valueM }) => valueM)).toEqual([1.27, 1.28, 1.26 + 0.0127, 1.27 + 0.0127]);
  expect(beyond(down)).toBeCloseTo(-1.25 - 0.0127, 12);
  const up = withTiedSetups('before', tied, LATER)(change(read, { method: 'height' }));
  expect(beyond(up)).toBeCloseTo(1.25 + 0.0127, 12);
  expect(beyond(withTiedSetups('before', { ...tied, openingIds: [] }, LATER)(read))).toBe(-1.25);
});

function run(fromM: number, angleDeg = 0): LevelRun {
  return {
    id: `run-${fromM}-${angleDeg}`,
    tool: 'water-level',
    from: { xM: fromM, yM: 0 },
    angleDeg,
    stepM: 1,
    valuesM: [0.5, 0.51, 0.5],
    againM: null,
  };
}
