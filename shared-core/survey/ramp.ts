/** The heights that a ramp passes through: those entered, and those at doorways, which follow the floor beyond. */
import type { LevelChoice } from '../book/job.ts';
import type { Opening, Plan } from '../book/plan-fields.ts';
import { isExterior, openingName, placedOpenings } from '../plan/openings.ts';
import { type Plane, type RampHeight, rampPlane } from './plane.ts';

/** The heights, or what is missing. */
export type RampHeights = { readonly ok: true; readonly heights: readonly RampHeight[] } | { readonly ok: false; readonly message: string };

/** Asks for the new flooring before a pour can meet the floor beyond a doorway. */
export const ASK_FLOORING_THICKNESS =
  'Enter the thickness of the new flooring with adhesive or mortar. The pour has to stay that far below the floors beyond.';

/**
 * The height of the pour that meets the finished floor beyond a doorway: that floor less the new flooring. Null where the floor is not
 * measured, and at an exterior door: the new floor has to stay below its sill.
 */
export function heightToMeetM(opening: Opening, flooringThicknessM: number): number | null {
  return isExterior(opening) || opening.adjoiningM === null ? null : opening.adjoiningM - flooringThicknessM;
}

/** The doorways with a floor beyond that a ramp can meet, in the order of the plan. */
export function doorwaysToMeet(plan: Pick<Plan, 'outline' | 'openings'>): Opening[] {
  return placedOpenings(plan).flatMap(({ opening }) => (heightToMeetM(opening, 0) === null ? [] : [opening]));
}

/**
 * The heights of a ramp on the readings' scale.
 * @param flooringThicknessM of the new flooring with adhesive or mortar; null while not known
 */
export function rampHeights(
  through: LevelChoice['rampThrough'],
  plan: Pick<Plan, 'outline' | 'openings'>,
  flooringThicknessM: number | null,
): RampHeights {
  const heights: RampHeight[] = [];
  for (const end of through) {
    if (!('openingId' in end)) {
      heights.push(end);
      continue;
    }
    const placed = placedOpenings(plan).find(({ opening }) => opening.id === end.openingId);
    if (placed === undefined || isExterior(placed.opening))
      return { ok: false, message: 'A doorway that the ramp meets is no longer on the plan. Set the ramp again.' };
    if (flooringThicknessM === null) return { ok: false, message: ASK_FLOORING_THICKNESS };
    const heightM = heightToMeetM(placed.opening, flooringThicknessM);
    if (heightM === null)
      return { ok: false, message: `Measure the finished floor beyond the ${openingName(placed.opening)}: the ramp meets it.` };
    heights.push({ point: placed.middle, heightM });
  }
  return { ok: true, heights };
}

/** The plane of a ramp; null while its heights do not define one. */
export function planeOfRamp(
  { mode, rampThrough }: Pick<LevelChoice, 'mode' | 'rampThrough'>,
  plan: Pick<Plan, 'outline' | 'openings'>,
  flooringThicknessM: number | null,
): Plane | null {
  const ramp = mode === 'ramp' ? rampHeights(rampThrough, plan, flooringThicknessM) : null;
  const plane = ramp?.ok === true ? rampPlane(ramp.heights) : null;
  return plane?.ok === true ? plane.plane : null;
}
