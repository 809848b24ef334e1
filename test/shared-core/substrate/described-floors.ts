/**
 * Floors as a contractor meets them, with the verdict, holds, other findings and checklist lines that the sources named in the rules ask
 * for. Written from the sources: 29 CFR 1926.1101 and .1153, 40 CFR 745, ASTM F710, F1869, F2170, F2873, F3010 (abstracts), IRC R301.7 and
 * R502.3.1, and common practice where no source is named.
 */
import type { FloorInput } from '../../../shared-core/substrate/floor-facts.ts';
import type { Verdict } from '../../../shared-core/substrate/rule.ts';
import { BOARDS, layer, mark, opening, powder, SLAB, test, withTests, without } from './a-floor.ts';

/** A floor with what is expected of it. `not` names rules and lines that would be wrong here. */
export type DescribedFloor = {
  readonly name: string;
  readonly floor: FloorInput;
  readonly verdict: Verdict;
  readonly rules: readonly string[];
  readonly lines: readonly string[];
  readonly not?: readonly string[];
};

const with_ = (from: FloorInput, layers: FloorInput['layers'], change: Partial<FloorInput> = {}): FloorInput => ({
  ...from,
  layers,
  ...change,
});
const slab = SLAB.layers;
const floorWith = (
  from: FloorInput,
  circumstances: Partial<FloorInput['circumstances']>,
  change: Partial<FloorInput> = {},
): FloorInput => ({
  ...from,
  circumstances: { ...from.circumstances, ...circumstances },
  ...change,
});
const rh = (share: number, count = 3) =>
  Array.from({ length: count }, (_, i) => test.humidity({ id: `rh-${i + 1}`, relativeHumidity: share }));
const drops = (seconds: number | null) => [1, 2, 3].map((i) => test.drop(`drop${i}`, seconds));
const lab = (layerId: string, state: 'found' | 'none-found', question: 'asbestos' | 'lead-paint' = 'asbestos') =>
  test.lab({ id: `lab-${layerId}-${question}`, layerId, state, question });
const tested = (floor: FloorInput, ...more: FloorInput['tests'][number][]): FloorInput => ({ ...floor, tests: [...floor.tests, ...more] });
const cutback = (yearInstalled: number | null, fate: 'keep' | 'remove' = 'keep') =>
  layer('adhesive-cutback', { id: 'cutback', yearInstalled, fate });
const tile = (yearInstalled: number | null, fate: 'keep' | 'remove' = 'keep') =>
  layer('resilient-tile', { id: 'tile', yearInstalled, fate });
const paint = layer('paint-or-sealer', { id: 'paint', yearInstalled: null });
const joists = layer('joists');

export const DESCRIBED_FLOORS: readonly DescribedFloor[] = [
  {
    name: 'a dry, tested slab',
    floor: SLAB,
    verdict: 'go',
    rules: ['slab-dry'],
    lines: ['abrade', 'vacuum', 'retest', 'prime', 'isolation-strip', 'keep-open', 'windows', 'stage', 'water', 'gauge'],
    not: ['clean:efflorescence', 'cart-path', 'between-lifts', 'topping-sand'],
  },
  {
    name: 'a slab of 1962 with cutback',
    floor: with_(SLAB, [cutback(1962), ...slab], { yearBuilt: 1962 }),
    verdict: 'hold',
    rules: ['asbestos-flooring'],
    lines: ['vacuum'],
    not: ['abrade', 'retest', 'adhesive-stays'],
  },
  {
    name: 'cutback of unknown year',
    floor: with_(SLAB, [cutback(null), ...slab]),
    verdict: 'hold',
    rules: ['asbestos-flooring'],
    lines: [],
    not: ['abrade'],
  },
  {
    name: 'cutback of 1985',
    floor: with_(SLAB, [cutback(1985), ...slab]),
    verdict: 'go-with-work',
    rules: ['asbestos-doubtful', 'adhesive-stays'],
    lines: [],
    not: ['asbestos-flooring'],
  },
  {
    name: 'vinyl tile of 1970 with asbestos, kept',
    floor: tested(with_(SLAB, [tile(1970), ...slab]), lab('tile', 'found')),
    verdict: 'go-with-work',
    rules: ['asbestos-found-stays', 'resilient-top'],
    lines: ['vacuum'],
    not: ['abrade', 'smooth-top'],
  },
  {
    name: 'waxed tile of 1970, not tested',
    floor: withTests(with_(SLAB, [tile(1970), ...slab]), test.look(['waxed'])),
    verdict: 'hold',
    rules: ['asbestos-flooring', 'asbestos-surface'],
    lines: ['vacuum'],
    not: ['surface-waxed', 'clean:waxed', 'abrade'],
  },
  {
    name: 'tile of 1970 with asbestos, to be removed',
    floor: tested(with_(SLAB, [tile(1970, 'remove'), ...slab]), lab('tile', 'found')),
    verdict: 'hold',
    rules: ['asbestos-found-out'],
    lines: ['remove:tile'],
  },
  {
    name: 'tile of 1970, nothing detected',
    floor: tested(with_(SLAB, [tile(1970, 'remove'), ...slab]), lab('tile', 'none-found')),
    verdict: 'go',
    rules: ['asbestos-none'],
    lines: ['remove:tile'],
  },
  {
    name: 'glued carpet over tile of unknown year',
    floor: with_(SLAB, [layer('carpet', { id: 'rug', fate: 'remove' }), tile(null), ...slab]),
    verdict: 'hold',
    rules: ['asbestos-flooring'],
    lines: ['remove:rug'],
    not: ['abrade'],
  },
  {
    name: 'sheet vinyl of 1974, to stay',
    floor: with_(SLAB, [layer('sheet-flooring', { yearInstalled: 1974 }), ...slab]),
    verdict: 'hold',
    rules: ['asbestos-flooring', 'sheet-stays'],
    lines: [],
    not: ['soft-layer'],
  },
  {
    name: 'a painted slab of 1950',
    floor: with_(SLAB, [paint, ...slab], { yearBuilt: 1950 }),
    verdict: 'go-with-work',
    rules: ['lead-floor', 'smooth-top'],
    lines: ['abrade', 'lead-pamphlet', 'lead-contain', 'lead-verify'],
  },
  {
    name: 'a painted slab of 1950 without lead',
    floor: tested(with_(SLAB, [paint, ...slab], { yearBuilt: 1950 }), lab('paint', 'none-found', 'lead-paint')),
    verdict: 'go-with-work',
    rules: ['smooth-top'],
    lines: ['abrade'],
    not: ['lead-floor', 'lead-pamphlet'],
  },
  {
    name: 'a painted slab of 1995',
    floor: with_(SLAB, [paint, ...slab], { yearBuilt: 1995 }),
    verdict: 'go-with-work',
    rules: ['smooth-top'],
    lines: ['abrade'],
    not: ['lead-floor'],
  },
  {
    name: 'varnished wood flooring of 1930 to be removed',
    floor: with_(BOARDS, [layer('wood-flooring', { id: 'oak', yearInstalled: 1930, fate: 'remove' }), ...BOARDS.layers], {
      yearBuilt: 1930,
    }),
    verdict: 'go-with-work',
    rules: ['lead-floor', 'asbestos-besides'],
    lines: ['remove:oak', 'lead-pamphlet', 'lead-contain', 'lead-verify'],
  },
  {
    name: '40 ft of 4 in. painted baseboard of 1940',
    floor: floorWith(
      SLAB,
      { paintedTrim: 'to-be-disturbed', baseboardHeightM: 0.1016 },
      { baseboardM: 12.192, yearBuilt: 1940, layers: [layer('concrete-on-ground', { yearInstalled: 1940 })] },
    ),
    verdict: 'go-with-work',
    rules: ['lead-paint'],
    lines: ['baseboard', 'lead-pamphlet'],
    not: ['lead-minor'],
  },
  {
    name: 'plywood with no joists listed',
    floor: with_(floorWith(BOARDS, { allowedExtraLoadPa: null }), [layer('plywood')]),
    verdict: 'go-with-work',
    rules: ['load-unasked', 'wood-wet-pour'],
    lines: ['refasten', 'reinforce'],
  },
  {
    name: 'a 2 in. pour on joists, no allowance',
    floor: floorWith(BOARDS, { allowedExtraLoadPa: null }, { addedLoadPa: 1000 }),
    verdict: 'hold',
    rules: ['load-heavy'],
    lines: ['stage'],
  },
  {
    name: 'planks over a crawl space',
    floor: with_(BOARDS, [layer('boards'), joists]),
    verdict: 'hold',
    rules: ['wood-build-up'],
    lines: ['gaps', 'plywood'],
  },
  {
    name: 'OSB that the data sheet does not name',
    floor: with_(BOARDS, [layer('osb'), joists]),
    verdict: 'hold',
    rules: ['wood-build-up'],
    lines: [],
  },
  {
    name: 'plywood on stiff, dry joists',
    floor: BOARDS,
    verdict: 'go-with-work',
    rules: ['wood-dry', 'deflection-within', 'load-within'],
    lines: ['refasten', 'gaps', 'prime', 'reinforce', 'cart-path', 'gauge'],
    not: ['abrade', 'retest', 'keep-open'],
  },
  {
    name: 'joists at 17%',
    floor: withTests(BOARDS, test.wood('boards', [0.1, 0.1, 0.1]), test.wood('structure', [0.1, 0.1, 0.17])),
    verdict: 'go-with-work',
    rules: ['joists-damp', 'wood-dry'],
    lines: [],
    not: ['joists-wet', 'wood-wet'],
  },
  {
    name: 'a notched joist',
    floor: floorWith(BOARDS, { structureSigns: ['cut-joist'] }),
    verdict: 'hold',
    rules: ['structure-sign'],
    lines: [],
  },
  { name: 'stone over L/576 joists', floor: { ...BOARDS, flooring: 'stone-tile' }, verdict: 'hold', rules: ['deflection-over'], lines: [] },
  {
    name: 'particleboard on joists',
    floor: with_(BOARDS, [layer('particleboard'), joists]),
    verdict: 'hold',
    rules: ['particleboard'],
    lines: [],
  },
  {
    name: 'a slab at 84% for glued wood',
    floor: withTests(SLAB, ...rh(0.84)),
    verdict: 'hold',
    rules: ['slab-humid', 'underlayment-humid'],
    lines: [],
  },
  {
    name: 'the same slab with a moisture system',
    floor: { ...withTests(SLAB, ...rh(0.84)), hasMoistureSystem: true },
    verdict: 'go-with-work',
    rules: ['slab-humid-system'],
    lines: ['moisture-system', 'moisture-sand', 'prime'],
    not: ['slab-humid', 'underlayment-humid'],
  },
  {
    name: 'a moisture system over gypsum',
    floor: with_(SLAB, [layer('gypsum'), ...slab], { hasMoistureSystem: true }),
    verdict: 'hold',
    rules: ['system-substrate', 'gypsum-under-cement'],
    lines: [],
  },
  { name: 'one moisture test of three', floor: withTests(SLAB, ...rh(0.7, 1)), verdict: 'hold', rules: ['moisture-few'], lines: [] },
  {
    name: 'a dish over old adhesive',
    floor: tested(with_(without(SLAB, 'slab-humidity'), [layer('adhesive-other'), ...slab]), test.dish()),
    verdict: 'hold',
    rules: ['test-missing'],
    lines: [],
  },
  {
    name: 'concrete that beads water',
    floor: withTests(SLAB, ...drops(null)),
    verdict: 'go-with-work',
    rules: ['beads-water'],
    lines: ['abrade'],
  },
  {
    name: 'a slab with white salts',
    floor: withTests(SLAB, test.look(['efflorescence'])),
    verdict: 'go-with-work',
    rules: ['surface-efflorescence'],
    lines: ['clean:efflorescence'],
  },
  {
    name: 'wood to be nailed over the pour',
    floor: { ...SLAB, flooring: 'wood-nailed' },
    verdict: 'hold',
    rules: ['nailed-over-pour'],
    lines: [],
  },
  {
    name: 'a bathroom with electric mats in the pour',
    floor: floorWith(SLAB, { radiantHeat: 'electric-in-pour' }),
    verdict: 'go-with-work',
    rules: ['heat-in-pour'],
    lines: ['heat-test', 'heating-off'],
    not: ['no-surface', 'heat-laid'],
  },
  {
    name: 'a bathroom with mats laid on the slab',
    floor: with_(SLAB, [layer('radiant-heating'), ...slab]),
    verdict: 'go-with-work',
    rules: ['heat-laid'],
    lines: ['heat-test', 'heating-off'],
    not: ['heat-in-pour', 'no-surface'],
  },
  {
    name: 'mats in the pour over plywood',
    // Fasteners go in before the heat is laid, so nothing holds them.
    floor: floorWith(BOARDS, { radiantHeat: 'electric-in-pour' }),
    verdict: 'go-with-work',
    rules: ['heat-in-pour', 'wood-wet-pour'],
    lines: ['refasten', 'reinforce', 'heat-test'],
    not: ['heat-laid'],
  },
  {
    name: 'cutback with asbestos, kept, on a data sheet that names adhesive',
    floor: {
      ...tested(with_(SLAB, [cutback(1962), ...slab], { yearBuilt: 1962 }), lab('cutback', 'found')),
      product: { kind: 'cement-underlayment', powder: powder({ bondsTo: ['concrete', 'adhesive'] }) },
    },
    verdict: 'go-with-work',
    rules: ['asbestos-found-stays'],
    lines: ['vacuum'],
    not: ['abrade', 'bond-not-named', 'adhesive-stays'],
  },
  {
    name: 'the same cutback on a data sheet that does not',
    floor: tested(with_(SLAB, [cutback(1962), ...slab], { yearBuilt: 1962 }), lab('cutback', 'found')),
    verdict: 'hold',
    rules: ['asbestos-found-stays', 'bond-not-named'],
    lines: [],
  },
  {
    name: 'tubing in the slab, glossy on top',
    floor: floorWith(withTests(SLAB, test.look(['glossy'])), { radiantHeat: 'in-floor' }),
    verdict: 'go-with-work',
    rules: ['radiant-heat', 'surface-glossy'],
    lines: ['abrade', 'heating-off'],
  },
  {
    name: 'a slab with an expansion joint',
    floor: { ...SLAB, marks: [mark('expansion-joint')] },
    verdict: 'go-with-work',
    rules: ['expansion-joint'],
    lines: ['carry-joints'],
    not: ['fill-cracks', 'joint-still'],
  },
  {
    name: 'a slab with a dormant crack',
    floor: { ...SLAB, marks: [mark('crack')] },
    verdict: 'go-with-work',
    rules: ['joint-still'],
    lines: ['fill-cracks'],
  },
  {
    name: 'a laundry that slopes to a drain, leveled',
    floor: floorWith(SLAB, { slopeToDrain: true }, { hasDrain: true }),
    verdict: 'hold',
    rules: ['fall-leveled'],
    lines: ['drains'],
  },
  {
    name: 'a floor at the foot of a stair',
    floor: { ...SLAB, hasStair: true },
    verdict: 'go-with-work',
    rules: ['stair-riser'],
    lines: [],
  },
  {
    name: 'a utility room with a gas heater',
    floor: floorWith(SLAB, { gasAppliance: true }, { openings: [opening()] }),
    verdict: 'go-with-work',
    rules: ['gas-appliance'],
    lines: ['gas', 'dams'],
  },
  {
    name: 'a topping left bare',
    floor: { ...SLAB, flooring: 'bare-sealed', product: { kind: 'cement-topping', powder: powder({ wearsBare: true }) } },
    verdict: 'go',
    rules: [],
    lines: ['abrade', 'topping-sand'],
    not: ['not-a-wearing-floor'],
  },
  {
    name: 'a topping over a moisture system',
    floor: {
      ...withTests(SLAB, ...rh(0.84)),
      flooring: 'bare-sealed',
      hasMoistureSystem: true,
      product: { kind: 'cement-topping', powder: powder({ wearsBare: true }) },
    },
    verdict: 'go',
    rules: [],
    lines: ['moisture-system', 'moisture-sand'],
    not: ['topping-sand', 'underlayment-humid'],
  },
  {
    name: 'a topping on a slab that pulls off at 150 psi',
    // 200 psi under toppings, 100 psi under flooring underlayment.
    floor: {
      ...withTests(SLAB, test.pull(150 * 6894.757)),
      flooring: 'bare-sealed',
      product: { kind: 'cement-topping', powder: powder({ wearsBare: true }) },
    },
    verdict: 'hold',
    rules: ['pull-weak'],
    lines: [],
  },
  {
    name: 'an underlayment on the same slab',
    floor: withTests(SLAB, test.pull(150 * 6894.757)),
    verdict: 'go',
    rules: ['pull-strong'],
    lines: [],
    not: ['pull-weak'],
  },
  {
    name: 'ceramic tile of 1965 to be chipped out',
    floor: with_(SLAB, [layer('ceramic-tile', { id: 'ceramic', yearInstalled: 1965, fate: 'remove' }), ...slab], { yearBuilt: 1965 }),
    verdict: 'go-with-work',
    rules: ['asbestos-besides'],
    lines: ['remove:ceramic', 'dust'],
    not: ['asbestos-flooring'],
  },
  {
    name: 'the same tile mortar, nothing detected',
    floor: tested(
      with_(SLAB, [layer('ceramic-tile', { id: 'ceramic', yearInstalled: 1965, fate: 'remove' }), ...slab], { yearBuilt: 1965 }),
      lab('ceramic', 'none-found'),
    ),
    verdict: 'go',
    rules: [],
    lines: ['remove:ceramic'],
    not: ['asbestos-besides'],
  },
  {
    name: 'black paper of 1955 left on the boards',
    floor: with_(BOARDS, [layer('underlay-felt', { id: 'paper', yearInstalled: 1955 }), ...BOARDS.layers], { yearBuilt: 1955 }),
    verdict: 'hold',
    rules: ['asbestos-flooring', 'soft-layer'],
    lines: [],
    not: ['abrade'],
  },
  {
    name: 'a slab of 1968 with floor registers',
    floor: floorWith(
      SLAB,
      { fixtures: ['floor-register'] },
      { yearBuilt: 1968, layers: [layer('concrete-on-ground', { yearInstalled: 1968 })] },
    ),
    verdict: 'go-with-work',
    rules: ['slab-ducts', 'asbestos-besides'],
    lines: ['fixtures', 'keep-open'],
  },
  {
    name: 'stone tile over a slab',
    floor: { ...without(SLAB, 'slab-humidity'), flooring: 'stone-tile' },
    verdict: 'go-with-work',
    rules: ['stone-and-moisture'],
    lines: [],
  },
  {
    name: 'a pour in two lifts',
    floor: { ...SLAB, lifts: 2, depth: { leastM: 0.02, mostM: 0.06 } },
    verdict: 'go',
    rules: [],
    lines: ['between-lifts'],
  },
  {
    name: 'gypsum underlayment that the data sheet names',
    floor: with_(SLAB, [layer('gypsum'), ...slab], {
      product: { kind: 'cement-underlayment', powder: powder({ bondsTo: ['concrete', 'gypsum'] }) },
    }),
    verdict: 'go-with-work',
    rules: ['gypsum-named'],
    lines: ['abrade', 'retest'],
    not: ['gypsum-under-cement'],
  },
  {
    name: '6 sq ft of painted trim of 1940',
    floor: floorWith(
      SLAB,
      { paintedTrim: 'to-be-disturbed', baseboardHeightM: 0.3048 },
      { baseboardM: 6 * 0.3048, yearBuilt: 1940, layers: [layer('concrete-on-ground', { yearInstalled: 1940 })] },
    ),
    verdict: 'go-with-work',
    rules: ['lead-minor'],
    lines: ['baseboard'],
    not: ['lead-paint', 'lead-pamphlet', 'lead-verify'],
  },
];
