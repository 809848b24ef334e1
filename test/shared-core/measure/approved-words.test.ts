/**
 * Every figure as text and every text as a figure, at the limits where the wording changes, as last approved: a guard against a change that
 * nobody meant. Conversions are checked against published factors elsewhere. After a change that was meant, run
 * `npx vitest run --config build/vitest.config.ts test/shared-core/measure/approved -u` and read the difference.
 */
import { describe, expect, it } from 'vitest';
import { formatArea, parseArea } from '../../../shared-core/measure/area.ts';
import { formatClockTime, parseClockTime } from '../../../shared-core/measure/clock-time.ts';
import { formatCoverage, parseCoverage } from '../../../shared-core/measure/coverage.ts';
import { countWords } from '../../../shared-core/measure/count-words.ts';
import { formatDataSize } from '../../../shared-core/measure/data-size.ts';
import { formatDay, parseDay } from '../../../shared-core/measure/day.ts';
import { formatDensity, parseDensity } from '../../../shared-core/measure/density.ts';
import { parseDistance } from '../../../shared-core/measure/distance.ts';
import { formatDuration, formatRunningClock, parseDuration } from '../../../shared-core/measure/duration.ts';
import {
  formatDepth,
  formatDistance,
  formatLength,
  formatSignedDepth,
  formatStep,
  typedLength,
} from '../../../shared-core/measure/length-format.ts';
import { parseLength, parseSignedLength } from '../../../shared-core/measure/length.ts';
import { formatArealMass, formatMass, parseMass } from '../../../shared-core/measure/mass.ts';
import { formatLogInstant, formatLogTime, instantAt, parseTimeZone } from '../../../shared-core/measure/moment.ts';
import { parseNumber } from '../../../shared-core/measure/number.ts';
import { formatPercent, parsePercent } from '../../../shared-core/measure/percent.ts';
import { formatLoad, formatStrength, parseLoad, parseStrength } from '../../../shared-core/measure/pressure.ts';
import { formatSpeed, parseSpeed } from '../../../shared-core/measure/speed.ts';
import {
  formatTemperature,
  formatTemperatureDifference,
  parseTemperature,
  parseTemperatureDifference,
} from '../../../shared-core/measure/temperature.ts';
import { formatMoment, parseMoment } from '../../../shared-core/measure/typed-moment.ts';
import type { UnitSystem } from '../../../shared-core/measure/unit-system.ts';
import { formatLiquid, formatVolume, formatYield, parseLiquid, parseVolume } from '../../../shared-core/measure/volume.ts';
import { formatWeekdays } from '../../../shared-core/measure/weekday.ts';
import { factLines } from '../fact-lines.ts';

const UNITS: readonly UnitSystem[] = ['us', 'metric'];
const FOOT = 0.3048;
const MAGNITUDES = [
  0,
  1e-4,
  0.0008,
  0.004,
  0.01,
  0.0254,
  0.09,
  0.3,
  FOOT,
  0.5,
  0.99,
  1,
  1.5,
  2.5,
  7.5,
  9.96,
  10,
  28.4,
  99.4,
  100,
  380,
  999.6,
  1000,
  12_345,
  -0.4,
  -3,
];
const TEXTS = [
  '',
  ' ',
  '5',
  '5.5',
  '5,5',
  '1,234.5',
  '1.234,5',
  '-3',
  '+2',
  '0',
  '3/8',
  '1 1/2',
  '12 3/4"',
  '⅜',
  '1½',
  `13' 8"`,
  '13 ft 8 in',
  '5in',
  '40 mm',
  '4 cm',
  '2 m',
  '3 km',
  '2 mi',
  '10 sq ft',
  '3 m2',
  '2 gal',
  '1 qt',
  '12 fl oz',
  '4.7 L',
  '0.45 cu ft',
  '1 cu yd',
  '50 lb',
  '8 oz',
  '22 kg',
  '1.5 t',
  '68',
  '68 F',
  '20 °C',
  '-50 C',
  '3000 psi',
  '20 MPa',
  '40 psf',
  '2 kPa',
  '120 pcf',
  '2000 kg/m3',
  '300 sq ft/gal',
  '8 m2/L',
  '25 fpm',
  '0.5 m/s',
  '3 mph',
  '45',
  '45 min',
  '2 h',
  '1:30',
  '1 h 30 min',
  '3 days',
  '90 s',
  '75%',
  '150',
  '-1%',
  'abc',
  '1e9',
  'infinity',
  'NaN',
  '1/0',
  '5 parsecs',
  '999999999',
];
const TIMES = ['', '8', '8:30', '8:30 am', '12 am', '12:00 pm', '20:15', '2015', '24:00', '7p', '25:00', '8:75', 'noon'];
const DAYS = [
  '',
  'today',
  'tomorrow',
  'yesterday',
  'fri',
  'friday',
  'nov 20',
  '20 nov',
  '11/20',
  '11/20/2026',
  '2026-11-20',
  '31.12.2026',
  '2/30',
  '12/1/1899',
  'in 3 days',
  '+5',
  'may',
  '5',
];

const FORMATS: Readonly<Record<string, (value: number, units: UnitSystem, locale?: string) => string>> = {
  area: formatArea,
  coverage: formatCoverage,
  density: formatDensity,
  length: formatLength,
  depth: formatDepth,
  'signed depth': formatSignedDepth,
  step: formatStep,
  'typed length': typedLength,
  distance: formatDistance,
  mass: formatMass,
  'areal mass': formatArealMass,
  strength: (v, units, locale) => formatStrength(v * 1e5, units, locale),
  load: (v, units, locale) => formatLoad(v * 10, units, locale),
  speed: formatSpeed,
  temperature: formatTemperature,
  'temperature difference': formatTemperatureDifference,
  volume: formatVolume,
  liquid: formatLiquid,
  yield: (v, units, locale) => formatYield(v * 0.01, units, locale),
};
const PARSERS: Readonly<Record<string, (text: string, units: UnitSystem, locale?: string) => unknown>> = {
  area: parseArea,
  coverage: parseCoverage,
  density: parseDensity,
  distance: parseDistance,
  mass: parseMass,
  strength: parseStrength,
  load: parseLoad,
  speed: parseSpeed,
  temperature: parseTemperature,
  'temperature difference': parseTemperatureDifference,
  volume: parseVolume,
  liquid: parseLiquid,
  wall: (text, units, locale) => parseLength(text, units, 'wall', locale),
  length: (text, units, locale) => parseLength(text, units, 'length', locale),
  depth: (text, units, locale) => parseSignedLength(text, units, 'depth', locale),
  percent: (text, _, locale) => parsePercent(text, undefined, locale),
  minutes: (text, _, locale) => parseDuration(text, 'minute', locale),
  number: (text, _, locale) => parseNumber(text, locale),
};
const NOW = '2026-11-13T15:00:00.000Z';
const ZONE = 'America/New_York';

describe('figures and texts', () => {
  it('as formatted', async () => {
    const lines = Object.entries(FORMATS).flatMap(([name, format]) =>
      UNITS.flatMap((units) => [
        `${name}, ${units}: ${MAGNITUDES.map((value) => `${value} = ${format(value, units)}`).join('; ')}`,
        `${name}, ${units}, de-DE: ${[0.004, 1.5, 12_345].map((value) => format(value, units, 'de-DE')).join('; ')}`,
      ]),
    );
    const seconds = [0, 20, 59.6, 60, 90, 3540, 3600, 5400, 86_400, 90_000, 172_800, 1e6];
    lines.push(
      `duration: ${seconds.map((s) => formatDuration(s)).join('; ')}`,
      `clock: ${seconds.map(formatRunningClock).join('; ')}`,
      `size: ${[0, 999, 1000, 1500, 1e6, 2.55e6, 1e9, 3e12].map((bytes) => formatDataSize(bytes)).join('; ')}`,
      `percent: ${[0, 0.005, 0.0825, 0.5, 1, 1.25].flatMap((share) => [formatPercent(share), formatPercent(share, 2)]).join('; ')}`,
      `days: ${(['short', 'weekday', 'long', 'full', 'dated', 'field'] as const).map((style) => formatDay('2026-11-03', style)).join('; ')}`,
      `weekdays: ${[[], [1], [1, 2, 3, 4, 5], [6, 7], [1, 3, 4, 5], [7, 1]].map((days) => formatWeekdays(days)).join('; ')}`,
      `times: ${['00:00', '00:30', '08:05', '12:00', '12:30', '23:59'].map((time) => `${formatClockTime(time)} ${formatClockTime(time, 'de-DE')}`).join('; ')}`,
      `counts: ${['job', 'box', 'brush', 'property', 'day'].flatMap((noun) => [0, 1, 2, 1200].map((count) => countWords(count, noun, 'en-US'))).join('; ')}`,
      `logs: ${['2026-11-13T20:00:00.000Z', '2026-11-14T05:00:00.000Z', 'never'].map((one) => `${formatLogInstant(one, ZONE)} ${formatLogTime(one, ZONE)}`).join('; ')}`,
      `clocks: ${['2026-03-08 02:30', '2026-11-01 01:30', '2026-11-01 12:00', '2026-13-01 12:00'].map((text) => JSON.stringify((['first', 'second'] as const).map((twice) => instantAt(text.slice(0, 10), text.slice(11), ZONE, twice)))).join('; ')}`,
      `zones: ${[ZONE, ` ${ZONE} `, 'Nowhere/Town', ''].map((zone) => JSON.stringify(parseTimeZone(zone))).join('; ')}`,
      `moments: ${['2026-11-13T20:00:00.000Z', '2026-11-14T05:00:00.000Z', '2026-11-20T15:00:00.000Z', '2027-02-01T15:00:00.000Z'].map((one) => formatMoment(one, NOW, ZONE, 'en-US')).join('; ')}`,
    );
    await expect(`${lines.join('\n')}\n`).toMatchFileSnapshot('./approved/formatted.txt');
  });

  it('as read', async () => {
    const read = (name: string, texts: readonly string[], parse: (text: string) => unknown): readonly string[] =>
      texts.flatMap((text) => factLines({ [`${name} «${text}»`]: parse(text) }));
    const lines = [
      ...Object.entries(PARSERS)
        .flatMap(([name, parse]) =>
          UNITS.map((units) =>
            factLines({ [`${name}, ${units}`]: TEXTS.map((text) => [text, parse(text, units), parse(text, units, 'de-DE')]) }),
          ),
        )
        .flat(),
      ...TEXTS.flatMap((text) => factLines({ [`wall «${text}»`]: UNITS.map((units) => parseLength(text, units, 'wall')) })),
      ...read('time', TIMES, parseClockTime),
      ...read('day', DAYS, (text) => [parseDay(text, '2026-11-13'), parseDay(text, '2026-11-13', 'de-DE', 'past')]),
      ...read('moment', DAYS, (text) => parseMoment(`${text} 8:30 am`, NOW, ZONE, 'en-US')),
    ];
    await expect(`${lines.join('\n')}\n`).toMatchFileSnapshot('./approved/read.txt');
  });
});
