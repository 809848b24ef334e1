/** What is wrong with a data sheet or with what an estimate is worked out from, in words. */
import { formatDensity } from '../measure/density.ts';
import { formatDepth } from '../measure/length-format.ts';
import { formatMass } from '../measure/mass.ts';
import { formatPercent } from '../measure/percent.ts';
import { formatStrength } from '../measure/pressure.ts';
import { formatTemperature } from '../measure/temperature.ts';
import type { UnitSystem } from '../measure/unit-system.ts';
import { formatLiquid, formatYield } from '../measure/volume.ts';
import { type Disagreement, type SpanFigure, WATER_SHARE } from '../material/contradictions.ts';
import type { CarryingCaution, LiftingWay } from '../material/carrying.ts';
import { INDEX_LIMITS } from '../material/lifting.ts';
import { WATER_KG_PER_L, type WeighProblem } from '../material/mass-balance.ts';
import { whose } from '../substrate/whose-figure.ts';
import type { WaterProblem } from '../material/sheet.ts';
import { formatNumber } from '../measure/number.ts';

const SPAN_NAMES: Readonly<Record<SpanFigure, string>> = {
  waterL: 'Mix water per bag',
  mixMinutes: 'Mixing time',
  workingTimeMin: 'Working time',
  healingMin: 'Healing time',
  liftM: 'Thickness of a lift',
  liftExtendedM: 'Thickness of an extended lift',
  roomTempC: 'Room temperature',
  waterTempC: 'Water temperature',
};

/** Which figures of a data sheet disagree, with the arithmetic and the fix. */
export function contradictionWords(what: Disagreement, units: UnitSystem, locale?: string): string {
  const kg = (value: number) => formatMass(value, units, locale);
  const liquid = (value: number) => formatLiquid(value, units, locale);
  const density = (value: number) => formatDensity(value, units, locale);
  const bagYield = (value: number) => formatYield(value, units, locale);
  const depth = (value: number) => formatDepth(value, units, locale);
  switch (what.kind) {
    case 'askew':
      return `${SPAN_NAMES[what.figure]}: the minimum is greater than the maximum. Are the two swapped?`;
    case 'yield-zero':
      return 'The yield per bag is 0. Enter it from the bag, or weigh a mixed bag.';
    case 'yield-mass': {
      const { bagKg, waterL, byMassM3, statedM3 } = what;
      const onceMore = Math.max(1, Math.floor(1 / (1 - Math.min(byMassM3, statedM3) / Math.max(byMassM3, statedM3))));
      return (
        `${kg(bagKg)} and ${liquid(waterL)} of water weigh ${kg(bagKg + waterL * WATER_KG_PER_L)}. ` +
        `At ${density(what.densityKgM3)} that fills ${bagYield(byMassM3)}, not ${bagYield(statedM3)}. ` +
        `The smaller yield is safer. It buys about 1 more bag in ${onceMore}.`
      );
    }
    case 'yield-measured':
      return `The weighed yield is ${bagYield(what.measuredM3)} per bag. The ${whose(what)} yield is ${bagYield(what.statedM3)}. Weigh again before you use either.`;
    case 'measured-missing':
      return 'No weighed bag is recorded, so the yield of the sheet is used.';
    case 'water-share': {
      const share = formatPercent((what.waterL * WATER_KG_PER_L) / what.bagKg, 0, locale);
      return `${liquid(what.waterL)} of water is ${share} of ${kg(what.bagKg)} of powder. The usual range is ${formatPercent(WATER_SHARE.least)} to ${formatPercent(WATER_SHARE.most)}. Check the unit on the bag.`;
    }
    case 'healing-flow':
      return 'The healing time is longer than the working time. Check both.';
    case 'mix-flow':
      return 'The mixing time is as long as the working time. Check both.';
    case 'milestone-order':
      return 'Furniture is allowed before foot traffic. Check both times.';
    case 'extended-share':
      return 'An extended lift is entered without the aggregate per bag.';
    case 'extended-thin':
      return `The maximum lift with aggregate, ${depth(what.extendedM)}, is no deeper than without, ${depth(what.neatM)}.`;
    case 'hard-fresh':
      return `The hardened density, ${density(what.hardKgM3)}, is more than the fresh density, ${density(what.freshKgM3)}. Check both.`;
    case 'designation':
      return `${what.designation} is not a class of EN 13813. Enter a binder and its classes, such as CT-C25-F5.`;
    case 'designation-strength':
      return `${what.designation} declares at least ${formatStrength(what.declaredPa, units, locale)}. The data sheet’s strength is ${formatStrength(what.statedPa, units, locale)}.`;
    case 'cure-temperature':
      return `Curing pauses below ${formatTemperature(what.leastC, units, locale)}, but the hours are given at ${formatTemperature(what.referenceC, units, locale)}. Check both.`;
  }
}

/** Which reading of a weighed bucket cannot be right, and what to do. */
export const WEIGH_WORDS: Readonly<Record<WeighProblem['kind'], string>> = {
  'not-entered': 'Enter all 4 values.',
  'no-bucket': 'Enter the bucket volume. Fill it with water to the same line and weigh it.',
  'no-bag': 'Enter the bag weight and the mix water.',
  swapped: 'The full bucket weighs no more than the empty one. Are the two swapped?',
  'too-heavy': 'The mix is heavier than wet cement. Check the unit of the scale and the bucket volume.',
  'too-light': 'The mix is lighter than wet cement. Check the unit of the scale and the bucket volume.',
};

/** Water that the data sheet does not allow. @param name of the data sheet */
export function waterProblemWords({ kind, waterL, limitL }: WaterProblem, name: string, units: UnitSystem, locale?: string): string {
  const [water, limit] = [formatLiquid(waterL, units, locale), formatLiquid(limitL, units, locale)];
  return kind === 'too-much'
    ? `${water} is too much water for ${name}. The maximum is ${limit} per bag. More makes it weak and dusty.`
    : `${water} is too little water for ${name}. The minimum is ${limit} per bag.`;
}

/** The ways of lifting a bag, by name. */
export const LIFTING_WAYS: Readonly<Record<keyof CarryingCaution['ways'], string>> = {
  alone: 'one person, from the floor',
  cart: 'one person, from a cart at knuckle height',
  two: 'two people, from the floor',
};

/** The weight to carry in, and a bag beside the limit of the lifting equation. */
export function carryingWords({ totalKg, lifts, ways }: CarryingCaution, units: UnitSystem, locale?: string): string {
  const { alone, cart, two } = ways;
  const show = (kg: number) => formatMass(kg, units, locale);
  const times = ({ index }: LiftingWay) => (index === null ? 'no limit' : `${formatNumber(index, { least: 1, most: 1 }, locale)} times`);
  const carry = `${show(totalKg)} to carry in, ${formatNumber(lifts, { most: 0 }, locale)} lifts by hand. A bag of ${show(alone.loadKg)} from the floor is`;
  if (alone.index !== null && alone.index <= INDEX_LIMITS.some)
    return `${carry} within the ${show(alone.limitKg)} the NIOSH lifting equation allows.`;
  const risk = alone.index === null || alone.index > INDEX_LIMITS.nearlyAll ? 'nearly all' : 'some';
  return (
    `${carry} ${times(alone)} the ${show(alone.limitKg)} of the NIOSH lifting equation, a risk for ${risk} people. ` +
    `From a cart at knuckle height it is ${times(cart)}, and for two people ${times(two)}.`
  );
}
