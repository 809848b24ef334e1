import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { ClearanceTest, CureReading, Promised } from '../../../shared-core/book/cure-record.ts';
import { cureSchedule, scheduleAtTemperature } from '../../../shared-core/cure/cure-schedule.ts';
import type { CureInput, DatedMilestone } from '../../../shared-core/cure/cure-input.ts';
import { INPUT, SHEET } from './sheet-fixture.ts';

const HOUR = 3_600_000;
const PLACED = Date.parse(INPUT.placedAt);
const hoursTo = (at: string | null | undefined) => (at === null || at === undefined ? Infinity : (Date.parse(at) - PLACED) / HOUR);
const find = (input: CureInput, key: string): DatedMilestone => {
  const found = cureSchedule(input).milestones.find((m) => m.key === key);
  if (found === undefined) throw new Error(`no milestone ${key}`);
  return found;
};
const readings = (temps: readonly number[], everyHours = 1): CureReading[] =>
  temps.map((tempC, i) => ({ at: new Date(PLACED + i * everyHours * HOUR).toISOString(), tempC, relativeHumidity: null }));

const STAMPS = { createdAt: INPUT.placedAt, changedAt: INPUT.placedAt, deletedAt: null };
const promise = (over: Partial<Promised>): Promised => ({
  ...STAMPS,
  id: 'prom0001',
  jobId: 'job00001',
  roomId: 'room0001',
  milestone: 'cover',
  flooring: 'wood-glued',
  promisedFor: '2026-06-01T16:00:00.000Z',
  madeAt: '2026-05-11T12:00:00.000Z',
  documentId: null,
  to: 'the customer',
  ...over,
});
const test = (over: Partial<ClearanceTest>): ClearanceTest => ({
  ...STAMPS,
  id: 'test0001',
  jobId: 'job00001',
  roomId: 'room0001',
  flooring: 'wood-glued',
  method: 'slab-humidity',
  value: 0.7,
  unit: 'share',
  takenAt: '2026-05-30T16:00:00.000Z',
  by: 'R. T.',
  note: '',
  ...over,
});

describe('strength milestones', () => {
  it('take the sheet’s own hours in a room kept at the reference temperature', () => {
    const steady = { ...INPUT, assumedSpreadC: 0, readings: readings(Array.from({ length: 30 }, () => 20)) };
    for (const m of SHEET.milestones.filter((x) => x.kind !== 'cover')) {
      const dated = find(steady, m.kind);
      expect(hoursTo(dated.earliestAt)).toBeCloseTo(m.hoursLeast, 5);
      expect(hoursTo(dated.likelyAt)).toBeCloseTo((m.hoursLeast + m.hoursMost) / 2, 5);
      expect(hoursTo(dated.latestAt)).toBeCloseTo(m.hoursMost, 5);
    }
  });

  it('are never later for a hotter room, and run from earliest through likely to latest', () => {
    fc.assert(
      fc.property(
        fc.array(fc.double({ min: 2, max: 32, noNaN: true }), { minLength: 2, maxLength: 40 }),
        fc.double({ min: 0, max: 8, noNaN: true }),
        (temps, plus) => {
          const cool = cureSchedule({ ...INPUT, readings: readings(temps), assumedTempC: 15 });
          const hot = cureSchedule({ ...INPUT, readings: readings(temps.map((t) => t + plus)), assumedTempC: 15 + plus });
          cool.milestones.forEach((m, i) => {
            const other = hot.milestones[i];
            expect(hoursTo(other?.likelyAt)).toBeLessThanOrEqual(hoursTo(m.likelyAt) + 1e-6);
            expect(hoursTo(other?.latestAt)).toBeLessThanOrEqual(hoursTo(m.latestAt) + 1e-6);
            expect(hoursTo(m.earliestAt)).toBeLessThanOrEqual(hoursTo(m.likelyAt) + 1e-6);
            expect(hoursTo(m.likelyAt)).toBeLessThanOrEqual(hoursTo(m.latestAt) + 1e-6);
          });
        },
      ),
      { numRuns: 60 },
    );
  });

  it('move by three cold nights, whose hours are listed as stood still', () => {
    const day = [...Array.from({ length: 14 }, () => 18), ...Array.from({ length: 10 }, () => 5)];
    const cold = { ...INPUT, readings: readings([...day, ...day, ...day, 18]) };
    const schedule = cureSchedule(cold);
    expect(schedule.log.stoodStill).toHaveLength(3);
    expect(schedule.log.hoursStoodStill).toBeGreaterThan(27);
    expect(hoursTo(find(cold, 'furniture').likelyAt)).toBeGreaterThan(hoursTo(find(INPUT, 'furniture').likelyAt) + 27);
  });

  it('have no date in a room assumed too cold, and say why in the reason', () => {
    const frozen = find({ ...INPUT, assumedTempC: 4 }, 'walk-on');
    expect(frozen.likelyAt).toBeNull();
    expect(frozen.reason.wentIn.some((w) => w.value.includes('39 °F'))).toBe(true);
  });

  it('carry what went in, formula, source and range', () => {
    const { reason } = find(INPUT, 'walk-on');
    expect(reason.wentIn[0]?.value).toBe('4 to 6 hours at 68 °F, from the bag');
    expect(reason.source).toContain('ASTM C1074');
    expect(reason.range).not.toBe('');
  });
});

describe('drying milestones', () => {
  it('take the sheet’s days for the depth: least for the mean, most for the deepest', () => {
    const m = find({ ...INPUT, assumedSpreadC: 0 }, 'cover:wood-glued');
    expect(hoursTo(m.earliestAt)).toBeCloseTo(7 * 24, 5);
    expect(hoursTo(m.latestAt)).toBeCloseTo(15.5 * 24, 5);
  });

  it('are never sooner than the sheet’s least, however dry the air', () => {
    const m = find({ ...INPUT, assumedHumidity: 0.05, assumedTempC: 30 }, 'cover:wood-glued');
    expect(hoursTo(m.earliestAt)).toBeCloseTo(7 * 24, 5);
    expect(hoursTo(m.likelyAt)).toBeCloseTo(10.5 * 24, 5);
  });

  it('take twice as long at 75 % humidity as at 50 %', () => {
    const at = (assumedHumidity: number) => hoursTo(find({ ...INPUT, assumedHumidity }, 'cover:wood-glued').likelyAt);
    expect(at(0.75) / at(0.5)).toBeCloseTo(2, 6);
  });

  it('end in the test the covering needs, with limit and source', () => {
    const m = find(INPUT, 'cover:wood-glued');
    expect(m.clearanceTest?.sentence).toMatch(/^Confirm by test before covering: .*75 % humidity \(BS 8201/);
  });

  it('fall back to the published rules for a covering the sheet does not name', () => {
    const m = find({ ...INPUT, flooring: 'carpet', assumedSpreadC: 0 }, 'cover:carpet');
    expect(hoursTo(m.latestAt)).toBeCloseTo(15 * 24, 5);
    expect(m.reason.source).toContain('BS 8203');
  });

  it('come earlier in a warmer room, as the screen offers to see', () => {
    const warmer = scheduleAtTemperature({ ...INPUT, assumedTempC: 16 }, 20).cover;
    const now = cureSchedule({ ...INPUT, assumedTempC: 16 }).cover;
    expect(hoursTo(warmer?.likelyAt)).toBeLessThan(hoursTo(now?.likelyAt));
  });
});

describe('a promise beside the expected date', () => {
  const at = (days: number) => new Date(PLACED + days * 24 * HOUR).toISOString();
  const verdict = (days: number) => cureSchedule({ ...INPUT, promises: [promise({ promisedFor: at(days) })] }).gravest;

  it('holds past the latest, is tight past the likely, is late before it', () => {
    expect(verdict(30)?.word).toBe('Holds');
    expect(verdict(14)?.word).toBe('Tight');
    expect(verdict(10)?.word).toBe('Late by three days');
    expect(verdict(12.9)?.word).toBe('Late by three hours');
  });

  it('is open when the clock stands still', () => {
    expect(cureSchedule({ ...INPUT, assumedTempC: 2, promises: [promise({})] }).gravest?.state).toBe('open');
  });

  it('is judged by the newest only, and the first stays on record', () => {
    const both = [promise({ promisedFor: at(5) }), promise({ id: 'prom0002', promisedFor: at(30), madeAt: '2026-05-12T12:00:00.000Z' })];
    const schedule = cureSchedule({ ...INPUT, promises: both });
    expect(schedule.verdicts.map((v) => v.word)).toEqual(['Holds']);
  });
});

describe('release for covering', () => {
  const release = (tests: ClearanceTest[], over: Partial<CureInput> = {}) => cureSchedule({ ...INPUT, ...over, tests }).release;

  it('is not given by a date alone', () => {
    expect(release([])).toMatchObject({ released: false });
    expect(release([])?.sentence).toMatch(/^Not yet released for covering/);
  });

  it('is given at the limit and refused above it', () => {
    expect(release([test({ value: 0.75 })])?.released).toBe(true);
    expect(release([test({ value: 0.751 })])?.released).toBe(false);
  });

  it('takes carbide at 2.0 CM-% for cement, 1.8 heated, 0.5 for calcium sulfate (DIN 18560-1)', () => {
    const cm = (value: number) => [test({ method: 'carbide', unit: 'cm-percent', value })];
    expect(release(cm(2))?.released).toBe(true);
    expect(release(cm(1.9), { heated: true })?.released).toBe(false);
    expect(release(cm(0.5), { materialKind: 'calcium-sulfate' })?.released).toBe(true);
    expect(release(cm(0.6), { materialKind: 'calcium-sulfate' })?.released).toBe(false);
  });

  it('refuses a calcium chloride dish over a leveling compound (ASTM F1869, 1.3)', () => {
    const found = release([test({ method: 'moisture-dish', unit: 'lb', value: 1 })]);
    expect(found?.released).toBe(false);
    expect(found?.sentence).toContain('F1869');
  });

  it('lets the covering maker’s figure stand instead and names it', () => {
    const flooringLimits = {
      slabHumidity: 0.65,
      emissionLb: null,
      woodMoisture: null,
      flatnessGapM: null,
      flatnessSpanM: null,
      statedIn: 'leaflet of March',
    };
    const found = release([test({ value: 0.7 })], { flooringLimits });
    expect(found?.released).toBe(false);
    expect(found?.sentence).toContain('leaflet of March');
  });

  it('goes by the newest result, and by none taken before the pour', () => {
    const good = test({});
    expect(release([good, test({ id: 'test0002', value: 0.8, takenAt: '2026-05-31T16:00:00.000Z' })])?.released).toBe(false);
    expect(release([test({ takenAt: '2026-05-11T17:00:00.000Z' })])?.released).toBe(false);
  });

  it('waits for the sealer’s own limit on a floor left bare', () => {
    const bare = { flooring: 'bare-sealed' as const };
    const found = release([test({ flooring: 'bare-sealed', method: 'manufacturer-method' })], bare);
    expect(found?.released).toBe(false);
    expect(found?.sentence).toContain('enter the limit');
  });
});
