/** Contradictions within a data sheet, with the arithmetic and the fix. */
import type { Material, PowderSheet } from '../book/material.ts';
import { formatDensity } from '../measure/density.ts';
import { formatDepth } from '../measure/length-format.ts';
import { formatMass } from '../measure/mass.ts';
import { formatNumber } from '../measure/number.ts';
import { formatPercent } from '../measure/percent.ts';
import { formatStrength } from '../measure/pressure.ts';
import { formatTemperature } from '../measure/temperature.ts';
import type { UnitSystem } from '../measure/unit-system.ts';
import { CUBIC_FOOT_M3, formatLiquid, LITER_M3 } from '../measure/volume.ts';
import { parseEnDesignation } from './designation.ts';
import { WATER_KG_PER_L, yieldByMass } from './mass-balance.ts';

/** One contradiction within a data sheet. */
export type Contradiction = {
  readonly key: string;
  /** Names of the figures that disagree, as in the record. */
  readonly figures: readonly string[];
  readonly message: string;
  /** For the yield: the figures to choose from. Empty when only a correction helps. */
  readonly choices: readonly { readonly yieldBasis: PowderSheet['yieldBasis']; readonly yieldM3: number }[];
  /** True when nothing can be calculated until it is corrected. */
  readonly stops: boolean;
};

/** Maximum difference of yield and mass balance that is not reported: data sheets round both to two digits. */
const BALANCE_TOLERANCE = 0.03;
/** A measured yield this far from the data sheet's needs a second weighing. Common practice, no source. */
const MEASURED_TOLERANCE = 0.1;
/** Water by mass of powder; practice is 0.19 to 0.27, gypsum and fine mixes somewhat beyond. From memory, no neutral source. */
const WATER_SHARE = { least: 0.12, most: 0.36 } as const;

/** All contradictions of a data sheet. Empty without any, or for a material that is no powder. */
export function contradictions(material: Material, units: UnitSystem, locale?: string): Contradiction[] {
  const powder = material.powder;
  if (powder === null) return [];
  return [
    ...spansAskew(powder),
    ...yieldDisagrees(powder, units, locale),
    ...waterOdd(powder, units, locale),
    ...bagDisagrees(material, powder, units, locale),
    ...timesDisagree(powder),
    ...liftsDisagree(powder, units, locale),
    ...densitiesDisagree(powder, units, locale),
    ...strengthDisagrees(powder, units, locale),
    ...temperaturesDisagree(powder, units, locale),
  ];
}

function contradiction(key: string, figures: string[], message: string, stops = false): Contradiction[] {
  return [{ key, figures, message, choices: [], stops }];
}

function spansAskew(powder: PowderSheet): Contradiction[] {
  const spans = {
    waterL: ['Mix water per bag', powder.waterL.value],
    mixMinutes: ['Mixing time', powder.mixMinutes?.value],
    workingTimeMin: ['Working time', powder.workingTimeMin?.value],
    healingMin: ['Healing time', powder.healingMin?.value],
    liftM: ['Thickness of a lift', powder.liftM.value],
    liftExtendedM: ['Thickness of an extended lift', powder.liftExtendedM?.value],
    roomTempC: ['Room temperature', powder.roomTempC.value],
    waterTempC: ['Water temperature', powder.waterTempC?.value],
  } as const;
  return Object.entries(spans).flatMap(([figure, [figureName, span]]) =>
    span !== undefined && span.least > span.most
      ? contradiction(`askew-${figure}`, [figure], `${figureName}: the minimum is greater than the maximum. Are the two swapped?`, true)
      : [],
  );
}

function yieldDisagrees(powder: PowderSheet, units: UnitSystem, locale?: string): Contradiction[] {
  const stated = powder.yieldM3.value;
  if (!(stated > 0))
    return contradiction('yield-zero', ['yieldM3'], 'The yield per bag is 0. Enter it from the bag, or weigh a mixed bag.', true);
  const problems: Contradiction[] = [];
  const density = powder.densityFreshKgM3?.value;
  const measured = powder.measuredYieldM3;
  const weighed = measured === null ? [] : [{ yieldBasis: 'measured' as const, yieldM3: measured }];
  if (density !== undefined && density > 0) {
    const waterL = powder.waterL.value.least;
    const byMass = yieldByMass(powder.bagKg.value, waterL, density);
    if (Math.abs(byMass - stated) > BALANCE_TOLERANCE * stated) {
      const wetKg = powder.bagKg.value + waterL * WATER_KG_PER_L;
      const smaller = Math.min(byMass, stated);
      const onceMore = Math.max(1, Math.floor(1 / (1 - smaller / Math.max(byMass, stated))));
      problems.push({
        key: 'yield-mass',
        figures: ['yieldM3', 'densityFreshKgM3'],
        message:
          `${formatMass(powder.bagKg.value, units, locale)} and ${formatLiquid(waterL, units, locale)} of water weigh ${formatMass(wetKg, units, locale)}. ` +
          `At ${formatDensity(density, units, locale)} that fills ${formatYield(byMass, units, locale)}, not ${formatYield(stated, units, locale)}. ` +
          `The smaller yield is safer. It buys about 1 more bag in ${onceMore}.`,
        choices: [{ yieldBasis: 'sheet', yieldM3: stated }, { yieldBasis: 'mass', yieldM3: byMass }, ...weighed],
        stops: false,
      });
    }
  }
  if (measured !== null && Math.abs(measured - stated) > MEASURED_TOLERANCE * stated) {
    problems.push({
      key: 'yield-measured',
      figures: ['yieldM3', 'measuredYieldM3'],
      message: `The weighed yield is ${formatYield(measured, units, locale)} per bag. The data sheet says ${formatYield(stated, units, locale)}. Weigh again before you use either.`,
      choices: [{ yieldBasis: 'sheet', yieldM3: stated }, ...weighed],
      stops: false,
    });
  }
  if (powder.yieldBasis === 'measured' && measured === null) {
    problems.push(
      ...contradiction('measured-missing', ['measuredYieldM3'], 'No weighed bag is recorded, so the data sheet’s yield is used.'),
    );
  }
  return problems;
}

function waterOdd(powder: PowderSheet, units: UnitSystem, locale?: string): Contradiction[] {
  const { least, most } = powder.waterL.value;
  const bagKg = powder.bagKg.value;
  const odd = [least, most].find((liters) => liters / bagKg < WATER_SHARE.least || liters / bagKg > WATER_SHARE.most);
  if (odd === undefined) return [];
  const share = formatPercent((odd * WATER_KG_PER_L) / bagKg, 0, locale);
  return contradiction(
    'water-share',
    ['waterL', 'bagKg'],
    `${formatLiquid(odd, units, locale)} of water is ${share} of ${formatMass(bagKg, units, locale)} of powder. The usual range is ${formatPercent(WATER_SHARE.least)} to ${formatPercent(WATER_SHARE.most)}. Check the unit on the bag.`,
  );
}

function bagDisagrees(material: Material, powder: PowderSheet, units: UnitSystem, locale?: string): Contradiction[] {
  const { unit, holds, name } = material.container;
  if (unit !== 'kg' || Math.abs(holds - powder.bagKg.value) <= 0.02 * powder.bagKg.value) return [];
  return contradiction(
    'bag-container',
    ['bagKg', 'container'],
    `The ${name} you buy holds ${formatMass(holds, units, locale)}. The bag on the data sheet holds ${formatMass(powder.bagKg.value, units, locale)}.`,
  );
}

function timesDisagree(powder: PowderSheet): Contradiction[] {
  const flow = powder.workingTimeMin?.value;
  const healing = powder.healingMin?.value;
  const mix = powder.mixMinutes?.value;
  const problems: Contradiction[] = [];
  if (flow !== undefined && healing !== undefined && healing.most > flow.most) {
    problems.push(
      ...contradiction('healing-flow', ['healingMin', 'workingTimeMin'], 'The healing time is longer than the working time. Check both.'),
    );
  }
  if (flow !== undefined && mix !== undefined && mix.most >= flow.least) {
    problems.push(
      ...contradiction('mix-flow', ['mixMinutes', 'workingTimeMin'], 'The mixing time is as long as the working time. Check both.'),
    );
  }
  const hours = (kind: string) => powder.milestones.find((m) => m.kind === kind)?.hoursLeast;
  const [walk, furniture] = [hours('walk-on'), hours('furniture')];
  if (walk !== undefined && furniture !== undefined && walk > furniture) {
    problems.push(...contradiction('milestone-order', ['milestones'], 'Furniture is allowed before foot traffic. Check both times.'));
  }
  return problems;
}

function liftsDisagree(powder: PowderSheet, units: UnitSystem, locale?: string): Contradiction[] {
  const extended = powder.liftExtendedM?.value;
  if (extended === undefined) return [];
  if (powder.aggregateShare === null)
    return contradiction(
      'extended-share',
      ['liftExtendedM', 'aggregateShare'],
      'An extended lift is entered without the aggregate per bag.',
    );
  if (extended.most > powder.liftM.value.most) return [];
  const [deep, neat] = [formatDepth(extended.most, units, locale), formatDepth(powder.liftM.value.most, units, locale)];
  return contradiction(
    'extended-thin',
    ['liftExtendedM', 'liftM'],
    `The maximum lift with aggregate, ${deep}, is no deeper than without, ${neat}.`,
  );
}

function densitiesDisagree(powder: PowderSheet, units: UnitSystem, locale?: string): Contradiction[] {
  const [fresh, hard] = [powder.densityFreshKgM3?.value, powder.densityHardKgM3?.value];
  if (fresh === undefined || hard === undefined || hard <= fresh * 1.02) return [];
  return contradiction(
    'hard-fresh',
    ['densityFreshKgM3', 'densityHardKgM3'],
    `The hardened density, ${formatDensity(hard, units, locale)}, is more than the fresh density, ${formatDensity(fresh, units, locale)}. Check both.`,
  );
}

function strengthDisagrees(powder: PowderSheet, units: UnitSystem, locale?: string): Contradiction[] {
  if (powder.enDesignation === null || powder.enDesignation.trim() === '') return [];
  const read = parseEnDesignation(powder.enDesignation);
  if (!read.ok) return contradiction('designation', ['enDesignation'], read.message);
  const declared = read.value.compressivePa;
  const stated = powder.strengthPa?.value;
  if (declared === null || stated === undefined || stated >= declared * 0.98) return [];
  return contradiction(
    'designation-strength',
    ['enDesignation', 'strengthPa'],
    `${powder.enDesignation} declares at least ${formatStrength(declared, units, locale)}. The data sheet’s strength is ${formatStrength(stated, units, locale)}.`,
  );
}

function temperaturesDisagree(powder: PowderSheet, units: UnitSystem, locale?: string): Contradiction[] {
  if (powder.leastCureTempC.value < powder.referenceTempC.value) return [];
  const [least, reference] = [powder.leastCureTempC.value, powder.referenceTempC.value].map((t) => formatTemperature(t, units, locale));
  return contradiction(
    'cure-temperature',
    ['leastCureTempC', 'referenceTempC'],
    `Curing pauses below ${least}, but the hours are given at ${reference}. Check both.`,
  );
}

/** A bag's yield to the two digits bags are printed with: `0.45 cu ft`, `12.7 L`. */
export function formatYield(yieldM3: number, units: UnitSystem, locale?: string): string {
  return units === 'us'
    ? `${formatNumber(yieldM3 / CUBIC_FOOT_M3, { least: 2, most: 2 }, locale)} cu ft`
    : `${formatNumber(yieldM3 / LITER_M3, { least: 1, most: 1 }, locale)} L`;
}
