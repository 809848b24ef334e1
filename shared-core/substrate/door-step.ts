/**
 * What a step between two finished floors needs at a doorway, by its height. The accessibility standards bind public buildings and
 * businesses; for homes the same heights are common practice. A property records no use, so the words hold for both.
 */
import { INCH_M } from '../measure/length-units.ts';

/** A step too small to trip over: 1/4 in. 2010 ADA Standards 303.2. */
export const STEP_MOST_M = INCH_M / 4;
/** A step that a beveled transition may take up: 1/2 in. A higher one is ramped, at most 1:12. 2010 ADA Standards 303.3, 303.4 and 405.2. */
export const BEVEL_MOST_M = INCH_M / 2;
/** The highest step that a sloped threshold reducer takes up in a home: 1-1/2 in., as IRC R311.3 allows at an outside door. Common practice. */
const REDUCER_MOST_M = 1.5 * INCH_M;
/** The source of {@link stepNeed}, as printed. */
export const STEP_SOURCE = 'ADA Standards 303.2 to 303.4 and 405.2; common practice for homes';

/** `reducer`: in a home a threshold reducer; on a public route a ramp. `ramp`: a ramp, or a step that local code allows. */
export type StepNeed = 'none' | 'transition' | 'reducer' | 'ramp';

/** What a step needs. @param stepM up or down, meters */
export function stepNeed(stepM: number): StepNeed {
  const heightM = Math.abs(stepM) - 1e-9;
  return heightM <= STEP_MOST_M ? 'none' : heightM <= BEVEL_MOST_M ? 'transition' : heightM <= REDUCER_MOST_M ? 'reducer' : 'ramp';
}
