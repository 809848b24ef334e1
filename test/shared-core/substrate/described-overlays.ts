/** Described floors: toppings, lifts, old materials, ducts, stone, gypsum. Written from the sources, as in `described-floors.ts`. */
import { BOARDS, layer, powder, SLAB, test, withTests, without } from './a-floor.ts';
import { floorWith, lab, rh, slab, tested, with_, type DescribedFloor } from './described-floor.ts';

export const DESCRIBED_OVERLAYS: readonly DescribedFloor[] = [
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
    floor: { ...SLAB, flooring: 'stone-tile' },
    verdict: 'go-with-work',
    rules: ['stone-and-moisture'],
    lines: [],
    not: ['test-missing'],
  },
  {
    name: 'tile over a slab that was not tested for the limit of the underlayment',
    floor: { ...without(SLAB, 'slab-humidity'), flooring: 'tile-large' },
    verdict: 'hold',
    rules: ['test-missing'],
    lines: [],
  },
  {
    name: 'tile over a moisture system on a slab that was not tested',
    floor: { ...without(SLAB, 'slab-humidity'), flooring: 'tile-large', hasMoistureSystem: true },
    verdict: 'go',
    rules: [],
    lines: ['moisture-system'],
    not: ['test-missing'],
  },
  {
    name: 'a pour in two lifts',
    floor: { ...SLAB, lifts: 2, depth: { leastM: 0.02, mostM: 0.06 } },
    verdict: 'go',
    rules: [],
    lines: [],
    not: ['between-lifts'],
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
