/**
 * How far the joists of a wood floor deflect under load, and what the weight of a pour adds. It helps to ask the
 * right question and is not a structural check.
 */
import type { TestOf } from '../book/tests-of.ts';

/** Deflection under live load may be no more than the span divided by this. IRC Table R301.7; awc.org on the joist span tables. */
export const DEFLECTION_SPAN_OVER = 360;
/** The same limit under natural stone. Trade practice, second-hand. */
export const STONE_SPAN_OVER = 720;

/** Second moment of area of a rectangular section, m⁴: b h³ / 12. */
export function secondMomentM4(widthM: number, depthM: number): number {
  return (widthM * depthM ** 3) / 12;
}

/** Deflection at the middle of a simple span under a uniform load per meter, meters: 5 w L⁴ / (384 E I). */
export function simpleSpanSagM(loadNPerM: number, spanM: number, modulusPa: number, momentM4: number): number {
  return (5 * loadNPerM * spanM ** 4) / (384 * modulusPa * momentM4);
}

/** Deflections in meters, each with the span divided by it. */
export type Deflection = {
  readonly liveM: number;
  readonly liveSpanOver: number;
  readonly totalSpanOver: number;
};

/**
 * Deflection of a joist under live load alone, which the code limits, and under the total load with the pour.
 * @param joist sizes in meters, loads and modulus in pascals
 * @param addedPa load of the pour, pascals; 0 when unknown
 */
export function deflectionOf(
  joist: Pick<TestOf<'floor-deflection'>, 'spanM' | 'joistWidthM' | 'joistDepthM' | 'spacingM' | 'modulusPa' | 'liveLoadPa' | 'deadLoadPa'>,
  addedPa: number,
): Deflection {
  const moment = secondMomentM4(joist.joistWidthM, joist.joistDepthM);
  const sag = (pressurePa: number): number => simpleSpanSagM(pressurePa * joist.spacingM, joist.spanM, joist.modulusPa, moment);
  const liveM = sag(joist.liveLoadPa);
  const totalM = sag(joist.liveLoadPa + joist.deadLoadPa + addedPa);
  return {
    liveM,
    liveSpanOver: joist.spanM / liveM,
    totalSpanOver: joist.spanM / totalM,
  };
}
