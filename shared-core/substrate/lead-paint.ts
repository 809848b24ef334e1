/** Whether paint counts as lead paint, and how little of it may be disturbed as a minor repair (40 CFR 745). */
import { SQUARE_FOOT_M2 } from '../measure/area.ts';

/** Housing built before this year is target housing. 40 CFR 745.103, as published in 73 FR 21768. */
export const LEAD_BEFORE_YEAR = 1978;
/** Painted surface a room that is minor repair inside: 6 ft² or less. 40 CFR 745.83. */
export const MINOR_REPAIR_MOST_M2 = 6 * SQUARE_FOOT_M2;

/** Whether the paint of a house of this year counts as lead paint until tested; an unknown year counts as old. */
export function isLeadPresumed(yearBuilt: number | null): boolean {
  return yearBuilt === null || yearBuilt < LEAD_BEFORE_YEAR;
}

/** Whether so much painted surface is minor repair; an unknown area is not. Exactly 6 ft² is. */
export function isMinorRepair(disturbedM2: number | null): boolean {
  return disturbedM2 !== null && disturbedM2 <= MINOR_REPAIR_MOST_M2 * (1 + 1e-9);
}
