/** Moisture content of wood, by mass: averages, and the allowed difference between parts of a floor. */
import { INCH_M } from '../measure/length-units.ts';

/** Maximum moisture content of a wood subfloor. NWFA installation guidelines, as quoted in a trade guide. */
export const WOOD_MOST_SHARE = 0.12;
/** Joists over a crawl space usually read 13 to 16%: a reading over this is a warning. Common practice, no source. */
export const JOIST_WARN_SHARE = 0.16;
/** Above this, framing lumber is no longer "dry" (S-DRY grade mark, 19%). From memory of the grading rules. */
export const JOIST_HOLD_SHARE = 0.19;
/** Boards at least this wide are planks, with the tighter limit. NWFA installation guidelines, second-hand. */
export const PLANK_FROM_M = 3 * INCH_M;
/** Maximum difference between subfloor and flooring. NWFA installation guidelines, second-hand. */
export const WOOD_DIFFERENCE_MOST = { lane: 0.04, plank: 0.02 } as const;
/** Maximum by which a subfloor reading may exceed the subfloor's average. Trade tip sheet, second-hand: 4% over the area's average. */
export const WOOD_OVER_AVERAGE_MOST = 0.04;

/** Average moisture; null without readings. */
export function meanMoisture(readings: readonly number[]): number | null {
  if (readings.length === 0) return null;
  return readings.reduce((sum, reading) => sum + reading, 0) / readings.length;
}

/** Difference between the averages of two parts, as a share; null when either has no reading. */
export function moistureDifference(first: readonly number[], second: readonly number[]): number | null {
  const a = meanMoisture(first);
  const b = meanMoisture(second);
  if (a === null || b === null) return null;
  // Meter readings have at most four decimals; rounding makes 11 % minus 8 % exactly 3 %.
  return Math.round(Math.abs(a - b) * 1e6) / 1e6;
}

/** Allowed difference between subfloor and flooring. An unknown board width counts as plank, the tighter limit. */
export function differenceLimit(boardWidthM: number | null): number {
  return boardWidthM !== null && boardWidthM < PLANK_FROM_M ? WOOD_DIFFERENCE_MOST.lane : WOOD_DIFFERENCE_MOST.plank;
}

/** Difference between the wettest reading and the average, as a share; null without readings. */
export function unevenBy(readings: readonly number[]): number | null {
  const mean = meanMoisture(readings);
  return mean === null ? null : Math.round((Math.max(...readings) - mean) * 1e6) / 1e6;
}
