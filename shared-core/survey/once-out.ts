/** Readings taken on top of what comes out of a floor: once it is out, the floor lies lower by its thickness. */
import type { Point } from '../book/fields.ts';
import type { Layer } from '../book/layer.ts';
import type { Survey } from '../book/plan-fields.ts';
import { pointInRing } from '../plan/region.ts';

/** Thickness of what comes out at a place, meters; a layer nobody measured counts for nothing and must be asked for. */
export function comesOutM(layers: readonly Layer[], point: Point): number {
  return layers.reduce((sum, { fate, thicknessM, area }) => {
    const liesThere = area === null || pointInRing(point, area) !== 'outside';
    return fate === 'remove' && liesThere ? sum + (thicknessM ?? 0) : sum;
  }, 0);
}

/**
 * The survey of the floor that is poured on. Readings taken as the floor was found are lowered, each by what comes out under
 * it; those taken once it was out, or where nobody said, stand as they are. The floor between a reading on a part that comes
 * out and one beside it is taken as a slope, as between any two readings.
 */
export function surveyOnceOut(survey: Survey, layers: readonly Layer[]): Survey {
  if (survey.over !== 'as-found' || !layers.some((layer) => layer.fate === 'remove')) return survey;
  const down = survey.method === 'distance-down' ? 1 : -1;
  return { ...survey, readings: survey.readings.map((r) => ({ ...r, valueM: r.valueM + down * comesOutM(layers, r) })) };
}
