import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { formatArea, parseArea, SQUARE_FOOT_M2 } from '../../../shared-core/measure/area.ts';
import { formatCoverage, parseCoverage } from '../../../shared-core/measure/coverage.ts';
import { formatDensity, parseDensity, POUND_PER_CUBIC_FOOT_KG_M3 } from '../../../shared-core/measure/density.ts';
import { formatDuration, formatRunningClock, formatWork, parseDuration } from '../../../shared-core/measure/duration.ts';
import { FOOT_M, INCH_M, MILE_M } from '../../../shared-core/measure/length-units.ts';
import { parseLength, parseSignedLength } from '../../../shared-core/measure/length.ts';
import { formatArealMass, formatMass, parseMass, POUND_KG } from '../../../shared-core/measure/mass.ts';
import { formatNumber, numberSigns, parseNumber } from '../../../shared-core/measure/number.ts';
import { formatChance, formatPercent, parsePercent } from '../../../shared-core/measure/percent.ts';
import { formatLoad, formatStrength, parseLoad, parseStrength, PSF_PA, PSI_PA } from '../../../shared-core/measure/pressure.ts';
import { formatSpeed, MILE_PER_HOUR_M_S, parseSpeed } from '../../../shared-core/measure/speed.ts';
import {
  celsiusFromFahrenheit,
  fahrenheitFromCelsius,
  formatTemperature,
  formatTemperatureDifference,
  parseTemperature,
  parseTemperatureDifference,
} from '../../../shared-core/measure/temperature.ts';
import {
  CUBIC_FOOT_M3,
  formatLiquid,
  formatVolume,
  GALLON_M3,
  parseLiquid,
  parseVolume,
  QUART_M3,
} from '../../../shared-core/measure/volume.ts';

// CLDR's signs of each language.
it('the signs of a number are those of its language', () => {
  expect(['en-US', 'de-DE'].map((locale) => Object.values(numberSigns(locale)).join(' '))).toEqual(['. ,', ', .']);
});

describe('conversion factors', () => {
  // NIST SP 811 (2008), appendix B.8, as printed there to seven figures (exact ones in full). Typed from memory.
  it.each([
    ['inch', INCH_M, 2.54e-2],
    ['foot', FOOT_M, 3.048e-1],
    ['mile', MILE_M, 1.609344e3],
    ['square foot', SQUARE_FOOT_M2, 9.290304e-2],
    ['cubic foot', CUBIC_FOOT_M3, 2.831685e-2],
    ['gallon', GALLON_M3, 3.785412e-3],
    ['liquid quart', QUART_M3, 9.463529e-4],
    ['pound', POUND_KG, 4.535924e-1],
    ['psi', PSI_PA, 6.894757e3],
    ['psf', PSF_PA, 4.788026e1],
    ['pound a cubic foot', POUND_PER_CUBIC_FOOT_KG_M3, 1.601846e1],
    ['mile an hour', MILE_PER_HOUR_M_S, 4.4704e-1],
  ])('of a %s agrees with SP 811', (_, own, printed) => {
    expect(Math.abs(own / printed - 1)).toBeLessThan(3e-7);
  });

  it('of a pound on a square foot agrees with SP 811: 4.882 428 kg/m²', () => {
    expect(POUND_KG / SQUARE_FOOT_M2).toBeCloseTo(4.882428, 5);
  });
});

describe('quantities as entered', () => {
  const value = (read: ReturnType<typeof parseArea>) => (read.ok ? read.value : Number.NaN);
  it('use their unit, or the company’s when it is left out', () => {
    expect(value(parseArea('1,480 sq ft', 'us'))).toBeCloseTo(1480 * SQUARE_FOOT_M2, 10);
    expect(value(parseArea('13,7 m²', 'us'))).toBe(13.7);
    expect(value(parseArea('148', 'us'))).toBeCloseTo(13.74965, 5);
    expect(value(parseVolume('0.45 cu ft', 'metric'))).toBeCloseTo(0.01274258, 8);
    expect(value(parseVolume('12.5', 'metric'))).toBeCloseTo(0.0125, 12);
    expect(value(parseLiquid('1 gal', 'metric'))).toBeCloseTo(3.785412, 6);
    expect(value(parseMass('50', 'us'))).toBeCloseTo(22.67962, 5);
    expect(value(parseMass('1/2 lb', 'metric'))).toBeCloseTo(0.2267962, 7);
    expect(value(parseStrength('4,000 psi', 'us'))).toBeCloseTo(27.57903e6, -2);
    expect(value(parseStrength('28', 'metric'))).toBe(28e6);
    expect(value(parseLoad('40', 'us'))).toBeCloseTo(1915.21, 2);
    expect(value(parseDensity('2 kg/L', 'us'))).toBe(2000);
    expect(value(parseSpeed('18 km/h', 'us'))).toBeCloseTo(5, 12);
    expect(value(parseCoverage('200', 'us'))).toBeCloseTo(4.9085, 3);
  });

  it('are read as bags and labels print them, with the same figure in brackets', () => {
    // Factors: NIST SP 811 (2008), appendix B.8, from memory.
    expect(value(parseMass('50 lb (22.7 kg)', 'us'))).toBeCloseTo(22.67962, 5);
    expect(value(parseLiquid('5 quarts (4.7 L)', 'us'))).toBeCloseTo(4.731765, 6);
    expect(value(parseLiquid('5-1/4 quarts', 'us'))).toBeCloseTo(4.968353, 6);
    expect(value(parseStrength('5,500 psi (38 MPa)', 'us'))).toBeCloseTo(37.92117e6, -2);
    expect(value(parseTemperature('50°F (10°C)', 'us'))).toBe(10);
    expect(value(parsePercent('100% RH'))).toBe(1);
    expect(value(parsePercent('75% (ASTM F2170)'))).toBe(0.75);
    expect(value(parseDuration('20 min (at 70 °F)', 'minute'))).toBe(1200);
    for (const text of ['200 sq ft per gal', '200 sq. ft. per gallon', '200 sf/gal at 16 mils', '200 square feet / gallon (4.9 m²/L)'])
      expect(value(parseCoverage(text, 'us')), text).toBeCloseTo(4.9085, 3);
    // A roll of 38 in by 150 ft is 475 sq ft.
    expect(value(parseArea(`38" x 150'`, 'us'))).toBeCloseTo(475 * SQUARE_FOOT_M2, 9);
    // A side without a unit has the other's, where that is the only way to read it: 63 sq in, 0.02 m², 120 sq ft, 3.6 m².
    expect(value(parseArea('9 x 7 in', 'us'))).toBeCloseTo(63 * 0.0254 ** 2, 9);
    expect(value(parseArea('10 x 20 cm', 'metric'))).toBeCloseTo(0.02, 9);
    expect(value(parseArea("12' x 10", 'metric'))).toBeCloseTo(120 * SQUARE_FOOT_M2, 9);
    expect(value(parseArea('1.8 m x 2', 'us'))).toBeCloseTo(3.6, 9);
    expect(value(parseArea('12 x 10-6', 'us'))).toBeCloseTo(126 * SQUARE_FOOT_M2, 9);
    expect(value(parseLength('100 lf', 'us', 'length'))).toBeCloseTo(30.48, 9);
    expect(value(parseLength('100 linear feet (30 m)', 'us', 'length'))).toBeCloseTo(30.48, 9);
  });

  it('are refused in words that quote what was entered', () => {
    const refusal = (read: ReturnType<typeof parseArea>) => (read.ok ? '' : read.message);
    expect(refusal(parseMass('50.5 Lb. (net)', 'us'))).toBe(
      '“50.5 Lb. (net)”: “Lb. (net)” is not a unit of mass here. Enter it like 50 lb.',
    );
    for (const text of ['250-300 sq ft/gal', '250 to 300 sq ft per gal', '250–300 sq ft/gal'])
      expect(refusal(parseCoverage(text, 'us'))).toBe(
        `“${text}”: this is a range. Enter the lower value, so that you buy enough, such as 200 sq ft/gal.`,
      );
    expect(refusal(parseStrength('5,000 - 5,500 psi', 'us'))).toContain('this is a range');
    // The unit is in the brackets: the number alone would be read in another unit.
    expect(parseVolume('0.5 (gal)', 'us').ok).toBe(false);
    expect(parseLength('3/8 (2)', 'us', 'depth').ok).toBe(false);
    expect(refusal(parseMass('5-1/4 furlongs', 'us'))).toContain('“furlongs” is not a unit of mass');
    expect(refusal(parseMass('22.7 (50 lb)', 'us'))).toContain('“(50 lb)” is not a unit of mass');
    expect(parseLength('3 (1/8")', 'us', 'depth').ok).toBe(false);
    expect(parseLength('3.66 (12 ft)', 'us', 'wall').ok).toBe(false);
    expect(refusal(parseTemperature('10 (50°F)', 'us'))).toContain('this is not a temperature');
    expect(parseDuration('20 (1 h)', 'minute').ok).toBe(false);
    expect(parseSignedLength('10 up (10 mm)', 'us', 'depth').ok).toBe(false);
    expect(value(parseSignedLength('3/8" up (9.5 mm)', 'us', 'depth'))).toBeCloseTo(0.009525, 9);
  });

  it('are refused with a bracket that says more than the same figure', () => {
    for (const text of ['200 sq ft/gal (2 coats)', '200 sq ft/gal (max 250 sq ft/gal)'])
      expect(parseCoverage(text, 'us').ok, text).toBe(false);
    for (const text of ['75 (85% max)', '75% (85% max)', '75% (min 50%)']) expect(parsePercent(text).ok, text).toBe(false);
  });

  it('are refused as two sides where only one has a unit and the other can be in another', () => {
    // Rolls are sold in inches by feet: common practice, no source.
    for (const text of ["38 x 150'", '38 x 150 ft', '38" x 150', `9 x 4' 6"`]) {
      const read = parseArea(text, 'us');
      expect(read.ok ? '' : read.message).toBe(`“${text}”: only one side has a unit. Enter both units, such as 38" x 150'.`);
    }
    expect(parseArea("38 x 150'", 'metric').ok).toBe(false);
  });

  it('are refused when empty, negative, without a number, too large or in an unknown unit', () => {
    for (const text of ['', '-2', 'x', 'NaN', 'Infinity', '5 acres', '1e9', '3/0 sq ft', '999999999 m2']) {
      const read = parseArea(text, 'us');
      expect(read.ok ? text : read.message.length).toBeGreaterThan(10);
    }
  });

  it('parse to the same value', () => {
    const near = (read: ReturnType<typeof parseArea>, original: number, within: number) =>
      expect(read.ok && Math.abs(read.value - original)).toBeLessThanOrEqual(within);
    fc.assert(
      fc.property(fc.double({ min: 0.01, max: 900, noNaN: true }), fc.constantFrom('us', 'metric'), (amount, units) => {
        near(parseArea(formatArea(amount, units, 'en-US'), units, 'en-US'), amount, 0.051);
        near(parseVolume(formatVolume(amount, units, 'en-US'), units, 'en-US'), amount, 0.0151);
        near(parseLiquid(formatLiquid(amount / 10, units, 'en-US'), units, 'en-US'), amount / 10, 0.2);
        near(parseMass(formatMass(amount, units, 'en-US'), units, 'en-US'), amount, 0.51);
        near(parseDensity(formatDensity(amount, units, 'en-US'), units, 'en-US'), amount, 0.81);
        near(parseLoad(formatLoad(amount, units, 'en-US'), units, 'en-US'), amount, 5.1);
        near(parseStrength(formatStrength(amount * 1e5, units, 'en-US'), units, 'en-US'), amount * 1e5, 0.51e6);
        near(parseSpeed(formatSpeed(amount / 30, units, 'en-US'), units, 'en-US'), amount / 30, 0.051);
        near(parseCoverage(formatCoverage(amount, units, 'en-US'), units, 'en-US'), amount, 0.051);
      }),
    );
  });

  it('are shown with few digits', () => {
    expect(formatArea(13.75, 'us')).toBe('148 sq ft');
    // The dish of a calcium chloride kit is smaller than a tenth of a square foot.
    expect([formatArea(0.003831, 'us'), formatArea(0.003831, 'metric')]).toEqual(['5.9 sq in', '38 cm²']);
    expect(formatVolume(0.0127426, 'us')).toBe('0.45 cu ft');
    expect(formatVolume(1.25, 'metric')).toBe('1.25 m³');
    expect(formatLiquid(4.7, 'us')).toBe('4.97 qt');
    expect(formatArealMass(45, 'us')).toBe('9.2 psf');
    expect(formatMass(Number.NaN, 'us')).toBe('— lb');
  });
});

describe('temperatures', () => {
  it('meet at −40 and boil at 212 °F', () => {
    expect(fahrenheitFromCelsius(-40)).toBe(-40);
    expect(fahrenheitFromCelsius(100)).toBe(212);
    expect(celsiusFromFahrenheit(50)).toBe(10);
  });

  it('keep a difference separate from a temperature', () => {
    expect(parseTemperature('50', 'us')).toEqual({ ok: true, value: 10 });
    expect(parseTemperatureDifference('9 °F', 'metric')).toEqual({ ok: true, value: 5 });
    expect(formatTemperatureDifference(3, 'us')).toBe('5.4 °F');
    expect(formatTemperature(20, 'us')).toBe('68 °F');
    expect(formatTemperature(-0.2, 'metric')).toBe('0 °C');
  });

  it('are refused beyond plausible values', () => {
    expect(parseTemperature('500', 'us').ok).toBe(false);
    expect(parseTemperature('warm', 'us').ok).toBe(false);
  });
});

describe('percents, numbers and durations', () => {
  it('reads a percent as a share', () => {
    expect(parsePercent('8.25 %')).toEqual({ ok: true, value: 0.0825 });
    expect(parsePercent('120').ok).toBe(false);
    expect(formatPercent(0.0825, 2)).toBe('8.25%');
    expect([0, 0.004, 0.09, 0.994, 0.996, 1].map((share) => formatChance(share))).toEqual([
      'under 1%',
      'under 1%',
      '9%',
      '99%',
      'over 99%',
      'over 99%',
    ]);
  });

  it('parses a number by its locale and refuses what is none', () => {
    expect(parseNumber('1.234,5', 'de-DE')).toEqual({ ok: true, value: 1234.5 });
    expect(parseNumber('1,234.5', 'en-US')).toEqual({ ok: true, value: 1234.5 });
    expect(parseNumber('1 234,5', 'fr-FR')).toEqual({ ok: true, value: 1234.5 });
    for (const text of ['', 'NaN', 'Infinity', '1.2.3', '1,23,4', '--1', '9'.repeat(400)]) expect(parseNumber(text).ok).toBe(false);
    expect(formatNumber(Number.POSITIVE_INFINITY, { most: 1 })).toBe('—');
  });

  it('gives back any number that was formatted in a locale', () => {
    fc.assert(
      fc.property(
        fc.double({ min: -1e6, max: 1e6, noNaN: true }),
        fc.constantFrom('en-US', 'de-DE', 'fr-FR', 'en-GB', 'es-MX'),
        (number, locale) => {
          const read = parseNumber(formatNumber(number, { most: 3 }, locale), locale);
          expect(read.ok && Math.abs(read.value - number)).toBeLessThanOrEqual(0.000501);
        },
      ),
    );
  });

  it('parses durations in words', () => {
    const seconds = (text: string, unit: Parameters<typeof parseDuration>[1]) => parseDuration(text, unit);
    expect(seconds('20', 'minute')).toEqual({ ok: true, value: 1200 });
    expect(seconds('1h30', 'minute')).toEqual({ ok: true, value: 5400 });
    expect(seconds('4:05', 'minute')).toEqual({ ok: true, value: 245 });
    expect(seconds('1:30', 'hour')).toEqual({ ok: true, value: 5400 });
    expect(seconds('2 days', 'hour')).toEqual({ ok: true, value: 172_800 });
    for (const text of ['', '-3', 'x', '1:75', '1 min 2 h', '99999 days']) expect(seconds(text, 'minute').ok).toBe(false);
    expect([45, 1200, 6000, 86_400 * 2.4, 86_400 * 28].map((s) => formatDuration(s))).toEqual([
      '45 s',
      '20 min',
      '1 h 40 min',
      '2.5 days',
      '28 days',
    ]);
    expect(formatRunningClock(3845)).toBe('1:04:05');
  });

  it('formats hours of work in hours, never in days of 24 hours', () => {
    expect([0.75, 41.55, 47.999, 60.9, 109].map((hours) => formatWork(hours))).toEqual([
      '45 min',
      '41 h 33 min',
      '48 h',
      '60.9 h',
      '109 h',
    ]);
  });
});
