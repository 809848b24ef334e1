import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  formatDepth,
  formatDistance,
  formatLength,
  formatSignedDepth,
  formatStep,
  typedLength,
} from '../../../shared-core/measure/length-format.ts';
import { parseLength, parseSignedLength } from '../../../shared-core/measure/length.ts';
import { INCH_M } from '../../../shared-core/measure/length-units.ts';

const parsed = (...args: Parameters<typeof parseLength>) => {
  const read = parseLength(...args);
  return read.ok ? '' : read.message;
};

describe('a length as entered', () => {
  it.each([
    [`12' 4 1/2"`, 148.5],
    [`12'4½"`, 148.5],
    ['12′ 4½″', 148.5],
    ['12-4 1/2', 148.5],
    ['12-4-1/2', 148.5],
    ['12 ft 4 in', 148],
    ['12 feet, 4', null],
    [`12'`, 144],
    [`12.5'`, 150],
    ['148', 148],
    ['3/8', 0.375],
    ['⅜', 0.375],
    ['1 3/8"', 1.375],
    ['1-3/8', 1.375],
    ['5/16 in', 0.3125],
    ['1⁷⁄₁₆″', 1.4375],
    ['0', 0],
  ])('reads %s as %s inches', (text, inches) => {
    const read = parseLength(text, 'us', 'length');
    if (inches === null) expect(read.ok).toBe(false);
    else expect(read.ok && read.value / INCH_M).toBeCloseTo(inches, 10);
  });

  it.each([
    ['3.76 m', 3.76],
    ['3,76 m', 3.76],
    ['376 cm', 3.76],
    ['3760 mm', 3.76],
    ['3 m 76 cm', 3.76],
    ['3.76 meters', 3.76],
    ['3.76', 3.76],
    [`12' 4"`, 3.7592],
  ])('reads %s as %s meters with metric units', (text, meters) => {
    const read = parseLength(text, 'metric', 'length');
    expect(read.ok && read.value).toBeCloseTo(meters, 12);
  });

  it('reads a bare number as inches, or as meters in a length and millimeters in a depth', () => {
    expect(parseLength('12', 'us', 'depth')).toEqual({ ok: true, value: 12 * INCH_M });
    expect(parseLength('12', 'metric', 'depth')).toEqual({ ok: true, value: 0.012 });
    expect(parseLength('12', 'metric', 'length')).toEqual({ ok: true, value: 12 });
  });

  it('reads a thousands comma by the locale and asks when it can mean two things', () => {
    expect(parseLength('3,760 mm', 'metric', 'length', 'en-US')).toEqual({ ok: true, value: 3.76 });
    expect(parseLength('3,760 m', 'metric', 'length', 'de-DE')).toEqual({ ok: true, value: 3.76 });
    expect(parsed('3,760 m', 'metric', 'length')).toBe('“3,760” can be read two ways. Enter 3760 or 3.760.');
  });

  it('is refused with a valid example', () => {
    expect(parsed(`6' 14"`, 'us', 'length')).toBe(`“6' 14"”: inches go up to 11. Did you mean 7' 2"?`);
    expect(parsed('', 'us', 'depth')).toBe('Enter a length, such as 1 3/8".');
    for (const text of ['abc', 'NaN', 'half inch'])
      expect(parsed(text, 'us', 'length')).toBe(`“${text}”: enter a number, such as 12' 4 1/2" or 3.76 m.`);
    expect(parsed('-3', 'us', 'length')).toMatch(/cannot be less than zero/);
    expect(parsed('9999 ft', 'us', 'length')).toMatch(/maximum is 984'/);
    expect(parsed('376', 'metric', 'length')).toMatch(/enter 376 cm/);
    expect(parsed('3/0', 'us', 'depth')).toMatch(/divides by zero/);
    expect(parsed(`12' 1/0"`, 'us', 'depth')).toMatch(/divides by zero/);
    expect(parsed(`3 m 4"`, 'us', 'length')).toMatch(/mixes/);
    expect(parsed('5 furlongs', 'us', 'length')).toMatch(/not a unit of length/);
    expect(parsed(`4" 3'`, 'us', 'length')).toMatch(/enter feet first/);
    expect(parsed('76 cm 3 m', 'metric', 'length')).toMatch(/enter the larger unit first/);
    expect(parsed('12-4', 'metric', 'length')).toMatch(/feet and inches/);
  });

  it('is never NaN, whatever is entered', () => {
    const keys = fc.string({ unit: fc.constantFrom(...Array.from(`0123456789'"/-.,½ fteinmc′″⁄e`)), maxLength: 12 });
    fc.assert(
      fc.property(fc.oneof(keys, fc.string()), fc.constantFrom('us', 'metric'), fc.constantFrom('length', 'depth'), (text, units, kind) => {
        const read = parseSignedLength(text, units, kind);
        expect(read.ok ? Number.isFinite(read.value) : read.message.length > 10).toBe(true);
      }),
      { numRuns: 2000 },
    );
  });

  it('is negative with a minus or the word', () => {
    for (const text of ['-3/8', '−⅜″', '3/8" down'])
      expect(parseSignedLength(text, 'us', 'depth')).toEqual({ ok: true, value: -0.375 * INCH_M });
    expect(parseSignedLength('10 mm up', 'us', 'depth')).toEqual({ ok: true, value: 0.01 });
  });
});

describe('a length as shown', () => {
  it('has primes and typographic fractions, or meters', () => {
    expect(formatLength(148.5 * INCH_M, 'us')).toBe('12′ 4½″');
    expect(formatLength(96 * INCH_M, 'us')).toBe('8′ 0″');
    expect(formatLength(11.99 * INCH_M, 'us')).toBe('1′ 0″');
    expect(formatLength(3.765, 'metric')).toBe('3.765 m');
    expect(formatLength(3.7, 'metric', 'de-DE')).toBe('3,70 m');
    expect(formatLength(Number.NaN, 'us')).toBe('—');
    expect(formatDistance(16.09344, 'us')).toBe('10 mi');
  });

  it('as a depth has no feet', () => {
    expect(formatDepth(1.75 * INCH_M, 'us')).toBe('1¾″');
    expect(formatDepth(0.0444, 'metric')).toBe('44 mm');
    expect(formatDepth((7 / 16) * INCH_M, 'us')).toBe('⁷⁄₁₆″');
    expect(formatDepth(-0.0001, 'us')).toBe('0″');
    expect(formatDepth(18 * INCH_M, 'us')).toBe('18″');
  });

  it('says which way a step goes', () => {
    expect(formatStep(0.375 * INCH_M, 'us')).toBe('⅜″ up');
    expect(formatStep(-0.01, 'metric')).toBe('10 mm down');
    expect(formatStep(0.0001, 'metric')).toBe('level');
    expect(formatSignedDepth(0.01, 'metric')).toBe('+10 mm');
    expect(formatSignedDepth(-0.875 * INCH_M, 'us')).toBe('−⅞″');
  });

  it('parses to the same value within its last digit', () => {
    const meters = fc.double({ min: 0, max: 250, noNaN: true });
    fc.assert(
      fc.property(meters, fc.constantFrom('us', 'metric'), (valueM, units) => {
        const within = units === 'us' ? INCH_M / 32 : 0.0005;
        for (const text of [formatLength(valueM, units), typedLength(valueM, units)]) {
          const read = parseLength(text, units, 'length', 'en-US');
          expect(read.ok && Math.abs(read.value - valueM)).toBeLessThanOrEqual(within + 1e-9);
        }
        const depthM = (valueM / 51) * (valueM > 125 ? -1 : 1);
        const depth = parseSignedLength(formatDepth(depthM, units), units, 'depth', 'en-US');
        expect(depth.ok && Math.abs(depth.value - depthM)).toBeLessThanOrEqual(within + 1e-9);
      }),
    );
  });
});

describe('a wall in US units', () => {
  const ftIn = (feet: number, inches = 0): number => feet * 0.3048 + inches * 0.0254;
  it.each([
    ['14', ftIn(14)],
    ['14 0', ftIn(14)],
    ["14'", ftIn(14)],
    ['14-6', ftIn(14, 6)],
    ['14 6', ftIn(14, 6)],
    ['14 ft 6', ftIn(14, 6)],
    ['14 6 1/2', ftIn(14, 6.5)],
    ['14 1/2', ftIn(14, 6)],
    ['14.5', ftIn(14, 6)],
    ['168 in', ftIn(14)],
  ])('typed %s is %f m', (text, meters) => {
    const read = parseLength(text, 'us', 'wall');
    expect(read.ok && read.value).toBeCloseTo(meters, 9);
  });

  it('a depth or a reading stays in inches', () => {
    const read = parseLength('14', 'us', 'depth');
    expect(read.ok && read.value).toBeCloseTo(14 * 0.0254, 9);
  });
});
