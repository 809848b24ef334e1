/** The number of lifts for a depth, with or without aggregate, and the waits between them. */
import type { FigureSource } from '../book/material.ts';
import { INCH_M } from '../measure/length-units.ts';
import { nextLiftHours, type EffectiveSheet, type Sourced, type Span } from './sheet.ts';

/** The fill of a room, meters. */
export type Depths = { readonly leastM: number; readonly meanM: number; readonly mostM: number };

/** Why the lifts are as they are, in meters. */
export type LiftNote =
  | { readonly kind: 'several'; readonly deepestM: number; readonly liftM: number; readonly count: number }
  | { readonly kind: 'aggregate'; readonly leastM: number; readonly mostM: number }
  | { readonly kind: 'cap'; readonly capM: number }
  | { readonly kind: 'no-aggregate' }
  | { readonly kind: 'too-shallow-for-aggregate'; readonly shallowestM: number; readonly leastM: number }
  | { readonly kind: 'too-thin'; readonly shallowestM: number; readonly leastM: number; readonly source: FigureSource };

/** The lifts of a depth. */
export type LiftPlan = {
  /** All of them, the cap over the aggregate included. */
  readonly count: number;
  /** Whether the lifts have aggregate, all but the last, which caps them. */
  readonly extended: boolean;
  /** The deepest place of the lowest lift, and of each one over it, the cap left out, meters. */
  readonly lowestMostM: number;
  readonly eachMostM: number;
  /** The cap without aggregate, meters; 0 where there is none. */
  readonly capM: number;
  /** Hours between lifts at the sheet's reference temperature; null for a single lift. */
  readonly waitHours: Sourced<Span> | null;
  readonly notes: readonly LiftNote[];
};

const HAIR_M = 1e-6;
/** Neat mix over a lift with aggregate: 1/4 in. Common practice, no source. */
const NEAT_CAP_M = 0.25 * INCH_M;

/** The cap without aggregate over a lift with it, meters: never thinner than the data sheet's minimum. */
export const capOfM = ({ liftM }: Pick<EffectiveSheet, 'liftM'>): number => Math.max(NEAT_CAP_M, liftM.value.least);

/**
 * Plans the lifts of one room.
 * @param depths least, mean and most of the fill
 * @param sheet whose lifts count
 * @param withAggregate whether aggregate is asked for; it goes in where its thinnest place is in its range in each of its lifts
 */
export function planLifts(depths: Depths, sheet: EffectiveSheet, withAggregate: boolean): LiftPlan {
  const neat = sheet.liftM.value;
  const stones = withAggregate ? liftWithAggregate(sheet) : null;
  const { leastM: shallowestM, mostM: deepestM } = depths;
  const aggregateLeastM = stones === null ? Infinity : leastWithAggregateM(stones, capOfM(sheet), deepestM);
  const extended = shallowestM >= aggregateLeastM - HAIR_M;
  const lift = extended && stones !== null ? stones : neat;
  const capM = extended ? capOfM(sheet) : 0;
  const filled = liftCount(deepestM - capM, lift.most);
  const count = filled + (extended ? 1 : 0);
  const evenM = filled === 0 ? 0 : (deepestM - capM) / filled;
  // The lowest lift with aggregate runs out nowhere: those over it leave it its minimum at the shallowest place.
  const eachMostM = extended && filled > 1 ? Math.min(evenM, (shallowestM - capM - lift.least) / (filled - 1)) : evenM;
  const notes: LiftNote[] = [
    ...(filled > 1 ? [{ kind: 'several', deepestM, liftM: lift.most, count } as const] : []),
    ...(extended ? [{ kind: 'aggregate', leastM: lift.least, mostM: lift.most } as const, { kind: 'cap', capM } as const] : []),
    ...(stones !== null && !extended ? [{ kind: 'too-shallow-for-aggregate', shallowestM, leastM: aggregateLeastM } as const] : []),
    ...(withAggregate && stones === null ? [{ kind: 'no-aggregate' } as const] : []),
    ...(deepestM > 0 && shallowestM < neat.least - HAIR_M
      ? [{ kind: 'too-thin', shallowestM, leastM: neat.least, source: sheet.liftM.source } as const]
      : []),
  ];
  return {
    count,
    extended,
    lowestMostM: filled === 0 ? 0 : deepestM - capM - (filled - 1) * eachMostM,
    eachMostM,
    capM,
    waitHours: count > 1 ? nextLiftHours(sheet) : null,
    notes,
  };
}

/** Thickness of a lift with aggregate, meters; null where the data sheet allows none. */
const liftWithAggregate = ({ aggregateShare, liftExtendedM }: EffectiveSheet): Span | null =>
  aggregateShare === null ? null : (liftExtendedM?.value ?? null);

/**
 * The least depth of a fill that takes aggregate, meters: each of its lifts lies over all of the floor, because stones cannot run out to an
 * edge, and none is thinner or thicker than the data sheet allows.
 */
function leastWithAggregateM({ least, most }: Span, capM: number, deepestM: number): number {
  const over = Math.max(0, liftCount(deepestM - capM, most) - 1);
  return capM + least + (over === 0 ? 0 : Math.max(over * least, deepestM - capM - most));
}

/** Whether a fill of one lift takes aggregate under its cap by its least depth, meters. */
export function takesAggregate(sheet: EffectiveSheet, leastM: number): boolean {
  const stones = liftWithAggregate(sheet);
  return stones !== null && leastM >= leastWithAggregateM(stones, capOfM(sheet), leastM) - HAIR_M;
}

/** Whether a lift has aggregate: every lift of an extended plan but the last. */
export const hasAggregate = (lifts: Pick<LiftPlan, 'count' | 'extended'> | null, lift: number): boolean =>
  lifts?.extended === true && lift < lifts.count;

type Stack = Pick<LiftPlan, 'count' | 'extended' | 'lowestMostM' | 'eachMostM' | 'capM'>;
/** The deepest place of one lift, meters. @param lift from 1, the lowest */
export const liftMostM = ({ count, extended, lowestMostM, eachMostM, capM }: Stack, lift: number): number =>
  extended && lift === count ? capM : lift === 1 ? lowestMostM : eachMostM;

/** Depth that the lifts over one lift fill, meters. @param lift from 1, the lowest */
export function liftsAboveM(lifts: Stack | null, lift: number): number {
  let aboveM = 0;
  for (let n = lift + 1; lifts !== null && n <= lifts.count; n++) aboveM += liftMostM(lifts, n);
  return aboveM;
}

/**
 * What one lift is at a place as deep as `depthM`, meters. The deep places come first: every lift under the last fills them up to a
 * plane of its own, and the last covers the whole floor.
 * @param lift from 1, the lowest; past the last it is the last
 */
export function liftDepthM(depthM: number, lifts: Stack | null, lift: number): number {
  if (lifts === null || lifts.count < 2) return depthM;
  const at = Math.min(lift, lifts.count);
  const leftM = Math.max(0, depthM - liftsAboveM(lifts, at));
  return at <= 1 ? leftM : Math.min(leftM, liftMostM(lifts, at));
}

function liftCount(depthM: number, mostM: number): number {
  if (depthM <= 0) return 0;
  return Math.max(1, Math.ceil(depthM / mostM - HAIR_M));
}
