/** Air speeds: miles per hour or meters per second. */
import { FOOT_M, MILE_M } from './length-units.ts';
import { formatNumber } from './number.ts';
import { quantityParser, spellings } from './quantity.ts';
import type { UnitSystem } from './unit-system.ts';

/** One mile per hour, m/s, exactly. NIST SP 811, appendix B.8 (0.447 04). */
export const MILE_PER_HOUR_M_S = MILE_M / 3600;

const UNITS = spellings([
  [MILE_PER_HOUR_M_S, 'mph', 'mi/h'],
  [FOOT_M / 60, 'fpm', 'ft/min'],
  [1, 'm/s'],
  [1 / 3.6, 'km/h', 'kph'],
]);

/** Parses a speed in m/s; a bare number is mph or m/s by the units. */
export const parseSpeed = quantityParser({
  what: 'a speed',
  units: UNITS,
  us: { bare: MILE_PER_HOUR_M_S, example: '3 mph' },
  metric: { bare: 1, example: '1.5 m/s' },
  most: 40,
});

/** Formats a speed: `3.4 mph` or `1.5 m/s`. */
export function formatSpeed(speedMPerS: number, units: UnitSystem, locale?: string): string {
  const value = units === 'us' ? speedMPerS / MILE_PER_HOUR_M_S : speedMPerS;
  return `${formatNumber(value, { most: 1 }, locale)} ${units === 'us' ? 'mph' : 'm/s'}`;
}
