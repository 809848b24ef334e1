/** A rate as a business says it: money a square foot or a square meter. */
import { SQUARE_FOOT_M2 } from '../measure/area.ts';
import { FOOT_M, MILE_M } from '../measure/length-units.ts';
import { POUND_KG } from '../measure/mass.ts';
import type { UnitSystem } from '../measure/unit-system.ts';
import { CUBIC_FOOT_M3 } from '../measure/volume.ts';
import { exact, roundHalfUp, times } from './exact.ts';
import type { LineUnit } from './line.ts';
import { formatMoney } from './money.ts';

/** Size in SI, and name, of the unit a rate is told in. */
const US_UNITS: Partial<Record<LineUnit, readonly [number, string]>> = {
  m: [FOOT_M, 'ft'],
  m2: [SQUARE_FOOT_M2, 'sq ft'],
  m3: [CUBIC_FOOT_M3, 'cu ft'],
  kg: [POUND_KG, 'lb'],
  km: [MILE_M / 1000, 'mi'],
};
const METRIC_NAMES: Partial<Record<LineUnit, string>> = { m2: 'm²', m3: 'm³' };

/**
 * A rate in words, rounded to the minor unit for reading: `$4.25 a sq ft`. Costs are reckoned with the rate itself.
 * @param rateMinor whole minor units an SI unit
 */
export function rateWords(rateMinor: number, unit: LineUnit, units: UnitSystem, currency: string, locale?: string): string {
  const us = units === 'us' ? US_UNITS[unit] : undefined;
  if (us === undefined) return `${formatMoney(rateMinor, currency, locale)} a ${METRIC_NAMES[unit] ?? unit}`;
  return `${formatMoney(roundHalfUp(times(exact(rateMinor), exact(us[0]))), currency, locale)} a ${us[1]}`;
}
