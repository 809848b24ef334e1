/** Volumes: of underlayment in cubic feet or liters, and of liquids in gallons and quarts or liters. */
import { FOOT_M, INCH_M, YARD_M } from './length-units.ts';
import { formatNumber } from './number.ts';
import type { Parsed } from './parsed.ts';
import { formatScaled, quantityParser, spellings } from './quantity.ts';
import type { UnitSystem } from './unit-system.ts';

/** One cubic foot, cubic meters, exactly. NIST SP 811, appendix B.8. */
export const CUBIC_FOOT_M3 = FOOT_M ** 3;
/** One US liquid gallon, 231 cubic inches, exactly. NIST Handbook 44, appendix C. */
export const GALLON_M3 = 231 * INCH_M ** 3;
/** One US liquid quart, a quarter of a gallon, exactly. */
export const QUART_M3 = GALLON_M3 / 4;
/** One liter, exactly. */
export const LITER_M3 = 0.001;

const UNITS = spellings([
  [CUBIC_FOOT_M3, 'cu ft', 'cuft', 'cf', 'ft3', 'cu feet', 'cu foot'],
  [INCH_M ** 3, 'cu in', 'in3', 'cu inches', 'cu inch'],
  [YARD_M ** 3, 'cu yd', 'yd3', 'cu yards', 'cu yard'],
  [GALLON_M3, 'gal', 'gals', 'gallon', 'gallons'],
  [QUART_M3, 'qt', 'qts', 'quart', 'quarts'],
  [QUART_M3 / 2, 'pt', 'pint', 'pints'],
  [QUART_M3 / 32, 'fl oz', 'fluid ounces'],
  // British spellings are accepted too, because people enter them.
  [LITER_M3, 'l', 'liter', 'liters', 'litre', 'litres'],
  [1e-6, 'ml', 'milliliters', 'millilitres', 'cm3'],
  [1, 'm3', 'cu m', 'cu meters', 'cu metres'],
]);

/** Parses a volume of underlayment in cubic meters; a bare number is cubic feet or liters by the units. */
export const parseVolume = quantityParser({
  what: 'a volume',
  units: UNITS,
  us: { bare: CUBIC_FOOT_M3, example: '0.45 cu ft' },
  metric: { bare: LITER_M3, example: '12.5 L' },
  most: 1000,
});

/** Formats a volume of underlayment: `12.4 cu ft`, `351 L`, or `1.25 m³` from a cubic meter up. */
export function formatVolume(volumeM3: number, units: UnitSystem, locale?: string): string {
  if (units === 'us') {
    const cubicFeet = volumeM3 / CUBIC_FOOT_M3;
    return `${formatNumber(cubicFeet, { most: Math.abs(cubicFeet) < 1 ? 2 : Math.abs(cubicFeet) < 100 ? 1 : 0 }, locale)} cu ft`;
  }
  if (Math.abs(volumeM3) >= 1) return `${formatNumber(volumeM3, { most: 2 }, locale)} m³`;
  return formatScaled(volumeM3 / LITER_M3, 'L', locale);
}

/** A bag's yield to the two digits bags are printed with, without its unit: `0.45`, `12.7`. */
export function formatYieldNumber(yieldM3: number, units: UnitSystem, locale?: string): string {
  return units === 'us'
    ? formatNumber(yieldM3 / CUBIC_FOOT_M3, { least: 2, most: 2 }, locale)
    : formatNumber(yieldM3 / LITER_M3, { least: 1, most: 1 }, locale);
}

/** A bag's yield with its unit: `0.45 cu ft`, `12.7 L`. */
export const formatYield = (yieldM3: number, units: UnitSystem, locale?: string): string =>
  `${formatYieldNumber(yieldM3, units, locale)} ${units === 'us' ? 'cu ft' : 'L'}`;

const liquidIn = quantityParser({
  what: 'a volume',
  units: UNITS,
  us: { bare: QUART_M3, example: '5 qt' },
  metric: { bare: LITER_M3, example: '4.7 L' },
  most: 100,
});

/** Parses a volume of water or primer in liters; a bare number is quarts or liters by the units. */
export function parseLiquid(text: string, units: UnitSystem, locale?: string): Parsed<number> {
  const read = liquidIn(text, units, locale);
  return read.ok ? { ok: true, value: read.value / LITER_M3 } : read;
}

/** Formats a volume of water or primer given in liters: `5 qt`, `3.2 gal` from two gallons up, `4.7 L`. */
export function formatLiquid(volumeL: number, units: UnitSystem, locale?: string): string {
  if (units === 'metric') return `${formatNumber(volumeL, { most: Math.abs(volumeL) < 100 ? 1 : 0 }, locale)} L`;
  const quarts = (volumeL * LITER_M3) / QUART_M3;
  if (Math.abs(quarts) < 8) return `${formatNumber(quarts, { most: 2 }, locale)} qt`;
  return `${formatNumber(quarts / 4, { most: Math.abs(quarts) < 400 ? 1 : 0 }, locale)} gal`;
}

/** Smaller than this of a hundredth is rounding of a stored figure, which is no reason to change it. */
const HAIR = 1e-6;

/**
 * Formats the limits of mix water given in liters, in quarts or liters, as a measuring bucket is marked. Neither is rounded past: the least
 * up, the most down, to hundredths.
 * @returns the most alone, and both: `9 qt`, `8 qt to 9 qt`
 */
export function formatWaterLimits(
  { least, most }: { readonly least: number; readonly most: number },
  units: UnitSystem,
  locale?: string,
): { readonly most: string; readonly span: string } {
  const [unit, eachL] = units === 'us' ? ['qt', QUART_M3 / LITER_M3] : ['L', 1];
  const upper = Math.floor((most / eachL) * 100 + HAIR) / 100;
  const lower = Math.ceil((least / eachL) * 100 - HAIR) / 100;
  const show = (amount: number): string => `${formatNumber(amount, { most: 2 }, locale)} ${unit}`;
  return { most: show(upper), span: lower < upper ? `${show(lower)} to ${show(upper)}` : show(upper) };
}
