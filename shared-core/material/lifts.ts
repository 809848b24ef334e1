/** The number of lifts for a depth, with or without aggregate, and the waits between them. */
import { formatDepth } from '../measure/length-format.ts';
import { INCH_M } from '../measure/length-units.ts';
import type { UnitSystem } from '../measure/unit-system.ts';
import { nextLiftHours, type EffectiveSheet, type Sourced, type Span } from './sheet.ts';

/** The fill of a room, meters. */
export type Depths = { readonly leastM: number; readonly meanM: number; readonly mostM: number };

/** `auto` adds aggregate where that saves a lift and the shallowest point is deep enough for it. */
export type ExtendChoice = 'auto' | 'never' | 'always';

/** The lifts of a depth. */
export type LiftPlan = {
  readonly count: number;
  readonly extended: boolean;
  /** The deepest place of each lift, meters. */
  readonly eachMostM: number;
  /** Hours between lifts at the sheet's reference temperature; null for a single lift. */
  readonly waitHours: Sourced<Span> | null;
  /** The shallowest place is thinner than the sheet allows. */
  readonly tooThin: boolean;
  /** The reason, in one or two sentences. */
  readonly notes: readonly string[];
};

const HAIR_M = 1e-6;
/** Neat mix over a lift with aggregate: 1/4 in. Common practice, no source; the data sheet replaces it. */
export const NEAT_CAP_M = 0.25 * INCH_M;

/**
 * Plans the lifts of one room.
 * @param depths least, mean and most of the fill
 * @param sheet whose lifts count
 * @param extend see {@link ExtendChoice}
 */
export function planLifts(depths: Depths, sheet: EffectiveSheet, extend: ExtendChoice, units: UnitSystem, locale?: string): LiftPlan {
  const neat = sheet.liftM.value;
  const stones = sheet.aggregateShare === null ? null : (sheet.liftExtendedM?.value ?? null);
  const neatCount = liftCount(depths.mostM, neat.most);
  const canExtend = stones !== null && depths.leastM >= stones.least - HAIR_M;
  const saves = stones !== null && liftCount(depths.mostM, stones.most) < neatCount;
  const extended = extend === 'always' ? stones !== null : extend === 'auto' && canExtend && saves;
  const lift = extended && stones !== null ? stones : neat;
  const count = liftCount(depths.mostM, lift.most);
  const show = (m: number) => formatDepth(m, units, locale);
  const notes: string[] = [];
  if (count > 1) {
    notes.push(
      `${show(depths.mostM)} at the deepest point is over the maximum lift of ${show(lift.most)}. Place ${count} lifts, deep areas first.`,
    );
  }
  if (extended) {
    notes.push(`With aggregate, a lift is ${show(lift.least)} to ${show(lift.most)}.`);
    notes.push(
      `Prime it and cap it with ${show(NEAT_CAP_M)} or more of mix without aggregate, unless the data sheet allows flooring on the aggregate.`,
    );
  }
  if (!extended && saves && !canExtend) {
    notes.push(`Aggregate would save a lift, but needs a minimum depth of ${show(stones.least)}. Here it is ${show(depths.leastM)}.`);
  }
  if (extend === 'always' && stones === null) notes.push('The data sheet allows no aggregate.');
  const tooThin = depths.mostM > 0 && depths.leastM < lift.least - HAIR_M;
  if (tooThin) notes.push(`The shallowest point is ${show(depths.leastM)}. The data sheet’s minimum is ${show(lift.least)}.`);
  return {
    count,
    extended,
    eachMostM: count === 0 ? 0 : depths.mostM / count,
    waitHours: count > 1 ? nextLiftHours(sheet) : null,
    tooThin,
    notes,
  };
}

function liftCount(depthM: number, mostM: number): number {
  if (depthM <= 0) return 0;
  return Math.max(1, Math.ceil(depthM / mostM - HAIR_M));
}
