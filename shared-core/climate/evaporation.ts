/**
 * How fast a fresh surface loses water: Uno's equation for the chart of ACI 305. A guide to within about 40 %
 * (Hover, ACI SP-338, 2020).
 */
import { MILE_M } from '../measure/length-units.ts';
import { LB_FT2_KG_M2 } from '../measure/mass.ts';

/** Uno 1998 (ACI Materials Journal 95-M34), inch-pound: (Tc^2.5 − r Ta^2.5)(1 + 0.4 V) × 10⁻⁶ lb/ft²/h, °F and mph. */
export const UNO = { power: 2.5, windPerMph: 0.4, scale: 1e-6 } as const;

/**
 * The same equation with its coefficients turned exactly into °C and km/h:
 * 5.27507 ([Tc + 17.7778]^2.5 − r [Ta + 17.7778]^2.5)(V + 4.02336) × 10⁻⁶ kg/m²/h.
 * The rounded form in print (5, 18, 4) reads 4 % lower and would let the two unit systems disagree at a limit.
 */
export const UNO_SI = {
  scale: (1.8 ** UNO.power * LB_FT2_KG_M2 * UNO.windPerMph * UNO.scale) / (MILE_M / 1000),
  offsetC: 32 / 1.8,
  windOffsetKmH: (1 / UNO.windPerMph) * (MILE_M / 1000),
} as const;

/** Evaporation from the surface, kg/m²/h, at least 0; `condenses` when water settles on it instead. */
export type Evaporation = { readonly kgM2H: number; readonly condenses: boolean };

/** 0 °F: below it the equation raises a negative number to 2.5 and has no result. */
const above = (temp: number): number => Math.max(0, temp) ** UNO.power;

/**
 * Evaporation from a fresh surface.
 * @param surfaceTempC of the fresh material; a thin layer soon takes the floor's
 * @param relativeHumidity of the air, a share
 * @param airSpeedMPerS half a meter above the floor
 */
export function evaporation(surfaceTempC: number, airTempC: number, relativeHumidity: number, airSpeedMPerS: number): Evaporation {
  const drive = above(surfaceTempC + UNO_SI.offsetC) - relativeHumidity * above(airTempC + UNO_SI.offsetC);
  const kgM2H = UNO_SI.scale * drive * (airSpeedMPerS * 3.6 + UNO_SI.windOffsetKmH);
  return { kgM2H: Math.max(0, kgM2H), condenses: drive < 0 };
}
