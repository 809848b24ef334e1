import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { dryingRate, dryingHours, publishedScreedDays, SCREED_RULES, screedDays } from '../../../shared-core/cure/drying-dates.ts';
import { AGREED_DAYS, PARTED_DAYS } from '../../reference/drying-rules.ts';
import { cover } from './sheet-fixture.ts';

describe('published screed rules', () => {
  it('agree to 40 mm (Y1)', () => {
    for (const [mm, days] of AGREED_DAYS) {
      for (const rule of SCREED_RULES) expect(screedDays(rule, mm / 1000)).toBeCloseTo(days, 9);
      expect(publishedScreedDays(mm / 1000)).toEqual({ least: mm, most: mm });
    }
  });

  it('differ above, and the difference is the range (Y2, Y3, Y4)', () => {
    for (const [mm, first, second, third] of PARTED_DAYS) {
      const days = SCREED_RULES.map((rule) => screedDays(rule, mm / 1000));
      expect(days[0]).toBe(first);
      expect(days[1]).toBeCloseTo(second, 9);
      expect(days[2]).toBeCloseTo(third, 9);
      const range = publishedScreedDays(mm / 1000);
      expect(range.least).toBeCloseTo(second, 9);
      expect(range.most).toBeCloseTo(third, 9);
    }
  });
});

describe('drying hours for a thickness', () => {
  const rows = [cover('tile-small', 0.02, 14, 21), cover('tile-small', 0.01, 7, 10)];

  it('are the data sheet’s at its thicknesses, and linear between them', () => {
    expect(dryingHours(rows, 0.01)).toMatchObject({ least: 168, most: 240, from: 'sheet' });
    expect(dryingHours(rows, 0.02)).toMatchObject({ least: 336, most: 504, from: 'sheet' });
    expect(dryingHours(rows, 0.015).least).toBeCloseTo(252, 9);
    expect(dryingHours(rows, 0.015).most).toBeCloseTo(372, 9);
  });

  it('are never below the data sheet’s thinnest row', () => {
    expect(dryingHours(rows, 0.002)).toMatchObject({ least: 168, most: 240 });
  });

  it('grow past the thickest row as the published rules do, and say so', () => {
    expect(dryingHours(rows, 0.04)).toMatchObject({ least: 672, most: 1008, from: 'beyond-sheet' });
  });

  it('use the published rules, named, where the data sheet has none', () => {
    expect(dryingHours([], 0.025)).toEqual({ least: 600, most: 600, from: 'published' });
  });

  it('never shorten with thickness', () => {
    const depth = fc.double({ min: 0.001, max: 0.12, noNaN: true });
    fc.assert(
      fc.property(depth, depth, fc.boolean(), (a, b, withSheet) => {
        const [thin, thick] = [Math.min(a, b), Math.max(a, b)].map((m) => dryingHours(withSheet ? rows : [], m));
        expect(thick?.least).toBeGreaterThanOrEqual((thin?.least ?? 0) - 1e-9);
        expect(thick?.most).toBeGreaterThanOrEqual((thin?.most ?? 0) - 1e-9);
      }),
    );
  });
});

describe('drying potential', () => {
  it('is one in the reference climate and nothing in saturated air', () => {
    expect(dryingRate(20, 0.5, 20)).toBeCloseTo(1, 12);
    expect(dryingRate(20, 1, 20)).toBe(0);
  });

  it('doubles from 50 % to none, as the vapor pressures do', () => {
    expect(dryingRate(20, 0, 20)).toBeCloseTo(2, 12);
  });

  it('follows the saturation pressures published by ASHRAE (5 and 25 °C: 872.6 and 3169.7 Pa) within half a percent', () => {
    expect(Math.abs(dryingRate(25, 0.5, 5) / (3169.7 / 872.6) - 1)).toBeLessThan(0.005);
  });
});
