/**
 * Both sides of every rule: a floor on which it applies and the nearest floor on which it does not. Limits come from the published sources
 * in the rules' table; measured values are just over and just at the limit.
 */
import type { FloorInput } from '../../../shared-core/substrate/floor-facts.ts';
import { air, BOARDS, doorsOf, layer, mark, opening, powder, SLAB, STRIP, test, withTests, without } from './a-floor.ts';

const PSI = 6894.757293168361;
const FOOT = 0.3048;
const INCH = 0.0254;
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
/** Baseboard removed on this many square feet at a height of 1 ft: 40 CFR 745.83 counts the whole component. */
const paint = (yearBuilt: number | null, ft2: number, ...tests: FloorInput['tests'][number][]): FloorInput => ({
  ...around({ paintedTrim: 'to-be-disturbed', baseboardHeightM: FOOT }),
  baseboardM: ft2 * FOOT,
  yearBuilt,
  tests: [...SLAB.tests, ...tests],
});
const paintLab = (state: 'found' | 'none-found') => test.lab({ question: 'lead-paint', state });
const painted = (yearBuilt: number, result?: 'found' | 'none-found'): FloorInput =>
  slab({
    yearBuilt,
    layers: [layer('paint-or-sealer', { yearInstalled: null }), ...SLAB.layers],
    tests: [
      ...SLAB.tests,
      ...(result === undefined ? [] : [test.lab({ question: 'lead-paint', layerId: 'the-paint-or-sealer', state: result })]),
    ],
  });
const humid = (share: number, change: Partial<FloorInput> = {}): FloorInput => ({
  ...withTests(SLAB, ...[1, 2, 3].map((i) => test.humidity({ id: `rh-${i}`, relativeHumidity: share }))),
  ...change,
});
/** Grams that a dish of 0.0413 m² net gains in 66 h for this many pounds: one pound is 4.8824 g/m² per day. */
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
const joists = (share: number): FloorInput =>
  withTests(BOARDS, test.wood('boards', [0.1, 0.1, 0.1]), test.wood('structure', [0.1, 0.1, share]));
const looked = (is: Parameters<typeof test.look>[0]): FloorInput => withTests(SLAB, test.look(is));
const scratched = (...results: Parameters<typeof test.scratch>[1][]): FloorInput =>
  withTests(SLAB, ...results.map((result, i) => test.scratch(`scr${i}`, result)));
const pulled = (psi: number, failedIn: 'substrate' | 'glue' = 'substrate'): FloorInput => ({
  ...SLAB,
  tests: [...SLAB.tests, test.pull(psi * PSI, failedIn)],
});
const gypsum = (product: FloorInput['product']): FloorInput => slab({ layers: [layer('gypsum'), ...SLAB.layers], product });
const cement = (bondsTo: ReturnType<typeof powder>['bondsTo'], change: Partial<ReturnType<typeof powder>> = {}): FloorInput['product'] => ({
  kind: 'cement-underlayment',
  powder: powder({ bondsTo, ...change }),
});
const span = (spanM: number, addedLoadPa = 200): FloorInput => ({ ...withTests(BOARDS, test.deflection({ spanM })), addedLoadPa });
const crack = (moves: 'still' | 'moving' | 'unknown'): FloorInput => slab({ marks: [mark('crack', { moves })] });
const airy = (change: Parameters<typeof air>[0], reading: Parameters<typeof air>[1] = {}): FloorInput =>
  slab({ air: air(change, reading) });
const door = (change: Parameters<typeof opening>[0]): FloorInput => slab(doorsOf(opening(change)));

/** By rule: the floor it applies to, and the one it does not. */
export const RULE_SIDES: Readonly<Record<string, Sides>> = {
  // 29 CFR 1926.1101(k)(1): installed no later than 1980 (H5, H6, H8).
  'asbestos-flooring': { speaks: tile(1980), silent: tile(1981) },
  'asbestos-answer-incomplete': { speaks: tile(1970, 'remove', lab({ sample: '' })), silent: tile(1970, 'remove', lab()) },
  'asbestos-found-out': { speaks: tile(1970, 'remove', lab({ state: 'found' })), silent: tile(1970, 'keep', lab({ state: 'found' })) },
  'asbestos-found-stays': { speaks: tile(1970, 'keep', lab({ state: 'found' })), silent: tile(1970, 'keep', lab()) },
  'asbestos-none': { speaks: tile(1970, 'remove', lab()), silent: tile(1970, 'remove', lab({ state: 'sent' })) },
  // Trade articles: vinyl asbestos tile was sold into the 1980s; 1990 is a cautious end, common practice.
  'asbestos-doubtful': { speaks: tile(1981), silent: tile(1980) },
  // Common practice: nothing is disturbed between the sample and its result.
  'asbestos-pending': { speaks: tile(2001, 'remove', lab({ state: 'sent' })), silent: tile(2001, 'remove', lab()) },
  'asbestos-later': { speaks: tile(1991), silent: tile(1990) },
  // University lists of suspect materials name cove base, tile mortar, old patch and black paper; 1980 as for the presumed ones.
  'asbestos-besides': {
    speaks: { ...around({ paintedTrim: 'to-be-disturbed' }), yearBuilt: 1980 },
    silent: { ...around({ paintedTrim: 'to-be-disturbed' }), yearBuilt: 1981 },
  },
  // 29 CFR 1926.1101(b): building constructed no later than 1980 (H6, H7).
  'asbestos-coating': { speaks: coating(1980), silent: coating(1981) },
  'asbestos-coating-found': { speaks: coating(1980, test.lab({ state: 'found' })), silent: coating(1980, test.lab()) },
  'coating-not-looked': {
    speaks: { ...around({ texturedCoating: null }), yearBuilt: 1980 },
    silent: { ...around({ texturedCoating: null }), yearBuilt: 1981 },
  },
  // 40 CFR 745.103 and .83 (H9, H10).
  'lead-paint': { speaks: paint(1977, 7), silent: paint(1978, 7) },
  'lead-floor': { speaks: painted(1977), silent: painted(1978) },
  'lead-floor-found': { speaks: painted(1970, 'found'), silent: painted(1970, 'none-found') },
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
  // ASTM F710 default and BS 8201/8203: 75%.
  'slab-humid': { speaks: humid(0.751), silent: humid(0.75) },
  'slab-humid-system': {
    speaks: humid(0.751, { hasMoistureSystem: true }),
    silent: humid(0.75, { hasMoistureSystem: true }),
  },
  'slab-dry': { speaks: humid(0.75), silent: humid(0.751) },
  // ASTM F710 default, from memory: 3 lb.
  'slab-emits': { speaks: dishes(3.01), silent: dishes(2.99) },
  'slab-emits-system': {
    speaks: dishes(3.01, { hasMoistureSystem: true }),
    silent: dishes(2.99, { hasMoistureSystem: true }),
  },
  'slab-emits-little': { speaks: dishes(2.99), silent: dishes(3.01) },
  // The underlayment's own limits: 80% and 5 lb, typical.
  'underlayment-humid': { speaks: humid(0.801), silent: humid(0.8) },
  'underlayment-emits': { speaks: dishes(5.01), silent: dishes(4.99) },
  // ASTM F3010 4.3.
  'system-substrate': {
    speaks: slab({ layers: [layer('gypsum'), ...SLAB.layers], hasMoistureSystem: true }),
    silent: slab({ hasMoistureSystem: true }),
  },
  'slab-no-retarder': {
    speaks: around({ vaporRetarder: 'absent' }, slab({ product: cement(['concrete'], { slabHumidityMost: null, emissionMostLb: null }) })),
    silent: around({ vaporRetarder: 'absent' }),
  },
  // Common practice, no source.
  'slab-under-water': { speaks: { ...around({ belowGrade: true }), hasMoistureSystem: true }, silent: around({ belowGrade: false }) },
  'slab-on-ground': { speaks: around({ vaporRetarder: 'unknown' }), silent: SLAB },
  // NWFA, from memory: 12%; planks within 2%.
  'wood-wet': { speaks: wood(0.121), silent: wood(0.12) },
  'wood-dry': { speaks: wood(0.12), silent: wood(0.121) },
  'wood-apart': {
    speaks: boards({ tests: [...BOARDS.tests, test.wood('flooring', [0.07])] }),
    silent: boards({ tests: [...BOARDS.tests, test.wood('flooring', [0.08])] }),
  },
  // Trade guideline, second-hand: 4% over the area's average.
  'wood-uneven': {
    speaks: withTests(BOARDS, test.wood('boards', [0.05, 0.05, 0.12])),
    silent: withTests(BOARDS, test.wood('boards', [0.06, 0.06, 0.12])),
  },
  // Common practice: joists warn at 16%, hold at 19%.
  'joists-damp': { speaks: joists(0.161), silent: joists(0.16) },
  'joists-wet': { speaks: joists(0.191), silent: joists(0.19) },
  'wood-wet-pour': { speaks: BOARDS, silent: SLAB },
  'wood-fastening': { speaks: BOARDS, silent: boards({ layers: [layer('radiant-heating'), ...BOARDS.layers] }) },
  'wood-under-heat': {
    speaks: boards({ layers: [layer('radiant-heating'), ...BOARDS.layers] }),
    silent: boards({ layers: [layer('radiant-heating', { laid: 'after-readings' }), ...BOARDS.layers] }),
  },
  'no-layers': { speaks: slab({ layers: [] }), silent: SLAB },
  'no-structure': { speaks: slab({ layers: [layer('gypsum')] }), silent: slab({ layers: [layer('gypsum'), layer('joists')] }) },
  'no-surface': { speaks: slab({ layers: [layer('gravel')] }), silent: SLAB },
  // 28 days before the day of the floors, May 4, 2026, is in 2026.
  'concrete-new': {
    speaks: slab({ layers: [layer('concrete-on-ground', { yearInstalled: 2026 })] }),
    silent: slab({ layers: [layer('concrete-on-ground', { yearInstalled: 2025 })] }),
  },
  'layer-weak': {
    speaks: slab({ layers: [layer('screed', { sound: 'weak' })] }),
    silent: slab({ layers: [layer('screed', { sound: 'weak', fate: 'remove' }), ...SLAB.layers] }),
  },
  'layer-loose': { speaks: boards({ layers: [layer('plywood', { sound: 'loose' }), layer('joists')] }), silent: BOARDS },
  'layer-not-sounded': { speaks: slab({ layers: [layer('concrete-on-ground', { sound: 'unknown' })] }), silent: SLAB },
  'soft-layer': {
    speaks: slab({ layers: [layer('carpet'), ...SLAB.layers] }),
    silent: slab({ layers: [layer('carpet', { fate: 'remove' }), ...SLAB.layers] }),
  },
  'sheet-stays': {
    speaks: slab({ layers: [layer('sheet-flooring'), ...SLAB.layers] }),
    silent: slab({ layers: [layer('sheet-flooring', { fate: 'remove' }), ...SLAB.layers] }),
  },
  particleboard: {
    speaks: boards({ layers: [layer('particleboard'), layer('joists')] }),
    silent: boards({ layers: [layer('plywood'), layer('joists')] }),
  },
  'unproven-top': {
    speaks: slab({ layers: [layer('membrane'), ...SLAB.layers] }),
    silent: slab({ layers: [layer('screed'), layer('membrane'), ...SLAB.layers] }),
  },
  'adhesive-stays': { speaks: slab({ layers: [layer('adhesive-other'), ...SLAB.layers] }), silent: SLAB },
  'smooth-top': { speaks: slab({ layers: [layer('ceramic-tile'), ...SLAB.layers] }), silent: SLAB },
  'paint-stays': { speaks: painted(1995), silent: slab({ layers: [layer('screed'), ...painted(1995).layers] }) },
  'resilient-top': {
    speaks: slab({ layers: [layer('resilient-tile'), ...SLAB.layers] }),
    silent: slab({ layers: [layer('ceramic-tile'), ...SLAB.layers] }),
  },
  'resilient-part': {
    speaks: slab({ layers: [layer('resilient-tile', { area: STRIP }), ...SLAB.layers] }),
    silent: slab({ layers: [layer('resilient-tile'), ...SLAB.layers] }),
  },
  'asbestos-surface': {
    speaks: { ...looked(['waxed']), layers: [layer('resilient-tile', { yearInstalled: 1970 }), ...SLAB.layers] },
    silent: looked(['waxed']),
  },
  'beads-water': {
    speaks: withTests(SLAB, test.drop('drop1', null), test.drop('drop2'), test.drop('drop3')),
    silent: SLAB,
  },
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
  // Typical data sheets, second-hand: 100 psi under flooring underlayment.
  'pull-weak': { speaks: pulled(99.9), silent: pulled(100) },
  'pull-unproved': { speaks: pulled(99.9, 'glue'), silent: pulled(99.9) },
  'pull-strong': { speaks: pulled(100), silent: pulled(99.9) },
  // ASTM F710, upper limit from memory (M9).
  'ph-outside': { speaks: withTests(SLAB, test.ph(10.5)), silent: withTests(SLAB, test.ph(10)) },
  'ph-within': { speaks: withTests(SLAB, test.ph(7)), silent: withTests(SLAB, test.ph(6.9)) },
  'expansion-joint': { speaks: slab({ marks: [mark('expansion-joint')] }), silent: crack('still') },
  'joint-moves': { speaks: crack('moving'), silent: crack('still') },
  'joint-unknown': { speaks: crack('unknown'), silent: crack('moving') },
  'joint-still': { speaks: crack('still'), silent: crack('moving') },
  hollow: { speaks: slab({ marks: [mark('hollow')] }), silent: crack('still') },
  contaminated: { speaks: slab({ marks: [mark('contaminated')] }), silent: crack('still') },
  // IRC Table R301.7: L/360. A 2×10 at 16 in of 1.6 million psi under 40 psf reaches it at 16 ft 4 in (W5 scaled by the cube of the span).
  'deflection-over': { speaks: span(5.0), silent: span(4.98) },
  'deflection-total': { speaks: span(4.6), silent: span(4.2672) },
  'deflection-within': { speaks: span(4.2672), silent: span(4.6) },
  'steel-deck': {
    speaks: boards({ layers: [layer('metal'), layer('joists')] }),
    silent: boards({ layers: [layer('metal'), layer('plywood'), layer('joists')] }),
  },
  'load-over': { speaks: around({ allowedExtraLoadPa: 199 }, BOARDS), silent: around({ allowedExtraLoadPa: 200 }, BOARDS) },
  'load-within': { speaks: around({ allowedExtraLoadPa: 200 }, BOARDS), silent: around({ allowedExtraLoadPa: 199 }, BOARDS) },
  'load-unnamed': { speaks: around({ loadStatedBy: ' ' }, BOARDS), silent: BOARDS },
  'load-unasked': { speaks: around({ allowedExtraLoadPa: null }, BOARDS), silent: around({ allowedExtraLoadPa: null }) },
  // IRC R502.3.1: joist tables assume 10 psf, 478.8 Pa.
  'load-heavy': {
    speaks: around({ allowedExtraLoadPa: null }, boards({ addedLoadPa: 479 })),
    silent: around({ allowedExtraLoadPa: null }, boards({ addedLoadPa: 478 })),
  },
  'structure-sign': { speaks: around({ structureSigns: ['rot'] }, BOARDS), silent: BOARDS },
  'structure-unchecked': { speaks: around({ structureSigns: null }, BOARDS), silent: around({ structureSigns: null }) },
  'wood-build-up': {
    speaks: boards({ layers: [layer('osb'), layer('joists')] }),
    silent: boards({ layers: [layer('osb'), layer('joists')], product: cement(['osb']) }),
  },
  // A concrete trade article, second-hand: 3/4 in. of plywood under it. IRC Table R503.2.1.1(1), from memory: such panels measure 23/32 in.
  'thin-subfloor': {
    speaks: boards({ layers: [layer('plywood', { thicknessM: (5 / 8) * INCH }), layer('joists')] }),
    silent: boards({ layers: [layer('plywood', { thicknessM: (23 / 32) * INCH }), layer('joists')] }),
  },
  'thin-over-wood': {
    speaks: boards({ product: cement(['plywood'], { overWoodLeastM: { value: 0.0101, source: 'bag' } }) }),
    silent: boards({ product: cement(['plywood'], { overWoodLeastM: { value: 0.01, source: 'bag' } }) }),
  },
  'sanding-deep': { speaks: boards({ cutMostM: (3 / 16) * INCH }), silent: boards({ cutMostM: (2 / 16) * INCH }) },
  'gypsum-under-cement': { speaks: gypsum(cement(['concrete'])), silent: gypsum(cement(['gypsum'])) },
  'gypsum-named': { speaks: gypsum(cement(['gypsum'])), silent: gypsum(cement(['concrete'])) },
  'gypsum-no-product': { speaks: gypsum(null), silent: gypsum({ kind: 'calcium-sulfate', powder: powder() }) },
  'bond-not-named': { speaks: boards({ product: cement(['concrete']) }), silent: boards({ product: cement(['plywood']) }) },
  'not-a-wearing-floor': {
    speaks: slab({ flooring: 'bare-sealed', product: { kind: 'cement-underlayment', powder: powder({ wearsBare: false }) } }),
    silent: slab({ flooring: 'bare-sealed', product: { kind: 'cement-topping', powder: powder({ wearsBare: true }) } }),
  },
  // No standard limits a slab under stone; the supplier's own limit makes the rule silent.
  'stone-and-moisture': { speaks: slab({ flooring: 'stone-tile' }), silent: slab({ flooring: 'tile-large' }) },
  'nailed-over-pour': { speaks: slab({ flooring: 'wood-nailed' }), silent: SLAB },
  // Typical of glue-down wood data sheets: 3,000 psi.
  'product-weak': {
    speaks: slab({ product: cement(['concrete'], { strengthPa: { value: 2999 * PSI, source: 'bag' } }) }),
    silent: slab({ product: cement(['concrete'], { strengthPa: { value: 3000 * PSI, source: 'bag' } }) }),
  },
  'heat-laid': {
    speaks: slab({ layers: [layer('radiant-heating'), ...SLAB.layers] }),
    silent: around({ radiantHeat: 'electric-in-pour' }),
  },
  'heat-in-pour': { speaks: around({ radiantHeat: 'electric-in-pour' }), silent: around({ radiantHeat: 'in-floor' }) },
  // Common practice, no source: 3/8 in. over a mat of 1/8 in.
  'thin-over-heat': {
    speaks: around({ radiantHeat: 'electric-in-pour' }, slab({ depth: { leastM: 0.49 * INCH, mostM: 0.02 } })),
    silent: around({ radiantHeat: 'electric-in-pour' }, slab({ depth: { leastM: 0.5 * INCH, mostM: 0.02 } })),
  },
  'heat-thickness': {
    speaks: around({ radiantHeat: 'hydronic-in-pour' }),
    silent: around({ radiantHeat: 'hydronic-in-pour' }, slab({ layers: [layer('radiant-heating'), ...SLAB.layers] })),
  },
  'radiant-heat': { speaks: around({ radiantHeat: 'in-floor' }), silent: SLAB },
  'radiant-unknown': { speaks: around({ radiantHeat: null }), silent: SLAB },
  'fall-leveled': {
    speaks: around({ slopeToDrain: true }),
    silent: around({ slopeToDrain: true }, slab({ level: { mode: 'follow', ramp: null } })),
  },
  'fall-kept': {
    speaks: around({ slopeToDrain: true }, slab({ level: { mode: 'follow', ramp: null } })),
    silent: around({ slopeToDrain: true }),
  },
  'vehicle-door': {
    speaks: slab(doorsOf(opening({ kind: 'exterior-door', widthM: 7 * FOOT, adjoiningM: 0.01 }))),
    silent: slab(doorsOf(opening({ kind: 'exterior-door', widthM: 6 * FOOT, adjoiningM: 0.01 }))),
  },
  'drain-unasked': { speaks: around({ slopeToDrain: null, fixtures: ['floor-drain'] }), silent: around({ slopeToDrain: null }) },
  'outdoors-or-wet': { speaks: around({ outdoorsOrWet: true }), silent: SLAB },
  'wet-unasked': {
    speaks: around({ outdoorsOrWet: null, fixtures: ['floor-drain'] }),
    silent: around({ outdoorsOrWet: null }),
  },
  'outside-door-low': {
    speaks: door({ kind: 'exterior-door', adjoiningM: -0.001 }),
    silent: door({ kind: 'exterior-door', adjoiningM: 0 }),
  },
  'outside-door': { speaks: door({ kind: 'sliding-door', adjoiningM: 0 }), silent: door({ kind: 'sliding-door', adjoiningM: -0.001 }) },
  // ADA Standards 303.2, from memory: 1/4 in.
  'threshold-step': { speaks: door({ adjoiningM: -0.0064 }), silent: door({ adjoiningM: -0.00635 }) },
  'threshold-unmeasured': { speaks: door({ adjoiningM: null }), silent: door({ adjoiningM: 0 }) },
  'stair-riser': { speaks: slab({ hasStair: true }), silent: SLAB },
  'slab-ducts': { speaks: around({ fixtures: ['floor-register'] }), silent: around({ fixtures: ['floor-register'] }, BOARDS) },
  'gas-appliance': { speaks: around({ gasAppliance: true }), silent: SLAB },
  'gas-not-looked': { speaks: around({ gasAppliance: null }), silent: around({ gasAppliance: true }) },
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
  // ASTM F2170 and F1869, second-hand: three in the first 1,000 sq ft.
  'moisture-few': { speaks: withTests(SLAB, test.humidity()), silent: SLAB },
  'test-few': { speaks: withTests(SLAB, test.drop('drop1')), silent: SLAB },
  'holes-in-hazard': {
    speaks: { ...tile(1970), tests: without(SLAB, 'slab-humidity').tests },
    silent: without(SLAB, 'slab-humidity'),
  },
  'holes-over-heat': {
    speaks: around({ radiantHeat: 'in-floor' }, without(SLAB, 'slab-humidity')),
    silent: around({ radiantHeat: 'in-floor' }),
  },
  'air-on-the-day': { speaks: slab({ now: '2026-05-05T00:00:01Z' }), silent: slab({ now: '2026-05-05T00:00:00Z' }) },
  'no-flooring': { speaks: slab({ flooring: null }), silent: SLAB },
  'no-outline': { speaks: slab({ areaM2: null }), silent: SLAB },
};
