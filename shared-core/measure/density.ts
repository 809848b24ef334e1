/** Densities: pounds per cubic foot or kilograms per cubic meter. */
import { POUND_KG } from './mass.ts';
import { formatNumber } from './number.ts';
import { quantityParser, spellings } from './quantity.ts';
import type { UnitSystem } from './unit-system.ts';
import { CUBIC_FOOT_M3 } from './volume.ts';

/** One pound per cubic foot, kg/m³. NIST SP 811, appendix B.8 (1.601 846 E+01). */
export const POUND_PER_CUBIC_FOOT_KG_M3 = POUND_KG / CUBIC_FOOT_M3;

const UNITS = spellings([
  [POUND_PER_CUBIC_FOOT_KG_M3, 'lb/cu ft', 'lb/ft3', 'pcf', 'lbs/cu ft', 'lbs/ft3'],
  [1, 'kg/m3', 'kg/cu m'],
  [1000, 'g/cm3', 'kg/l', 'g/ml', 't/m3'],
]);

/** Parses a density in kg/m³; a bare number is lb/cu ft or kg/m³ by the units. */
export const parseDensity = quantityParser({
  what: 'a density',
  units: UNITS,
  us: { bare: POUND_PER_CUBIC_FOOT_KG_M3, example: '125 lb/cu ft' },
  metric: { bare: 1, example: '2000 kg/m³' },
  most: 25_000,
});

/** Formats a density: `125 lb/cu ft` or `2,000 kg/m³`. */
export function formatDensity(densityKgM3: number, units: UnitSystem, locale?: string): string {
  if (units === 'metric') return `${formatNumber(densityKgM3, { most: 0 }, locale)} kg/m³`;
  return `${formatNumber(densityKgM3 / POUND_PER_CUBIC_FOOT_KG_M3, { most: 1 }, locale)} lb/cu ft`;
}
