/** Floors for tests of the rules: a dry, sound, tested slab, changed in one respect at a time. */
import type { Circumstances, FloorTest, Layer } from '../../../shared-core/book/layer.ts';
import type { HoldDocument, Override } from '../../../shared-core/book/job.ts';
import type { PowderSheet } from '../../../shared-core/book/material.ts';
import type { Point } from '../../../shared-core/book/fields.ts';
import type { Mark, Opening } from '../../../shared-core/book/plan-fields.ts';
import { type AirFacts, type FloorFacts, type FloorInput, floorFacts } from '../../../shared-core/substrate/floor-facts.ts';
import { type TestOf, testsOf } from '../../../shared-core/book/tests-of.ts';
import { wordingFor } from '../../../shared-core/substrate/wording.ts';

export const NOW = '2026-05-04T15:00:00Z';
const TAKEN = '2026-05-04T12:00:00Z';
const stamps = (id: string) => ({ id, takenAt: TAKEN, by: 'RB', point: null, note: '' });

/** One passing test of each kind, with changes. */
export const test = {
  dish: (change: Partial<TestOf<'moisture-dish'>> = {}): TestOf<'moisture-dish'> => ({
    ...stamps('dish1'),
    kind: 'moisture-dish',
    massBeforeG: 30,
    massAfterG: 31,
    dishAreaM2: 0.004,
    domeAreaM2: 0.0453,
    hours: 66,
    overLayerId: null,
    ...change,
  }),
  humidity: (change: Partial<TestOf<'slab-humidity'>> = {}): TestOf<'slab-humidity'> => ({
    ...stamps('rh-1'),
    kind: 'slab-humidity',
    relativeHumidity: 0.7,
    depthM: 0.04,
    slabThicknessM: 0.1,
    dryingSides: 1,
    settledHours: 72,
    slabTempC: 18,
    ...change,
  }),
  wood: (part: 'boards' | 'structure' | 'flooring', readings: number[], id = `wood-${part}`): TestOf<'wood-moisture'> => ({
    ...stamps(id),
    kind: 'wood-moisture',
    part,
    readings,
  }),
  drop: (id: string, seconds: number | null = 20): TestOf<'drop-absorption'> => ({
    ...stamps(id),
    kind: 'drop-absorption',
    seconds,
    watchedSeconds: 60,
  }),
  ph: (ph: number, id = 'ph-1'): TestOf<'surface-ph'> => ({ ...stamps(id), kind: 'surface-ph', ph }),
  pull: (stressPa: number, failedIn: TestOf<'pull-off'>['failedIn'] = 'substrate'): TestOf<'pull-off'> => ({
    ...stamps('pull1'),
    kind: 'pull-off',
    stressPa,
    failedIn,
  }),
  scratch: (id: string, result: TestOf<'scratch'>['result'] = 'firm'): TestOf<'scratch'> => ({ ...stamps(id), kind: 'scratch', result }),
  look: (is: TestOf<'surface-look'>['is'] = ['sound-clean']): TestOf<'surface-look'> => ({ ...stamps('look1'), kind: 'surface-look', is }),
  air: (change: Partial<TestOf<'air'>> = {}): TestOf<'air'> => ({
    ...stamps('air-1'),
    kind: 'air',
    airTempC: 20,
    relativeHumidity: 0.5,
    surfaceTempC: 18,
    airSpeedMPerS: 0,
    ...change,
  }),
  deflection: (change: Partial<TestOf<'floor-deflection'>> = {}): TestOf<'floor-deflection'> => ({
    ...stamps('deflection1'),
    kind: 'floor-deflection',
    spanM: 4.2672,
    joistWidthM: 0.0381,
    joistDepthM: 0.23495,
    spacingM: 0.4064,
    modulusPa: 11.0316e9,
    liveLoadPa: 1915.2,
    deadLoadPa: 478.8,
    ...change,
  }),
  lab: (change: Partial<TestOf<'lab'>> = {}): TestOf<'lab'> => ({
    ...stamps('lab-1'),
    kind: 'lab',
    question: 'asbestos',
    layerId: null,
    state: 'none-found',
    lab: 'Quarry Row Lab',
    sample: 'S-114',
    resultOn: '2026-05-01',
    dueOn: null,
    ...change,
  }),
};

export function layer(material: Layer['material'], change: Partial<Layer> = {}): Layer {
  return {
    id: `the-${material}`,
    material,
    thicknessM: 0.1,
    yearInstalled: 2001,
    sound: 'sound',
    fate: 'keep',
    area: null,
    note: '',
    ...change,
  };
}

/** A document recorded for the hold of this key. */
export const recorded = (key: string, kind: HoldDocument['kind'], loadPa?: number): Override => ({
  ...{ key, why: 'Recorded with its document.', instant: TAKEN, initials: 'RB' },
  document: { kind, issuedBy: 'Quarry Row', number: 'C-12', datedOn: '2026-05-02', ...(loadPa !== undefined && { loadPa }) },
});

/** The clearance recorded for a layer with asbestos that is removed. */
export const clearance = (layerId: string): Override => recorded(`asbestos-found-out:${layerId}`, 'clearance');

/** A mark on the plan. */
export function mark(kind: Mark['kind'], change: Partial<Mark> = {}): Mark {
  return {
    id: `mark-${kind}`,
    kind,
    moves: 'still',
    shape: 'line',
    points: [
      { xM: 0, yM: 0 },
      { xM: 1, yM: 0 },
    ],
    widthM: null,
    note: '',
    ...change,
  };
}

export function opening(change: Partial<Opening> = {}): Opening {
  return {
    id: 'door',
    kind: 'doorway',
    name: '',
    wall: 0,
    fromM: 0,
    widthM: 0.9,
    adjoiningM: 0,
    adjoiningFlooring: '',
    edge: 'dam',
    isWayOut: true,
    ...change,
  };
}

/** Openings of a floor whose new flooring lies at 0, with the steps that follow from the heights beyond them. */
export const doorsOf = (...openings: readonly Opening[]): Pick<FloorInput, 'openings' | 'doorSteps'> => ({
  openings,
  doorSteps: Object.fromEntries(openings.flatMap(({ id, adjoiningM }) => (adjoiningM === null ? [] : [[id, -adjoiningM]]))),
});

/** Site conditions, all checked and harmless. */
export const CALM: Circumstances = {
  paintedTrim: 'none',
  baseboardHeightM: null,
  radiantHeat: 'none',
  belowGrade: false,
  vaporRetarder: 'present',
  slopeToDrain: false,
  outdoorsOrWet: false,
  allowedExtraLoadPa: 1000,
  loadStatedBy: 'structural engineer, April 30',
  texturedCoating: false,
  structureSigns: [],
  gasAppliance: false,
  fixtures: [],
  notes: '',
};

/** The air above a floor in the form of `climate`, with changes. */
export function air(change: Partial<AirFacts> = {}, reading: Partial<TestOf<'air'>> = {}): AirFacts {
  return {
    test: test.air(reading),
    dewPointC: 9.3,
    marginC: 8.7,
    marginLeastC: 3,
    marginPasses: true,
    evaporationKgM2H: 0.1,
    condenses: false,
    ...change,
  };
}

const figure = <T>(value: T) => ({ value, source: 'typical' as const });

/** A cement-based underlayment with changes. */
export function powder(change: Partial<PowderSheet> = {}): PowderSheet {
  return {
    bagKg: figure(22.7),
    yieldM3: figure(0.0125),
    yieldBasis: 'sheet',
    measuredYieldM3: null,
    waterL: figure({ least: 4.7, most: 5.2 }),
    mixMinutes: null,
    workingTimeMin: null,
    healingMin: null,
    liftM: figure({ least: 0.003, most: 0.038 }),
    liftExtendedM: null,
    aggregateShare: null,
    densityFreshKgM3: null,
    densityHardKgM3: null,
    roomTempC: figure({ least: 10, most: 32 }),
    referenceTempC: figure(21),
    waterTempC: null,
    leastCureTempC: figure(5),
    strengthPa: figure(28e6),
    enDesignation: null,
    profileCsp: null,
    bondsTo: ['concrete', 'plywood', 'tile'],
    slabHumidityMost: figure(0.8),
    emissionMostLb: figure(5),
    lossShare: figure(0.05),
    shelfMonths: null,
    milestones: [],
    wearsBare: true,
    ...change,
  };
}

const SLAB_TESTS: FloorTest[] = [
  test.humidity({ id: 'rh-1' }),
  test.humidity({ id: 'rh-2', relativeHumidity: 0.68 }),
  test.humidity({ id: 'rh-3', relativeHumidity: 0.66 }),
  test.drop('drop1'),
  test.drop('drop2'),
  test.drop('drop3'),
  test.scratch('scr1'),
  test.scratch('scr2'),
  test.scratch('scr3'),
  test.ph(8),
  test.look(),
  test.air(),
];

/** A room of 4 m by 3 m, its halves, and a strip of 1 m at its left wall. */
const box = (leftM: number, rightM: number): Point[] => [
  { xM: leftM, yM: 0 },
  { xM: rightM, yM: 0 },
  { xM: rightM, yM: 3 },
  { xM: leftM, yM: 3 },
];
export const ROOM_4_BY_3 = { outline: box(0, 4), holes: [] };
export const [LEFT_HALF, RIGHT_HALF, STRIP] = [box(0, 2), box(2, 4), box(0, 1)] as const;

/** A dry, sound slab with every test made, to get glued wood. It has no hold. */
export const SLAB: FloorInput = {
  layers: [layer('concrete-on-ground')],
  tests: SLAB_TESTS,
  marks: [],
  openings: [],
  circumstances: CALM,
  plan: ROOM_4_BY_3,
  areaM2: 12,
  yearBuilt: 1998,
  flooring: 'wood-glued',
  flooringLimits: null,
  level: { mode: 'level', ramp: null },
  product: { kind: 'cement-underlayment', powder: powder() },
  hasMoistureSystem: false,
  addedLoadPa: 200,
  depth: { leastM: 0.01, mostM: 0.01 },
  cutMostM: null,
  lifts: 1,
  isPouredOver: false,
  baseboardM: 13.1,
  hasStair: false,
  doorSteps: {},
  air: air(),
  overrides: [],
  now: NOW,
  today: '2026-05-04',
};

/** Dry, stiff plywood on joists with every test made. It has no hold. */
export const BOARDS: FloorInput = {
  ...SLAB,
  layers: [layer('plywood'), layer('joists')],
  tests: [test.wood('boards', [0.1, 0.09, 0.105]), test.wood('structure', [0.1, 0.11, 0.1]), test.look(), test.deflection(), test.air()],
};

/** The slab with tests of some kinds replaced. */
export function withTests(floor: FloorInput, ...tests: readonly FloorTest[]): FloorInput {
  const kinds = new Set(tests.map((one) => one.kind));
  return { ...floor, tests: [...floor.tests.filter((one) => !kinds.has(one.kind)), ...tests] };
}

/** The floor without tests of a kind. */
export function without(floor: FloorInput, kind: FloorTest['kind']): FloorInput {
  const removed = new Set(testsOf(floor.tests, kind).map((one) => one.id));
  return { ...floor, tests: floor.tests.filter((one) => !removed.has(one.id)) };
}

/** Facts of a floor, in US units. */
export function factsOf(floor: FloorInput): FloorFacts {
  return floorFacts(floor, wordingFor('us', 'en-US'));
}
