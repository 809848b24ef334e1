/** Tests other than of the surface: the air, the joists, and lab results. */
import type { TestOf } from '../book/tests-of.ts';
import { dewMargin } from '../climate/dew-margin.ts';
import { evaporation } from '../climate/evaporation.ts';
import { formatLength } from '../measure/length-format.ts';
import { isNominalDepth } from '../measure/lumber.ts';
import { formatPercent } from '../measure/percent.ts';
import { PSI_PA } from '../measure/pressure.ts';
import { formatTemperature } from '../measure/temperature.ts';
import { deflectionOf } from './floor-deflection.ts';
import { alwaysCounts, nothingToSay, type TestKind } from './test-kind.ts';

/** Typical range of a reading; outside it a typo is more likely than a true reading. */
const UNLIKELY = { airUnderC: -10, airOverC: 45, spanUnderM: 1, spanOverM: 9, joistDeeperM: 0.5, modulusUnderPa: 4e9, modulusOverPa: 20e9 };

/** The room’s air and the floor’s temperature. */
export const air: TestKind<TestOf<'air'>> = {
  name: 'Ambient conditions',
  goodForHours: 12,
  visitHours: 0,
  answers: ['air'],
  form: {
    title: 'Ambient conditions',
    source: 'Measure within 12 hours of the pour. Assess, Prep, Pour and Cure use this reading.',
    begins: { airTempC: null, relativeHumidity: null, surfaceTempC: null, airSpeedMPerS: 0 },
    fields: [
      { key: 'airTempC', label: 'Air temperature', as: 'quantity', kind: 'temperature' },
      { key: 'relativeHumidity', label: 'Relative humidity', as: 'share' },
      { key: 'surfaceTempC', label: 'Floor temperature', as: 'quantity', kind: 'temperature', optional: true },
      { key: 'airSpeedMPerS', label: 'Air speed', as: 'quantity', kind: 'speed', optional: true, hint: '0 for still air' },
    ],
  },
  words: (test, units, locale) => {
    const floor = test.surfaceTempC === null ? '' : `, floor ${formatTemperature(test.surfaceTempC, units, locale)}`;
    return `air ${formatTemperature(test.airTempC, units, locale)}, ${formatPercent(test.relativeHumidity, 0)} RH${floor}`;
  },
  arithmetic: (test, { units }, w) => {
    if (test.surfaceTempC === null) return [];
    const margin = dewMargin(test.airTempC, test.relativeHumidity, test.surfaceTempC, units);
    const dries =
      test.airSpeedMPerS === null ? null : evaporation(test.surfaceTempC, test.airTempC, test.relativeHumidity, test.airSpeedMPerS);
    return [
      ...(margin === null
        ? []
        : [
            `The dew point is ${w.closeTemp(margin.dewPointC)}. The floor is ${margin.marginC < 0 ? `${w.tempGap(-margin.marginC)} below it` : `${w.tempGap(margin.marginC)} above it`}. The minimum is ${w.tempGap(margin.leastC)} above.`,
          ]),
      ...(dries === null
        ? []
        : [dries.condenses ? 'Water condenses on the floor.' : `A fresh surface loses ${w.evaporation(dries.kgM2H)} of water.`]),
    ];
  },
  doesNotCount: (test) => (test.surfaceTempC === null ? 'The floor temperature was not measured.' : null),
  questions: (test, w) =>
    [test.airTempC, ...(test.surfaceTempC === null ? [] : [test.surfaceTempC])]
      .filter((tempC) => tempC < UNLIKELY.airUnderC || tempC > UNLIKELY.airOverC)
      .map((tempC) => `${w.temp(tempC)} is unlikely indoors. Check the value and its unit.`)
      .concat(test.relativeHumidity === 0 ? ['0% humidity is impossible. Measure again.'] : []),
};

/** The joists by their size, span and load. */
export const floorDeflection: TestKind<TestOf<'floor-deflection'>> = {
  name: 'Deflection',
  goodForHours: null,
  visitHours: 0,
  answers: ['deflection'],
  form: {
    title: 'Joist deflection',
    source: 'IRC R301.7, L/360; stone L/720. Not a structural check.',
    begins: {
      spanM: null,
      joistWidthM: 0.0381,
      joistDepthM: null,
      spacingM: 0.4064,
      modulusPa: 1_600_000 * PSI_PA,
      liveLoadPa: 1915,
      deadLoadPa: 479,
    },
    fields: [
      { key: 'spanM', label: 'Span', as: 'quantity', kind: 'wall' },
      {
        key: 'joistDepthM',
        label: 'Joist depth',
        as: 'quantity',
        kind: 'joist-depth',
        hint: 'measured; 2x10 is read as its actual 9 1/4 in.',
      },
      {
        key: 'joistWidthM',
        label: 'Joist width',
        as: 'quantity',
        kind: 'joist-width',
        hint: 'measured; 2x10 is read as its actual 1 1/2 in.',
      },
      { key: 'spacingM', label: 'Spacing on center', as: 'quantity', kind: 'length' },
      { key: 'modulusPa', label: 'Modulus E', as: 'quantity', kind: 'strength', hint: 'typical 1,600,000 psi' },
      { key: 'liveLoadPa', label: 'Live load', as: 'quantity', kind: 'load' },
      { key: 'deadLoadPa', label: 'Dead load', as: 'quantity', kind: 'load' },
    ],
  },
  words: (test, units, locale) => `span ${formatLength(test.spanM, units, locale)}`,
  arithmetic: (test, { addedLoadPa, spanOver }, w) => {
    const deflection = deflectionOf(test, addedLoadPa ?? 0);
    const spanRatio = (value: number): string => `L/${w.number(Math.floor(value))}`;
    return [
      `Deflection under live load is ${w.depth(deflection.liveM)}, ${spanRatio(deflection.liveSpanOver)}. The limit is L/${spanOver}, ${w.depth(test.spanM / spanOver)}.`,
      `With all weight${addedLoadPa === null ? '' : ' and the pour'} it is ${spanRatio(deflection.totalSpanOver)}. This is not a structural check${deflection.liveSpanOver + 1e-6 >= spanOver ? '' : ': ask a structural engineer'}.`,
    ];
  },
  doesNotCount: alwaysCounts,
  questions: (test, w) => [
    test.spanM < UNLIKELY.spanUnderM && `A joist span of ${w.length(test.spanM)} is unlikely. Enter the distance between its supports.`,
    test.spanM > UNLIKELY.spanOverM && `A joist span of ${w.length(test.spanM)} is unlikely. Look for a wall or a beam between.`,
    (test.joistDepthM > UNLIKELY.joistDeeperM || test.joistWidthM > test.joistDepthM) &&
      'Check the joist size: width and depth may be swapped.',
    isNominalDepth(test.joistDepthM) &&
      `${w.depth(test.joistDepthM)} is a nominal depth: a dressed joist of that name is less. Measure it, or enter its name, such as 2x10.`,
    test.joistWidthM >= test.spacingM && 'The joists are as wide as their spacing. Enter the spacing on center.',
    (test.modulusPa < UNLIKELY.modulusUnderPa || test.modulusPa > UNLIKELY.modulusOverPa) &&
      `${w.strength(test.modulusPa)} is not a modulus of wood. Check the value and its unit.`,
  ],
};

const LAB_STATES = { sent: 'pending', 'none-found': 'not detected', found: 'detected' } as const;

/** A lab’s or certified inspector’s result. Its form is the dialog of the hold it clears. */
export const lab: TestKind<TestOf<'lab'>> = {
  name: 'Lab test',
  goodForHours: null,
  visitHours: 0,
  answers: [],
  form: {
    title: 'Lab result',
    source: '29 CFR 1926.1101(k); 40 CFR 745: an accredited lab or certified inspector',
    begins: { question: 'asbestos', layerId: null, state: 'sent', lab: '', sample: '', resultOn: null, dueOn: null },
    fields: [],
  },
  words: (test) => `${test.question === 'asbestos' ? 'asbestos' : 'lead'}: ${LAB_STATES[test.state]}`,
  arithmetic: nothingToSay,
  doesNotCount: alwaysCounts,
  questions: (test) => [
    test.state !== 'sent' && test.lab.trim() === '' && 'Enter the lab. The result does not count without it.',
    test.state !== 'sent' && test.sample.trim() === '' && 'Enter the sample number. The result does not count without it.',
    test.state !== 'sent' && test.resultOn === null && 'Enter the date of the result. It does not count without one.',
  ],
};
