/** Formats lengths: feet, inches, and typographic fractions to 1/16 in., or meters and millimeters. */
import { formatParts } from './fraction.ts';
import { INCH_M, MILE_M } from './length-units.ts';
import { DEFAULT_LOCALE, formatNumber, UNKNOWN_MARK } from './number.ts';
import type { UnitSystem } from './unit-system.ts';

/** Lengths are shown to this fraction of an inch. */
export const PARTS_PER_INCH = 16;
const MINUS = '\u2212';

function sixteenths(valueM: number): number {
  return Math.round((Math.abs(valueM) / INCH_M) * PARTS_PER_INCH);
}

function millimeters(valueM: number): number {
  return Math.round(Math.abs(valueM) * 1000);
}

function parts(valueM: number): { readonly sign: string; readonly feet: number; readonly rest: number } {
  const total = sixteenths(valueM);
  const perFoot = 12 * PARTS_PER_INCH;
  return { sign: valueM < 0 && total > 0 ? MINUS : '', feet: Math.floor(total / perFoot), rest: total % perFoot };
}

/**
 * Formats a length: `12′ 4½″` to the nearest 1/16 in., or `3.76 m` to the nearest millimeter.
 * @param valueM meters; a dash is shown when it is not finite
 */
export function formatLength(valueM: number, units: UnitSystem, locale: string = DEFAULT_LOCALE): string {
  if (!Number.isFinite(valueM)) return UNKNOWN_MARK;
  if (units === 'metric') {
    const mm = millimeters(valueM) * (valueM < 0 ? -1 : 1);
    return `${formatNumber(mm === 0 ? 0 : mm / 1000, { least: 2, most: 3 }, locale)} m`;
  }
  const { sign, feet, rest } = parts(valueM);
  // Shows 0 inches between feet and a fraction, as on a tape.
  const none = feet > 0 && rest > 0 && rest < PARTS_PER_INCH ? '0' : '';
  const inches = `${none}${formatParts(rest, PARTS_PER_INCH)}″`;
  return feet === 0 ? `${sign}${inches}` : `${sign}${feet}′ ${inches}`;
}

/**
 * Formats a depth, thickness, or reading: `1¾″` or `44 mm`, never in feet.
 * @param valueM meters; a dash is shown when it is not finite
 */
export function formatDepth(valueM: number, units: UnitSystem, locale: string = DEFAULT_LOCALE): string {
  if (!Number.isFinite(valueM)) return UNKNOWN_MARK;
  const isNegative = valueM < 0;
  if (units === 'metric') {
    const mm = millimeters(valueM);
    return `${formatNumber(isNegative && mm > 0 ? -mm : mm, { most: 0 }, locale)} mm`;
  }
  const total = sixteenths(valueM);
  return `${isNegative && total > 0 ? MINUS : ''}${formatParts(total, PARTS_PER_INCH)}″`;
}

/** Whether a depth is written as zero. */
export const isZeroDepth = (valueM: number, units: UnitSystem): boolean =>
  units === 'metric' ? millimeters(valueM) === 0 : sixteenths(valueM) === 0;

/** A depth with its sign always shown, `+⅜″` or `−10 mm`; zero has no sign. */
export function formatSignedDepth(valueM: number, units: UnitSystem, locale: string = DEFAULT_LOCALE): string {
  const shown = formatDepth(valueM, units, locale);
  return valueM > 0 && Number.isFinite(valueM) && !isZeroDepth(valueM, units) ? `+${shown}` : shown;
}

/** A step at a doorway in words: `⅜″ up`, `10 mm down`, `level`. Up is positive. */
export function formatStep(valueM: number, units: UnitSystem, locale: string = DEFAULT_LOCALE): string {
  if (!Number.isFinite(valueM)) return UNKNOWN_MARK;
  return isZeroDepth(valueM, units) ? 'level' : `${formatDepth(Math.abs(valueM), units, locale)} ${valueM > 0 ? 'up' : 'down'}`;
}

function typedParts(count: number): string {
  const whole = Math.floor(count / PARTS_PER_INCH);
  let top = count % PARTS_PER_INCH;
  if (top === 0) return `${whole}"`;
  let bottom = PARTS_PER_INCH;
  while (top % 2 === 0) {
    top /= 2;
    bottom /= 2;
  }
  return whole === 0 ? `${top}/${bottom}"` : `${whole} ${top}/${bottom}"`;
}

/** Formats a length with keyboard characters, for a field or a table: `12' 4 1/2"` or `3.765 m`. */
export function typedLength(valueM: number, units: UnitSystem, locale: string = DEFAULT_LOCALE): string {
  if (units === 'metric' || !Number.isFinite(valueM)) return formatLength(valueM, units, locale).replace(MINUS, '-');
  const { sign, feet, rest } = parts(valueM);
  const minus = sign === '' ? '' : '-';
  if (feet === 0) return `${minus}${typedParts(rest)}`;
  return rest === 0 ? `${minus}${feet}'` : `${minus}${feet}' ${typedParts(rest)}`;
}

/**
 * Formats a length that the trade gives in inches and measures by eye: `6 in.`, `1/2 in.`; in metric to 10 mm from an inch on, `150 mm`.
 * @param inches to 1/16
 */
export function formatInches(inches: number, units: UnitSystem): string {
  const mm = (inches * INCH_M) / 0.001;
  if (units === 'metric') return `${inches < 1 ? Math.round(mm) : Math.round(mm / 10) * 10} mm`;
  return `${typedParts(Math.round(inches * PARTS_PER_INCH)).replace('"', '')} in.`;
}

/** Formats a driving distance: `14 mi` or `23 km`. */
export function formatDistance(valueKm: number, units: UnitSystem, locale: string = DEFAULT_LOCALE): string {
  const value = units === 'us' ? (valueKm * 1000) / MILE_M : valueKm;
  return `${formatNumber(value, { most: value < 10 ? 1 : 0 }, locale)} ${units === 'us' ? 'mi' : 'km'}`;
}
