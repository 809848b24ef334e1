/** The figures of an underlayment's data sheet, in the order of the bag, with how each is parsed, shown and stored. */
import type { FigureSource, PowderSheet } from '../../shared-core/book/material.ts';
import { parseEnDesignation } from '../../shared-core/measure/designation.ts';
import type { EffectiveSheet, Sourced, Span } from '../../shared-core/material/sheet.ts';
import { formatDensity, parseDensity } from '../../shared-core/measure/density.ts';
import { DAY_S, formatDuration, MINUTE_S, parseDuration } from '../../shared-core/measure/duration.ts';
import { formatDepth } from '../../shared-core/measure/length-format.ts';
import { parseLength } from '../../shared-core/measure/length.ts';
import { formatMass, parseMass } from '../../shared-core/measure/mass.ts';
import { formatNumber, parseNumber } from '../../shared-core/measure/number.ts';
import type { Parsed } from '../../shared-core/measure/parsed.ts';
import { formatPercent, parsePercent } from '../../shared-core/measure/percent.ts';
import { withoutRestated } from '../../shared-core/measure/quantity.ts';
import { formatStrength, parseStrength } from '../../shared-core/measure/pressure.ts';
import { formatTemperature, parseTemperature } from '../../shared-core/measure/temperature.ts';
import type { UnitSystem } from '../../shared-core/measure/unit-system.ts';
import { formatLiquid, formatYield, parseLiquid } from '../../shared-core/measure/volume.ts';
import { parseYield, withoutPerBag } from '../../shared-core/measure/yield.ts';
import { readSpan, spanText } from './span-text.ts';

/** One figure. Values are text here, so that one row component serves every quantity. */
export type FigureRowData = {
  /** The name in the record, as contradictions refer to it. */
  readonly key: string;
  readonly label: string;
  /** Null when the data sheet has no value and there is no typical one. */
  readonly text: string | null;
  readonly source: FigureSource | null;
  /** Turns entered text into a change of the data sheet. */
  readonly read: (text: string) => Parsed<(powder: PowderSheet) => PowderSheet>;
  /** The change when the field is emptied; null where it may not be empty. */
  readonly clear: ((powder: PowderSheet) => PowderSheet) | null;
  readonly needed: string;
};

type How<T> = { readonly read: (text: string) => Parsed<T>; readonly show: (value: T) => string };
type Key = { [K in keyof PowderSheet]-?: NonNullable<PowderSheet[K]> extends { value: unknown } ? K : never }[keyof PowderSheet];
type ValueOf<K extends Key> = NonNullable<PowderSheet[K]>['value'];

const more =
  (format: How<number>, figureName: string): How<number>['read'] =>
  (text) => {
    const read = format.read(text);
    return read.ok && !(read.value > 0) ? { ok: false, message: `“${text.trim()}”: ${figureName}` } : read;
  };

/** Months in a unit of shelf life. A year has 365.2425 days on average in the Gregorian calendar. */
const MONTHS_IN: readonly (readonly [RegExp, number])[] = [
  [/^(?:m|mos?|months?)$/i, 1],
  [/^(?:y|yrs?|years?)$/i, 12],
  [/^(?:d|days?)$/i, 12 / 365.2425],
  [/^(?:wks?|weeks?)$/i, 84 / 365.2425],
];

export function figureReadings(units: UnitSystem, locale: string) {
  const us = units === 'us';
  const one = {
    mass: { read: (t: string) => parseMass(t, units, locale), show: (v: number) => formatMass(v, units, locale) },
    yield: { read: (t: string) => parseYield(t, units, locale), show: (v: number) => formatYield(v, units, locale) },
    liquid: {
      read: (t: string) => parseLiquid(withoutPerBag(t), units, locale),
      show: (v: number) => formatLiquid(v, units, locale),
    },
    density: { read: (t: string) => parseDensity(t, units, locale), show: (v: number) => formatDensity(v, units, locale) },
    depth: { read: (t: string) => parseLength(t, units, 'depth', locale), show: (v: number) => formatDepth(v, units, locale) },
    temperature: { read: (t: string) => parseTemperature(t, units, locale), show: (v: number) => formatTemperature(v, units, locale) },
    strength: { read: (t: string) => parseStrength(t, units, locale), show: (v: number) => formatStrength(v, units, locale) },
    share: { read: (t: string) => parsePercent(t, { least: 0, most: 100 }, locale), show: (v: number) => formatPercent(v, 1, locale) },
    minutes: {
      read: (t: string): Parsed<number> => scaled(parseDuration(t, 'minute', locale), 1 / MINUTE_S),
      show: (v: number) => formatDuration(v * MINUTE_S, locale),
    },
    /** MVER is in pounds per 1,000 sq ft in 24 h in every unit system, because the method (ASTM F1869) defines it so. */
    emission: {
      read: (t: string): Parsed<number> => {
        const number = parseNumber(t.trim().replace(/\s*lbs?\.?(?:\s*\/.*)?$/i, ''), locale);
        return number.ok ? number : { ok: false, message: 'Enter pounds per 1,000 sq ft in 24 h, such as 5 lb.' };
      },
      show: (v: number) => `${formatNumber(v, { most: 1 }, locale)} lb`,
    },
    /** Surface profiles (CSP) have numbers and no unit. */
    profile: {
      read: (t: string) => parseNumber(t.replace(/^\s*csp[\s#-]*/i, ''), locale),
      show: (v: number) => formatNumber(v, { most: 0 }, locale),
    },
    months: {
      read: (t: string): Parsed<number> => {
        const [, figure = '', unit = 'm'] = /^(.*?)\s*([a-z]+)?\.?$/i.exec(withoutRestated(t)) ?? [];
        const months = MONTHS_IN.find(([spelled]) => spelled.test(unit))?.[1];
        const number = parseNumber(figure, locale);
        return number.ok && months !== undefined
          ? { ok: true, value: Math.floor(number.value * months * 10 + 1e-6) / 10 }
          : { ok: false, message: `“${t.trim()}”: enter months, such as 9 months.` };
      },
      show: (v: number) => (v === 1 ? '1 month' : `${formatNumber(v, { most: 1 }, locale)} months`),
    },
  } satisfies Record<string, How<number>>;
  const span = (format: How<number>, example: string, zero = 'Enter a value greater than 0.'): How<Span> => ({
    read: (t) => readSpan(t, format === one.temperature ? format.read : more(format, zero), format.show, example),
    show: (s) => spanText(s, format.show),
  });
  return {
    one,
    water: span(one.liquid, us ? '5 to 5 1/4 qt' : '4.7 to 5 L'),
    minutes: span(one.minutes, '20 to 25 min'),
    profile: span(one.profile, '2 to 3'),
    lift: span(one.depth, us ? '1/8" to 1"' : '3 to 25 mm', 'Enter a thickness greater than 0. Follow the data sheet’s minimum.'),
    temperatures: span(one.temperature, us ? '50 to 86 °F' : '10 to 30 °C'),
  };
}

function scaled(read: Parsed<number>, by: number): Parsed<number> {
  return read.ok ? { ok: true, value: read.value * by } : read;
}

const positive = (format: How<number>, figureName: string): How<number> => ({ read: more(format, figureName), show: format.show });

/** How the figures are shown. `hasEnClass`: EN 13813 classes apply in the company's country. */
type FiguresOf = {
  readonly isTypical: boolean;
  readonly hasEnClass: boolean;
  readonly units: UnitSystem;
  readonly locale: string;
};

/** `first` are beside the picture, as on the bag; `rest` below it; `other` are folded. */
export function powderFigures(
  powder: PowderSheet,
  sheet: EffectiveSheet | null,
  { isTypical, hasEnClass, units, locale }: FiguresOf,
): { readonly first: FigureRowData[]; readonly rest: FigureRowData[]; readonly other: FigureRowData[] } {
  const { one, water, minutes, lift, temperatures, profile } = figureReadings(units, locale);
  const row = <K extends Key>(
    key: K,
    label: string,
    format: How<ValueOf<K>>,
    fallback: Sourced<ValueOf<K>> | null,
    needed: string | null,
  ): FigureRowData => {
    // The key selects both the figure and its type; TypeScript cannot follow that through an index.
    const own = (powder[key] ?? null) as Sourced<ValueOf<K>> | null;
    const figure = own ?? fallback;
    return {
      key,
      label,
      text: figure === null ? null : format.show(figure.value),
      source: figure?.source ?? null,
      read: (text) => {
        const read = format.read(text);
        return read.ok ? { ok: true, value: (p) => ({ ...p, [key]: { value: read.value, source: 'bag' } }) } : read;
      },
      clear: needed === null ? (p) => ({ ...p, [key]: null }) : null,
      needed: needed ?? '',
    };
  };
  const weighed: FigureRowData[] =
    powder.measuredYieldM3 === null
      ? []
      : [
          {
            key: 'measuredYieldM3',
            label: 'Measured yield',
            text: one.yield.show(powder.measuredYieldM3),
            source: 'measured',
            read: (text) => {
              const read = positive(one.yield, 'Enter a yield greater than 0.').read(text);
              return read.ok ? { ok: true, value: (p) => ({ ...p, measuredYieldM3: read.value }) } : read;
            },
            clear: (p) => ({ ...p, measuredYieldM3: null, yieldBasis: p.yieldBasis === 'measured' ? 'sheet' : p.yieldBasis }),
            needed: '',
          },
        ];
  const yieldHow = positive(one.yield, 'Enter a yield greater than 0, from the bag or by weighing a mixed bag.');
  const designation: FigureRowData = {
    key: 'enDesignation',
    label: 'Class (EN 13813)',
    text: powder.enDesignation,
    source: powder.enDesignation === null ? null : (powder.enDesignationSource ?? (isTypical ? 'typical' : 'bag')),
    read: (text) => {
      const read = parseEnDesignation(text);
      return read.ok
        ? { ok: true, value: (p) => ({ ...p, enDesignation: text.trim().toUpperCase(), enDesignationSource: 'bag' as const }) }
        : read;
    },
    clear: (p) => ({ ...p, enDesignation: null }),
    needed: '',
  };
  return {
    first: [
      row('bagKg', 'Bag', positive(one.mass, 'Enter a weight greater than 0.'), null, 'Enter the bag weight from the front of the bag.'),
      row('waterL', 'Water', water, null, 'Enter the mix water per bag from the back of the bag.'),
      row('mixMinutes', 'Mix', minutes, sheet?.mixMinutes ?? null, null),
      row('yieldM3', 'Yield per bag', yieldHow, null, 'Enter the yield per bag. Without it bags cannot be counted.'),
      ...weighed,
      row(
        'densityFreshKgM3',
        'Density, wet',
        positive(one.density, 'Enter a density greater than 0.'),
        sheet?.densityFreshKgM3 ?? null,
        null,
      ),
      row('liftM', 'Thickness per lift', lift, null, 'Enter the minimum and maximum thickness per lift.'),
      row('roomTempC', 'Temperature range', temperatures, null, 'Enter the minimum and maximum placing temperature.'),
      row('strengthPa', 'Compressive strength, 28 days', positive(one.strength, 'Enter a strength greater than 0.'), null, null),
      row('lossShare', 'Waste factor', one.share, null, 'Enter a waste factor. Use 0% if nothing stays in the bucket.'),
      row('shelfMonths', 'Shelf life', positive(one.months, 'Enter a longer shelf life.'), sheet?.shelfMonths ?? null, null),
    ],
    rest: [
      row('workingTimeMin', 'Working time', minutes, sheet?.workingTimeMin ?? null, null),
      row('healingMin', 'Healing time', minutes, sheet?.healingMin ?? null, null),
      row('liftExtendedM', 'Thickness with aggregate', lift, null, null),
      row('aggregateShare', 'Aggregate per bag', gravelHow(powder, one.mass), null, null),
      row(
        'densityHardKgM3',
        'Density, dry',
        positive(one.density, 'Enter a density greater than 0.'),
        sheet?.densityHardKgM3 ?? null,
        null,
      ),
      row('waterTempC', 'Mix water temperature', temperatures, sheet?.waterTempC ?? null, null),
      row(
        'referenceTempC',
        'Reference temperature',
        one.temperature,
        null,
        'Enter the reference temperature of the data sheet’s cure times.',
      ),
      row('leastCureTempC', 'Minimum cure temperature', one.temperature, null, 'Enter the temperature below which curing pauses.'),
      row('profileCsp', 'Concrete surface profile (CSP)', profile, null, null),
    ],
    other: [
      row('flowRingM', 'Flow ring test, diameter', lift, null, null),
      row('slabHumidityMost', 'Max slab RH', one.share, null, null),
      row('emissionMostLb', 'Max MVER', positive(one.emission, 'Enter an MVER greater than 0.'), null, null),
      row('pullOffLeastPa', 'Min tensile bond of the substrate', positive(one.strength, 'Enter a strength greater than 0.'), null, null),
      row('overWoodLeastM', 'Min depth over wood', positive(one.depth, 'Enter a depth greater than 0.'), null, null),
      row('overHeatLeastM', 'Min cover over radiant heat', positive(one.depth, 'Enter a depth greater than 0.'), null, null),
      ...(hasEnClass || powder.enDesignation !== null ? [designation] : []),
    ],
  };
}

/** Aggregate is stored as a share of the underlayment's weight and shown per bag. */
function gravelHow(powder: PowderSheet, mass: How<number>): How<number> {
  const bagKg = powder.bagKg.value;
  return {
    read: (t) => scaled(more(mass, 'Leave it empty if no aggregate is allowed.')(t), 1 / bagKg),
    show: (share) => mass.show(share * bagKg),
  };
}

export function milestoneHours(locale: string): How<Span> {
  const hour: How<number> = {
    read: (t) => scaled(parseDuration(t, 'hour', locale), 24 / DAY_S),
    // Rounded to whole hours from half a day on, as data sheets state them.
    show: (v) => formatDuration(((v >= 12 && v < 48 ? Math.round(v) : v) * DAY_S) / 24, locale),
  };
  return { read: (t) => readSpan(t, hour.read, hour.show, '12 to 16 h'), show: (s) => spanText(s, hour.show) };
}
