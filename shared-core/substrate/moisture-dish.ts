/** Moisture vapor emission rate of a slab by the calcium chloride test (ASTM F1869). */
import type { Parsed } from '../measure/parsed.ts';
import { SQUARE_FOOT_M2 } from '../measure/area.ts';
import { POUND_KG } from '../measure/mass.ts';
import type { TestOf } from '../book/tests-of.ts';

/** Hours of exposure. ASTM F1869, as given in EPA's moisture guide. */
export const DISH_HOURS = { least: 60, most: 72 } as const;

/**
 * Moisture emission, pounds per 1,000 sq ft in 24 h, the unit of ASTM F1869 clause 1.4.
 *
 * The area is the floor under the dome less the area of the dish. Formula: 24 h × 1000 ft² × mass
 * gained ÷ (net area × hours), the same as 52.91 M / (A T) with grams, square feet and hours.
 * @param dish masses in grams, areas in m², hours exposed
 * @returns the emission, or a message when the figures are impossible
 */
export function emissionLb(
  dish: Pick<TestOf<'moisture-dish'>, 'massBeforeG' | 'massAfterG' | 'dishAreaM2' | 'domeAreaM2' | 'hours'>,
): Parsed<number> {
  const gainG = dish.massAfterG - dish.massBeforeG;
  if (gainG < 0) return { ok: false, message: 'The dish lost mass, which is not possible. Check the two weights.' };
  const netM2 = dish.domeAreaM2 - dish.dishAreaM2;
  if (!(netM2 > 0)) return { ok: false, message: 'The dish is as large as its dome. Check the two areas.' };
  if (!(dish.hours > 0)) return { ok: false, message: 'Enter the hours of exposure.' };
  return { ok: true, value: (24 * 1000 * (gainG / (POUND_KG * 1000))) / ((netM2 / SQUARE_FOOT_M2) * dish.hours) };
}

/** The same emission in SI, g/m² in 24 h, from pounds per 1,000 sq ft in 24 h. */
export function emissionGM2Day(lb: number): number {
  return (lb * (POUND_KG * 1000)) / (1000 * SQUARE_FOOT_M2);
}
