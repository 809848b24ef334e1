/** What a date of strength or drying was computed from, in words. */
import type { AirUsed, DryingHours, Reason } from '../cure/reason.ts';
import { formatDepth } from '../measure/length-format.ts';
import { formatNumber } from '../measure/number.ts';
import { formatPercent } from '../measure/percent.ts';
import { formatTemperature, formatTemperatureDifference } from '../measure/temperature.ts';
import type { UnitSystem } from '../measure/unit-system.ts';
import { countWords } from '../measure/count-words.ts';

const SOURCE_WORDS = { bag: 'from the bag', typical: 'typical (not from the data sheet)', measured: 'measured' } as const;

const FROM_WORDS: Readonly<Record<DryingHours['from'], { readonly name: string; readonly source: string }>> = {
  sheet: { name: 'Days for this depth, from the data sheet', source: 'the data sheet' },
  'beyond-sheet': {
    name: 'Days for the thickest row of the data sheet, extended by the published screed rules',
    source: 'the data sheet’s thickest row, lengthened as the published screed rules lengthen',
  },
  published: {
    name: 'Days by a typical rule for cement screed (not from the data sheet)',
    source: 'typical: 1 day per mm (25 days per in.) up to 40 to 50 mm (2 in.), 2 days per mm above. The data sheet’s days replace it',
  },
};

/** Hours as text: `4 to 6 hours`, `21 days`. */
function hoursWords(least: number, most: number, locale: string): string {
  const days = least >= 72;
  const durationText = (h: number) => formatNumber(days ? h / 24 : h, { most: days ? 0 : 1 }, locale);
  const [a, b] = [durationText(least), durationText(most)];
  if (a === b) return days ? `${a} ${a === '1' ? 'day' : 'days'}` : `${a} ${a === '1' ? 'hour' : 'hours'}`;
  return days ? `${a} to ${b} days` : `${a} to ${b} hours`;
}

type ReasonWords = {
  readonly inputs: readonly { readonly name: string; readonly value: string }[];
  readonly formula: string;
  readonly source: string;
  readonly range: string;
};

function airInputs(air: AirUsed, units: UnitSystem, locale: string): ReasonWords['inputs'] {
  const t = (c: number) => formatTemperature(c, units, locale);
  const { leastC, mostC, hoursStoodStill } = air;
  const measured =
    leastC === null || mostC === null ? 'no readings yet' : `${t(leastC)} to ${t(mostC)}, ${countWords(air.readings, 'reading', locale)}`;
  const paused = {
    name: `Curing paused below ${t(air.leastCureTempC)}`,
    value: countWords(Math.round(hoursStoodStill * 10) / 10, 'hour', locale),
  };
  return [
    { name: 'Measured in the room', value: measured },
    {
      name: 'Assumed where not measured',
      value: `${t(air.assumedTempC)} ± ${formatTemperatureDifference(air.assumedSpreadC, units, locale)}`,
    },
    ...(hoursStoodStill > 0 ? [paused] : []),
  ];
}

/** What a date was computed from: inputs, formula, source and range. */
export function reasonWords(reason: Reason, units: UnitSystem, locale: string): ReasonWords {
  const { air } = reason;
  const reference = formatTemperature(reason.referenceC, units, locale);
  if (reason.kind === 'strength') {
    const { qK } = reason;
    const hours = hoursWords(reason.hoursLeast, reason.hoursMost, locale);
    return {
      inputs: [{ name: 'Data sheet', value: `${hours} at ${reference}, ${SOURCE_WORDS[reason.source]}` }, ...airInputs(air, units, locale)],
      formula: `An hour counts for more when the room is warmer than ${reference} and for less when it is colder (equivalent age, exp(−Q (1/T − 1/Ts))). The date is when the adjusted hours reach those of the data sheet. Below the minimum temperature, hours do not count.`,
      // 5000 K for C1074 is from memory.
      source: 'ASTM C1074, Arrhenius form; EN 1992-1-1 (B.10)',
      range: `Data sheet hours, Q from ${formatNumber(qK.least, { most: 0 }, locale)} to ${formatNumber(qK.most, { most: 0 }, locale)} K, and the assumed temperature ± ${formatTemperatureDifference(air.assumedSpreadC, units, locale)}.`,
    };
  }
  const depth = (m: number) => formatDepth(m, units, locale);
  const { least, most, from } = reason.hours;
  return {
    inputs: [
      { name: 'Depth', value: `${depth(reason.depth.meanM)} on average, ${depth(reason.depth.deepestM)} at the deepest point` },
      ...(reason.wetBelowM > 0 ? [{ name: 'New lifts below', value: depth(reason.wetBelowM) }] : []),
      {
        name: FROM_WORDS[from].name,
        value: `${hoursWords(least, most, locale)} for the deepest point, at ${reference} and ${formatPercent(reason.referenceHumidity, 0, locale)} humidity`,
      },
      ...airInputs(air, units, locale),
      { name: 'Assumed humidity', value: formatPercent(reason.assumedHumidity, 0, locale) },
    ],
    formula:
      'Drying follows the difference in vapor pressure between the wet floor and the air, compared with the reference air. The date is when the adjusted hours reach the days for this depth, and no earlier than their minimum.',
    source: `${FROM_WORDS[from].source}; drying in proportion to vapor pressure is common practice`,
    range:
      'From the minimum days at the average depth in a warmer room to the maximum days at the deepest point in a colder room. The moisture test decides, not the date.',
  };
}
