/** Coverage of a liquid: square feet per gallon or square meters per liter. */
import { SQUARE_FOOT_M2 } from './area.ts';
import { formatNumber } from './number.ts';
import type { Parsed } from './parsed.ts';
import { parseQuantity, spellings } from './quantity.ts';
import { typingLocale, type UnitSystem } from './unit-system.ts';
import { GALLON_M3, LITER_M3 } from './volume.ts';

/** One square foot per US gallon, in square meters per liter. NIST SP 811, appendix B.8 (from exact factors). */
export const SQUARE_FOOT_PER_GALLON_M2_PER_L = (SQUARE_FOOT_M2 / GALLON_M3) * LITER_M3;

const UNITS = spellings([
  [SQUARE_FOOT_PER_GALLON_M2_PER_L, 'sq ft/gal', 'ft2/gal', 'sf/gal', 'sqft/gal'],
  [1, 'm2/l', 'sq m/l'],
]);

/**
 * Parses a coverage in m²/L; a bare number is sq ft/gal or m²/L by the units.
 * @param text the entered text
 * @param units the business's units
 * @param locale BCP 47 tag that sets the decimal sign
 */
export function parseCoverage(text: string, units: UnitSystem, locale?: string): Parsed<number> {
  const isUs = units === 'us';
  const example = isUs ? '200 sq ft/gal' : '5 m²/L';
  const bare = isUs ? SQUARE_FOOT_PER_GALLON_M2_PER_L : 1;
  return parseQuantity(text, { what: 'a coverage', units: UNITS, example, bare, most: 1000 }, typingLocale(units, locale));
}

/** Formats a coverage: `200 sq ft/gal` or `4.9 m²/L`. */
export function formatCoverage(coverageM2PerL: number, units: UnitSystem, locale?: string): string {
  if (units === 'metric') return `${formatNumber(coverageM2PerL, { most: 1 }, locale)} m²/L`;
  return `${formatNumber(coverageM2PerL / SQUARE_FOOT_PER_GALLON_M2_PER_L, { most: 0 }, locale)} sq ft/gal`;
}
