/** A minimum and maximum in one text, as bags print them. */
import { describe, expect, it } from 'vitest';
import { parseLength } from '../../../shared-core/measure/length.ts';
import { formatDepth } from '../../../shared-core/measure/length-format.ts';
import { formatTemperature, parseTemperature } from '../../../shared-core/measure/temperature.ts';
import { formatLiquid, parseLiquid } from '../../../shared-core/measure/volume.ts';
import { readSpan, spanText } from '../../../renderer/materials/span-text.ts';

// NIST Handbook 44, appendix C: a US liquid quart is 57.75 cubic inches; an inch is 25.4 mm exactly.
const QUART_L = (57.75 * 2.54 ** 3) / 1000;
const INCH_M = 0.0254;

const liquid = (text: string) =>
  readSpan(
    text,
    (t) => parseLiquid(t, 'us', 'en-US'),
    (v) => formatLiquid(v, 'us', 'en-US'),
    '5 to 5 1/4 qt',
  );
const depth = (text: string) =>
  readSpan(
    text,
    (t) => parseLength(t, 'us', 'depth', 'en-US'),
    (v) => formatDepth(v, 'us', 'en-US'),
    '1/8" to 1"',
  );
const temperature = (text: string) =>
  readSpan(
    text,
    (t) => parseTemperature(t, 'us', 'en-US'),
    (v) => formatTemperature(v, 'us', 'en-US'),
    '50 to 86 °F',
  );

describe('a span as entered', () => {
  it.each(['5 to 5 1/4 qt', '5–5.25 qt', '5 qt to 5¼ qt', '5 - 5 1/4 qt', '5 TO 5.25'])(
    '%s is five to five and a quarter quarts',
    (text) => {
      const read = liquid(text);
      expect(read.ok).toBe(true);
      if (!read.ok) return;
      expect(read.value.least).toBeCloseTo(5 * QUART_L, 9);
      expect(read.value.most).toBeCloseTo(5.25 * QUART_L, 9);
    },
  );
  it('gives the first end the unit of the second, not the company’s', () => {
    const read = liquid('4.7 to 5 L');
    expect(read).toEqual({ ok: true, value: { least: 4.7, most: 5 } });
  });
  it('with one figure is that figure twice, also for a fraction with a hyphen', () => {
    const read = depth('1-1/4"');
    expect(read.ok && read.value.least).toBeCloseTo(1.25 * INCH_M, 9);
    expect(read.ok && read.value.most).toBeCloseTo(1.25 * INCH_M, 9);
  });
  it('of temperatures may begin below zero', () => {
    const read = temperature('-4 to 86 °F');
    expect(read.ok && read.value.least).toBeCloseTo(-20, 9);
    expect(read.ok && read.value.most).toBeCloseTo(30, 9);
  });
  it('with its ends swapped suggests the other order', () => {
    expect(liquid('6 to 5 qt')).toEqual({
      ok: false,
      message: '“6 to 5 qt”: the minimum is greater than the maximum. Did you mean 5 to 6 qt?',
    });
  });
  it.each(['to 5 qt', '5 to', '1 to 2 to 3 qt'])('%s is refused with an example', (text) => {
    const read = liquid(text);
    expect(read.ok ? '' : read.message).toContain('such as 5 to 5 1/4 qt');
  });
  it('reports what is not a figure', () => {
    expect(liquid('some to 5 qt').ok).toBe(false);
    expect(liquid('5 to 6 miles').ok).toBe(false);
  });
});

describe('a span as shown', () => {
  it('has its unit once where both ends share it, and each inch mark', () => {
    expect(spanText({ least: 5 * QUART_L, most: 5.25 * QUART_L }, (v) => formatLiquid(v, 'us', 'en-US'))).toBe('5 to 5.25 qt');
    expect(spanText({ least: INCH_M / 8, most: INCH_M }, (v) => formatDepth(v, 'us', 'en-US'))).toBe('⅛″ to 1″');
    // From 8 quarts on the unit is gallons, so both units are shown.
    expect(spanText({ least: 7 * QUART_L, most: 8 * QUART_L }, (v) => formatLiquid(v, 'us', 'en-US'))).toBe('7 qt to 2 gal');
  });
  it('parses to the same span', () => {
    const shown = spanText({ least: 10, most: 30 }, (v) => formatTemperature(v, 'us', 'en-US'));
    const read = temperature(shown);
    expect(shown).toBe('50 to 86 °F');
    expect(read.ok && read.value.least).toBeCloseTo(10, 9);
    expect(read.ok && read.value.most).toBeCloseTo(30, 9);
  });
});
