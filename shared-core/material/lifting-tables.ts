/**
 * The lifting equation's constants and its table of frequencies, from the applications manual of the revised NIOSH
 * lifting equation (publication 94-110, revised September 2021), pages 7 to 29.
 */
import { POUND_KG } from '../measure/mass.ts';

/** Load constant, 51 lb in the inch form used here (the metric form rounds it to 23 kg): the maximum in the best posture. */
export const LOAD_CONSTANT_KG = 51 * POUND_KG;

/** How long lifting lasts, with the recovery after it: up to 1 h, 1 to 2 h, 2 to 8 h. */
export type LiftingDuration = 'short' | 'moderate' | 'long';

/** How well the hands hold the load. A full bag with no handles that bends about the hands is fair. */
export type Coupling = 'good' | 'fair' | 'poor';

/** Table 5: lifts a minute, then the multiplier for each duration with the hands starting below 30 in (75 cm), and at or above. */
export const FREQUENCY_TABLE: readonly (readonly [number, number, number, number, number, number, number])[] = [
  [0.2, 1.0, 1.0, 0.95, 0.95, 0.85, 0.85],
  [0.5, 0.97, 0.97, 0.92, 0.92, 0.81, 0.81],
  [1, 0.94, 0.94, 0.88, 0.88, 0.75, 0.75],
  [2, 0.91, 0.91, 0.84, 0.84, 0.65, 0.65],
  [3, 0.88, 0.88, 0.79, 0.79, 0.55, 0.55],
  [4, 0.84, 0.84, 0.72, 0.72, 0.45, 0.45],
  [5, 0.8, 0.8, 0.6, 0.6, 0.35, 0.35],
  [6, 0.75, 0.75, 0.5, 0.5, 0.27, 0.27],
  [7, 0.7, 0.7, 0.42, 0.42, 0.22, 0.22],
  [8, 0.6, 0.6, 0.35, 0.35, 0.18, 0.18],
  [9, 0.52, 0.52, 0.3, 0.3, 0, 0.15],
  [10, 0.45, 0.45, 0.26, 0.26, 0, 0.13],
  [11, 0.41, 0.41, 0, 0.23, 0, 0],
  [12, 0.37, 0.37, 0, 0.21, 0, 0],
  [13, 0, 0.34, 0, 0, 0, 0],
  [14, 0, 0.31, 0, 0, 0, 0],
  [15, 0, 0.28, 0, 0, 0, 0],
];

/** Table 7: how the hands hold, below 75 cm and at or above. */
export const COUPLING_TABLE: Readonly<Record<Coupling, { readonly low: number; readonly high: number }>> = {
  good: { low: 1, high: 1 },
  fair: { low: 0.95, high: 1 },
  poor: { low: 0.9, high: 0.9 },
};

/** A lifting index above 1 raises the risk for some, above 3 for nearly all (page 20). */
export const INDEX_LIMITS = { some: 1, nearlyAll: 3 } as const;
