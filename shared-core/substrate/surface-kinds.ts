/** The tests of a surface: porosity, pH, tensile bond, scratch and visual inspection. */
import type { FloorTest } from '../book/layer.ts';
import type { TestOf } from '../book/tests-of.ts';
import { formatNumber } from '../measure/number.ts';
import { formatStrength } from '../measure/pressure.ts';
import { absorptionOf, isPhWithin, PH_WITHIN, pullOffAnswer } from './measured-tests.ts';
import { alwaysCounts, nothingToSay, option, type TestKind } from './test-kind.ts';

/** Typical range of a reading; outside it a typo is more likely than a true reading. */
const UNLIKELY = { phUnder: 4, phOver: 13, pullOverPa: 6e6 };

/** ASTM F3191: a drop of water on the surface. Repeated after any grinding. */
export const dropAbsorption: TestKind<TestOf<'drop-absorption'>> = {
  name: 'Water drop (porosity)',
  goodForHours: 30 * 24,
  visitHours: 1,
  answers: ['absorption'],
  form: {
    title: 'Water drop test (porosity)',
    source: 'ASTM F3191: absorbed within a minute is porous',
    begins: { seconds: undefined, watchedSeconds: 60 },
    fields: [
      {
        key: 'seconds',
        label: 'Absorption time',
        as: 'drop',
        optional: true,
      },
      { key: 'watchedSeconds', label: 'Observation time', as: 'number', unit: 's', least: 1, most: 3600 },
    ],
    again: ['seconds'],
  },
  words: (test) => (test.seconds === null ? `drop stayed ${test.watchedSeconds} s` : `absorbed in ${test.seconds} s`),
  arithmetic: (test) => {
    const answer = absorptionOf(test);
    if (answer === null) return [];
    return answer === 'porous'
      ? ['Porous. Prime concrete, cement or gypsum at the porous rate.']
      : ['Non-porous as it is. On concrete, abrade and test again: that test decides the primer.'];
  },
  doesNotCount: (test) => (absorptionOf(test) === null ? 'The drop was watched for less than a minute.' : null),
  questions: (test) => [
    test.seconds !== null && test.seconds > test.watchedSeconds && 'The drop was absorbed after the time watched. Check both times.',
  ],
};

/** A pH strip on the wetted surface. */
export const surfacePh: TestKind<TestOf<'surface-ph'>> = {
  name: 'Surface pH',
  goodForHours: 90 * 24,
  visitHours: 1,
  answers: [],
  form: {
    title: 'Surface pH',
    source: 'ASTM F710, ASTM F3441: wet the surface, wait a minute, read the strip. Test the new surface before gluing.',
    begins: { ph: null },
    fields: [{ key: 'ph', label: 'pH', as: 'number', unit: '', least: 0, most: 14 }],
    again: ['ph'],
  },
  words: (test, _units, locale) => `pH ${formatNumber(test.ph, { most: 1 }, locale)}`,
  arithmetic: (test) => [
    `${isPhWithin(test.ph) ? 'Within' : 'Outside'} pH ${PH_WITHIN.least} to ${PH_WITHIN.most}. Many manufacturers give 9 as the maximum.`,
  ],
  doesNotCount: alwaysCounts,
  questions: (test, w) => [
    (test.ph < UNLIKELY.phUnder || test.ph > UNLIKELY.phOver) && `pH ${w.number(test.ph, 1)} is rare on a floor. Test with a new strip.`,
  ],
};

const PULL_WORDS = {
  strong: 'Strong enough.',
  weak: 'Too weak for a pour.',
  'not-proved': 'The adhesive failed first, so the substrate is not proved.',
} as const;

/** ASTM C1583: a disk glued on and pulled off. */
export const pullOff: TestKind<TestOf<'pull-off'>> = {
  name: 'Pull-off',
  goodForHours: 365 * 24,
  visitHours: 1,
  answers: ['surface-strength'],
  form: {
    title: 'Tensile bond (pull-off)',
    source: 'ASTM C1583',
    begins: { stressPa: null, failedIn: 'substrate' },
    fields: [
      { key: 'stressPa', label: 'Tensile bond', as: 'quantity', kind: 'strength' },
      {
        key: 'failedIn',
        label: 'Failure location',
        as: 'choice',
        options: [
          option('substrate', 'the substrate'),
          option('glue', 'the adhesive'),
          option('between', 'between layers'),
          option('unknown', 'unknown'),
        ],
      },
    ],
    again: ['stressPa'],
  },
  words: (test, units, locale) => formatStrength(test.stressPa, units, locale),
  arithmetic: (test, { pullOffLeastPa }, w) => [
    `The minimum is ${w.strength(pullOffLeastPa)}. ${PULL_WORDS[pullOffAnswer(test, pullOffLeastPa)]}`,
  ],
  doesNotCount: (test, _layers, { pullOffLeastPa }) =>
    pullOffAnswer(test, pullOffLeastPa) === 'not-proved' ? 'The adhesive failed before the substrate was proved. Test again.' : null,
  questions: (test, w) => [
    test.stressPa > UNLIKELY.pullOverPa && `${w.strength(test.stressPa)} is higher than a floor reaches. Check the unit.`,
  ],
};

/** A nail scratched across the surface. */
export const scratch: TestKind<TestOf<'scratch'>> = {
  name: 'Scratch',
  goodForHours: 90 * 24,
  visitHours: 1,
  answers: ['surface-strength'],
  form: {
    title: 'Scratch test',
    source: 'Common practice: draw a nail over the surface',
    begins: { result: null },
    fields: [
      {
        key: 'result',
        label: 'Result',
        as: 'choice',
        options: ['firm', 'scores', 'dusts', 'crumbles'].map((result) => option(result, result)),
      },
    ],
    again: ['result'],
  },
  words: (test) => test.result,
  arithmetic: nothingToSay,
  doesNotCount: alwaysCounts,
  questions: nothingToSay,
};

type Look = Extract<FloorTest, { kind: 'surface-look' }>['is'][number];
const LOOKS: Readonly<Record<Look, string>> = {
  'sound-clean': 'sound and clean',
  dusty: 'dusty',
  glossy: 'glossy',
  oily: 'oil or grease',
  waxed: 'waxed',
  painted: 'painted',
  'curing-compound': 'curing compound',
  efflorescence: 'efflorescence',
  rough: 'rough',
};

/** Text for the conditions noted in a visual inspection. */
export const lookWords = (is: Look): string => LOOKS[is];

/** The conditions seen: dust, gloss, oil, wax, paint. */
export const surfaceLook: TestKind<TestOf<'surface-look'>> = {
  name: 'Visual inspection',
  goodForHours: 90 * 24,
  visitHours: 0,
  answers: ['surface-look'],
  form: {
    title: 'Visual inspection',
    source: 'ASTM F710: clean, smooth, sound',
    begins: { is: [] },
    fields: [
      {
        key: 'is',
        label: 'Conditions',
        as: 'choices',
        options: Object.entries(LOOKS).map(([look, name]) => option(look, name)),
      },
    ],
  },
  words: (test) => (test.is.length === 0 ? 'nothing noted' : test.is.map(lookWords).join(', ')),
  arithmetic: nothingToSay,
  doesNotCount: alwaysCounts,
  questions: nothingToSay,
};
