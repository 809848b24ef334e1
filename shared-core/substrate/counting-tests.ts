/** Whether a test counts: a reading taken the wrong way says nothing, and a floor is never passed on it. */
import type { FloorTest, Layer, LayerMaterial } from '../book/layer.ts';
import { DISH_HOURS, emissionLb } from './moisture-dish.ts';
import { absorptionOf } from './drop-absorption.ts';
import { LAYER_WORDS } from './layer-words.ts';
import { whyHumidityDoesNotCount } from './slab-humidity.ts';
import { pullOffAnswer } from './surface-strength.ts';
import type { TestOf } from './tests-of.ts';
import type { Wording } from './wording.ts';

/** Floors the dish may not stand on: ASTM F1869 clauses 1.2 and 1.3 (gypsum, coatings, patching and leveling compounds). */
export const NO_DISH_ON: readonly LayerMaterial[] = ['gypsum', 'old-leveling', 'paint-or-sealer', 'membrane', 'thinset'];

/**
 * Why a dish does not count, as a sentence; null when it does.
 * @param layers top first; a dish over no named layer stood on the first that stays
 */
export function whyDishDoesNotCount(dish: TestOf<'moisture-dish'>, layers: readonly Layer[]): string | null {
  const under = layers.find((layer) => layer.id === dish.overLayerId) ?? layers.find((layer) => layer.fate === 'keep');
  if (under !== undefined && NO_DISH_ON.includes(under.material)) {
    return `The dish stood on ${LAYER_WORDS[under.material]}, where this method does not hold: read the slab itself, or its humidity.`;
  }
  const emission = emissionLb(dish);
  if (!emission.ok) return emission.message;
  if (dish.hours < DISH_HOURS.least || dish.hours > DISH_HOURS.most) {
    return `The dish stood ${dish.hours} h; it stands ${DISH_HOURS.least} to ${DISH_HOURS.most} h.`;
  }
  return null;
}

/** Why a test of any kind does not count, as a sentence; null when it does. */
export function whyTestDoesNotCount(test: FloorTest, layers: readonly Layer[], wording: Pick<Wording, 'depth'>): string | null {
  switch (test.kind) {
    case 'moisture-dish':
      return whyDishDoesNotCount(test, layers);
    case 'slab-humidity':
      return whyHumidityDoesNotCount(test, wording.depth);
    case 'air':
      return test.surfaceTempC === null ? 'The floor’s own temperature was not read.' : null;
    case 'drop-absorption':
      return absorptionOf(test) === null ? 'The drop was watched for less than a minute.' : null;
    case 'pull-off':
      return pullOffAnswer(test) === 'not-proved' ? 'The glue let go before the floor was proved: pull again.' : null;
    default:
      return null;
  }
}
