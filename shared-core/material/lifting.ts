/**
 * The recommended weight limit and the lifting index of the revised NIOSH lifting equation (publication 94-110, 2021).
 * It covers two-handed lifting while standing, not carrying, wheeling, kneeling or half-empty bags. It is a caution only.
 */
import { INCH_M } from '../measure/length-units.ts';
import { POUND_KG } from '../measure/mass.ts';

/** One lift. Lengths in meters, the angle in degrees. */
export type LiftPosture = {
  /** From between the ankles to the hands. */
  readonly horizontalM: number;
  /** Height of the hands above the floor where the lift begins. */
  readonly originM: number;
  /** Height of the hands at the point looked at: the beginning, or the end where the load must be placed with care. */
  readonly heightM: number;
  /** How far the hands travel up or down. */
  readonly travelM: number;
  readonly twistDeg: number;
  readonly liftsPerMinute: number;
  readonly duration: LiftingDuration;
  readonly coupling: Coupling;
};

/** Limits of the multipliers, in the inches the equation was published in (page 7). */
const LIMITS_IN = { leastReach: 10, mostReach: 25, knuckle: 30, mostHeight: 70, leastTravel: 10, mostTravel: 70 } as const;
const MOST_TWIST_DEG = 135;

/** The recommended weight limit of one lift, kg, unrounded; zero where the posture is outside the equation's limits. */
export function weightLimitKg(posture: LiftPosture): number {
  const reach = inches(posture.horizontalM);
  const height = inches(posture.heightM);
  const travel = inches(posture.travelM);
  const horizontal = reach > LIMITS_IN.mostReach ? 0 : LIMITS_IN.leastReach / Math.max(LIMITS_IN.leastReach, reach);
  const vertical = height > LIMITS_IN.mostHeight || height < 0 ? 0 : 1 - 0.0075 * Math.abs(height - LIMITS_IN.knuckle);
  const distance = travel > LIMITS_IN.mostTravel ? 0 : 0.82 + 1.8 / Math.max(LIMITS_IN.leastTravel, travel);
  const twist = posture.twistDeg > MOST_TWIST_DEG ? 0 : 1 - 0.0032 * Math.max(0, posture.twistDeg);
  const frequency = frequencyMultiplier(posture.liftsPerMinute, posture.duration, posture.originM);
  const hold = COUPLING_TABLE[posture.coupling];
  const coupling = height < LIMITS_IN.knuckle ? hold.low : hold.high;
  return LOAD_CONSTANT_KG * horizontal * vertical * distance * twist * frequency * coupling;
}

/** The lifting index: the load over its limit; null where the limit is zero. */
export function liftingIndex(loadKg: number, limitKg: number): number | null {
  return limitKg <= 0 ? null : loadKg / limitKg;
}

/**
 * The frequency multiplier of Table 5, drawn straight between its rows.
 * @param liftsPerMinute below 0.2 counts as 0.2; above 15 gives 0
 * @param duration how long, with recovery
 * @param originM height of the hands at the start: the table has a column on each side of 30 in
 */
export function frequencyMultiplier(liftsPerMinute: number, duration: LiftingDuration, originM: number): number {
  const column = { short: 1, moderate: 3, long: 5 }[duration] + (inches(originM) < LIMITS_IN.knuckle ? 0 : 1);
  const last = FREQUENCY_TABLE.length - 1;
  const above = FREQUENCY_TABLE.findIndex((row) => row[0] >= liftsPerMinute);
  if (above < 0) return 0;
  const high = FREQUENCY_TABLE[Math.min(above, last)];
  const low = FREQUENCY_TABLE[Math.max(0, above - 1)];
  if (high === undefined || low === undefined) return 0;
  const from = low[column] ?? 0;
  const to = high[column] ?? 0;
  // A zero in the table means not allowed, so there is no interpolation toward it.
  if (to === 0) return 0;
  const part = high[0] === low[0] ? 1 : (Math.max(low[0], liftsPerMinute) - low[0]) / (high[0] - low[0]);
  return from + (to - from) * part;
}

function inches(meters: number): number {
  // Rounded so that 30 in converted from meters is exactly 30 in.
  return Math.round((meters / INCH_M) * 1e9) / 1e9;
}

/** Load constant, 51 lb in the inch form used here (the metric form rounds it to 23 kg): the maximum in the best posture. */
const LOAD_CONSTANT_KG = 51 * POUND_KG;

/** How long lifting lasts, with the recovery after it: up to 1 h, 1 to 2 h, 2 to 8 h. */
export type LiftingDuration = 'short' | 'moderate' | 'long';

/** How well the hands hold the load. A full bag with no handles that bends about the hands is fair. */
type Coupling = 'good' | 'fair' | 'poor';

/** Table 5: lifts a minute, then the multiplier for each duration with the hands starting below 30 in (75 cm), and at or above. */
const FREQUENCY_TABLE: readonly (readonly [number, number, number, number, number, number, number])[] = [
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
const COUPLING_TABLE: Readonly<Record<Coupling, { readonly low: number; readonly high: number }>> = {
  good: { low: 1, high: 1 },
  fair: { low: 0.95, high: 1 },
  poor: { low: 0.9, high: 0.9 },
};

/** A lifting index above 1 raises the risk for some, above 3 for nearly all (page 20). */
export const INDEX_LIMITS = { some: 1, nearlyAll: 3 } as const;
