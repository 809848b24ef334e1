/** Detects a room so small or large that a side was probably entered in the wrong unit. */
import type { Point } from '../book/fields.ts';
import { formatLength } from '../measure/length-format.ts';
import { FOOT_M } from '../measure/length-units.ts';
import { formatNumber } from '../measure/number.ts';
import type { UnitSystem } from '../measure/unit-system.ts';

/** Sides outside this range raise a question, meters: 3 ft and 60 ft, which as inches is 5 ft (common practice, no source). */
export const LIKELY_SIDE_M = { least: 3 * FOOT_M, most: 60 * FOOT_M } as const;

/**
 * A question about a room under 3 ft or over 60 ft from side to side; null for any other.
 * @param sidesM in meters
 */
export function unlikelySides(sidesM: readonly number[], units: UnitSystem, locale?: string): string | null {
  const small = sidesM.find((m) => m < LIKELY_SIDE_M.least - 1e-9);
  if (small !== undefined) return `This room is only ${formatLength(small, units, locale)} across. Check the units of its sides.`;
  const large = sidesM.find((m) => m > LIKELY_SIDE_M.most + 1e-9);
  if (large === undefined) return null;
  const inches =
    units === 'us' ? ` A number alone is feet. For inches enter ${formatNumber(large / FOOT_M, { most: 0 }, locale ?? 'en-US')} in.` : '';
  return `This room is ${formatLength(large, units, locale)} across. Check the units of its sides.${inches}`;
}

/**
 * The same question about a drawn room.
 * @param outline corners in meters
 */
export function unlikelySize(outline: readonly Point[], units: UnitSystem, locale?: string): string | null {
  if (outline.length < 3) return null;
  const sideM = (values: readonly number[]): number => Math.max(...values) - Math.min(...values);
  return unlikelySides([sideM(outline.map(({ xM }) => xM)), sideM(outline.map(({ yM }) => yM))], units, locale);
}
