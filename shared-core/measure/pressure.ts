/** Strengths and loads: psi or N/mm² for strength, pounds per square foot or kN/m² for a floor load. */
import { SQUARE_FOOT_M2 } from './area.ts';
import { INCH_M } from './length-units.ts';
import { POUND_KG } from './mass.ts';
import { formatNumber } from './number.ts';
import { quantityParser, spellings } from './quantity.ts';
import type { UnitSystem } from './unit-system.ts';

/** Standard acceleration of free fall, m/s², exactly. NIST SP 811, appendix B.8. */
export const STANDARD_GRAVITY_M_S2 = 9.80665;
/** One pound-force per square inch, pascals. NIST SP 811, appendix B.8 (6.894 757 E+03). */
export const PSI_PA = (POUND_KG * STANDARD_GRAVITY_M_S2) / INCH_M ** 2;
/** One pound-force per square foot, pascals. NIST SP 811, appendix B.8 (4.788 026 E+01). */
export const PSF_PA = (POUND_KG * STANDARD_GRAVITY_M_S2) / SQUARE_FOOT_M2;

const UNITS = spellings([
  [PSI_PA, 'psi', 'lb/in2', 'lb/sq in', 'lbf/in2'],
  [PSI_PA * 1000, 'ksi'],
  [PSF_PA, 'psf', 'lb/ft2', 'lb/sq ft', 'lbf/ft2'],
  [1, 'pa', 'n/m2'],
  [1000, 'kpa', 'kn/m2'],
  [1e6, 'mpa', 'n/mm2'],
  [1e9, 'gpa', 'kn/mm2'],
  [STANDARD_GRAVITY_M_S2, 'kg/m2', 'kgf/m2'],
]);

/** Parses a strength or an elastic modulus in pascals; a bare number is psi or N/mm² by the units. */
export const parseStrength = quantityParser({
  what: 'a strength',
  units: UNITS,
  us: { bare: PSI_PA, example: '4,000 psi' },
  metric: { bare: 1e6, example: '28 N/mm²' },
  most: 1e12,
});

/** Formats a strength: `4,060 psi` (to 10 from 1,000 up) or `28 N/mm²`. */
export function formatStrength(strengthPa: number, units: UnitSystem, locale?: string): string {
  if (units === 'metric') return `${formatNumber(strengthPa / 1e6, { most: Math.abs(strengthPa) < 1e7 ? 1 : 0 }, locale)} N/mm²`;
  const psi = strengthPa / PSI_PA;
  return `${formatNumber(Math.abs(psi) >= 1000 ? Math.round(psi / 10) * 10 : psi, { most: 0 }, locale)} psi`;
}

/** Parses a floor load in pascals; a bare number is pounds per square foot or kN/m² by the units. */
export const parseLoad = quantityParser({
  what: 'a load',
  units: UNITS,
  us: { bare: PSF_PA, example: '10 psf' },
  metric: { bare: 1000, example: '0.5 kN/m²' },
  most: 1e6,
});

/** Formats a floor load: `10 psf` or `0.48 kN/m²`. */
export function formatLoad(loadPa: number, units: UnitSystem, locale?: string): string {
  if (units === 'metric') return `${formatNumber(loadPa / 1000, { most: 2 }, locale)} kN/m²`;
  return `${formatNumber(loadPa / PSF_PA, { most: 1 }, locale)} psf`;
}
