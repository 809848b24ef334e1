/** Corrects readings for what is done to the floor after them: layers removed lower it, layers laid raise it, heat on top does not. */
import type { Point } from '../book/fields.ts';
import type { Layer } from '../book/layer.ts';
import type { Survey } from '../book/plan-fields.ts';
import { pointInRing } from '../plan/region.ts';
import { heatOnTop } from './heat-on-top.ts';

/** Whether a layer comes out or goes in after the readings. */
const isLater = ({ fate, laid }: Layer, over: Survey['over']): boolean =>
  fate === 'remove' ? over === 'as-found' : laid === 'after-readings';

/** How far the floor is lowered at a place, meters; an unmeasured layer counts as zero and must be asked for. */
function loweredM(layers: readonly Layer[], point: Point): number {
  return layers.reduce((sum, { fate, thicknessM, area }) => {
    const liesThere = area === null || pointInRing(point, area) !== 'outside';
    return liesThere ? sum + (fate === 'remove' ? 1 : -1) * (thicknessM ?? 0) : sum;
  }, 0);
}

/**
 * The survey of the substrate for the pour. Readings taken before the demolition are lowered by the thickness removed at
 * their place, and raised by that of layers laid after them, save heat that the pour covers; readings taken after it, or with no answer, do not change. The
 * floor between a reading on such a part and one beside it counts as a slope, as between any two readings.
 */
export function surveyOnceOut(survey: Survey, layers: readonly Layer[]): Survey {
  const heat = heatOnTop(layers);
  const later = layers.filter((layer) => isLater(layer, survey.over) && !heat.includes(layer));
  if (later.length === 0) return survey;
  const before = corrected.get(survey);
  if (before !== undefined && before.layers === layers) return before.onceOut;
  const sign = survey.method === 'distance-down' ? 1 : -1;
  const onceOut = { ...survey, readings: survey.readings.map((r) => ({ ...r, valueM: r.valueM + sign * loweredM(later, r) })) };
  corrected.set(survey, { layers, onceOut });
  return onceOut;
}

/**
 * The last answer by survey record. What is computed from a survey is cached by its record, so the same records must give the
 * same one.
 */
const corrected = new WeakMap<Survey, { readonly layers: readonly Layer[]; readonly onceOut: Survey }>();
