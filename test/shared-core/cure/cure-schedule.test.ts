import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { ClearanceTest, CureReading } from '../../../shared-core/book/cure-record.ts';
import { cureSchedule } from '../../../shared-core/cure/cure-schedule.ts';
import { gravest } from '../../../shared-core/cure/promise-verdict.ts';
import type { CureInput, DatedMilestone } from '../../../shared-core/cure/cure-input.ts';
import { limitsOf } from '../flooring-limits.ts';
import { clearanceTest as test, threeTests, cover, INPUT, promised as promise, SHEET } from './sheet-fixture.ts';

const HOUR = 3_600_000;
const PLACED = Date.parse(INPUT.placedAt);
const hoursTo = (instant: string | null | undefined) =>
  instant === null || instant === undefined ? Infinity : (Date.parse(instant) - PLACED) / HOUR;
const find = (input: CureInput, key: string): DatedMilestone => {
  const found = cureSchedule(input).milestones.find((m) => m.key === key);
  if (found === undefined) throw new Error(`no milestone ${key}`);
  return found;
};
const readings = (temps: readonly number[], everyHours = 1): CureReading[] =>
  temps.map((tempC, i) => ({ instant: new Date(PLACED + i * everyHours * HOUR).toISOString(), tempC, relativeHumidity: null }));

describe('strength milestones', () => {
  it('use the data sheet’s hours in a room at the reference temperature', () => {
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

  it('are moved by three cold nights, whose hours are listed as paused', () => {
    const day = [...Array.from({ length: 14 }, () => 18), ...Array.from({ length: 10 }, () => 5)];
    const cold = { ...INPUT, readings: readings([...day, ...day, ...day, 18]) };
    const schedule = cureSchedule(cold);
    expect(schedule.log.stoodStill).toHaveLength(3);
    expect(schedule.log.hoursStoodStill).toBeGreaterThan(27);
    expect(hoursTo(find(cold, 'furniture').likelyAt)).toBeGreaterThan(hoursTo(find(INPUT, 'furniture').likelyAt) + 27);
  });

  it('have no date in a room assumed too cold, with the reason', () => {
    const frozen = find({ ...INPUT, assumedTempC: 4 }, 'walk-on');
    expect(frozen.likelyAt).toBeNull();
    expect(frozen.reason.air).toMatchObject({ assumedTempC: 4, leastCureTempC: 10 });
  });

  it('keep what they were computed from', () => {
    const { reason } = find(INPUT, 'walk-on');
    expect(reason).toMatchObject({
      kind: 'strength',
      hoursLeast: 4,
      hoursMost: 6,
      referenceC: 20,
      source: 'bag',
      qK: { least: 4000, most: 6000 },
    });
  });
});

describe('drying milestones', () => {
  it('use the data sheet’s days for the depth: minimum for the average, maximum for the deepest', () => {
    const m = find({ ...INPUT, assumedSpreadC: 0 }, 'cover:wood-glued');
    expect(hoursTo(m.earliestAt)).toBeCloseTo(7 * 24, 5);
    expect(hoursTo(m.latestAt)).toBeCloseTo(15.5 * 24, 5);
  });

  it('are never sooner than the data sheet’s minimum, however dry the air', () => {
    const m = find({ ...INPUT, assumedHumidity: 0.05, assumedTempC: 30 }, 'cover:wood-glued');
    expect(hoursTo(m.earliestAt)).toBeCloseTo(7 * 24, 5);
    expect(hoursTo(m.likelyAt)).toBeCloseTo(10.5 * 24, 5);
  });

  it('take twice as long at 75% humidity as at 50%', () => {
    const hoursAt = (assumedHumidity: number) => hoursTo(find({ ...INPUT, assumedHumidity }, 'cover:wood-glued').likelyAt);
    expect(hoursAt(0.75) / hoursAt(0.5)).toBeCloseTo(2, 6);
  });

  it('end in the test that the flooring needs, with limit and source', () => {
    const m = find(INPUT, 'cover:wood-glued');
    expect(m.clearanceTest?.methods[0]).toMatchObject({ method: 'slab-humidity', standard: 'ASTM F2170', limit: 0.75 });
  });

  it('use the published rules for flooring that the data sheet does not name', () => {
    const m = find({ ...INPUT, flooring: 'carpet', assumedSpreadC: 0 }, 'cover:carpet');
    // 15 mm at a day per mm, BS 8203 and BS 8204-1.
    expect(hoursTo(m.likelyAt)).toBeCloseTo(15 * 24, 5);
    expect(hoursTo(m.latestAt)).toBeGreaterThan(15 * 24);
    expect(m.reason).toMatchObject({ kind: 'drying', hours: { from: 'published' }, wetBelowM: 0 });
  });
});

describe('flooring that needs a moisture test', () => {
  /** A floor dry within hours by its data sheet, poured on a Friday until 1 pm in New York. */
  const quick = (placedAt: string, by: 'drying' | 'strength', over: Partial<CureInput> = {}): CureInput => {
    const milestones = SHEET.milestones.filter((m) => m.kind !== 'cover');
    const dry = { ...cover('resilient', 0.01, 0.5, 0.7), by, thicknessM: by === 'drying' ? 0.01 : null };
    return { ...INPUT, placedAt, flooring: 'resilient', sheet: { ...SHEET, milestones: [...milestones, dry] }, ...over };
  };
  const statedOn = (input: CureInput) => find(input, 'cover:resilient').statedAt;
  // 2026 calendar: May 15 is a Friday, May 25 Memorial Day. In-slab RH takes 72 hours in the hole at most (ASTM F2170, from memory).
  it.each(['drying', 'strength'] as const)('is stated no sooner than the test that starts on the first working day (by %s)', (by) => {
    expect(statedOn(quick('2026-05-15T17:00:00.000Z', by))).toBe('2026-05-21T11:00:00.000Z');
    expect(statedOn(quick('2026-05-22T17:00:00.000Z', by))).toBe('2026-05-29T11:00:00.000Z');
  });

  it('waits for foot traffic too', () => {
    const monday = quick('2026-05-18T17:00:00.000Z', 'drying');
    expect(statedOn(monday)).toBe('2026-05-22T11:00:00.000Z');
    // A day until foot traffic, so the test starts on Wednesday and is read past Memorial Day.
    const milestones = monday.sheet.milestones.map((m) => (m.kind === 'walk-on' ? { ...m, hoursMost: 24 } : m));
    expect(statedOn({ ...monday, sheet: { ...monday.sheet, milestones } })).toBe('2026-05-26T11:00:00.000Z');
  });

  it('has no such wait under tile, which is set by the data sheet’s hours', () => {
    const input = quick('2026-05-15T17:00:00.000Z', 'strength');
    const milestones = input.sheet.milestones.map((m) => (m.kind === 'cover' ? { ...m, flooring: 'tile-small' as const } : m));
    const tile = { ...input, flooring: 'tile-small' as const, sheet: { ...SHEET, milestones } };
    expect(find(tile, 'cover:tile-small').statedAt).toBe('2026-05-18T11:00:00.000Z');
  });
});

describe('a promise beside the expected date', () => {
  const instantOf = (days: number) => new Date(PLACED + days * 24 * HOUR).toISOString();
  const verdict = (days: number) => gravest(cureSchedule({ ...INPUT, promises: [promise({ promisedFor: instantOf(days) })] }).verdicts);

  const hoursLate = (v: ReturnType<typeof verdict>): number => (v?.lateByMs ?? 0) / HOUR;

  it('is on track after the latest date, at risk after the likely one, late before it', () => {
    expect(verdict(30)).toMatchObject({ state: 'on-track' });
    expect(verdict(14)).toMatchObject({ state: 'at-risk' });
    expect(verdict(10)).toMatchObject({ state: 'late' });
    expect(hoursLate(verdict(10))).toBeGreaterThan(48);
    expect(Math.ceil(hoursLate(verdict(12.9)))).toBe(3);
  });

  it('is on hold when curing is paused', () => {
    expect(gravest(cureSchedule({ ...INPUT, assumedTempC: 2, promises: [promise({})] }).verdicts)?.state).toBe('on-hold');
  });

  it('is judged by the newest only, and the first stays on record', () => {
    const both = [
      promise({ promisedFor: instantOf(5) }),
      promise({ id: 'prom0002', promisedFor: instantOf(30), madeAt: '2026-05-12T12:00:00.000Z' }),
    ];
    const schedule = cureSchedule({ ...INPUT, promises: both });
    expect(schedule.verdicts.map((v) => v.state)).toEqual(['on-track']);
  });
});

describe('clearance for flooring', () => {
  const clearance = (tests: ClearanceTest[], over: Partial<CureInput> = {}) => cureSchedule({ ...INPUT, ...over, tests }).clearance;
  const abroad = (country: string): Partial<CureInput> => ({ place: { ...INPUT.place, week: { ...INPUT.place.week, country } } });
  const OWN_LIMIT = limitsOf({ slabHumidity: 0.65 });

  it('is not given by a date alone', () => {
    expect(clearance([])).toMatchObject({ passed: false, finding: { kind: 'untested' } });
    expect(cureSchedule(INPUT).clearedFrom).toBeNull();
  });

  it('asks a US business for in-slab RH by ASTM F2170, 75% by ASTM F710 until the manufacturer’s limit is entered', () => {
    const usual = clearance([])?.requirement.methods[0];
    expect(usual).toMatchObject({ method: 'slab-humidity', standard: 'ASTM F2170', limitStatedIn: null, limit: 0.75, typical: true });
    expect(clearance([], { flooringLimits: OWN_LIMIT })?.requirement.methods[0]).toMatchObject({ limit: 0.65, typical: false });
  });

  it('is given at the limit and refused above it', () => {
    expect(clearance(threeTests({ value: 0.75 }))?.passed).toBe(true);
    expect(clearance(threeTests({ value: 0.751 }))?.passed).toBe(false);
    expect(cureSchedule({ ...INPUT, tests: threeTests({ value: 0.75 }) }).clearedFrom).toBe(test({}).takenAt);
  });

  it('is not given by a test made sooner than 72 hours after the pour', () => {
    const hours = (h: number) => new Date(Date.parse(INPUT.placedAt) + h * 3_600_000).toISOString();
    expect(clearance([test({ takenAt: hours(22) })])).toMatchObject({ passed: false, test: null });
    expect(clearance([test({ takenAt: hours(22) })])?.finding).toEqual({ kind: 'too-soon', hours: 22, hoursNeeded: 72 });
    expect(clearance(threeTests({ takenAt: hours(72) }))?.passed).toBe(true);
  });

  it('is decided by the worst hole of the newest round, because every one must pass', () => {
    const wet = test({ id: 'test0002', value: 0.88 });
    expect(clearance([test({}), wet])).toMatchObject({ passed: false, test: { value: 0.88 } });
    expect(clearance([wet, test({})])?.passed).toBe(false);
    const later = threeTests({ id: 'test0003', takenAt: '2026-06-09T16:00:00.000Z' });
    expect(clearance([wet, test({}), ...later])?.passed).toBe(true);
  });

  const FT2 = 0.09290304;

  it('takes as many in-slab tests as ASTM F2170 asks (second-hand): three in the first 1,000 sq ft, one for each further 1,000', () => {
    const small = { areaM2: 150 * FT2 };
    expect(clearance([test({})], small)).toMatchObject({ passed: false, passedAt: null, finding: { kind: 'few', have: 1 } });
    expect(clearance(threeTests({}), small)).toMatchObject({ passed: true, passedAt: test({}).takenAt });
    const large = { areaM2: 1500 * FT2 };
    expect(clearance(threeTests({}), large)).toMatchObject({ passed: false, finding: { kind: 'few', have: 3, method: { wanted: 4 } } });
    expect(clearance([...threeTests({}), test({})], large)?.passed).toBe(true);
    // One over the limit fails the floor whatever the number.
    expect(clearance([test({ value: 0.8 })], small)?.finding.kind).toBe('over');
  });

  it('takes 20 wood readings in 1,000 sq ft (NWFA, second-hand) and three at least, and one of other methods', () => {
    const wanted = (over: Partial<CureInput>) => clearance([], over)?.requirement.methods.map((m) => m.wanted);
    expect(wanted({ overWood: true, areaM2: 1000 * FT2 })).toEqual([20, 1]);
    expect(wanted({ overWood: true, areaM2: 0 })).toEqual([3, 1]);
    expect(wanted({ drilling: 'never', areaM2: 2000 * FT2 })).toEqual([1, 1]);
  });

  it('counts in-slab tests over the slab, so that rooms poured together share them, each with one of its own', () => {
    const later = '2026-06-01T16:00:00.000Z';
    const beside = (tests: ClearanceTest[]) => ({ areaM2: 150 * FT2, sharing: [{ areaM2: 150 * FT2, tests }] });
    const two = [test({ takenAt: later }), test({ takenAt: later, value: 0.74 })];
    expect(clearance([], beside(threeTests({})))).toMatchObject({ passed: false, finding: { kind: 'untested' } });
    expect(clearance([test({})], beside(two))).toMatchObject({ passed: true, passedAt: later, test: { value: 0.7 } });
    // A wet hole next door fails that room, and does not count here.
    const wet = [test({ takenAt: later }), test({ takenAt: later, value: 0.8 })];
    expect(clearance([test({})], beside(wet))).toMatchObject({ passed: false, finding: { kind: 'few', have: 2 } });
    expect(clearance([test({})], { ...beside(two), overWood: true })?.finding.kind).toBe('other-method');
  });

  it('takes wood moisture content over a wood subfloor, with a meter as a first check', () => {
    const methods = clearance([], { overWood: true })?.requirement.methods.map((m) => [m.method, m.clears]);
    expect(methods).toEqual([
      ['wood-moisture', true],
      ['meter', false],
    ]);
  });

  it('is not given by a meter, which ASTM F2659 describes for preliminary, comparative evaluation (scope, from memory)', () => {
    const meter = (value: number, day: string) =>
      test({ id: `meter${day}`, method: 'meter', value, takenAt: `2026-06-${day}T16:00:00.000Z` });
    const probes = (value: number, day: string) => threeTests({ id: `probe${day}`, value, takenAt: `2026-06-${day}T16:00:00.000Z` });
    for (const overWood of [false, true])
      expect(clearance([meter(0.042, '02')], { overWood })).toMatchObject({ passed: false, test: null, finding: { kind: 'first-check' } });
    // The probe read over the flooring manufacturer's own limit the day before.
    const failed = clearance([...probes(0.85, '01'), meter(0.042, '02')], { flooringLimits: OWN_LIMIT });
    expect(failed).toMatchObject({ passed: false, finding: { kind: 'over' }, test: { value: 0.85 } });
    expect(clearance([meter(0.06, '02'), ...probes(0.6, '01')])).toMatchObject({ passed: false, test: { method: 'meter' } });
    expect(clearance([meter(0.06, '01'), ...probes(0.6, '03')])?.passed).toBe(false);
    expect(clearance([meter(0.06, '01'), meter(0.04, '03'), ...probes(0.6, '03')])).toMatchObject({ passed: true, test: { value: 0.6 } });
  });

  // ASTM F2170 needs drilled holes; ASTM F2420, the hood on the surface, was withdrawn in 2014 (astm.org). What is left is common practice.
  it('takes a test without holes where the floor must not be drilled, by the flooring manufacturer’s own limit alone', () => {
    const methodsOf = (over: Partial<CureInput>) => clearance([], over)?.requirement.methods.map((m) => m.method);
    expect(methodsOf({ drilling: 'never' })).toEqual(['without-holes', 'meter']);
    expect(methodsOf({ drilling: 'over-system' })).toEqual(['without-holes', 'meter']);
    expect(methodsOf({ drilling: 'heat-located' })).toEqual(['slab-humidity', 'without-holes', 'meter']);
    expect(methodsOf({ drilling: 'never', overWood: true })).toEqual(['wood-moisture', 'meter']);
    // The carbide test takes its sample from the full depth (DIN 18560-1). A hood lies on the surface.
    for (const country of ['DE', 'AT', 'CH']) {
      expect(methodsOf({ drilling: 'never', ...abroad(country) })).toEqual(['without-holes']);
      expect(methodsOf({ drilling: 'heat-located', ...abroad(country) })).toEqual(['carbide', 'without-holes']);
    }
    expect(methodsOf({ drilling: 'never', ...abroad('GB') })).toEqual(['humidity-hood']);
    const result = (value: number) => [test({ method: 'without-holes', value })];
    const never = { drilling: 'never' } as const;
    // The limit of in-slab RH is another test's.
    expect(clearance(result(0.5), { ...never, flooringLimits: OWN_LIMIT })).toMatchObject({ passed: false, finding: { kind: 'no-limit' } });
    const flooringLimits = { ...OWN_LIMIT, withoutHoles: 0.6 };
    expect(clearance(result(0.6), { ...never, flooringLimits })?.passed).toBe(true);
    expect(clearance(result(0.61), { ...never, flooringLimits })?.passed).toBe(false);
    expect(clearance([test({ value: 0.5 })], { ...never, flooringLimits })).toMatchObject({ finding: { kind: 'other-method' } });
  });

  it('clears tile by the data sheet’s hours, at the stated date', () => {
    const tile = cureSchedule({ ...INPUT, flooring: 'tile-small' });
    expect(tile.clearance?.requirement).toMatchObject({ byHours: true, methods: [] });
    expect(tile.clearedFrom).toBe(tile.cover?.statedAt);
  });

  it('accepts carbide at 2.0 CM-% for cement, 1.8 heated, 0.5 for calcium sulfate in Germany (DIN 18560-1), and a hood in Britain', () => {
    const cm = (value: number) => [test({ method: 'carbide', unit: 'cm-percent', value })];
    expect(clearance(cm(1))).toMatchObject({ passed: false, finding: { kind: 'other-method' } });
    expect(clearance(cm(2), abroad('DE'))?.passed).toBe(true);
    expect(clearance(cm(1.9), { ...abroad('DE'), heated: true })?.passed).toBe(false);
    expect(clearance(cm(0.5), { ...abroad('DE'), materialKind: 'calcium-sulfate' })?.passed).toBe(true);
    expect(clearance(cm(0.6), { ...abroad('DE'), materialKind: 'calcium-sulfate' })?.passed).toBe(false);
    expect(clearance([], abroad('GB'))?.requirement.methods.map((m) => m.method)).toEqual(['humidity-hood']);
  });

  it('refuses a calcium chloride test over an underlayment (ASTM F1869, 1.3)', () => {
    const found = clearance([test({ method: 'vapor-emission', unit: 'lb', value: 1 })]);
    expect(found?.passed).toBe(false);
    expect(found?.finding.kind).toBe('vapor-emission');
  });

  it('names where the manufacturer states its limit', () => {
    const found = clearance([test({ value: 0.7 })], { flooringLimits: OWN_LIMIT });
    expect(found?.passed).toBe(false);
    expect(found?.finding).toMatchObject({ kind: 'over', method: { limitStatedIn: 'leaflet of March' } });
  });

  it('ignores tests made before the pour', () => {
    expect(clearance([test({ takenAt: '2026-05-11T17:00:00.000Z' })])?.passed).toBe(false);
  });

  it('waits for the sealer’s own limit on a sealed floor', () => {
    const found = clearance([test({ flooring: 'bare-sealed', method: 'manufacturer-method' })], { flooring: 'bare-sealed' });
    expect(found?.passed).toBe(false);
    expect(found?.finding.kind).toBe('no-limit');
  });

  it('puts a promise on hold while a lift or part of the floor is still to be placed, though its date cannot be known', () => {
    const kinds = [promise({}), promise({ id: 'promise-2', milestone: 'furniture', flooring: null })];
    const { milestones, verdicts } = cureSchedule({ ...INPUT, isLastLift: false, promises: kinds });
    expect(milestones.map(({ kind }) => kind)).toEqual(['walk-on', 'next-lift']);
    expect(verdicts.map(({ state, awaitsRest, milestone }) => [state, awaitsRest, milestone.key, milestone.statedAt])).toEqual([
      ['on-hold', true, 'cover:wood-glued', null],
      ['on-hold', true, 'furniture', null],
    ]);
    expect(cureSchedule({ ...INPUT, promises: kinds }).verdicts.some(({ awaitsRest }) => awaitsRest)).toBe(false);
    expect(cureSchedule({ ...INPUT, isLastLift: false, promises: [promise({ flooring: 'resilient' })] }).verdicts).toEqual([]);
  });

  it('drops the promise for flooring that was changed since', () => {
    const other = promise({ flooring: 'resilient' });
    expect(cureSchedule({ ...INPUT, promises: [other] }).verdicts).toEqual([]);
    expect(cureSchedule({ ...INPUT, flooring: 'resilient', promises: [other] }).verdicts).toHaveLength(1);
  });

  it('has a range in any room: warm, dry, or so humid that there is no date', () => {
    for (const assumedTempC of [5, 15, 20, 25, 30, 35])
      for (const assumedHumidity of [0.1, 0.2, 0.35, 0.5, 0.7, 0.9]) {
        const cover = cureSchedule({ ...INPUT, assumedTempC, assumedHumidity }).cover;
        if (cover?.earliestAt == null || cover.latestAt === null || cover.likelyAt === null) continue;
        expect([assumedTempC, assumedHumidity, cover.earliestAt < cover.likelyAt && cover.likelyAt < cover.latestAt]).toEqual([
          assumedTempC,
          assumedHumidity,
          true,
        ]);
      }
    for (const assumedHumidity of [0.999999999, 1 - 1e-15, 1]) {
      expect(cureSchedule({ ...INPUT, assumedHumidity }).cover).toMatchObject({ likelyAt: null, statedAt: null });
    }
  });
});
