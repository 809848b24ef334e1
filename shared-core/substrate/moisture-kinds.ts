/** The moisture tests: in-slab relative humidity, calcium chloride, wood moisture content. */
import type { Layer, LayerMaterial } from '../book/layer.ts';
import type { TestOf } from '../book/tests-of.ts';
import { formatDepth } from '../measure/length-format.ts';
import { formatListOr } from '../measure/list.ts';
import { formatNumber } from '../measure/number.ts';
import { formatPercent } from '../measure/percent.ts';
import { topLayers } from './exposed-layers.ts';
import { LAYER_WORDS } from './layer-words.ts';
import {
  DISH_HOURS,
  emissionLb,
  PROBE_DEPTH_SHARE,
  probeDepthM,
  SETTLED_HOURS,
  whyHumidityDoesNotCount,
  meanMoisture,
} from './measured-tests.ts';
import { alwaysCounts, option, type TestKind } from './test-kind.ts';

/** Typical range of a reading; outside it a typo is more likely than a true reading. */
const UNLIKELY = { humidityUnder: 0.2, emissionOverLb: 25, woodUnder: 0.04, woodOver: 0.3 };

/** ASTM F2170: a probe in a hole in the slab. */
export const slabHumidity: TestKind<TestOf<'slab-humidity'>> = {
  name: 'In-slab relative humidity',
  goodForHours: 30 * 24,
  visitHours: 72,
  answers: ['slab-moisture'],
  form: {
    title: 'In-slab relative humidity (RH)',
    source:
      'ASTM F2170. Drill with a shroud and HEPA vacuum, and only where no asbestos or lead hold applies. First have radiant heat and post-tensioning tendons in the slab located and marked.',
    begins: { relativeHumidity: null, depthM: null, slabThicknessM: null, dryingSides: 1, settledHours: 24, slabTempC: null },
    fields: [
      { key: 'relativeHumidity', label: 'RH', as: 'share' },
      { key: 'slabThicknessM', label: 'Slab thickness', as: 'quantity', kind: 'depth', optional: true },
      { key: 'depthM', label: 'Probe depth', as: 'quantity', kind: 'depth', hint: '40% of the slab drying from one side, 20% from two' },
      { key: 'dryingSides', label: 'Drying sides', as: 'choice', options: [option('1', 'one'), option('2', 'two')] },
      { key: 'settledHours', label: 'Equilibration time', as: 'number', unit: 'h', least: 0, most: 1000 },
      { key: 'slabTempC', label: 'Slab temperature', as: 'quantity', kind: 'temperature', optional: true },
    ],
    again: ['relativeHumidity', 'slabTempC'],
  },
  words: (test, units) => `${formatPercent(test.relativeHumidity, 0)} RH at ${formatDepth(test.depthM, units)}`,
  arithmetic: (test, _limits, w) =>
    test.slabThicknessM === null
      ? []
      : [
          `A slab of ${w.depth(test.slabThicknessM)} drying from ${test.dryingSides === 1 ? 'one side' : 'two sides'} is measured at ${w.share(PROBE_DEPTH_SHARE[test.dryingSides])} of its thickness, ${w.depth(probeDepthM(test.slabThicknessM, test.dryingSides))}, after ${SETTLED_HOURS} h of equilibration.`,
        ],
  doesNotCount: (test, _layers, { depth }) => whyHumidityDoesNotCount(test, depth),
  questions: (test, w) => [
    test.relativeHumidity >= 1 && '100% means water in the hole or a wet probe. Test again.',
    test.relativeHumidity < UNLIKELY.humidityUnder &&
      `${w.share(test.relativeHumidity)} is drier than a slab gets. Is it the room humidity?`,
    test.slabThicknessM !== null && test.depthM >= test.slabThicknessM && 'The probe depth equals the slab thickness. Check both values.',
  ],
};

/** Dish and dome of the common kit, 0.44486 sq ft net; edited for other kits. */
const DOME_M2 = 0.04516;
const DISH_M2 = 0.003831;

/** Bare concrete, the only substrate for a calcium chloride test: ASTM F1869 clauses 1.2 and 1.3 rule out coatings, adhesive, gypsum and patching or leveling compounds. */
const DISH_ON: readonly LayerMaterial[] = ['concrete-on-ground', 'concrete-suspended', 'screed'];

/** Why the surface under a dish does not suit the method; null where it does. Without a named layer it was on one that lies on top. */
function whyNotUnderDish(overLayerId: string | null, layers: readonly Layer[]): string | null {
  const named = layers.filter((layer) => layer.id === overLayerId);
  const under = named.length > 0 ? named : topLayers(layers, { outline: [], holes: [] }).map(({ layer }) => layer);
  const others = under.filter(({ material }) => !DISH_ON.includes(material));
  if (others.length === 0) return null;
  if (others.length < under.length) return 'Enter what the dish was placed on. ASTM F1869 needs bare, ground concrete.';
  const words = formatListOr([...new Set(others.map(({ material }) => LAYER_WORDS[material]))]);
  return `The dish was on ${words}. ASTM F1869 needs bare, ground concrete: test the slab itself, or its RH.`;
}

/** ASTM F1869: a dish of calcium chloride under a dome. */
export const moistureDish: TestKind<TestOf<'moisture-dish'>> = {
  name: 'Calcium chloride',
  goodForHours: 30 * 24,
  visitHours: 72,
  answers: ['slab-moisture'],
  form: {
    title: 'Calcium chloride test (MVER)',
    source: 'ASTM F1869: bare, ground concrete only',
    begins: { massBeforeG: null, massAfterG: null, dishAreaM2: DISH_M2, domeAreaM2: DOME_M2, hours: 72, overLayerId: null },
    fields: [
      { key: 'massBeforeG', label: 'Weight before', as: 'number', unit: 'g', least: 0.1, most: 2000 },
      { key: 'massAfterG', label: 'Weight after', as: 'number', unit: 'g', least: 0.1, most: 2000 },
      { key: 'hours', label: 'Exposure', as: 'number', unit: 'h', least: 1, most: 400 },
      { key: 'domeAreaM2', label: 'Dome area', as: 'quantity', kind: 'area' },
      { key: 'dishAreaM2', label: 'Dish area', as: 'quantity', kind: 'area' },
      { key: 'overLayerId', label: 'Dish placed on', as: 'layer', optional: true },
    ],
    again: ['massBeforeG', 'massAfterG'],
  },
  words: (test, _units, locale) => {
    const emission = emissionLb(test);
    return emission.ok ? `${formatNumber(emission.value, { most: 1 }, locale)} lb per 1,000 sq ft in 24 h` : emission.message;
  },
  arithmetic: (test, _limits, w) => {
    const emission = emissionLb(test);
    if (!emission.ok) return [];
    const gained = w.number(test.massAfterG - test.massBeforeG, 2);
    const net = w.area(test.domeAreaM2 - test.dishAreaM2);
    return [
      `${gained} g gained over ${net} in ${w.number(test.hours, 1)} h is ${w.emission(emission.value)}. Exposure must be ${DISH_HOURS.least} to ${DISH_HOURS.most} h.`,
    ];
  },
  doesNotCount: (dish, layers) => {
    const why = whyNotUnderDish(dish.overLayerId, layers);
    if (why !== null) return why;
    const emission = emissionLb(dish);
    if (!emission.ok) return emission.message;
    if (dish.hours < DISH_HOURS.least || dish.hours > DISH_HOURS.most) {
      return `The dish was exposed ${dish.hours} h. The method needs ${DISH_HOURS.least} to ${DISH_HOURS.most} h.`;
    }
    return null;
  },
  questions: (test, w) => {
    const emission = emissionLb(test);
    if (!emission.ok) return [emission.message];
    return [
      emission.value > UNLIKELY.emissionOverLb &&
        `${w.emission(emission.value)} is more than slabs emit. Check the weights, in grams, and the areas.`,
    ];
  },
};

const WOOD_PARTS = { boards: 'subfloor', structure: 'joists', flooring: 'new flooring' } as const;
const places = (count: number, singular: string, plural: string): string => `${count} ${count === 1 ? singular : plural}`;

/** Meter readings in the subfloor, the joists or the new flooring. */
export const woodMoisture: TestKind<TestOf<'wood-moisture'>> = {
  name: 'Wood moisture content',
  goodForHours: 14 * 24,
  visitHours: 12,
  answers: ['wood-boards', 'wood-structure'],
  form: {
    title: 'Wood moisture content (MC)',
    source: 'Moisture meter, several places; NWFA',
    begins: { part: 'boards', readings: null },
    fields: [
      {
        key: 'part',
        label: 'Part',
        as: 'choice',
        options: Object.entries(WOOD_PARTS).map(([part, name]) => option(part, name)),
      },
      { key: 'readings', label: 'Readings', as: 'shares', hint: 'percent, separated by spaces: 10.5 11 9.8' },
    ],
  },
  words: (test) =>
    `${WOOD_PARTS[test.part]}, average ${formatPercent(meanMoisture(test.readings) ?? 0, 1)} in ${places(test.readings.length, 'place', 'places')}`,
  arithmetic: (test, _limits, w) => {
    const mean = meanMoisture(test.readings);
    return mean === null
      ? []
      : [
          `${places(test.readings.length, 'reading', 'readings')}: maximum ${w.share(Math.max(...test.readings))}, minimum ${w.share(Math.min(...test.readings))}, average ${w.share(Math.round(mean * 1000) / 1000)}.`,
        ];
  },
  doesNotCount: alwaysCounts,
  questions: (test, w) => [
    test.readings.some((reading) => reading > UNLIKELY.woodOver) &&
      `Over ${w.share(UNLIKELY.woodOver)} a meter is no longer accurate. Check the decimal point.`,
    test.readings.some((reading) => reading < UNLIKELY.woodUnder) &&
      `Under ${w.share(UNLIKELY.woodUnder)} is drier than wood gets in a house. Check the value.`,
  ],
};
