/** An invented data sheet and cure input for the tests of cure and agenda. */
import type { ClearanceTest, Promised } from '../../../shared-core/book/cure-record.ts';
import type { Milestone, PowderSheet } from '../../../shared-core/book/material.ts';
import type { CureInput } from '../../../shared-core/cure/cure-input.ts';

const hours = (kind: Milestone['kind'], hoursLeast: number, hoursMost: number): Milestone => ({
  kind,
  flooring: null,
  hoursLeast,
  hoursMost,
  thicknessM: null,
  by: 'strength',
  source: 'bag',
});

export const cover = (
  flooring: NonNullable<Milestone['flooring']>,
  thicknessM: number,
  daysLeast: number,
  daysMost: number,
): Milestone => ({
  kind: 'cover',
  flooring,
  hoursLeast: daysLeast * 24,
  hoursMost: daysMost * 24,
  thicknessM,
  by: 'drying',
  source: 'bag',
});

export const SHEET: PowderSheet = {
  bagKg: { value: 22.7, source: 'bag' },
  yieldM3: { value: 0.0125, source: 'bag' },
  yieldBasis: 'sheet',
  measuredYieldM3: null,
  waterL: { value: { least: 4.7, most: 5 }, source: 'bag' },
  mixMinutes: null,
  workingTimeMin: null,
  healingMin: null,
  liftM: { value: { least: 0.003, most: 0.04 }, source: 'bag' },
  liftExtendedM: null,
  aggregateShare: null,
  densityFreshKgM3: null,
  densityHardKgM3: null,
  roomTempC: { value: { least: 10, most: 32 }, source: 'bag' },
  referenceTempC: { value: 20, source: 'bag' },
  waterTempC: null,
  leastCureTempC: { value: 10, source: 'bag' },
  strengthPa: null,
  enDesignation: null,
  profileCsp: null,
  bondsTo: ['concrete'],
  lossShare: { value: 0.05, source: 'typical' },
  shelfMonths: null,
  milestones: [
    hours('walk-on', 4, 6),
    hours('cart', 12, 24),
    hours('next-lift', 12, 16),
    hours('furniture', 48, 72),
    cover('wood-glued', 0.01, 7, 10),
    cover('wood-glued', 0.02, 14, 21),
  ],
  wearsBare: false,
};

export const INPUT: CureInput = {
  lift: 1,
  isLastLift: true,
  overWood: false,
  drilling: 'allowed',
  areaM2: 15,
  sharing: [],
  place: { zone: 'America/New_York', from: '07:00', to: '18:00', week: { days: [1, 2, 3, 4, 5], country: 'US' } },
  placedAt: '2026-05-11T18:00:00.000Z',
  depth: { meanM: 0.01, deepestM: 0.015 },
  wetBelowM: 0,
  sheet: SHEET,
  materialKind: 'cement-underlayment',
  flooring: 'wood-glued',
  flooringLimits: null,
  heated: false,
  readings: [],
  assumedTempC: 20,
  assumedHumidity: 0.5,
  assumedSpreadC: 2,
  gaps: 'line',
  promises: [],
  tests: [],
};

const STAMPS = { createdAt: INPUT.placedAt, changedAt: INPUT.placedAt, deletedAt: null };
const OF_ROOM = { jobId: 'job00001', roomId: 'room0001', flooring: 'wood-glued' as const };

/** A date promised to the customer. */
export const promised = (over: Partial<Promised>): Promised => ({
  ...STAMPS,
  id: 'prom0001',
  ...OF_ROOM,
  milestone: 'cover',
  promisedFor: '2026-06-01T16:00:00.000Z',
  madeAt: '2026-05-11T12:00:00.000Z',
  documentId: null,
  to: 'the customer',
  ...over,
});

/** The results of one visit, as many as a small slab needs: three (ASTM F2170). */
export const threeTests = (over: Partial<ClearanceTest>): ClearanceTest[] =>
  ['a', 'b', 'c'].map((nth) => clearanceTest({ ...over, id: `${over.id ?? 'test0001'}${nth}` }));

/** A moisture test under typical limits. */
export const clearanceTest = (over: Partial<ClearanceTest>): ClearanceTest => ({
  ...STAMPS,
  id: 'test0001',
  ...OF_ROOM,
  method: 'slab-humidity',
  value: 0.7,
  unit: 'share',
  takenAt: '2026-05-30T16:00:00.000Z',
  by: 'R. T.',
  note: '',
  ...over,
});
