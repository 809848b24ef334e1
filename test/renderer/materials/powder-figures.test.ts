/** Rows of an underlayment's data sheet: an entered figure is no longer typical, and an invalid one is refused in a sentence. */
import { describe, expect, it } from 'vitest';
import { powderSheetSchema, type PowderSheet } from '../../../shared-core/book/material.ts';
import { effectiveSheet } from '../../../shared-core/material/sheet.ts';
import { typicalId, typicalMaterials } from '../../../shared-core/material/typical-materials.ts';
import { type FigureRowData, powderFigures } from '../../../renderer/materials/powder-figures.ts';

const fine = typicalMaterials(typicalId, '2026-05-12T00:00:00.000Z', 'UTC').find((m) => m.id === typicalId('underlayment-fine'));
if (fine?.powder === null || fine === undefined) throw new Error('the typical powder is missing');
const powder: PowderSheet = fine.powder;
const sheet = effectiveSheet(fine);

const rowsOf = (of: PowderSheet, units: 'us' | 'metric' = 'us', hasEnClass = true): FigureRowData[] => {
  const { first, rest, other } = powderFigures(of, sheet.ok ? sheet.value : null, { isTypical: true, hasEnClass, units, locale: 'en-US' });
  return [...first, ...rest, ...other];
};
const row = (key: string, of = powder, units: 'us' | 'metric' = 'us'): FigureRowData => {
  const found = rowsOf(of, units).find((r) => r.key === key);
  if (found === undefined) throw new Error(key);
  return found;
};
const typed = (key: string, text: string): PowderSheet => {
  const read = row(key).read(text);
  if (!read.ok) throw new Error(read.message);
  return read.value(powder);
};
const refusal = (key: string, text: string): string => {
  const read = row(key).read(text);
  return read.ok ? '' : read.message;
};

describe('a figure of the data sheet', () => {
  it('is shown as bags print it, in either unit system', () => {
    expect(row('waterL').text).toBe('5 to 5.25 qt');
    expect(row('yieldM3').text).toBe('0.45 cu ft');
    expect(row('liftM').text).toBe('⅛″ to 1″');
    expect(row('roomTempC').text).toBe('50 to 90 °F');
    // NIST SP 811: a cubic foot is 28.316846592 L.
    expect(row('yieldM3', powder, 'metric').text).toBe(`${(0.45 * 28.316846592).toFixed(1)} L`);
  });
  it('is no longer typical once entered, and every row stores a valid data sheet', () => {
    for (const one of rowsOf(powder)) {
      if (one.text === null) continue;
      const read = one.read(one.text);
      expect(read.ok, `${one.label}: ${read.ok ? '' : read.message}`).toBe(true);
      if (!read.ok) continue;
      const after = read.value(powder);
      expect(powderSheetSchema.safeParse(after).success, one.label).toBe(true);
      const figure = Object.entries(after).find(([key]) => key === one.key)?.[1];
      if (one.key !== 'enDesignation') expect(figure, one.label).toMatchObject({ source: 'bag' });
    }
  });
  it('stores aggregate as a share of the underlayment, shown per bag', () => {
    // 25 lb to a bag of 50 lb.
    expect(typed('aggregateShare', '25 lb').aggregateShare?.value).toBeCloseTo(0.5, 9);
    expect(row('aggregateShare').text).toBe('25 lb');
  });
  it('returns to the typical one when emptied, where the bag may not state it', () => {
    const clear = row('densityFreshKgM3').clear;
    const silent = clear === null ? powder : clear(powder);
    expect(silent.densityFreshKgM3).toBeNull();
    expect(row('densityFreshKgM3', silent)).toMatchObject({ source: 'typical' });
    expect(row('yieldM3').clear).toBeNull();
  });
  it('clears a weighed yield together with the choice to use it', () => {
    const weighed: PowderSheet = { ...powder, measuredYieldM3: 0.0134, yieldBasis: 'measured' };
    const clear = row('measuredYieldM3', weighed).clear;
    expect(clear?.(weighed)).toMatchObject({ measuredYieldM3: null, yieldBasis: 'sheet' });
  });
});

describe('the data sheet’s other figures', () => {
  it('are entered as a US data sheet prints them', () => {
    // 75 % RH and 5 lb are the figures of ASTM F710 and of most data sheets; 200 psi is ASTM F3010’s, 1379 kPa.
    expect(typed('slabHumidityMost', '75%').slabHumidityMost).toEqual({ value: 0.75, source: 'bag' });
    expect(typed('emissionMostLb', '5 lb/1000 sq ft').emissionMostLb?.value).toBe(5);
    expect(typed('pullOffLeastPa', '200 psi').pullOffLeastPa?.value).toBeCloseTo(1_378_951, -1);
    expect(typed('overWoodLeastM', '3/8"').overWoodLeastM?.value).toBeCloseTo(0.009525, 9);
    expect(typed('flowRingM', '5" to 5 1/2"').flowRingM?.value).toEqual({
      least: expect.closeTo(0.127, 9),
      most: expect.closeTo(0.1397, 9),
    });
  });
  it('can be empty, and then no floor is judged by them', () => {
    const clear = row('slabHumidityMost').clear;
    expect(clear?.(powder).slabHumidityMost).toBeNull();
  });
  it('show classes of EN 13813 only where they are used or were entered', () => {
    const hasClass = (of: PowderSheet, known: boolean) => rowsOf(of, 'us', known).some(({ key }) => key === 'enDesignation');
    expect(hasClass(powder, false)).toBe(false);
    expect(hasClass(powder, true)).toBe(true);
    expect(hasClass({ ...powder, enDesignation: 'CT-C25-F5' }, false)).toBe(true);
  });
});

describe('a figure as bags and labels print it', () => {
  it('has its other units in brackets', () => {
    expect(typed('bagKg', '50 lb (22.7 kg)').bagKg.value).toBeCloseTo(22.67962, 5);
    const water = typed('waterL', '5 to 5-1/4 quarts (4.7 to 5 L) per bag').waterL.value;
    // NIST Handbook 44, appendix C: a US liquid quart is 57.75 cubic inches.
    expect([water.least, water.most]).toEqual([expect.closeTo(4.731765, 6), expect.closeTo(4.968353, 6)]);
    const temperatures = typed('roomTempC', '50°F (10°C) to 90°F (32°C)').roomTempC.value;
    expect([temperatures.least, temperatures.most]).toEqual([10, expect.closeTo(32.222, 3)]);
  });
  it('of yield is a volume, or an area at a depth', () => {
    // 45 sq ft by an eighth of an inch: 45 / 96 = 0.46875 cu ft of 28.316846592 L (NIST SP 811).
    for (const text of ['45 sq ft at 1/8"', '45 sq. ft. per bag @ 1/8 in.', '0.46875 cu ft per bag', '0.46875 cu ft/bag'])
      expect(typed('yieldM3', text).yieldM3.value, text).toBeCloseTo((0.46875 * 28.316846592) / 1000, 9);
  });
  it('of shelf life is in months, years or days, rounded down', () => {
    for (const text of ['12', '12 mos', '12 mos.', '1 year', '1 yr', '12 months (365 days)'])
      expect(typed('shelfMonths', text).shelfMonths?.value, text).toBe(12);
    // 180 days are 5.91 months of 30.44 days.
    expect(typed('shelfMonths', '180 days').shelfMonths?.value).toBe(5.9);
  });
  it('of a surface profile or a humidity has its name with it', () => {
    expect(typed('profileCsp', 'CSP 3').profileCsp?.value).toEqual({ least: 3, most: 3 });
    for (const text of ['CSP 3 to CSP 5', 'CSP 3-5', 'csp 3 to 5'])
      expect(typed('profileCsp', text).profileCsp?.value).toEqual({ least: 3, most: 5 });
    expect(typed('slabHumidityMost', '100% RH').slabHumidityMost?.value).toBe(1);
  });
});

describe('an impossible figure', () => {
  it('of yield has a unit behind one of its two numbers only', () => {
    for (const text of ['45 sq ft at 1/8', '45 at 1/8"'])
      expect(refusal('yieldM3', text), text).toContain('Enter both units, such as 45 sq ft');
    const read = row('yieldM3', powder, 'metric').read('45 sq ft at 1/8');
    expect(read.ok ? '' : read.message).toContain('Enter both units, such as 4.2 m²');
    // Without units, 45 by an eighth of an inch is 45 / 96 cu ft (NIST SP 811).
    expect(typed('yieldM3', '45 at 1/8').yieldM3.value).toBeCloseTo((0.46875 * 28.316846592) / 1000, 9);
  });
  it.each([
    ['yieldM3', '0', 'Enter a yield greater than 0'],
    ['bagKg', '0 lb', 'Enter a weight greater than 0'],
    ['waterL', '0 to 5 qt', 'greater than 0'],
    ['waterL', '6 to 5 qt', 'the minimum is greater than the maximum'],
    ['liftM', '1" to 1/8"', 'the minimum is greater than the maximum'],
    ['liftM', '0 to 1"', 'Enter a thickness greater than 0'],
    ['roomTempC', '90 to 50 °F', 'the minimum is greater than the maximum'],
    ['lossShare', '200 %', '100'],
    ['aggregateShare', '0', 'Leave it empty'],
    ['enDesignation', 'CT-C26-F5', 'C25 and C30'],
    ['shelfMonths', 'a while', 'such as 9 months'],
    ['shelfMonths', '3 fortnights', 'such as 9 months'],
    ['yieldM3', '45 sq ft at 1/8 gal', 'not a unit of length'],
  ])('%s %s is reported', (key, text, words) => {
    expect(refusal(key, text)).toContain(words);
  });
});
