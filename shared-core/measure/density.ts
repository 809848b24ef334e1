/** Densities: pounds per cubic foot or kilograms per cubic meter. */
import { POUND_KG } from './mass.ts';
import { formatNumber } from './number.ts';
import type { Parsed } from './parsed.ts';
import { parseQuantity, spellings } from './quantity.ts';
import { typingLocale, type UnitSystem } from './unit-system.ts';
import { CUBIC_FOOT_M3 } from './volume.ts';

/** One pound per cubic foot, kg/m³. NIST SP 811, appendix B.8 (1.601 846 E+01). */
export const POUND_PER_CUBIC_FOOT_KG_M3 = POUND_KG / CUBIC_FOOT_M3;

const UNITS = spellings([
  [POUND_PER_CUBIC_FOOT_KG_M3, 'lb/cu ft', 'lb/ft3', 'pcf', 'lbs/cu ft', 'lbs/ft3'],
  [1, 'kg/m3', 'kg/cu m'],
  [1000, 'g/cm3', 'kg/l', 'g/ml', 't/m3'],
]);

/**
 * Parses a density in kg/m³; a bare number is lb/cu ft or kg/m³ by the units.
 * @param text the entered text
 * @param units the business's units
 * @param locale BCP 47 tag that sets the decimal sign
 */
export function parseDensity(text: string, units: UnitSystem, locale?: string): Parsed<number> {
  const isUs = units === 'us';
  const example = isUs ? '125 lb/cu ft' : '2000 kg/m³';
  return parseQuantity(
    text,
    { what: 'a density', units: UNITS, example, bare: isUs ? POUND_PER_CUBIC_FOOT_KG_M3 : 1, most: 25_000 },
    typingLocale(units, locale),
  );
}

/** Formats a density: `125 lb/cu ft` or `2,000 kg/m³`. */
export function formatDensity(densityKgM3: number, units: UnitSystem, locale?: string): string {
  if (units === 'metric') return `${formatNumber(densityKgM3, { most: 0 }, locale)} kg/m³`;
  return `${formatNumber(densityKgM3 / POUND_PER_CUBIC_FOOT_KG_M3, { most: 1 }, locale)} lb/cu ft`;
}
