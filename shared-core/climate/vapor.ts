/** Water vapor in the air of a room: its pressure and its dew point, in the Magnus form. */

/**
 * Magnus coefficients over liquid water, −45 to 60 °C: e = 6.112 hPa × exp(17.62 T / (243.12 + T)).
 * WMO Guide to Instruments and Methods of Observation (WMO-No. 8), as cited by pvlib's `rh_from_tdew`.
 */
export const MAGNUS = { pressurePa: 611.2, slope: 17.62, offsetC: 243.12 } as const;

/** Saturation vapor pressure over liquid water, pascals. For −45 to 60 °C; up to 0.31 % under the ASHRAE formulas from 0 to 50 °C. */
export function saturationPressurePa(tempC: number): number {
  return MAGNUS.pressurePa * Math.exp((MAGNUS.slope * tempC) / (MAGNUS.offsetC + tempC));
}

/** Vapor pressure of air, pascals. @param relativeHumidity a share, 0.65 is 65 % */
export function vaporPressurePa(tempC: number, relativeHumidity: number): number {
  return relativeHumidity * saturationPressurePa(tempC);
}

/**
 * Dew point over liquid water, °C; null for air without any vapor.
 *
 * Good to 0.05 °C against the ASHRAE formulas for dew points of 0 °C and above. Below freezing water settles as
 * frost a little sooner than this says (half a degree at 5 °C and 50 %), and no cement is poured there.
 * @param relativeHumidity a share, 0.65 is 65 %
 */
export function dewPointC(tempC: number, relativeHumidity: number): number | null {
  if (!(relativeHumidity > 0)) return null;
  const g = Math.log(relativeHumidity) + (MAGNUS.slope * tempC) / (MAGNUS.offsetC + tempC);
  return (MAGNUS.offsetC * g) / (MAGNUS.slope - g);
}
