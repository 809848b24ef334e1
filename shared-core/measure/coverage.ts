/** How far a liquid goes: square feet a gallon or square meters a liter. */
import { SQUARE_FOOT_M2 } from './area.ts';
import { formatNumber } from './number.ts';
import type { Parsed } from './parsed.ts';
import { parseQuantity, spellings } from './quantity.ts';
import { typingLocale, type UnitSystem } from './unit-system.ts';
import { GALLON_M3, LITER_M3 } from './volume.ts';

/** One square foot a US gallon, in square meters a liter. NIST SP 811, appendix B.8 (from exact factors). */
export const SQUARE_FOOT_PER_GALLON_M2_PER_L = (SQUARE_FOOT_M2 / GALLON_M3) * LITER_M3;

const UNITS = spellings([
  [SQUARE_FOOT_PER_GALLON_M2_PER_L, 'sq ft/gal', 'ft2/gal', 'sf/gal', 'sqft/gal'],
  [1, 'm2/l', 'sq m/l'],
]);

/**
 * Reads a coverage in m²/L; a bare number is sq ft/gal or m²/L by the units.
 * @param text what was typed
 * @param units the business's units
 * @param locale BCP 47 tag whose decimal sign is meant
 */
export function parseCoverage(text: string, units: UnitSystem, locale?: string): Parsed<number> {
  const isUs = units === 'us';
  const example = isUs ? '200 sq ft/gal' : '5 m²/L';
  const bare = isUs ? SQUARE_FOOT_PER_GALLON_M2_PER_L : 1;
  return parseQuantity(text, { what: 'a coverage', units: UNITS, example, bare, most: 1000 }, typingLocale(units, locale));
}

/** A coverage as it is read: `200 sq ft/gal` or `4.9 m²/L`. */
export function formatCoverage(coverageM2PerL: number, units: UnitSystem, locale?: string): string {
  if (units === 'metric') return `${formatNumber(coverageM2PerL, { most: 1 }, locale)} m²/L`;
  return `${formatNumber(coverageM2PerL / SQUARE_FOOT_PER_GALLON_M2_PER_L, { most: 0 }, locale)} sq ft/gal`;
}
