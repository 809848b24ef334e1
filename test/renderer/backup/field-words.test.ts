/**
 * The comparison of a backup with your data is in the units of the tape. 1 in. is 25.4 mm exactly (NIST SP 811, appendix B.8), 1 psf is
 * 47.88 Pa and 65 °F is 18.33 °C (the same).
 */
import { describe, expect, it } from 'vitest';
import { bothWords, fieldWords, valueWords } from '../../../renderer/backup/field-words.ts';

const nobody = (): null => null;
const US = { units: 'us', locale: 'en-US', zone: 'America/Denver', currency: 'USD' } as const;
const METRIC = { ...US, units: 'metric' } as const;

describe('a field that differs', () => {
  it.each([
    ['rooms[r1].level.leastThicknessM', 0.003175, 'Rooms, Hall, level, least thickness', '⅛″', '3 mm'],
    ['rooms[r1].heightM', -0.00635, 'Rooms, Hall, height', '−¼″', '−6 mm'],
    ['rooms[r1].outline.widthM', 3.6576, 'Rooms, Hall, outline, width', '12′ 0″', '3.658 m'],
    ['rooms[r1].floorTempC', 18.33, 'Rooms, Hall, floor temp', '65 °F', '18 °C'],
    ['rooms[r1].loadPa', 1915.2, 'Rooms, Hall, load', '40 psf', '1.92 kN/m²'],
    ['rooms[r1].relativeHumidity', 0.84, 'Rooms, Hall, relative humidity', '84%', '84%'],
    ['priceMinor', 125_000, 'Price', '$1,250.00', '$1,250.00'],
    ['powder.coverageM2PerL', 7.3627160241333485, 'Powder, coverage', '300 sq ft/gal', '7.4 m²/L'],
    ['test.airSpeedMPerS', 0.2, 'Test, air speed', '0.4 mph', '0.2 m/s'],
    // 27.2155 cents per km is 43.8 cents a mi, 3,200 per m² is 297 per sq ft (1 mi = 1.609344 km, 1 ft = 0.3048 m); 2,000 kg/m³ is 124.9 lb/cu ft.
    ['drive.kmMinor', 27.2155, 'Drive, km', '$0.44 per mi', '$0.27 per km'],
    ['costs.grindM2Minor', 3_200, 'Costs, grind', '$2.97 per sq ft', '$32.00 per m²'],
    ['powder.densityHardKgM3', 2_000, 'Powder, density hard', '124.9 lb/cu ft', '2,000 kg/m³'],
    ['taxes[t1].rate', 0.08875, 'Taxes, t1, rate', '8.875%', '8.875%'],
    ['yearBuilt', 1951, 'Year built', '1951', '1951'],
    ['bags', 12, 'Bags', '12', '12'],
  ])('%s of %d is in the company’s units', (path, value, field, us, metric) => {
    expect(fieldWords({ path, ours: value, theirs: 0 }, (id) => (id === 'r1' ? 'Hall' : null))).toBe(field);
    expect(valueWords(path, value, nobody, US)).toBe(us);
    expect(valueWords(path, value, nobody, METRIC)).toBe(metric);
  });

  it('shows what is stored where both sides read the same', () => {
    expect(bothWords({ path: 'valueM', ours: 1.0981, theirs: 1.0985 }, nobody, US)).toEqual({
      ours: '3′ 7¼″ (1.0981)',
      theirs: '3′ 7¼″ (1.0985)',
    });
    expect(bothWords({ path: 'valueM', ours: 1.0981, theirs: null }, nobody, US)).toEqual({ ours: '3′ 7¼″', theirs: 'Empty' });
  });

  it('writes kinds as words, and names and days as they are', () => {
    expect(valueWords('kind', 'vinyl-asbestos', nobody, US)).toBe('vinyl asbestos');
    expect(valueWords('name', 'Odell-Wicklow', nobody, US)).toBe('Odell-Wicklow');
    expect(valueWords('onDay', '2026-05-12', nobody, US)).toBe('May 12, 2026');
    expect(valueWords('takenAt', '2025-05-12T14:15:00.000Z', nobody, US)).toBe('May 12, 2025, 8:15 am');
    expect(valueWords('layer', { id: 'x', kind: 'sheet-vinyl', thicknessM: 0.003175 }, nobody, US)).toBe(
      'kind: sheet vinyl, thickness: ⅛″',
    );
  });
});
