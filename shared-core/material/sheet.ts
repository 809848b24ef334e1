/** A data sheet for calculation: every figure present, each with its source. */
import type { FigureSource, Material, Milestone, MilestoneKind, PowderSheet } from '../book/material.ts';
import type { Found } from '../measure/parsed.ts';
import type { YieldRange } from './bag-count.ts';
import { yieldByMass } from './mass-balance.ts';
import { TYPICAL_MILESTONE_HOURS, TYPICAL_POWDER, YIELD_SPREAD } from './typical-figures.ts';

/** A figure and its source. */
export type Sourced<T> = { readonly value: T; readonly source: FigureSource };

/** From minimum to maximum. */
export type Span = { readonly least: number; readonly most: number };

/** The powder's complete figures; `null` only where the data sheet does not allow it. */
export type EffectiveSheet = {
  readonly name: string;
  readonly bagKg: Sourced<number>;
  /** The yield estimates calculate with, and how it was chosen. */
  readonly yieldM3: Sourced<number> & { readonly by: PowderSheet['yieldBasis']; readonly sdShare: number };
  readonly waterL: Sourced<Span>;
  readonly mixMinutes: Sourced<Span>;
  readonly workingTimeMin: Sourced<Span>;
  readonly healingMin: Sourced<Span>;
  readonly liftM: Sourced<Span>;
  readonly liftExtendedM: Sourced<Span> | null;
  readonly aggregateShare: Sourced<number> | null;
  readonly densityFreshKgM3: Sourced<number>;
  readonly densityHardKgM3: Sourced<number>;
  readonly roomTempC: Sourced<Span>;
  readonly referenceTempC: Sourced<number>;
  readonly waterTempC: Sourced<Span>;
  readonly leastCureTempC: Sourced<number>;
  readonly strengthPa: Sourced<number> | null;
  readonly lossShare: Sourced<number>;
  readonly shelfMonths: Sourced<number>;
  readonly milestones: readonly Milestone[];
  /** Number of typical figures and typical times above. */
  readonly typicalCount: number;
  readonly typicalTimes: number;
};

const STRENGTH_KINDS: readonly Exclude<MilestoneKind, 'cover'>[] = ['walk-on', 'cart', 'next-lift', 'furniture', 'full'];

/** A material whose sheet cannot be calculated with, by name. */
export type SheetProblem = { readonly kind: 'not-mixed' | 'no-yield'; readonly name: string };

/**
 * Fills missing figures with typical ones, each flagged.
 * @returns the sheet, or that the material is no powder or that its yield cannot be calculated with
 */
export function effectiveSheet(material: Material): Found<EffectiveSheet, SheetProblem> {
  const powder = material.powder;
  if (powder === null) return { ok: false, problem: { kind: 'not-mixed', name: material.name } };
  const densityFreshKgM3 = powder.densityFreshKgM3 ?? typical(TYPICAL_POWDER.densityFreshKgM3);
  const calculated = calculatedYield(powder, densityFreshKgM3);
  if (!(calculated.value > 0)) return { ok: false, problem: { kind: 'no-yield', name: material.name } };
  const figures = {
    bagKg: powder.bagKg,
    yieldM3: { ...calculated, sdShare: YIELD_SPREAD[calculated.source] },
    waterL: powder.waterL,
    mixMinutes: powder.mixMinutes ?? typical<Span>(TYPICAL_POWDER.mixMinutes),
    workingTimeMin: powder.workingTimeMin ?? typical<Span>(TYPICAL_POWDER.workingTimeMin),
    healingMin: powder.healingMin ?? typical<Span>(TYPICAL_POWDER.healingMin),
    liftM: powder.liftM,
    liftExtendedM: powder.liftExtendedM,
    aggregateShare: powder.aggregateShare,
    densityFreshKgM3,
    densityHardKgM3: powder.densityHardKgM3 ?? typical(TYPICAL_POWDER.densityHardKgM3),
    roomTempC: powder.roomTempC,
    referenceTempC: powder.referenceTempC,
    waterTempC: powder.waterTempC ?? typical<Span>(TYPICAL_POWDER.waterTempC),
    leastCureTempC: powder.leastCureTempC,
    strengthPa: powder.strengthPa,
    lossShare: powder.lossShare,
    shelfMonths: powder.shelfMonths ?? typical(TYPICAL_POWDER.shelfMonths),
  };
  const milestones = [...powder.milestones, ...missingMilestones(powder.milestones)];
  const typicalCount = Object.values(figures).filter((figure) => figure?.source === 'typical').length;
  const typicalTimes = milestones.filter((m) => m.source === 'typical').length;
  return { ok: true, value: { name: material.name, ...figures, milestones, typicalCount, typicalTimes } };
}

/** The yield with its uncertainty, for the bag count. */
export function yieldRange(sheet: EffectiveSheet): YieldRange {
  return { likelyM3: sheet.yieldM3.value, sdShare: sheet.yieldM3.sdShare };
}

/** The wait before the next lift, hours at the reference temperature. */
export function nextLiftHours(sheet: EffectiveSheet): Sourced<Span> {
  const milestone = sheet.milestones.find((m) => m.kind === 'next-lift');
  return milestone === undefined
    ? typical(TYPICAL_MILESTONE_HOURS['next-lift'])
    : { value: { least: milestone.hoursLeast, most: milestone.hoursMost }, source: milestone.source };
}

/** Water that the data sheet does not allow, with the limit that it breaks, liters per bag. */
export type WaterProblem = { readonly kind: 'too-much' | 'too-little'; readonly waterL: number; readonly limitL: number };

/** Checks the water of a bag, liters above 0, against its sheet: null where it is allowed. */
export function checkWater({ waterL: { value } }: Pick<EffectiveSheet, 'waterL'>, waterL: number): WaterProblem | null {
  if (waterL > value.most) return { kind: 'too-much', waterL, limitL: value.most };
  return waterL < value.least ? { kind: 'too-little', waterL, limitL: value.least } : null;
}

function calculatedYield(powder: PowderSheet, density: Sourced<number>): Sourced<number> & { by: PowderSheet['yieldBasis'] } {
  if (powder.yieldBasis === 'measured' && powder.measuredYieldM3 !== null)
    return { value: powder.measuredYieldM3, source: 'measured', by: 'measured' };
  if (powder.yieldBasis === 'mass') {
    // The least water: the smaller volume is the safer one to buy by.
    const value = yieldByMass(powder.bagKg.value, powder.waterL.value.least, density.value);
    const parts = [powder.bagKg.source, powder.waterL.source, density.source];
    return { value, source: parts.includes('typical') ? 'typical' : 'bag', by: 'mass' };
  }
  return { ...powder.yieldM3, by: 'sheet' };
}

function missingMilestones(stated: readonly Milestone[]): Milestone[] {
  return STRENGTH_KINDS.filter((kind) => !stated.some((m) => m.kind === kind)).map((kind) => ({
    kind,
    flooring: null,
    hoursLeast: TYPICAL_MILESTONE_HOURS[kind].least,
    hoursMost: TYPICAL_MILESTONE_HOURS[kind].most,
    thicknessM: null,
    by: 'strength',
    source: 'typical',
  }));
}

function typical<T>(value: T): Sourced<T> {
  return { value, source: 'typical' };
}
