/** Distances, data sizes, countries and weekdays, parsed and formatted. */
import { describe, expect, it } from 'vitest';
import { countryName, parseCountry } from '../../../shared-core/measure/country.ts';
import { formatDataSize } from '../../../shared-core/measure/data-size.ts';
import { parseDistance } from '../../../shared-core/measure/distance.ts';
import { formatDistance } from '../../../shared-core/measure/length-format.ts';
import { weekdayName } from '../../../shared-core/measure/weekday.ts';

describe('a driving distance', () => {
  it.each([
    // NIST SP 811 (2008), appendix B.8: 1 mile is 1.609344 km exactly.
    ['10', 'us', 16.09344],
    ['10 mi', 'metric', 16.09344],
    ['10 miles', 'us', 16.09344],
    ['18', 'metric', 18],
    ['18 km', 'us', 18],
    ['0', 'us', 0],
  ] as const)('%s in %s is %d km', (text, units, km) => {
    const read = parseDistance(text, units, 'en-US');
    expect(read.ok && read.value).toBeCloseTo(km, 9);
  });
  it.each(['far', '-3', '3 ft', ''])('“%s” is refused with a valid example', (text) => {
    const read = parseDistance(text, 'us', 'en-US');
    expect(read.ok).toBe(false);
    expect(!read.ok && read.message).toMatch(/Enter it like 11 mi|cannot be less than zero/);
  });
  it('parses to the same value', () => {
    const read = parseDistance('11 mi', 'us', 'en-US');
    expect(read.ok && formatDistance(read.value, 'us', 'en-US')).toBe('11 mi');
  });
});

describe('a size of data', () => {
  it.each([
    // IEC 80000-13: decimal prefixes, kB is a thousand bytes.
    [0, '0 bytes'],
    [999, '999 bytes'],
    [1000, '1 kB'],
    [312_400, '312 kB'],
    [999_600, '1 MB'],
    [4_200_000_000, '4.2 GB'],
  ])('%d is %s', (bytes, text) => {
    expect(formatDataSize(bytes, 'en-US')).toBe(text.replace(' ', '\u00a0'));
  });
});

describe('a country', () => {
  // ISO 3166-1 alpha-2.
  it('is parsed in small or capital letters', () => {
    expect(parseCountry(' ca ')).toEqual({ ok: true, value: 'CA' });
    expect(countryName('US')).toBe('United States');
  });
  it.each(['Narnia', 'QX', 'ZZ', ''])('“%s” is not one', (text) => {
    expect(parseCountry(text).ok).toBe(false);
  });
});

describe('a weekday', () => {
  it('is counted from Monday', () => {
    // ISO 8601: Monday is 1.
    expect([1, 7].map((day) => weekdayName(day, 'en-US'))).toEqual(['Monday', 'Sunday']);
  });
});
