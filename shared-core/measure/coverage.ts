/** Coverage of a liquid: square feet per gallon or square meters per liter. */
import { SQUARE_FOOT_M2 } from './area.ts';
import { formatNumber } from './number.ts';
import type { Parsed } from './parsed.ts';
import { quantityParser, spellings } from './quantity.ts';
import type { UnitSystem } from './unit-system.ts';
import { GALLON_M3, LITER_M3 } from './volume.ts';

/** One square foot per US gallon, in square meters per liter. NIST SP 811, appendix B.8 (from exact factors). */
export const SQUARE_FOOT_PER_GALLON_M2_PER_L = (SQUARE_FOOT_M2 / GALLON_M3) * LITER_M3;

const over = (areas: readonly string[], liquids: readonly string[]): string[] =>
  areas.flatMap((area) => liquids.map((liquid) => `${area}/${liquid}`));

const UNITS = spellings([
  [SQUARE_FOOT_PER_GALLON_M2_PER_L, ...over(['sq ft', 'ft2', 'sf', 'sqft', 'sq feet'], ['gal', 'gallon'])],
  [1, ...over(['m2', 'sq m', 'sq meters'], ['l', 'liter', 'litre'])],
]);

/** The film thickness at which a label states a coverage: `at 16 mils`. */
const AT_THICKNESS = /\s+(?:at|@)\s+\d[\d.,]*\s*(?:mils?|mm|µm|microns?)\.?$/i;

const coverageIn = quantityParser({
  what: 'a coverage',
  units: UNITS,
  us: { bare: SQUARE_FOOT_PER_GALLON_M2_PER_L, example: '200 sq ft/gal' },
  metric: { bare: 1, example: '5 m²/L' },
  most: 1000,
  ofRange: 'Enter the lower value, so that you buy enough',
});

/** Parses a coverage in m²/L; a bare number is sq ft/gal or m²/L by the units. A film thickness behind it is not read. */
export const parseCoverage = (text: string, units: UnitSystem, locale?: string): Parsed<number> =>
  coverageIn(text.replace(AT_THICKNESS, ''), units, locale);

/** Formats a coverage: `200 sq ft/gal` or `4.9 m²/L`. */
export function formatCoverage(coverageM2PerL: number, units: UnitSystem, locale?: string): string {
  if (units === 'metric') return `${formatNumber(coverageM2PerL, { most: 1 }, locale)} m²/L`;
  return `${formatNumber(coverageM2PerL / SQUARE_FOOT_PER_GALLON_M2_PER_L, { most: 0 }, locale)} sq ft/gal`;
}
