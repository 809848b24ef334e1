/**
 * Margin of the floor over the dew point. The rule is 3 °C or 5 °F (2.78 °C), which differ: each unit system uses its own, and
 * the finding names it.
 */
import type { UnitSystem } from '../book/business.ts';
import { dewPointC } from './vapor.ts';

/** The rule in each unit system. ISO 8502-4 practice, 3 °C; American coating practice, 5 °F. */
export const DEW_MARGIN: Readonly<Record<UnitSystem, { readonly leastC: number; readonly rule: string }>> = {
  metric: { leastC: 3, rule: 'surface at least 3 °C over the dew point (ISO 8502-4 practice)' },
  us: { leastC: 5 / 1.8, rule: 'surface at least 5 °F over the dew point (coating practice)' },
};

/** Tolerance for rounding in a temperature converted from Fahrenheit. */
const ROUNDING_C = 1e-9;

/** The floor against the dew point. */
export type DewMargin = {
  readonly dewPointC: number;
  readonly marginC: number;
  readonly leastC: number;
  readonly passes: boolean;
};

/**
 * The surface's margin over the dew point by the unit system's own rule; null for air without any vapor.
 * @param relativeHumidity a share
 */
export function dewMargin(airTempC: number, relativeHumidity: number, surfaceTempC: number, units: UnitSystem): DewMargin | null {
  const dew = dewPointC(airTempC, relativeHumidity);
  if (dew === null) return null;
  const { leastC } = DEW_MARGIN[units];
  const marginC = surfaceTempC - dew;
  return { dewPointC: dew, marginC, leastC, passes: marginC >= leastC - ROUNDING_C };
}
