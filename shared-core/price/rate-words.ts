/** A rate as it is shown: money per square foot or square meter. */
import { SQUARE_FOOT_M2 } from '../measure/area.ts';
import { FOOT_M, MILE_M } from '../measure/length-units.ts';
import { POUND_KG } from '../measure/mass.ts';
import type { UnitSystem } from '../measure/unit-system.ts';
import { CUBIC_FOOT_M3 } from '../measure/volume.ts';
import { exact, roundHalfUp, times } from './exact.ts';
import type { LineUnit } from './line.ts';
import { formatMoney } from './money.ts';

/** Size in SI and name of the unit a rate is shown in. */
const US_UNITS: Partial<Record<LineUnit, readonly [number, string]>> = {
  m: [FOOT_M, 'ft'],
  m2: [SQUARE_FOOT_M2, 'sq ft'],
  m3: [CUBIC_FOOT_M3, 'cu ft'],
  kg: [POUND_KG, 'lb'],
  km: [MILE_M / 1000, 'mi'],
};
const METRIC_NAMES: Partial<Record<LineUnit, string>> = { m2: 'm²', m3: 'm³' };

/** Size in SI and name of the unit that a rate is shown in. */
function rateUnit(unit: LineUnit, units: UnitSystem): readonly [number, string] {
  return (units === 'us' ? US_UNITS[unit] : undefined) ?? [1, METRIC_NAMES[unit] ?? unit];
}

/** The name of the unit that a rate is shown in: `sq ft`, `m²`, `hour`. */
export function rateUnitName(unit: LineUnit, units: UnitSystem): string {
  return unit === 'h' ? 'hour' : rateUnit(unit, units)[1];
}

/**
 * A rate for display, whole minor units per displayed unit. @param rateMinor minor units per SI unit
 */
export function rateAsShown(rateMinor: number, unit: LineUnit, units: UnitSystem): number {
  return roundHalfUp(times(exact(rateMinor), exact(rateUnit(unit, units)[0])));
}

/** A rate per large unit (a mile) needs more than whole minor units to read back as entered. */
const KEPT_DECIMALS = 1e6;

/**
 * A stored rate: minor units per SI unit, precise enough that `rateAsShown` returns the entered value. @param shownMinor whole
 * minor units per displayed unit
 */
export function rateAsStored(shownMinor: number, unit: LineUnit, units: UnitSystem): number {
  const [size] = rateUnit(unit, units);
  const rate = shownMinor / size;
  return size > 1 ? Math.round(rate * KEPT_DECIMALS) / KEPT_DECIMALS : Math.round(rate);
}

/**
 * A rate in words, rounded to the minor unit for reading: `$4.25 per sq ft`. Costs are calculated with the rate itself.
 * @param rateMinor minor units per SI unit
 */
export function rateWords(rateMinor: number, unit: LineUnit, units: UnitSystem, currency: string, locale?: string): string {
  return `${formatMoney(rateAsShown(rateMinor, unit, units), currency, locale)} per ${rateUnitName(unit, units)}`;
}
