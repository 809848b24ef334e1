/**
 * Both sides of every rule: a floor on which it speaks and the nearest floor on which it does not. The limits come
 * from the published sources named in the rules' own table; measured values stand just over and just at the limit.
 */
import type { FloorInput } from '../../../shared-core/substrate/floor-facts.ts';
import { air, BOARDS, layer, mark, opening, powder, SLAB, test, withTests, without } from './a-floor.ts';

const PSI = 6894.757293168361;
const FT2 = 0.09290304;
const TILE = 'the-resilient-tile';

type Sides = { readonly speaks: FloorInput; readonly silent: FloorInput };

const slab = (change: Partial<FloorInput>): FloorInput => ({ ...SLAB, ...change });
const boards = (change: Partial<FloorInput>): FloorInput => ({ ...BOARDS, ...change });
const around = (change: Partial<FloorInput['circumstances']>, from: FloorInput = SLAB): FloorInput => ({
  ...from,
  circumstances: { ...from.circumstances, ...change },
});
const tile = (yearInstalled: number | null, fate: 'keep' | 'remove' = 'remove', ...tests: FloorInput['tests'][number][]): FloorInput => ({
  ...SLAB,
  layers: [layer('resilient-tile', { yearInstalled, fate }), ...SLAB.layers],
  tests: [...SLAB.tests, ...tests],
});
const lab = (change: Parameters<typeof test.lab>[0] = {}) => test.lab({ layerId: TILE, ...change });
const coating = (yearBuilt: number | null, ...tests: FloorInput['tests'][number][]): FloorInput => ({
  ...around({ texturedCoating: true }),
  yearBuilt,
  tests: [...SLAB.tests, ...tests],
});
const paint = (yearBuilt: number | null, ft2: number | null, ...tests: FloorInput['tests'][number][]): FloorInput => ({
  ...around({ paintedTrim: 'to-be-disturbed', paintDisturbedM2: ft2 === null ? null : ft2 * FT2 }),
  yearBuilt,
  tests: [...SLAB.tests, ...tests],
});
const paintLab = (state: 'found' | 'none-found') => test.lab({ question: 'lead-paint', state });
const humid = (share: number, change: Partial<FloorInput> = {}): FloorInput => ({
  ...withTests(SLAB, ...[1, 2, 3].map((i) => test.humidity({ id: `rh-${i}`, relativeHumidity: share }))),
  ...change,
});
/** Grams a dish of 0.0413 m² net gains in 66 h for so many pounds: one pound is 4.8824 g/m² a day. */
const dishes = (lb: number, change: Partial<FloorInput> = {}): FloorInput => ({
  ...without(SLAB, 'slab-humidity'),
  tests: [
    ...without(SLAB, 'slab-humidity').tests,
    ...[1, 2, 3].map((i) => test.dish({ id: `dish${i}`, massAfterG: 30 + (lb * 4.882427636 * 0.0413 * 66) / 24 })),
  ],
  ...change,
});
const wood = (share: number): FloorInput =>
  withTests(BOARDS, test.wood('boards', [0.1, 0.1, share]), test.wood('structure', [0.1, 0.1, 0.1]));
const looked = (is: Parameters<typeof test.look>[0]): FloorInput => withTests(SLAB, test.look(is));
const scratched = (...results: Parameters<typeof test.scratch>[1][]): FloorInput =>
  withTests(SLAB, ...results.map((result, i) => test.scratch(`scr${i}`, result)));
const pulled = (psi: number, failedIn: 'substrate' | 'glue' = 'substrate'): FloorInput => ({
  ...SLAB,
  tests: [...SLAB.tests, test.pull(psi * PSI, failedIn)],
});
const gypsum = (product: FloorInput['product']): FloorInput => slab({ layers: [layer('gypsum'), ...SLAB.layers], product });
const cement = (bondsTo: ReturnType<typeof powder>['bondsTo']): FloorInput['product'] => ({
  kind: 'cement-underlayment',
  powder: powder({ bondsTo }),
});
const span = (spanM: number, addedLoadPa = 200): FloorInput => ({ ...withTests(BOARDS, test.bounce({ spanM })), addedLoadPa });
const crack = (moves: 'still' | 'moving' | 'unknown'): FloorInput => slab({ marks: [mark('crack', { moves })] });
const airy = (change: Parameters<typeof air>[0], reading: Parameters<typeof air>[1] = {}): FloorInput =>
  slab({ air: air(change, reading) });
const door = (change: Parameters<typeof opening>[0], finishedLevelM: number | null = 0): FloorInput =>
  slab({ openings: [opening(change)], finishedLevelM });

/** By rule: the floor it speaks about, and the one it does not. */
export const RULE_SIDES: Readonly<Record<string, Sides>> = {
  // 29 CFR 1926.1101(k)(1): installed no later than 1980 (H5, H6, H8).
  'asbestos-flooring': { speaks: tile(1980), silent: tile(1981) },
  'asbestos-answer-incomplete': { speaks: tile(1970, 'remove', lab({ sample: '' })), silent: tile(1970, 'remove', lab()) },
  'asbestos-found-out': { speaks: tile(1970, 'remove', lab({ state: 'found' })), silent: tile(1970, 'keep', lab({ state: 'found' })) },
  'asbestos-found-stays': { speaks: tile(1970, 'keep', lab({ state: 'found' })), silent: tile(1970, 'keep', lab()) },
  'asbestos-none': { speaks: tile(1970, 'remove', lab()), silent: tile(1970, 'remove', lab({ state: 'sent' })) },
  'asbestos-later': { speaks: tile(1981), silent: tile(1980) },
  // 29 CFR 1926.1101(b): building constructed no later than 1980 (H6, H7).
  'asbestos-coating': { speaks: coating(1980), silent: coating(1981) },
  'asbestos-coating-found': { speaks: coating(1980, test.lab({ state: 'found' })), silent: coating(1980, test.lab()) },
  'coating-not-looked': {
    speaks: { ...around({ texturedCoating: null }), yearBuilt: 1980 },
    silent: { ...around({ texturedCoating: null }), yearBuilt: 1981 },
  },
  // 40 CFR 745.103 and .83 (H9, H10).
  'lead-paint': { speaks: paint(1977, 7), silent: paint(1978, 7) },
  'lead-minor': { speaks: paint(1970, 6), silent: paint(1970, 6.01) },
  'lead-found': { speaks: paint(1970, 7, paintLab('found')), silent: paint(1970, 7, paintLab('none-found')) },
  'lead-untouched': {
    speaks: { ...around({ paintedTrim: 'stays-untouched' }), yearBuilt: 1977 },
    silent: { ...around({ paintedTrim: 'stays-untouched' }), yearBuilt: 1978 },
  },
  'lead-not-looked': {
    speaks: { ...around({ paintedTrim: null }), yearBuilt: 1977 },
    silent: { ...around({ paintedTrim: null }), yearBuilt: 1978 },
  },
  // ASTM F710 default and BS 8201/8203: 75 %.
  'slab-humid': { speaks: humid(0.751), silent: humid(0.75) },
  'slab-humid-barrier': {
    speaks: humid(0.751, { primerKind: 'moisture-barrier' }),
    silent: humid(0.75, { primerKind: 'moisture-barrier' }),
  },
  'slab-dry': { speaks: humid(0.75), silent: humid(0.751) },
  // ASTM F710 default, from memory: 3 lb.
  'slab-emits': { speaks: dishes(3.01), silent: dishes(2.99) },
  'slab-emits-barrier': {
    speaks: dishes(3.01, { primerKind: 'moisture-barrier' }),
    silent: dishes(2.99, { primerKind: 'moisture-barrier' }),
  },
  'slab-emits-little': { speaks: dishes(2.99), silent: dishes(3.01) },
  'slab-on-ground': { speaks: around({ vaporRetarder: 'unknown' }), silent: SLAB },
  // NWFA, from memory: 12 %; planks within 2 %.
  'wood-wet': { speaks: wood(0.121), silent: wood(0.12) },
  'wood-dry': { speaks: wood(0.12), silent: wood(0.121) },
  'wood-apart': {
    speaks: boards({ tests: [...BOARDS.tests, test.wood('flooring', [0.07])] }),
    silent: boards({ tests: [...BOARDS.tests, test.wood('flooring', [0.08])] }),
  },
  // Trade guideline, second-hand: 4 % over the area's average.
  'wood-uneven': {
    speaks: withTests(BOARDS, test.wood('boards', [0.06, 0.06, 0.06]), test.wood('structure', [0.101, 0.101, 0.101])),
    silent: withTests(BOARDS, test.wood('boards', [0.06, 0.06, 0.06]), test.wood('structure', [0.1, 0.1, 0.1])),
  },
  'wood-wet-pour': { speaks: BOARDS, silent: SLAB },
  'no-layers': { speaks: slab({ layers: [] }), silent: SLAB },
  'no-surface': { speaks: slab({ layers: [layer('gravel')] }), silent: SLAB },
  'layer-weak': {
    speaks: slab({ layers: [layer('screed', { sound: 'weak' })] }),
    silent: slab({ layers: [layer('screed', { sound: 'weak', fate: 'remove' }), ...SLAB.layers] }),
  },
  'layer-loose': { speaks: boards({ layers: [layer('boards', { sound: 'loose' }), layer('joists')] }), silent: BOARDS },
  'layer-unsounded': { speaks: slab({ layers: [layer('concrete-on-ground', { sound: 'unknown' })] }), silent: SLAB },
  'soft-layer': {
    speaks: slab({ layers: [layer('carpet'), ...SLAB.layers] }),
    silent: slab({ layers: [layer('carpet', { fate: 'remove' }), ...SLAB.layers] }),
  },
  particleboard: {
    speaks: boards({ layers: [layer('particleboard'), layer('joists')] }),
    silent: boards({ layers: [layer('plywood'), layer('joists')] }),
  },
  'adhesive-stays': { speaks: slab({ layers: [layer('adhesive-other'), ...SLAB.layers] }), silent: SLAB },
  'smooth-top': { speaks: slab({ layers: [layer('ceramic-tile'), ...SLAB.layers] }), silent: SLAB },
  'surface-dusty': { speaks: looked(['dusty']), silent: looked(['sound-clean']) },
  'surface-glossy': { speaks: looked(['glossy']), silent: looked(['sound-clean']) },
  'surface-oily': { speaks: looked(['oily']), silent: looked(['sound-clean']) },
  'surface-waxed': { speaks: looked(['waxed']), silent: looked(['sound-clean']) },
  'surface-painted': { speaks: looked(['painted']), silent: looked(['sound-clean']) },
  'surface-curing-compound': { speaks: looked(['curing-compound']), silent: looked(['sound-clean']) },
  'surface-efflorescence': { speaks: looked(['efflorescence']), silent: looked(['sound-clean']) },
  'surface-rough': { speaks: looked(['rough']), silent: looked(['sound-clean']) },
  'scratch-crumbles': { speaks: scratched('firm', 'crumbles', 'firm'), silent: scratched('firm', 'dusts', 'firm') },
  'scratch-weak': { speaks: scratched('firm', 'dusts', 'firm'), silent: scratched('firm', 'firm', 'firm') },
  'scratch-firm': { speaks: scratched('firm', 'firm', 'firm'), silent: scratched('firm', 'scores', 'firm') },
  // ASTM C1583 by common practice, from memory: 200 psi.
  'pull-weak': { speaks: pulled(199.9), silent: pulled(200) },
  'pull-unproved': { speaks: pulled(199.9, 'glue'), silent: pulled(199.9) },
  'pull-strong': { speaks: pulled(200), silent: pulled(199.9) },
  // ASTM F710, upper limit from memory (M9).
  'ph-outside': { speaks: withTests(SLAB, test.ph(10.5)), silent: withTests(SLAB, test.ph(10)) },
  'ph-within': { speaks: withTests(SLAB, test.ph(7)), silent: withTests(SLAB, test.ph(6.9)) },
  'joint-moves': { speaks: crack('moving'), silent: crack('still') },
  'joint-unknown': { speaks: crack('unknown'), silent: crack('moving') },
  'joint-still': { speaks: crack('still'), silent: crack('moving') },
  hollow: { speaks: slab({ marks: [mark('hollow')] }), silent: crack('still') },
  contaminated: { speaks: slab({ marks: [mark('contaminated')] }), silent: crack('still') },
  // IRC Table R301.7: L/360. A 2×10 at 16 in of 1.6 million psi under 40 psf reaches it at 16 ft 4 in (W5 scaled by the cube of the span).
  'bounce-over': { speaks: span(5.0), silent: span(4.98) },
  'bounce-total': { speaks: span(4.6), silent: span(4.2672) },
  'bounce-within': { speaks: span(4.2672), silent: span(4.6) },
  'load-over': { speaks: around({ allowedExtraLoadPa: 199 }, BOARDS), silent: around({ allowedExtraLoadPa: 200 }, BOARDS) },
  'load-within': { speaks: around({ allowedExtraLoadPa: 200 }, BOARDS), silent: around({ allowedExtraLoadPa: 199 }, BOARDS) },
  'load-unasked': { speaks: around({ allowedExtraLoadPa: null }, BOARDS), silent: around({ allowedExtraLoadPa: null }) },
  'wood-no-gap': { speaks: around({ movementGap: 'absent' }, BOARDS), silent: BOARDS },
  'wood-gap-unknown': { speaks: around({ movementGap: null }, BOARDS), silent: around({ movementGap: null }) },
  'gypsum-under-cement': { speaks: gypsum(cement(['concrete'])), silent: gypsum(cement(['gypsum'])) },
  'gypsum-named': { speaks: gypsum(cement(['gypsum'])), silent: gypsum(cement(['concrete'])) },
  'gypsum-no-product': { speaks: gypsum(null), silent: gypsum({ kind: 'calcium-sulfate', powder: powder() }) },
  'bond-not-named': { speaks: boards({ product: cement(['concrete']) }), silent: boards({ product: cement(['wood']) }) },
  'not-a-wearing-floor': {
    speaks: slab({ flooring: 'bare-sealed', product: { kind: 'cement-underlayment', powder: powder({ wearsBare: false }) } }),
    silent: slab({ flooring: 'bare-sealed', product: { kind: 'cement-topping', powder: powder({ wearsBare: true }) } }),
  },
  // DIN 18560-3: C20.
  'product-weak': {
    speaks: slab({ product: { kind: 'cement-underlayment', powder: powder({ strengthPa: { value: 19.9e6, source: 'bag' } }) } }),
    silent: slab({ product: { kind: 'cement-underlayment', powder: powder({ strengthPa: { value: 20e6, source: 'bag' } }) } }),
  },
  'radiant-heat': { speaks: around({ radiantHeat: 'in-floor' }), silent: SLAB },
  'radiant-unknown': { speaks: around({ radiantHeat: null }), silent: SLAB },
  'fall-leveled': { speaks: around({ slopeToDrain: true }), silent: around({ slopeToDrain: true }, slab({ levelMode: 'follow' })) },
  'fall-kept': { speaks: around({ slopeToDrain: true }, slab({ levelMode: 'ramp' })), silent: around({ slopeToDrain: true }) },
  'drain-unasked': { speaks: around({ slopeToDrain: null }, slab({ hasDrain: true })), silent: around({ slopeToDrain: null }) },
  'outside-door-low': {
    speaks: door({ kind: 'exterior-door', adjoiningM: -0.001 }),
    silent: door({ kind: 'exterior-door', adjoiningM: 0 }),
  },
  'outside-door': { speaks: door({ kind: 'sliding-door', adjoiningM: 0 }), silent: door({ kind: 'sliding-door', adjoiningM: -0.001 }) },
  // ADA Standards 303.2, from memory: 1/4 in.
  'threshold-step': { speaks: door({ adjoiningM: -0.0064 }), silent: door({ adjoiningM: -0.00635 }) },
  'threshold-unmeasured': { speaks: door({ adjoiningM: null }), silent: door({ adjoiningM: 0 }) },
  'dew-close': { speaks: airy({ marginC: 2.9, marginPasses: false }), silent: airy({ marginC: 3, marginPasses: true }) },
  'dew-clear': { speaks: airy({ marginC: 3, marginPasses: true }), silent: airy({ marginC: 2.9, marginPasses: false }) },
  'too-cold': { speaks: airy({}, { surfaceTempC: 9.9 }), silent: airy({}, { surfaceTempC: 10 }) },
  'too-hot': { speaks: airy({}, { airTempC: 32.1 }), silent: airy({}, { airTempC: 32 }) },
  // FHWA-HRT-05-038 ch. 5: 1.0 and 0.5 kg/m²/h.
  'dries-too-fast': { speaks: airy({ evaporationKgM2H: 1.01 }), silent: airy({ evaporationKgM2H: 1 }) },
  'dries-fast': { speaks: airy({ evaporationKgM2H: 0.51 }), silent: airy({ evaporationKgM2H: 0.5 }) },
  'water-settles': { speaks: airy({ evaporationKgM2H: 0, condenses: true }), silent: airy({ evaporationKgM2H: 0 }) },
  'draft-unread': { speaks: airy({ evaporationKgM2H: null }, { airSpeedMPerS: null }), silent: SLAB },
  'test-missing': { speaks: without(SLAB, 'slab-humidity'), silent: SLAB },
  'test-few': { speaks: withTests(SLAB, test.humidity()), silent: SLAB },
  'air-on-the-day': { speaks: slab({ now: '2026-05-05T00:00:01Z' }), silent: slab({ now: '2026-05-05T00:00:00Z' }) },
  'no-flooring': { speaks: slab({ flooring: null }), silent: SLAB },
  'no-outline': { speaks: slab({ areaM2: null }), silent: SLAB },
};
