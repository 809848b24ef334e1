/** Relative drying rate of a floor: the vapor pressure at its wet surface less that of the air. */
import { saturationPressurePa, vaporPressurePa } from '../climate/vapor.ts';

/** Relative humidity the sheet's days are taken to stand for. Typical; screed rules are stated for 50 to 65 %. */
export const REFERENCE_HUMIDITY = 0.5;

/**
 * Drying potential in pascals: saturation pressure at the surface less the air's vapor pressure; zero where the air would wet the floor.
 * @param surfaceC null takes the surface to be as warm as the air
 */
export function dryingPotentialPa(airC: number, humidity: number, surfaceC: number | null = null): number {
  return Math.max(0, saturationPressurePa(surfaceC ?? airC) - vaporPressurePa(airC, humidity));
}

/** Reference drying hours per hour in this air. Common practice: rate in proportion to potential. */
export function dryingRate(airC: number, humidity: number, referenceC: number): number {
  return dryingPotentialPa(airC, humidity) / dryingPotentialPa(referenceC, REFERENCE_HUMIDITY);
}
