/** Heights set by hand, on the scale of the readings they were set with. The figures are worked out by hand from the heights given. */
import { describe, expect, it } from 'vitest';
import type { LevelChoice } from '../../../shared-core/book/job.ts';
import type { Opening, Survey } from '../../../shared-core/book/plan-fields.ts';
import { estimateRoom } from '../../../shared-core/price/estimate-room.ts';
import { rampHeights } from '../../../shared-core/survey/ramp.ts';
import { levelOnScale, scaleOf } from '../../../shared-core/survey/scale.ts';
import { NOW, wholeOf } from '../job-variants.ts';
import { points } from '../../outlines.ts';
import { levelChoice } from './floors.ts';

const IN_M = 0.0254;
const LATER = '2026-05-13T15:05:00.000Z';
const WHOLE = wholeOf('26-031');
const ROOM = WHOLE.rooms.find(({ id }) => id === 'sample-hall') ?? expect.fail('no room');
const JOB_ROOM = WHOLE.job.rooms.find(({ roomId }) => roomId === ROOM.id) ?? expect.fail('no room');

/** A floor of 6 by 4 m, 1/2 in. lower in the middle, read down from a laser that is this much above its highest place. */
function surveyFrom(laserM: number, takenAt: string): Survey {
  const readings = [0, 1.5, 3, 4.5, 6].flatMap((xM) =>
    [0, 2, 4].map((yM) => ({ id: `at-${xM}-${yM}`, xM, yM, valueM: laserM + (xM === 3 ? IN_M / 2 : 0), note: null, confirmed: false })),
  );
  return { method: 'distance-down', takenAt, readings, readingErrorM: 0.0015 };
}

function estimated(survey: Survey, level: LevelChoice) {
  const room = {
    ...ROOM,
    plan: { ...ROOM.plan, outline: points('0,0 6,0 6,4 0,4'), openings: [], holes: [], diagonals: [] },
    layers: [],
    survey,
  };
  const context = {
    business: WHOLE.business,
    property: WHOLE.property,
    job: WHOLE.job,
    rooms: [],
    materials: WHOLE.materials,
    day: '2026-05-12',
    resultsDay: '2026-05-12',
  };
  const estimate = estimateRoom(room, { ...JOB_ROOM, level }, { level, materialId: null }, context);
  if (estimate.survey.state !== 'surveyed') throw new Error(estimate.survey.message);
  return { volumeM3: estimate.survey.level.fill.volumeM3, asks: estimate.problems.filter(({ key }) => key === 'level:off-scale') };
}

describe('a finish elevation set by hand', () => {
  const first = surveyFrom(1.25, NOW);
  // 1 in. above the low point.
  const byHand = { ...levelChoice({ levelM: -1.25 - IN_M / 2 + IN_M, leastThicknessM: IN_M / 8 }), scale: scaleOf(first) };

  it('is used with the readings it was set on, whatever is added to them', () => {
    const { volumeM3, asks } = estimated(first, byHand);
    // 1/2 in. everywhere, and a wedge of 1/2 in. over 3 m: 24 m² × 1/2 in. + 4 × 3 / 2 × 1/2 in.
    expect(volumeM3).toBeCloseTo((24 + 6) * (IN_M / 2), 9);
    expect(asks).toEqual([]);
    const more = { ...first, readings: [...first.readings, { id: 'extra', xM: 0.5, yM: 0.5, valueM: 1.26, note: null, confirmed: false }] };
    expect(levelOnScale(byHand, more).level.levelM).toBe(byHand.levelM);
  });

  it('is asked for again, and not used, with the laser set up again', () => {
    const lowest = estimated(first, levelChoice({ leastThicknessM: IN_M / 8 })).volumeM3;
    for (const higherM of [IN_M / 2, 10 * IN_M, -IN_M]) {
      const { volumeM3, asks } = estimated(surveyFrom(1.25 + higherM, LATER), byHand);
      expect(volumeM3).toBeCloseTo(lowest, 9);
      expect(asks).toMatchObject([{ stops: true, message: expect.stringContaining('Enter it again') }]);
    }
    expect(estimated(surveyFrom(1.25, LATER), levelChoice()).asks).toEqual([]);
  });

  it('is used as it is where an older record names no scale', () => {
    const { scale: _, ...older } = byHand;
    const { volumeM3, asks } = estimated(first, older);
    expect(volumeM3).toBeCloseTo((24 + 6) * (IN_M / 2), 9);
    expect(asks).toEqual([]);
    // A height entered now names the scale it is on.
    expect(levelOnScale(older, first).level.scale).toBe(scaleOf(first));
  });

  it('is asked for again with another reading type, and holds again with the first one', () => {
    const up = { ...first, method: 'height' as const };
    expect(levelOnScale(byHand, up)).toMatchObject({ isOffScale: true, level: { levelM: null, scale: scaleOf(up) } });
    expect(levelOnScale(byHand, first)).toMatchObject({ isOffScale: false, level: { levelM: byHand.levelM } });
  });

  it('as a ramp, keeps the doorways it meets, and loses heights that were entered', () => {
    const ramp = { ...byHand, mode: 'ramp' as const };
    const met = [{ openingId: 'hall' }, { openingId: 'kitchen' }];
    const second = surveyFrom(2, LATER);
    expect(levelOnScale({ ...ramp, rampThrough: met }, second)).toMatchObject({ isOffScale: false, level: { rampThrough: met } });
    const mixed = [{ openingId: 'hall' }, { point: { xM: 6, yM: 2 }, heightM: -1.24 }];
    expect(levelOnScale({ ...ramp, rampThrough: mixed }, second)).toMatchObject({ isOffScale: true, level: { rampThrough: [] } });
    // Clearing makes a level the lowest one, and no ramp.
    const { asks } = estimated(second, { ...ramp, rampThrough: mixed });
    expect(asks).toMatchObject([
      { stops: true, message: expect.stringMatching(/the ramp set by hand no longer fits them\. Set it again\.$/) },
    ]);
  });
});

describe('a ramp to the doorways', () => {
  const door = (id: string, kind: Opening['kind'], wall: number, adjoiningM: number | null): Opening => ({
    ...{ id, kind, name: id, wall, fromM: 1.5, widthM: 1, adjoiningM, adjoiningFlooring: '', edge: 'dam', isWayOut: false },
  });
  const heightsOf = (openings: Opening[], thicknessM: number | null) =>
    rampHeights([{ openingId: 'hall' }, { openingId: 'kitchen' }], { outline: points('0,0 6,0 6,4 0,4'), openings }, thicknessM);
  const hall = door('hall', 'doorway', 3, 0.02);

  it('ends below the floors beyond by the thickness of the new flooring', () => {
    expect(heightsOf([hall, door('kitchen', 'doorway', 1, 0.03)], 0.012)).toEqual({
      ok: true,
      heights: [
        { point: { xM: 0, yM: 2 }, heightM: expect.closeTo(0.008, 12) },
        { point: { xM: 6, yM: 2 }, heightM: expect.closeTo(0.018, 12) },
      ],
    });
  });

  it.each<[string, Opening[], number | null, RegExp]>([
    ['the thickness of the flooring', [hall, door('kitchen', 'doorway', 1, 0.03)], null, /^Enter the thickness of the new flooring/],
    ['the floor beyond', [hall, door('kitchen', 'doorway', 1, null)], 0.012, /^Measure the finished floor beyond the kitchen/],
    [
      'another ramp, where a doorway became an exterior door',
      [hall, door('kitchen', 'exterior-door', 1, 0.03)],
      0.012,
      /Set the ramp again/,
    ],
    ['another ramp, where a doorway is gone', [hall], 0.012, /Set the ramp again/],
  ])('asks for %s', (_, openings, thicknessM, message) => {
    expect(heightsOf(openings, thicknessM)).toEqual({ ok: false, message: expect.stringMatching(message) });
  });
});
