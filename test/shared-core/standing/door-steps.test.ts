import { describe, expect, it } from 'vitest';
import type { LevelChoice } from '../../../shared-core/book/job.ts';
import type { Opening } from '../../../shared-core/book/plan-fields.ts';
import { readJob } from '../../../shared-core/standing/read-job.ts';
import { scaleOf } from '../../../shared-core/survey/scale.ts';
import { NOW, wholeOf } from '../job-variants.ts';
import { points } from '../../outlines.ts';

const IN_M = 0.0254;
const door = (id: string, kind: Opening['kind'], wall: number, adjoiningM: number): Opening => ({
  ...{ id, kind, name: '', wall, fromM: 1.5, widthM: 1, adjoiningM, adjoiningFlooring: '', edge: 'dam', isWayOut: false },
});
const WHOLE = wholeOf('26-031');

/** The findings on doors over a floor of 6 by 4 m that is dead level at 0, except where `heightAtM` says otherwise. */
function doorFindings(
  openings: Opening[],
  level: Partial<LevelChoice>,
  flooringThicknessM: number | null = null,
  heightAtM = (_xM: number): number => 0,
): readonly [string, string][] {
  const roomId = WHOLE.job.rooms[0]?.roomId;
  const readings = [0, 1.5, 3, 4.5, 6].flatMap((xM) =>
    [0, 2, 4].map((yM) => ({ id: `at-${xM}-${yM}`, xM, yM, valueM: heightAtM(xM), note: null, confirmed: false })),
  );
  const outline = points('0,0 6,0 6,4 0,4');
  const survey = { method: 'height' as const, takenAt: NOW, readings, readingErrorM: 0.0015 };
  const rooms = WHOLE.rooms
    .filter(({ id }) => id === roomId)
    .map((room) => ({
      ...room,
      plan: { ...room.plan, outline, openings, holes: [], diagonals: [] },
      survey,
    }));
  const jobRooms = WHOLE.job.rooms.filter((one) => one.roomId === roomId);
  const whole = {
    ...WHOLE,
    rooms,
    pours: [],
    pourEvents: [],
    job: {
      ...WHOLE.job,
      rooms: jobRooms.map((one) => ({
        ...one,
        flooringThicknessM,
        level: { ...one.level, grindMostM: 0, leastThicknessM: 0.003, scale: scaleOf(survey), ...level },
      })),
    },
  };
  const findings = readJob(whole, NOW).rooms[0]?.assessment.findings ?? [];
  return findings
    .filter(({ ruleId }) => ['outside-door-low', 'threshold-step'].includes(ruleId))
    .map(({ ruleId, text }) => [ruleId, text.slice(0, text.indexOf('.'))]);
}

// The expected steps are worked out by hand from the heights given.
describe('the step at a door', () => {
  const hall = door('hall', 'doorway', 3, 0.5 * IN_M);
  const kitchen = door('kitchen', 'doorway', 1, 1.5 * IN_M);

  it('is none where a ramp runs from threshold to threshold', () => {
    const rampThrough = [
      { point: { xM: 0, yM: 2 }, heightM: 0.5 * IN_M },
      { point: { xM: 6, yM: 2 }, heightM: 1.5 * IN_M },
    ];
    expect(doorFindings([hall, kitchen], { mode: 'ramp', rampThrough })).toEqual([]);
  });

  // A threshold is a finished floor: the pour ends the thickness of the new flooring below it.
  it('is none where a ramp meets the thresholds, with flooring of any thickness', () => {
    const level = { mode: 'ramp' as const, rampThrough: [{ openingId: 'hall' }, { openingId: 'kitchen' }] };
    for (const thicknessM of [0, 0.375 * IN_M, 0.75 * IN_M]) expect(doorFindings([hall, kitchen], level, thicknessM)).toEqual([]);
  });

  it('holds the pour where the ramp rises above a sill', () => {
    const rampThrough = [
      { point: { xM: 0, yM: 2 }, heightM: 0.5 * IN_M },
      { point: { xM: 6, yM: 2 }, heightM: 1.5 * IN_M },
    ];
    expect(doorFindings([door('porch', 'exterior-door', 1, IN_M)], { mode: 'ramp', rampThrough })).toEqual([
      ['outside-door-low', 'The new floor would be ½″ above the sill'],
    ]);
  });

  it('includes the new flooring', () => {
    const level = { mode: 'level' as const, levelM: 0.5 * IN_M };
    expect(doorFindings([hall], level)).toEqual([]);
    expect(doorFindings([hall], level, 0.75 * IN_M)).toEqual([
      ['threshold-step', 'The step to the adjoining floor is ¾″, too high for a transition'],
    ]);
    const raised = door('hall', 'doorway', 3, 1.25 * IN_M);
    expect(doorFindings([raised], level, 0.75 * IN_M)).toEqual([]);
    const sill = door('porch', 'exterior-door', 1, 0.5 * IN_M);
    expect(doorFindings([sill], level)).toEqual([]);
    expect(doorFindings([sill], level, 0.75 * IN_M)[0]?.[0]).toBe('outside-door-low');
  });

  it('is at the door itself where the pour follows the floor', () => {
    const rise = (xM: number): number => (xM / 6) * IN_M;
    const level = { mode: 'follow' as const, followThicknessM: 0.25 * IN_M, textureM: 0 };
    expect(doorFindings([door('porch', 'exterior-door', 1, IN_M)], level, null, rise)[0]?.[0]).toBe('outside-door-low');
    expect(doorFindings([door('porch', 'exterior-door', 3, 0.25 * IN_M)], level, null, rise)).toEqual([]);
  });
});
