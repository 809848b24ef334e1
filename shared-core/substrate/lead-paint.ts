/**
 * Which paint counts as lead paint, and how much of it a minor repair may disturb. EPA's renovation rule,
 * 40 CFR 745 subpart E: it covers trim, walls, and painted or varnished floors in housing built before 1978.
 *
 * Outside the rule (745.82, as published in 73 FR 21692): housing built in 1978 or later; parts found free of lead by a certified
 * inspector or risk assessor, or by a certified renovator with a recognized test kit or paint chips; minor repair. Housing without
 * a separate sleeping room, and housing for the elderly where no child under 6 lives, are outside too, but the records do not say
 * so and the program exempts neither. OSHA's lead rule for workers, 29 CFR 1926.62, has no such exemptions. State rules may be stricter.
 */
import type { Layer } from '../book/layer.ts';
import { SQUARE_FOOT_M2 } from '../measure/area.ts';

/** Housing built before this year is target housing. 40 CFR 745.103, as published in 73 FR 21768. */
export const LEAD_BEFORE_YEAR = 1978;
/** Painted surface per room that is minor repair inside, in 30 days: 6 sq ft or less, without demolition or window replacement. 40 CFR 745.83. */
export const MINOR_REPAIR_MOST_M2 = 6 * SQUARE_FOOT_M2;

/** Respirator where lead paint is sanded, ground or scraped and the exposure has not been measured. 29 CFR 1926.62(d)(2), interim protection, named in OSHA's technical manual; the factor for work with a dust collector is from memory. */
export const LEAD_RESPIRATOR =
  'Lead paint: until exposure is assessed, at least a fit-tested half mask with P100 filters (APF 10), even where silica asks for none. 29 CFR 1926.62(d)(2).';

/** Whether the paint of a house of this year counts as lead paint until tested; an unknown year counts as old. */
export function isLeadPresumed(yearBuilt: number | null): boolean {
  return yearBuilt === null || yearBuilt < LEAD_BEFORE_YEAR;
}

/** Whether this area of painted surface is a minor repair: exactly 6 sq ft is, an unknown area is not. */
export function isMinorRepair(disturbedM2: number | null): boolean {
  return disturbedM2 !== null && disturbedM2 <= MINOR_REPAIR_MOST_M2 * (1 + 1e-9);
}

/**
 * Painted surface removed with a baseboard, m²: its whole length times its whole height, since 40 CFR 745.83 counts the
 * entire surface of a removed component. Null while length or height is unknown.
 */
export function baseboardAreaM2(lengthM: number | null, heightM: number | null): number | null {
  return lengthM === null || heightM === null ? null : lengthM * heightM;
}

/**
 * Whether a layer's finish counts as lead paint until tested: paint or sealer, and the varnish on wood flooring.
 * A layer from 1978 or later does not, even in an older house.
 */
export function isLeadFinish(layer: Pick<Layer, 'material' | 'yearInstalled'>, yearBuilt: number | null): boolean {
  const finished = layer.material === 'paint-or-sealer' || layer.material === 'wood-flooring';
  return finished && isLeadPresumed(layer.yearInstalled ?? yearBuilt);
}
