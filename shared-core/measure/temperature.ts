/** Temperatures in degrees Fahrenheit or Celsius; a temperature difference is separate because it has no zero offset. */
import { formatNumber, parseNumber } from './number.ts';
import type { Parsed } from './parsed.ts';
import { withoutRestated } from './quantity.ts';
import type { UnitSystem } from './unit-system.ts';

/**
 * Coldest and hottest accepted, °C; beyond is a typing error. Common practice; the stored records use the same span for air
 * and surface.
 */
const COLDEST_C = -60;
const HOTTEST_C = 90;

/** °F from °C. NIST SP 811, appendix B.8: t/°C = (t/°F − 32)/1.8. */
export function fahrenheitFromCelsius(tempC: number): number {
  return tempC * 1.8 + 32;
}

/** °C from °F. NIST SP 811, appendix B.8. */
export function celsiusFromFahrenheit(tempF: number): number {
  return (tempF - 32) / 1.8;
}

type Read = { readonly value: number; readonly scale: 'F' | 'C' };

function readDegrees(text: string, units: UnitSystem, locale: string | undefined): Parsed<Read> {
  const typed = text.trim();
  const example = units === 'us' ? '68 °F' : '20 °C';
  if (typed === '') return { ok: false, message: `Enter a temperature, such as ${example}.` };
  const match = /^([^°ºa-z]*?)\s*(?:°|º|degrees?|deg\.?)?\s*(fahrenheit|celsius|f|c)?\.?$/i.exec(withoutRestated(typed));
  if (match === null) return { ok: false, message: `“${typed}”: this is not a temperature. Enter it like ${example}.` };
  const value = parseNumber(match[1] ?? '', locale);
  if (!value.ok) return { ok: false, message: `“${typed}”: this is not a temperature. Enter it like ${example}.` };
  const letter = match[2]?.charAt(0).toUpperCase();
  const scale = letter === 'F' || letter === 'C' ? letter : units === 'us' ? 'F' : 'C';
  return { ok: true, value: { value: value.value, scale } };
}

/** Parses a temperature in °C; a bare number is °F or °C by the units. */
export function parseTemperature(text: string, units: UnitSystem, locale?: string): Parsed<number> {
  const read = readDegrees(text, units, locale);
  if (!read.ok) return read;
  const tempC = read.value.scale === 'F' ? celsiusFromFahrenheit(read.value.value) : read.value.value;
  if (tempC < COLDEST_C || tempC > HOTTEST_C) {
    const span = `${formatTemperature(COLDEST_C, units)} to ${formatTemperature(HOTTEST_C, units)}`;
    return { ok: false, message: `“${text.trim()}”: temperatures here run from ${span}. Check the figure and its scale, °F or °C.` };
  }
  return { ok: true, value: tempC };
}

/** Parses a temperature difference in kelvins, which may be negative: a difference of 5 °F is 2.78 K. */
export function parseTemperatureDifference(text: string, units: UnitSystem, locale?: string): Parsed<number> {
  const read = readDegrees(text, units, locale);
  if (!read.ok) return read;
  const differenceK = read.value.scale === 'F' ? read.value.value / 1.8 : read.value.value;
  if (Math.abs(differenceK) > HOTTEST_C - COLDEST_C)
    return { ok: false, message: `“${text.trim()}”: check this value. The difference is too large.` };
  return { ok: true, value: differenceK };
}

/** Formats a temperature: `68 °F`, `20 °C`, without decimals by default. */
export function formatTemperature(tempC: number, units: UnitSystem, locale?: string, decimals = 0): string {
  const value = units === 'us' ? fahrenheitFromCelsius(tempC) : tempC;
  return `${formatNumber(value, { most: decimals }, locale).replace(/^\u22120$/, '0')} °${units === 'us' ? 'F' : 'C'}`;
}

/** Formats a temperature difference: 2.78 K is `5 °F`, 3 K is `3 °C`; at most one decimal. */
export function formatTemperatureDifference(differenceK: number, units: UnitSystem, locale?: string): string {
  const value = units === 'us' ? differenceK * 1.8 : differenceK;
  return `${formatNumber(value, { most: 1 }, locale).replace(/^\u22120$/, '0')} °${units === 'us' ? 'F' : 'C'}`;
}
