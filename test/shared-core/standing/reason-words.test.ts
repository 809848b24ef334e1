import { describe, expect, it } from 'vitest';
import type { DryingHours, Reason } from '../../../shared-core/cure/reason.ts';
import { reasonWords } from '../../../shared-core/standing/reason-words.ts';

const air = {
  leastC: null,
  mostC: null,
  readings: 0,
  hoursStoodStill: 0,
  assumedTempC: 20,
  assumedSpreadC: 2,
  leastCureTempC: 10,
};
const strength: Reason = {
  kind: 'strength',
  referenceC: 20,
  qK: { least: 4000, most: 6000 },
  hoursLeast: 4,
  hoursMost: 6,
  source: 'bag',
  air,
};
const drying = (hours: DryingHours, wetBelowM = 0): Reason => ({
  kind: 'drying',
  referenceC: 20,
  referenceHumidity: 0.5,
  hours,
  depth: { meanM: 0.01, deepestM: 0.015 },
  wetBelowM,
  assumedHumidity: 0.45,
  air,
});
const inputs = (reason: Reason, units: 'us' | 'metric' = 'metric') =>
  Object.fromEntries(reasonWords(reason, units, 'en-US').inputs.map(({ name, value }) => [name, value]));

describe('the reason of a strength date', () => {
  it('names hours, air, formula and range', () => {
    expect(inputs(strength, 'us')).toEqual({
      'Data sheet': '4 to 6 hours at 68 °F, from the bag',
      'Measured in the room': 'no readings yet',
      'Assumed where not measured': '68 °F ± 3.6 °F',
    });
    const { formula, source, range } = reasonWords(strength, 'us', 'en-US');
    expect(formula).toBe(
      'An hour counts for more when the room is warmer than 68 °F and for less when it is colder (equivalent age, exp(−Q (1/T − 1/Ts))). The date is when the adjusted hours reach those of the data sheet. Below the minimum temperature, hours do not count.',
    );
    expect(source).toBe('ASTM C1074, Arrhenius form; EN 1992-1-1 (B.10)');
    expect(range).toBe('Data sheet hours, Q from 4,000 to 6,000 K, and the assumed temperature ± 3.6 °F.');
  });

  it('names what was measured, and how long curing paused', () => {
    expect(inputs({ ...strength, air: { ...air, leastC: 8, mostC: 21, readings: 1200, hoursStoodStill: 27.5 } })).toMatchObject({
      'Measured in the room': '8 °C to 21 °C, 1,200 readings',
      'Curing paused below 10 °C': '27.5 hours',
    });
  });

  it.each([
    [1, 1, '1 hour'],
    [2.5, 2.5, '2.5 hours'],
    [48, 71, '48 to 71 hours'],
    [72, 72, '3 days'],
    [72, 504, '3 to 21 days'],
  ])('writes %s to %s hours as %s', (hoursLeast, hoursMost, words) =>
    expect(inputs({ ...strength, hoursLeast, hoursMost, source: 'typical' })['Data sheet']).toBe(
      `${words} at 20 °C, typical (not from the data sheet)`,
    ),
  );
});

describe('the reason of a drying date', () => {
  it.each([
    ['sheet', 'Days for this depth, from the data sheet', 'the data sheet'],
    [
      'beyond-sheet',
      'Days for the thickest row of the data sheet, extended by the published screed rules',
      'the data sheet’s thickest row, lengthened as the published screed rules lengthen',
    ],
    [
      'published',
      'Days by a typical rule for cement screed (not from the data sheet)',
      'typical: 1 day per mm (25 days per in.) up to 40 to 50 mm (2 in.), 2 days per mm above. The data sheet’s days replace it',
    ],
  ] as const)('names the days and their source: %s', (from, name, source) => {
    const reason = drying({ least: 240, most: 360, from });
    expect(inputs(reason)[name]).toBe('10 to 15 days for the deepest point, at 20 °C and 50% humidity');
    expect(reasonWords(reason, 'metric', 'en-US').source).toBe(`${source}; drying in proportion to vapor pressure is common practice`);
  });

  it('names depths, lifts below and the humidity assumed', () => {
    expect(inputs(drying({ least: 240, most: 360, from: 'sheet' }, 0.02))).toMatchObject({
      Depth: '10 mm on average, 15 mm at the deepest point',
      'New lifts below': '20 mm',
      'Assumed humidity': '45%',
    });
    expect(inputs(drying({ least: 240, most: 360, from: 'sheet' }))).not.toHaveProperty('New lifts below');
  });
});
