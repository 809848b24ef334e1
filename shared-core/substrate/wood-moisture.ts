/** Moisture of timber, by mass: the highest, the mean, and how far two parts of a floor may differ. */
import { INCH_M } from '../measure/length-units.ts';

/** The wettest a wood subfloor may be. Wood flooring trade guideline (NWFA), from memory. */
export const WOOD_MOST_SHARE = 0.12;
/** Boards this wide or wider are planks, held to the closer difference. Same guideline, from memory. */
export const PLANK_FROM_M = 3 * INCH_M;
/** Most difference between subfloor and flooring. Same guideline, from memory. */
export const WOOD_DIFFERENCE_MOST = { lane: 0.04, plank: 0.02 } as const;
/** Most that a part of the timber may lie above the rest. Trade article, second-hand: “no more than 4 % above the area’s average”. */
export const WOOD_OVER_AVERAGE_MOST = 0.04;

/** Mean moisture; null without readings. */
export function meanMoisture(readings: readonly number[]): number | null {
  if (readings.length === 0) return null;
  return readings.reduce((sum, reading) => sum + reading, 0) / readings.length;
}

/** How far the mean moistures of two parts lie apart, as a share; null when either has no reading. */
export function moistureDifference(one: readonly number[], other: readonly number[]): number | null {
  const a = meanMoisture(one);
  const b = meanMoisture(other);
  if (a === null || b === null) return null;
  // Meter readings have at most four decimals; the rounding keeps 11 % less 8 % at 3 %.
  return Math.round(Math.abs(a - b) * 1e6) / 1e6;
}

/** The difference allowed between subfloor and flooring. An unknown board width counts as plank, the closer limit. */
export function differenceLimit(boardWidthM: number | null): number {
  return boardWidthM !== null && boardWidthM < PLANK_FROM_M ? WOOD_DIFFERENCE_MOST.lane : WOOD_DIFFERENCE_MOST.plank;
}
