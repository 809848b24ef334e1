/** Parses driving distances; `formatDistance` in length-format.ts formats them. */
import { MILE_M } from './length-units.ts';
import { parseNumber } from './number.ts';
import type { Parsed } from './parsed.ts';
import type { UnitSystem } from './unit-system.ts';

const UNIT_KM: Readonly<Record<string, number>> = {
  mi: MILE_M / 1000,
  mile: MILE_M / 1000,
  miles: MILE_M / 1000,
  km: 1,
  kilometer: 1,
  kilometers: 1,
  kilometre: 1,
  kilometres: 1,
};

/**
 * Parses a driving distance: `11`, `11 mi`, `18 km`.
 * @param text the entered text; a bare number is miles for US units, kilometers for metric
 * @returns kilometers, zero or more
 */
export function parseDistance(text: string, units: UnitSystem, locale?: string): Parsed<number> {
  const typed = text.trim();
  const example = units === 'us' ? '11 mi' : '18 km';
  const [, figure = '', word = ''] = /^([^A-Za-z]*)\s*([A-Za-z]*)\.?$/.exec(typed) ?? [];
  const unitKm = word === '' ? (units === 'us' ? MILE_M / 1000 : 1) : UNIT_KM[word.toLowerCase()];
  const read = parseNumber(figure, locale);
  if (unitKm === undefined || !read.ok) return { ok: false, message: `“${typed}” is not a distance. Enter it like ${example}.` };
  if (read.value < 0) return { ok: false, message: `“${typed}”: this cannot be less than zero.` };
  return { ok: true, value: read.value * unitKm };
}
