/** Masses: pounds or kilograms, and mass per unit area. */
import { SQUARE_FOOT_M2 } from './area.ts';
import { formatNumber } from './number.ts';
import { quantityParser, spellings } from './quantity.ts';
import type { UnitSystem } from './unit-system.ts';

/** One avoirdupois pound, kilograms, exactly. NIST SP 811, appendix B.8. */
export const POUND_KG = 0.45359237;
/** 1 lb/ft² in kg/m². */
export const LB_FT2_KG_M2 = POUND_KG / SQUARE_FOOT_M2;

const UNITS = spellings([
  [POUND_KG, 'lb', 'lbs', 'pound', 'pounds', '#'],
  [POUND_KG / 16, 'oz', 'ounce', 'ounces'],
  [POUND_KG * 2000, 'ton', 'tons', 'short ton', 'short tons'],
  [1, 'kg', 'kgs', 'kilo', 'kilos', 'kilogram', 'kilograms'],
  [0.001, 'g', 'gram', 'grams'],
  [1000, 't', 'tonne', 'tonnes'],
]);

/** Parses a mass in kilograms; a bare number is pounds or kilograms by the units. */
export const parseMass = quantityParser({
  what: 'a mass',
  units: UNITS,
  us: { bare: POUND_KG, example: '50 lb' },
  metric: { bare: 1, example: '25 kg' },
  most: 1e6,
});

/** Formats a mass: `50 lb` or `22.7 kg`; one decimal below 100. */
export function formatMass(massKg: number, units: UnitSystem, locale?: string): string {
  const value = units === 'us' ? massKg / POUND_KG : massKg;
  return `${formatNumber(value, { most: Math.abs(value) < 100 ? 1 : 0 }, locale)} ${units === 'us' ? 'lb' : 'kg'}`;
}

/** Formats the weight of a layer on a floor, as its load is entered: `9.2 psf` or `45 kg/m²`. */
export function formatArealMass(massKgPerM2: number, units: UnitSystem, locale?: string): string {
  if (units === 'metric') return `${formatNumber(massKgPerM2, { most: Math.abs(massKgPerM2) < 10 ? 1 : 0 }, locale)} kg/m²`;
  return `${formatNumber((massKgPerM2 / POUND_KG) * SQUARE_FOOT_M2, { most: 1 }, locale)} psf`;
}
