/**
 * How far the joists of a timber floor sag under load, and what the weight of a pour adds. An aid to asking the
 * right question, not a structural check.
 */
import type { TestOf } from './tests-of.ts';

/** Live load may bend a floor by no more than its span over this. IRC Table R301.7; awc.org on the joist span tables. */
export const DEFLECTION_SPAN_OVER = 360;

/** Second moment of area of a rectangular section, m⁴: b h³ / 12. */
export function secondMomentM4(widthM: number, depthM: number): number {
  return (widthM * depthM ** 3) / 12;
}

/** Section modulus of a rectangular section, m³: b h² / 6. */
export function sectionModulusM3(widthM: number, depthM: number): number {
  return (widthM * depthM ** 2) / 6;
}

/** Sag in the middle of a simple span under an even load a meter, metres: 5 w L⁴ / (384 E I). */
export function simpleSpanSagM(loadNPerM: number, spanM: number, modulusPa: number, momentM4: number): number {
  return (5 * loadNPerM * spanM ** 4) / (384 * modulusPa * momentM4);
}

/** The joists' answer: sags in metres, each with the number it divides the span by. */
export type Bounce = {
  readonly liveM: number;
  readonly liveSpanOver: number;
  readonly totalM: number;
  readonly totalSpanOver: number;
  readonly limitM: number;
  readonly withinLimit: boolean;
  readonly totalWithinLimit: boolean;
};

/**
 * Sag of a joist under the live load alone, which the limit is about, and under everything with the pour added.
 * @param joist sizes in metres, loads and modulus in pascals
 * @param addedPa what the pour adds, pascals; 0 when not known
 */
export function bounceOf(
  joist: Pick<TestOf<'floor-bounce'>, 'spanM' | 'joistWidthM' | 'joistDepthM' | 'spacingM' | 'modulusPa' | 'liveLoadPa' | 'deadLoadPa'>,
  addedPa: number,
): Bounce {
  const moment = secondMomentM4(joist.joistWidthM, joist.joistDepthM);
  const sag = (pressurePa: number): number => simpleSpanSagM(pressurePa * joist.spacingM, joist.spanM, joist.modulusPa, moment);
  const liveM = sag(joist.liveLoadPa);
  const totalM = sag(joist.liveLoadPa + joist.deadLoadPa + addedPa);
  const limitM = joist.spanM / DEFLECTION_SPAN_OVER;
  return {
    liveM,
    liveSpanOver: joist.spanM / liveM,
    totalM,
    totalSpanOver: joist.spanM / totalM,
    limitM,
    withinLimit: liveM <= limitM,
    totalWithinLimit: totalM <= limitM,
  };
}
