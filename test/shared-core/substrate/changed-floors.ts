/** Floors changed in one respect at a time: every value of each record's choices, and figures on both sides of a usual one. */
import { flooringSchema } from '../../../shared-core/book/flooring.ts';
import { circumstancesSchema, fixtureSchema, layerMaterialSchema, structureSignSchema } from '../../../shared-core/book/layer.ts';
import { markSchema, openingSchema } from '../../../shared-core/book/plan-fields.ts';
import type { FloorInput } from '../../../shared-core/substrate/floor-facts.ts';
import { air, BOARDS, doorsOf, layer, mark, opening, powder, SLAB, test, withTests, without } from './a-floor.ts';

type Change = readonly [name: string, change: (floor: FloorInput) => FloorInput];

const set = (change: Partial<FloorInput>): Change => [JSON.stringify(change).slice(0, 60), (floor) => ({ ...floor, ...change })];
const around = (change: Partial<FloorInput['circumstances']>): Change => [
  JSON.stringify(change),
  (floor) => ({ ...floor, circumstances: { ...floor.circumstances, ...change } }),
];
const tested = (name: string, ...tests: FloorInput['tests']): Change => [name, (floor) => withTests(floor, ...tests)];
const airy = (change: Parameters<typeof air>[0], reading: Parameters<typeof air>[1] = {}): Change => [
  `air ${JSON.stringify({ ...change, ...reading })}`,
  (floor) => ({ ...floor, air: air(change, reading) }),
];
const sheet = (change: Parameters<typeof powder>[0], kind: 'cement-underlayment' | 'calcium-sulfate' = 'cement-underlayment') =>
  set({ product: { kind, powder: powder(change) } });
const figure = <T>(value: T) => ({ value, source: 'typical' as const });
const { shape } = circumstancesSchema;

const LAYERS: readonly Change[] = layerMaterialSchema.options.flatMap((material) =>
  (
    [
      ['keep', 2001, 'sound'],
      ['keep', 1970, 'sound'],
      ['remove', 1985, 'loose'],
      ['keep', null, 'weak'],
      ['remove', null, 'unknown'],
    ] as const
  ).map(
    ([fate, yearInstalled, sound]): Change => [
      `${material} ${fate} ${String(yearInstalled)} ${sound}`,
      (floor) => ({ ...floor, layers: [layer(material, { id: 'added', fate, yearInstalled, sound }), ...floor.layers] }),
    ],
  ),
);

const CIRCUMSTANCES: readonly Change[] = [
  ...[...shape.paintedTrim.unwrap().options, null].map((paintedTrim) => around({ paintedTrim })),
  around({ paintedTrim: 'to-be-disturbed', baseboardHeightM: 0.02 }),
  ...[...shape.radiantHeat.unwrap().options, null].map((radiantHeat) => around({ radiantHeat })),
  ...[...shape.vaporRetarder.unwrap().options, null].map((vaporRetarder) => around({ vaporRetarder })),
  around({ belowGrade: true, vaporRetarder: 'absent' }),
  ...[true, null].flatMap((is) => [
    around({ belowGrade: is }),
    around({ slopeToDrain: is }),
    around({ outdoorsOrWet: is }),
    around({ texturedCoating: is }),
    around({ gasAppliance: is }),
  ]),
  ...[0, 150, null].map((allowedExtraLoadPa) => around({ allowedExtraLoadPa })),
  around({ loadStatedBy: '' }),
  ...structureSignSchema.options.map((sign) => around({ structureSigns: [sign] })),
  around({ structureSigns: null }),
  ...fixtureSchema.options.map((fixture) => around({ fixtures: [fixture] })),
];

export const TESTS: readonly Change[] = [
  ...[...new Set([...SLAB.tests, ...BOARDS.tests].map(({ kind }) => kind))].map(
    (kind): Change => [`without ${kind}`, (floor) => without(floor, kind)],
  ),
  ...[0.74, 0.75, 0.81, 0.97].map((share) =>
    tested(`${share} RH`, ...[1, 2, 3].map((i) => test.humidity({ id: `rh-${i}`, relativeHumidity: share }))),
  ),
  tested('RH not settled', test.humidity({ settledHours: 10, depthM: 0.01 })),
  ...[30.2, 31.5].map((massAfterG) => tested(`dish ${massAfterG}`, ...[1, 2, 3].map((i) => test.dish({ id: `dish${i}`, massAfterG })))),
  ...[0.12, 0.16, 0.2].flatMap((share) =>
    (['boards', 'structure', 'flooring'] as const).map((part) => tested(`${part} at ${share}`, test.wood(part, [share, share, 0.1]))),
  ),
  ...[5, 70, null].map((seconds) => tested(`drops ${String(seconds)}`, ...[1, 2, 3].map((i) => test.drop(`drop${i}`, seconds)))),
  ...[6, 9.5, 12].map((ph) => tested(`pH ${ph}`, test.ph(ph))),
  ...[0.3e6, 1e6, 2e6].flatMap((pa) =>
    (['substrate', 'glue', 'between', 'unknown'] as const).map((failedIn) => tested(`pull ${pa} ${failedIn}`, test.pull(pa, failedIn))),
  ),
  ...(['scores', 'dusts', 'crumbles'] as const).map((result) => tested(result, test.scratch('scr1', result))),
  ...(['dusty', 'oily', 'curing-compound'] as const).map((is) => tested(is, test.look([is]))),
  ...[2.5, 4.9, 6].map((spanM) => tested(`span ${spanM}`, test.deflection({ spanM }))),
  ...(['sent', 'found', 'none-found'] as const).flatMap((state) =>
    (['asbestos', 'lead-paint'] as const).flatMap((question) =>
      [null, 'added'].map((layerId) =>
        tested(
          `${question} ${state} ${String(layerId)}`,
          test.lab({ question, state, layerId, resultOn: state === 'sent' ? null : '2026-05-01' }),
        ),
      ),
    ),
  ),
];

const PLACES: readonly Change[] = [
  ...markSchema.shape.kind.options.flatMap((kind) =>
    markSchema.shape.moves.options.map(
      (moves): Change => [
        `${kind} ${moves}`,
        (floor) => ({ ...floor, marks: [mark(kind, { moves, shape: moves === 'moving' ? 'line' : 'area' })] }),
      ],
    ),
  ),
  ...openingSchema.shape.kind.options.flatMap((kind) =>
    openingSchema.shape.edge.options.flatMap((edge) =>
      [null, -0.02, 0.004, 0.03].map(
        (adjoiningM): Change => [
          `${kind} ${edge} ${String(adjoiningM)}`,
          (floor) => ({ ...floor, ...doorsOf(opening({ kind, edge, adjoiningM })) }),
        ],
      ),
    ),
  ),
];

const FIGURES: readonly Change[] = [
  ...flooringSchema.options.map((flooring) => set({ flooring })),
  set({ flooring: null }),
  set({ product: null }),
  sheet({}, 'calcium-sulfate'),
  sheet({ bondsTo: ['gypsum', 'planks', 'osb', 'concrete', 'adhesive'] }),
  sheet({ bondsTo: [] }),
  sheet({ wearsBare: false, strengthPa: figure(12e6), slabHumidityMost: figure(0.6), emissionMostLb: figure(1) }),
  sheet({ liftM: figure({ least: 0.012, most: 0.02 }), roomTempC: figure({ least: 19, most: 19.5 }) }),
  ...(['follow', 'ramp'] as const).map((mode) => set({ level: { mode, ramp: null } })),
  set({ hasMoistureSystem: true }),
  set({ hasStair: true }),
  ...[null, 3, 150].map((areaM2) => set({ areaM2 })),
  ...[null, 1950, 1979, 1985].map((yearBuilt) => set({ yearBuilt })),
  ...[null, 1500].map((addedLoadPa) => set({ addedLoadPa })),
  set({ depth: null }),
  set({ depth: { leastM: 0.001, mostM: 0.06 } }),
  ...[null, 3].map((lifts) => set({ lifts })),
  set({ baseboardM: null }),
  ['a sill whose step is not known', (floor) => ({ ...floor, openings: [opening({ kind: 'exterior-door', adjoiningM: -0.02 })] })],
  set({ air: null }),
  airy({ dewPointC: null, marginC: 1 }),
  airy({ dewPointC: 9, marginC: null }),
  airy({ marginPasses: false, marginC: 1.2 }),
  ...[null, 0.49, 0.51, 0.99, 1.01].map((evaporationKgM2H) => airy({ evaporationKgM2H })),
  airy({ condenses: true }),
  airy({}, { airSpeedMPerS: null }),
  airy({}, { surfaceTempC: null }),
  airy({}, { airTempC: 34, surfaceTempC: 20 }),
  airy({}, { airTempC: 20, surfaceTempC: 4 }),
];

export const CHANGES: readonly Change[] = [...LAYERS, ...CIRCUMSTANCES, ...TESTS, ...PLACES, ...FIGURES];

const OLD: FloorInput['circumstances'] = {
  ...SLAB.circumstances,
  paintedTrim: 'to-be-disturbed',
  baseboardHeightM: 0.15,
  texturedCoating: true,
  fixtures: ['floor-register'],
};
/** What is changed: a slab and a framed floor without fault, and an old floor where little is known. */
export const CHANGED: Readonly<Record<string, FloorInput>> = {
  slab: SLAB,
  boards: BOARDS,
  'old floor': {
    ...SLAB,
    layers: [
      layer('gypsum', { yearInstalled: null }),
      layer('resilient-tile', { id: 'old', yearInstalled: null }),
      layer('paint-or-sealer'),
      ...SLAB.layers,
    ],
    tests: [],
    marks: [mark('crack', { moves: 'unknown' })],
    openings: [opening({ kind: 'exterior-door', adjoiningM: null })],
    circumstances: OLD,
    yearBuilt: null,
    level: { mode: 'follow', ramp: null },
    product: null,
    air: null,
  },
};
