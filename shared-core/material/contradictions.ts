/** Contradictions within a data sheet, with the arithmetic. */
import type { FigureSource, Material, PowderSheet } from '../book/material.ts';
import { parseEnDesignation } from '../measure/designation.ts';
import { yieldByMass } from './mass-balance.ts';

/** Figures of a data sheet with a minimum and a maximum. */
const SPANS = ['waterL', 'mixMinutes', 'workingTimeMin', 'healingMin', 'liftM', 'liftExtendedM', 'roomTempC', 'waterTempC'] as const;
export type SpanFigure = (typeof SPANS)[number];

/** What disagrees, with its figures: kilograms, liters, cubic meters, meters, pascals, degrees Celsius. */
export type Disagreement =
  | { readonly kind: 'askew'; readonly figure: SpanFigure }
  | { readonly kind: 'yield-zero' | 'measured-missing' | 'healing-flow' | 'mix-flow' | 'milestone-order' | 'extended-share' }
  | {
      readonly kind: 'yield-mass';
      readonly bagKg: number;
      readonly waterL: number;
      readonly densityKgM3: number;
      readonly byMassM3: number;
      readonly statedM3: number;
    }
  | { readonly kind: 'yield-measured'; readonly measuredM3: number; readonly statedM3: number; readonly source: FigureSource }
  | { readonly kind: 'water-share'; readonly waterL: number; readonly bagKg: number }
  | { readonly kind: 'extended-thin'; readonly extendedM: number; readonly neatM: number }
  | { readonly kind: 'hard-fresh'; readonly hardKgM3: number; readonly freshKgM3: number }
  | { readonly kind: 'designation'; readonly designation: string }
  | { readonly kind: 'designation-strength'; readonly designation: string; readonly declaredPa: number; readonly statedPa: number }
  | { readonly kind: 'cure-temperature'; readonly leastC: number; readonly referenceC: number };

/** One contradiction within a data sheet. */
export type Contradiction = Disagreement & {
  /** Names of the figures that disagree, as in the record. */
  readonly figures: readonly string[];
  /** For the yield: the figures to choose from. Empty when only a correction helps. */
  readonly choices: readonly { readonly yieldBasis: PowderSheet['yieldBasis']; readonly yieldM3: number }[];
  /** True when nothing can be calculated until it is corrected. */
  readonly stops: boolean;
};

/** Maximum difference of yield and mass balance that is not reported: data sheets round both to two digits. */
const BALANCE_TOLERANCE = 0.03;
/** A measured yield this far from the data sheet's needs a second weighing. Common practice, no source. */
const MEASURED_TOLERANCE = 0.1;
/** Usual water by mass of powder; practice is 0.19 to 0.27, gypsum and fine mixes somewhat beyond. From memory, no neutral source. */
export const WATER_SHARE = { least: 0.12, most: 0.36 } as const;

/** All contradictions of a data sheet. Empty without any, or for a material that is no powder. */
export function contradictions({ powder }: Pick<Material, 'powder'>): Contradiction[] {
  if (powder === null) return [];
  return [
    ...spansAskew(powder),
    ...yieldDisagrees(powder),
    ...waterOdd(powder),
    ...timesDisagree(powder),
    ...liftsDisagree(powder),
    ...densitiesDisagree(powder),
    ...strengthDisagrees(powder),
    ...temperaturesDisagree(powder),
  ];
}

const contradiction = (figures: readonly string[], what: Disagreement, stops = false): Contradiction => ({
  ...what,
  figures,
  choices: [],
  stops,
});

function spansAskew(powder: PowderSheet): Contradiction[] {
  return SPANS.flatMap((figure) => {
    const span = powder[figure]?.value;
    return span !== undefined && span.least > span.most ? [contradiction([figure], { kind: 'askew', figure }, true)] : [];
  });
}

function yieldDisagrees(powder: PowderSheet): Contradiction[] {
  const stated = powder.yieldM3.value;
  if (!(stated > 0)) return [contradiction(['yieldM3'], { kind: 'yield-zero' }, true)];
  const problems: Contradiction[] = [];
  const density = powder.densityFreshKgM3?.value;
  const measured = powder.measuredYieldM3;
  const weighed = measured === null ? [] : [{ yieldBasis: 'measured' as const, yieldM3: measured }];
  const onSheet = { yieldBasis: 'sheet', yieldM3: stated } as const;
  if (density !== undefined && density > 0) {
    const [bagKg, waterL] = [powder.bagKg.value, powder.waterL.value.least];
    const byMassM3 = yieldByMass(bagKg, waterL, density);
    if (Math.abs(byMassM3 - stated) > BALANCE_TOLERANCE * stated) {
      const what = { kind: 'yield-mass', bagKg, waterL, densityKgM3: density, byMassM3, statedM3: stated } as const;
      problems.push({
        ...contradiction(['yieldM3', 'densityFreshKgM3'], what),
        choices: [onSheet, { yieldBasis: 'mass', yieldM3: byMassM3 }, ...weighed],
      });
    }
  }
  if (measured !== null && Math.abs(measured - stated) > MEASURED_TOLERANCE * stated) {
    problems.push({
      ...contradiction(['yieldM3', 'measuredYieldM3'], {
        kind: 'yield-measured',
        measuredM3: measured,
        statedM3: stated,
        source: powder.yieldM3.source,
      }),
      choices: [onSheet, ...weighed],
    });
  }
  if (powder.yieldBasis === 'measured' && measured === null)
    problems.push(contradiction(['measuredYieldM3'], { kind: 'measured-missing' }));
  return problems;
}

function waterOdd(powder: PowderSheet): Contradiction[] {
  const { least, most } = powder.waterL.value;
  const bagKg = powder.bagKg.value;
  const odd = [least, most].find((liters) => liters / bagKg < WATER_SHARE.least || liters / bagKg > WATER_SHARE.most);
  return odd === undefined ? [] : [contradiction(['waterL', 'bagKg'], { kind: 'water-share', waterL: odd, bagKg })];
}

function timesDisagree(powder: PowderSheet): Contradiction[] {
  const flow = powder.workingTimeMin?.value;
  const healing = powder.healingMin?.value;
  const mix = powder.mixMinutes?.value;
  const problems: Contradiction[] = [];
  if (flow !== undefined && healing !== undefined && healing.most > flow.most)
    problems.push(contradiction(['healingMin', 'workingTimeMin'], { kind: 'healing-flow' }));
  if (flow !== undefined && mix !== undefined && mix.most >= flow.least)
    problems.push(contradiction(['mixMinutes', 'workingTimeMin'], { kind: 'mix-flow' }));
  const hours = (kind: string) => powder.milestones.find((m) => m.kind === kind)?.hoursLeast;
  const [walk, furniture] = [hours('walk-on'), hours('furniture')];
  if (walk !== undefined && furniture !== undefined && walk > furniture)
    problems.push(contradiction(['milestones'], { kind: 'milestone-order' }));
  return problems;
}

function liftsDisagree(powder: PowderSheet): Contradiction[] {
  const extended = powder.liftExtendedM?.value;
  if (extended === undefined) return [];
  if (powder.aggregateShare === null) return [contradiction(['liftExtendedM', 'aggregateShare'], { kind: 'extended-share' })];
  const neatM = powder.liftM.value.most;
  if (extended.most > neatM) return [];
  return [contradiction(['liftExtendedM', 'liftM'], { kind: 'extended-thin', extendedM: extended.most, neatM })];
}

function densitiesDisagree(powder: PowderSheet): Contradiction[] {
  const [fresh, hard] = [powder.densityFreshKgM3?.value, powder.densityHardKgM3?.value];
  if (fresh === undefined || hard === undefined || hard <= fresh * 1.02) return [];
  return [contradiction(['densityFreshKgM3', 'densityHardKgM3'], { kind: 'hard-fresh', hardKgM3: hard, freshKgM3: fresh })];
}

function strengthDisagrees(powder: PowderSheet): Contradiction[] {
  const designation = powder.enDesignation;
  if (designation === null || designation.trim() === '') return [];
  const read = parseEnDesignation(designation);
  if (!read.ok) return [contradiction(['enDesignation'], { kind: 'designation', designation })];
  const declared = read.value;
  const stated = powder.strengthPa?.value;
  if (declared === null || stated === undefined || stated >= declared * 0.98) return [];
  const what = { kind: 'designation-strength', designation, declaredPa: declared, statedPa: stated } as const;
  return [contradiction(['enDesignation', 'strengthPa'], what)];
}

function temperaturesDisagree(powder: PowderSheet): Contradiction[] {
  const [leastC, referenceC] = [powder.leastCureTempC.value, powder.referenceTempC.value];
  return leastC < referenceC ? [] : [contradiction(['leastCureTempC', 'referenceTempC'], { kind: 'cure-temperature', leastC, referenceC })];
}
