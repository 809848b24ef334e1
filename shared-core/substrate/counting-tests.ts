/** Whether a test counts. A test made the wrong way proves nothing, and no floor passes on it. */
import type { FloorTest, Layer, LayerMaterial } from '../book/layer.ts';
import { DISH_HOURS, emissionLb } from './moisture-dish.ts';
import { absorptionOf } from './drop-absorption.ts';
import { LAYER_WORDS } from './layer-words.ts';
import { whyHumidityDoesNotCount } from './slab-humidity.ts';
import { pullOffAnswer } from './surface-strength.ts';
import type { TestOf } from './tests-of.ts';
import type { Wording } from './wording.ts';

/** Bare concrete, the only substrate for a calcium chloride test: ASTM F1869 clauses 1.2 and 1.3 rule out coatings, adhesive, gypsum and patching or leveling compounds. */
const DISH_ON: readonly LayerMaterial[] = ['concrete-on-ground', 'concrete-suspended', 'screed'];

/**
 * Why a calcium chloride test does not count, as a sentence; null when it does.
 * @param layers top first; a dish with no layer named was on the first that stays
 */
export function whyDishDoesNotCount(dish: TestOf<'moisture-dish'>, layers: readonly Layer[]): string | null {
  const under = layers.find((layer) => layer.id === dish.overLayerId) ?? layers.find((layer) => layer.fate === 'keep');
  if (under !== undefined && !DISH_ON.includes(under.material)) {
    return `The dish was on ${LAYER_WORDS[under.material]}. ASTM F1869 needs bare, ground concrete: test the slab itself, or its RH.`;
  }
  const emission = emissionLb(dish);
  if (!emission.ok) return emission.message;
  if (dish.hours < DISH_HOURS.least || dish.hours > DISH_HOURS.most) {
    return `The dish was exposed ${dish.hours} h. The method needs ${DISH_HOURS.least} to ${DISH_HOURS.most} h.`;
  }
  return null;
}

/** What a test is judged with: how depths are written, and the minimum tensile bond for this pour. */
export type CountContext = Pick<Wording, 'depth'> & { readonly pullOffLeastPa: number };

/** Why a test of any kind does not count, as a sentence; null when it does. */
export function whyTestDoesNotCount(test: FloorTest, layers: readonly Layer[], context: CountContext): string | null {
  switch (test.kind) {
    case 'moisture-dish':
      return whyDishDoesNotCount(test, layers);
    case 'slab-humidity':
      return whyHumidityDoesNotCount(test, context.depth);
    case 'air':
      return test.surfaceTempC === null ? 'The floor temperature was not measured.' : null;
    case 'drop-absorption':
      return absorptionOf(test) === null ? 'The drop was watched for less than a minute.' : null;
    case 'pull-off':
      return pullOffAnswer(test, context.pullOffLeastPa) === 'not-proved'
        ? 'The adhesive failed before the substrate was proved. Test again.'
        : null;
    default:
      return null;
  }
}
