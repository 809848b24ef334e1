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
import { WATER_KG_PER_L } from '../material/mass-balance.ts';

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
      return `The weighed yield is ${bagYield(what.measuredM3)} per bag. The data sheet says ${bagYield(what.statedM3)}. Weigh again before you use either.`;
    case 'measured-missing':
      return 'No weighed bag is recorded, so the data sheet’s yield is used.';
    case 'water-share': {
      const share = formatPercent((what.waterL * WATER_KG_PER_L) / what.bagKg, 0, locale);
      return `${liquid(what.waterL)} of water is ${share} of ${kg(what.bagKg)} of powder. The usual range is ${formatPercent(WATER_SHARE.least)} to ${formatPercent(WATER_SHARE.most)}. Check the unit on the bag.`;
    }
    case 'bag-container':
      return `The ${what.container} you buy holds ${kg(what.holdsKg)}. The bag on the data sheet holds ${kg(what.bagKg)}.`;
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
      return what.message;
    case 'designation-strength':
      return `${what.designation} declares at least ${formatStrength(what.declaredPa, units, locale)}. The data sheet’s strength is ${formatStrength(what.statedPa, units, locale)}.`;
    case 'cure-temperature':
      return `Curing pauses below ${formatTemperature(what.leastC, units, locale)}, but the hours are given at ${formatTemperature(what.referenceC, units, locale)}. Check both.`;
  }
}
