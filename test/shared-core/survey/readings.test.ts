import { describe, expect, it } from 'vitest';
import type { Reading, Survey } from '../../../shared-core/book/plan-fields.ts';
import type { ReadingProblem } from '../../../shared-core/survey/reading-problems.ts';
import { neighborsOf } from '../../../shared-core/survey/leave-one-out.ts';
import { changedReading } from '../../../shared-core/survey/reading-entry.ts';
import { leveledDepartures } from '../../../shared-core/survey/reading-problems.ts';
import { readFloor } from '../../../shared-core/survey/read-floor.ts';
import { likelySlip } from '../../../shared-core/survey/slip.ts';
import { keepSurveyed, surveyRoom } from '../../../shared-core/survey/survey-room.ts';
import { LEFT_OUT_TO_BETWEEN } from '../../../shared-core/survey/worth-reading.ts';
import { gridReadings, levelChoice, numbers, planOf, rectangle, surveyOf, SURVEY_OPTIONS } from './floors.ts';
import { xy, xyz } from '../../outlines.ts';

const ROOM = planOf(rectangle(6, 4));

const wavy = (x: number, y: number): number => 1.25 + 0.003 * Math.sin(x) * Math.cos(y);
const grid = (): [number, number, number][] => gridReadings(6, 4, 6, 4, wavy);

function problemsOf(survey: Survey, units: 'us' | 'metric' = 'metric'): readonly ReadingProblem[] {
  const read = readFloor(ROOM, survey, units);
  return read.ok ? read.floor.problems : read.problems;
}

describe('invalid or doubtful readings', () => {
  it('one, two, or all on a line: a sentence, no surface, never NaN', () => {
    for (const [points, kind] of [
      [[], 'too-few'],
      [[[1, 1, 0]], 'too-few'],
      [
        [
          [1, 1, 0],
          [2, 1, 0.01],
        ],
        'too-few',
      ],
      [xyz('1,1,0 2,2,0.01 3,3,0.02 3.5,3.5,0'), 'in-line'],
    ] as const) {
      const answer = surveyRoom(ROOM, surveyOf(points), levelChoice(), SURVEY_OPTIONS);
      expect(answer.state).toBe('waiting');
      expect(answer.problems.map((problem) => [problem.kind, problem.weight])).toEqual([[kind, 'blocks']]);
      if (answer.state === 'waiting') expect(answer.message).toMatch(/Take (at least three|some)/);
    }
  });

  it('outside the walls or in a column: excluded, kept, and reported at the place', () => {
    const plan = planOf(rectangle(6, 4), [xy('2,1.4 2.6,1.4 2.6,1.9 2,1.9')]);
    const survey = surveyOf([...grid(), [9, 1, 1.25], [2.3, 1.6, 1.4]]);
    const read = readFloor(plan, survey, 'metric');
    if (!read.ok) throw new Error(read.message);
    expect(read.floor.problems.map((p) => [p.kind, p.readingIds[0], p.point?.xM])).toEqual([
      ['outside', 'read35', 9],
      ['in-cutout', 'read36', 2.3],
    ]);
    expect(read.floor.problems[0]?.message).toMatch(/3\.00 m outside/);
    expect(read.floor.highestM).toBeLessThan(1.26);
    expect(survey.readings.length).toBe(37);
  });

  it('not a number: left out with its id', () => {
    const survey = surveyOf([...grid(), [1.3, 1.2, Number.NaN], [Number.NaN, 1, 1.25]]);
    expect(problemsOf(survey).map((p) => [p.kind, p.point === null])).toEqual([
      ['not-a-number', false],
      ['not-a-number', true],
    ]);
  });

  it('two heights at one place: reported with the difference; two that agree are one reading taken twice', () => {
    const height = wavy(2, 2);
    const apart = problemsOf(surveyOf([...grid(), [2, 2.004, height + 0.03]])).filter((p) => p.kind === 'two-heights');
    expect(apart[0]?.readingIds).toEqual(['read16', 'read35']);
    expect(apart[0]?.message).toMatch(/30 mm apart/);
    expect(problemsOf(surveyOf([...grid(), [2, 2.004, height + 0.001]]))).toEqual([]);
    const three = problemsOf(surveyOf([...grid(), [2, 2.004, height + 0.03], [2, 1.997, height + 0.01]]));
    expect(three.filter((p) => p.kind === 'two-heights').map(({ message }) => message)).toEqual([
      '3 readings at this point are up to 30 mm apart. Read it again and keep one. The average is used until then.',
    ]);
  });

  it('a point read again a hand’s width off is one spot, and no step for the flatness', () => {
    const even = gridReadings(6, 4, 6, 4, () => 1.25);
    for (const offM of [0.0127, 0.0254, 0.0508]) {
      const read = readFloor(ROOM, surveyOf([...even, [2 + offM, 2, 1.25 + 0.25 * 0.0254]]), 'us');
      if (!read.ok) throw new Error(read.message);
      expect(read.floor.spots).toHaveLength(even.length);
      // The mean is 1/8 in. high: no more than that under a straightedge.
      expect(read.floor.highestM - read.floor.lowestM).toBeCloseTo(0.125 * 0.0254, 9);
    }
  });

  it('a row or grid finer than a hand’s width keeps every reading, and its floor comes out no flatter; repeats beside it still merge', () => {
    const bump = (x: number, y: number): number => (Math.hypot(x - 3, y - 2) < 0.01 ? 0.004 : 0);
    const room = planOf(rectangle(6, 4));
    for (const stepM of [0.05, 0.08]) {
      const row = Array.from({ length: 21 }, (_, i): [number, number, number] => {
        const x = 3 + (i - 10) * stepM;
        return [x, 2, bump(x, 2)];
      });
      const coarse = gridReadings(6, 4, 4, 3, () => 0).filter(([, y]) => Math.abs(y - 2) > 0.1);
      const read = readFloor(room, surveyOf([...coarse, ...row, [0.03, 0, 0], [3.004, 2, 0.004]]), 'us');
      if (!read.ok) throw new Error(read.message);
      expect(read.floor.spots).toHaveLength(coarse.length + row.length);
      expect(read.floor.highestM - read.floor.lowestM).toBeCloseTo(0.004, 9);
    }
    // A hand's width up and down from one point is a row too.
    const read = readFloor(
      room,
      surveyOf([...gridReadings(6, 4, 4, 3, () => 0), [3.2, 1, 0], [3.201, 1.08, 0.004], [3.201, 0.92, 0]]),
      'us',
    );
    expect(read.ok && read.floor.highestM).toBeCloseTo(0.004, 9);
  });

  it('a shifted decimal: only that reading is questioned, with the value that would fit', () => {
    const points = grid();
    const slipped = points[17];
    if (!slipped) throw new Error('no reading');
    points[17] = [slipped[0], slipped[1], slipped[2] / 10];
    const found = problemsOf(surveyOf(points, 'distance-down'));
    expect(found.map((p) => [p.kind, p.weight, p.readingIds])).toEqual([['departs', 'query', ['read17']]]);
    expect(found[0]?.message).toMatch(/Possible typo: the decimal point slipped one place\. .+ would fit\. Read it again/);
    expect(found[0]?.meantM).toBeCloseTo(slipped[2], 9);
  });

  it('an error of a whole meter accuses no reading at the edge of the room, wherever it was made', () => {
    const places = Array.from({ length: 20 }, (_, k): [number, number] => [0.1 + (k % 5) * 0.95, 0.1 + Math.floor(k / 5) * 0.93]);
    for (let slipped = 0; slipped < places.length; slipped += 1) {
      const points = places.map(([x, y], k): [number, number, number] => {
        const down = 1.02 + ((k + Math.floor(k / 5)) % 3) * 0.001;
        return [x, y, k === slipped ? down / 10 : down];
      });
      const room = planOf(xy('0,0 4,0 4,3 0,3'));
      const read = readFloor(room, { ...surveyOf(points), method: 'distance-down' }, 'metric');
      const ids = read.ok ? read.floor.problems.map((p) => p.readingIds.join()) : [];
      expect(ids).toEqual([surveyOf(points).readings[slipped]?.id]);
    }
  });

  it('a confirmed reading is not asked about until its value or its place changes; a note confirms nothing', () => {
    const survey = surveyOf(grid().map(([x, y, z], i) => (i === 17 ? [x, y, z + 0.05] : [x, y, z])));
    const withChange = (change: Partial<Omit<Reading, 'id'>>, of = survey): Survey => ({
      ...of,
      readings: of.readings.map((r, i) => (i === 17 ? changedReading(r, change) : r)),
    });
    const asked = (of: Survey) => problemsOf(of).flatMap((problem) => problem.readingIds);
    expect(asked(survey)).toEqual(['read17']);
    expect(asked(withChange({ note: 'by window' }))).toEqual(['read17']);
    const confirmed = withChange({ confirmed: true });
    expect(asked(confirmed)).toEqual([]);
    expect(asked(withChange({ note: 'old patch', valueM: confirmed.readings[17]?.valueM ?? 0 }, confirmed))).toEqual([]);
    expect(asked(withChange({ valueM: 1.35 }, confirmed))).toEqual(['read17']);
    expect(asked(withChange({ xM: 3.01 }, confirmed))).toEqual(['read17']);
  });

  it('a steep but even floor and a rough one are not accused', () => {
    expect(problemsOf(surveyOf(gridReadings(6, 4, 6, 4, (x, y) => 0.02 * x - 0.01 * y)))).toEqual([]);
    const next = numbers(4);
    expect(problemsOf(surveyOf(gridReadings(6, 4, 8, 6, () => 0.02 * next())))).toEqual([]);
  });

  it('an unsound plan is refused with the plan’s own sentence', () => {
    const crossed = planOf(xy('0,0 4,4 4,0 0,4'));
    expect(surveyRoom(crossed, surveyOf(grid()), levelChoice(), SURVEY_OPTIONS).state).toBe('waiting');
  });

  it('typos are told apart: units, sign, swapped digits, a misread decimeter', () => {
    expect(likelySlip(0.04925, 1.251, 0.004, 'us')?.what).toMatch(/inches were typed as millimeters/);
    expect(likelySlip(-1.25, 1.251, 0.004, 'metric')?.what).toMatch(/sign/);
    expect(likelySlip(1.524, 1.254, 0.004, 'metric')?.what).toMatch(/digits changed places/);
    expect(likelySlip(1.353, 1.252, 0.004, 'metric')?.what).toMatch(/decimeter/);
    expect(likelySlip(1.31, 1.25, 0.004, 'metric')).toBeNull();
  });
});

describe('distances down from the laser', () => {
  it('give the same floor as heights, upside up', () => {
    const down = readFloor(
      ROOM,
      surveyOf(
        grid().map(([x, y, z]) => [x, y, 2.5 - z]),
        'distance-down',
      ),
      'metric',
    );
    const up = readFloor(ROOM, surveyOf(grid()), 'metric');
    if (!down.ok || !up.ok) throw new Error('no floor');
    expect(down.floor.highestM - down.floor.lowestM).toBeCloseTo(up.floor.highestM - up.floor.lowestM, 12);
    expect(down.floor.lowestAt).toEqual(up.floor.lowestAt);
  });
});

describe('the range of a volume', () => {
  it('includes the scatter of readings that a thousand repeated surveys show', () => {
    const truth = gridReadings(6, 4, 6, 4, (x) => 0.001 * x);
    const read = readFloor(ROOM, surveyOf(truth), 'metric');
    if (!read.ok) throw new Error(read.message);
    const { floor } = read;
    // Independent of the weights: the volume of readings with scatter, over the triangles of the survey.
    const next = numbers(99);
    const normal = (): number => Math.sqrt(-2 * Math.log(1 - next())) * Math.cos(2 * Math.PI * next());
    const volumes = Array.from({ length: 1000 }, () => {
      const noisy = truth.map(([x, y, z]) => [x, y, z + 0.0015 * normal()] as const);
      let volume = 0;
      for (let t = 0; t < floor.surface.triangleCount; t += 1) {
        const ids = [0, 1, 2].map((c) => floor.surface.triangles[3 * t + c] ?? 0);
        const [a, b, c] = ids.map((i) => noisy[i] ?? ([0, 0, 0] as const));
        if (!a || !b || !c) continue;
        const area = Math.abs((b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0])) / 2;
        volume += area * (0.03 - (a[2] + b[2] + c[2]) / 3);
      }
      return volume;
    });
    const mean = volumes.reduce((a, b) => a + b, 0) / volumes.length;
    const deviation = Math.sqrt(volumes.reduce((a, b) => a + (b - mean) ** 2, 0) / (volumes.length - 1));
    const scatterM3 = floor.error.readingSdM * floor.areaM2;
    expect(scatterM3 / deviation).toBeGreaterThan(0.93);
    expect(scatterM3 / deviation).toBeLessThan(1.07);
  });

  it('a reading left out of a bowl is missed by three times what the triangles miss between readings', () => {
    const bowl = (x: number, y: number): number => 0.002 * (x * x + y * y);
    const read = readFloor(planOf(rectangle(8, 8)), surveyOf(gridReadings(8, 8, 8, 8, bowl)), 'metric');
    if (!read.ok) throw new Error(read.message);
    const { surface, areaM2 } = read.floor;
    const { departures } = leveledDepartures(surface, neighborsOf(surface));
    const inner = [...departures.departureM].filter((_, i) => !departures.beyond[i] && i % 9 > 0 && i % 9 < 8 && i > 8 && i < 72);
    for (const departure of inner) expect(departure).toBeCloseTo(-0.002, 9);
    // ∫ of the bowl over 8 by 8 is 0.002 · 2 · 8 · 512 / 3.
    const miss = read.floor.meanM - (0.002 * 2 * 8 * 512) / 3 / areaM2;
    expect(miss).toBeCloseTo(LEFT_OUT_TO_BETWEEN * 0.002, 9);
  });

  it('widens on a rougher floor and with fewer readings', () => {
    const range = (size: number, columns: number, rows: number) => {
      const next = numbers(6);
      const readings = gridReadings(6, 4, columns, rows, () => size * next());
      const answer = surveyRoom(ROOM, surveyOf(readings), levelChoice({ levelM: 0.05 }), SURVEY_OPTIONS);
      if (answer.state !== 'surveyed') throw new Error(answer.message);
      return answer.level.range;
    };
    expect(range(0.03, 6, 4).sdM3).toBeGreaterThan(1.5 * range(0.008, 6, 4).sdM3);
    // Four readings and twenty.
    expect(range(0.008, 1, 1).sdM3).toBeGreaterThan(1.5 * range(0.008, 4, 3).sdM3);
  });

  it('is of the plane at its finish elevation; the highest place is separate, where the plane depends on it', () => {
    const fixed = surveyRoom(ROOM, surveyOf(grid()), levelChoice({ levelM: 1.3 }), SURVEY_OPTIONS);
    const hung = surveyRoom(ROOM, surveyOf(grid()), levelChoice(), SURVEY_OPTIONS);
    if (fixed.state !== 'surveyed' || hung.state !== 'surveyed') throw new Error('no floor');
    expect(hung.level.range.sdM3).toBeCloseTo(fixed.level.range.sdM3, 9);
    expect(fixed.level.range.highestM).toBeNull();
    const { highestM } = hung.level.range;
    expect(highestM !== null && highestM.least < highestM.likely && highestM.likely < highestM.most).toBe(true);
    const { least, likely, most } = hung.level.range.rangeM3;
    expect(least < likely && likely < most && least >= 0).toBe(true);
  });

  it('suggests the next readings where few were taken', () => {
    const half = gridReadings(6, 4, 12, 8, wavy).filter(([x, y]) => x <= 3 || (x >= 5.9 && (y < 0.1 || y > 3.9)));
    const read = readFloor(ROOM, surveyOf(half), 'metric');
    if (!read.ok) throw new Error(read.message);
    expect(read.floor.worthReading.length).toBe(3);
    for (const { xM } of read.floor.worthReading) expect(xM).toBeGreaterThan(3);
  });
});

describe('a surveyed room', () => {
  it('survives the transfer to a worker and back', () => {
    const answer = surveyRoom(ROOM, surveyOf(grid()), levelChoice(), { ...SURVEY_OPTIONS, flooring: 'tile-large' });
    expect(structuredClone(answer)).toEqual(answer);
  });

  it('is read once for the same content, also when another thread read it, and again when a reading changes', () => {
    const read = (survey: Survey) => surveyRoom(ROOM, survey, levelChoice(), SURVEY_OPTIONS);
    const floorOf = (answer: ReturnType<typeof read>) => (answer.state === 'surveyed' ? answer.floor : null);
    const survey = surveyOf(grid());
    const first = read(survey);
    expect(floorOf(first)).not.toBeNull();
    expect(floorOf(read({ ...survey, readings: [...survey.readings], takenAt: '2026-05-12T15:00:00.000Z' }))).toBe(floorOf(first));
    const raised = {
      ...survey,
      readings: survey.readings.map((reading, i) => (i === 0 ? { ...reading, valueM: reading.valueM + 0.01 } : reading)),
    };
    const other = read(raised);
    expect(floorOf(other)).not.toBe(floorOf(first));
    expect(other).not.toEqual(first);
    const sent = structuredClone(other);
    keepSurveyed(ROOM, raised, SURVEY_OPTIONS.units, sent);
    const again = read(structuredClone(raised));
    expect(floorOf(again)).toBe(floorOf(sent));
    expect(again).toEqual(other);
  });
});
