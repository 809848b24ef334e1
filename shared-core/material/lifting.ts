/**
 * The recommended weight limit and the lifting index of the revised NIOSH lifting equation (publication 94-110, 2021).
 * It covers two-handed lifting while standing, not carrying, wheeling, kneeling or half-empty bags. It is a caution only.
 */
import { INCH_M } from '../measure/length-units.ts';
import { COUPLING_TABLE, FREQUENCY_TABLE, LOAD_CONSTANT_KG, type Coupling, type LiftingDuration } from './lifting-tables.ts';

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

/** The multipliers and the resulting limit. */
export type WeightLimit = {
  readonly horizontal: number;
  readonly vertical: number;
  readonly distance: number;
  readonly twist: number;
  readonly frequency: number;
  readonly coupling: number;
  /** Zero where the posture is outside the equation's limits. */
  readonly limitKg: number;
};

/** Limits of the multipliers, in the inches the equation was published in (page 7). */
const LIMITS_IN = { leastReach: 10, mostReach: 25, knuckle: 30, mostHeight: 70, leastTravel: 10, mostTravel: 70 } as const;
const MOST_TWIST_DEG = 135;

/** The recommended weight limit of one lift, unrounded. */
export function weightLimit(posture: LiftPosture): WeightLimit {
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
  return {
    horizontal,
    vertical,
    distance,
    twist,
    frequency,
    coupling,
    limitKg: LOAD_CONSTANT_KG * horizontal * vertical * distance * twist * frequency * coupling,
  };
}

/**
 * The lifting index: the load over its limit.
 * @returns null where the limit is zero
 */
export function liftingIndex(loadKg: number, limit: WeightLimit): number | null {
  return limit.limitKg <= 0 ? null : loadKg / limit.limitKg;
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
