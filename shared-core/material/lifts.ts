/** The number of lifts for a depth, with or without aggregate, and the waits between them. */
import { INCH_M } from '../measure/length-units.ts';
import { nextLiftHours, type EffectiveSheet, type Sourced, type Span } from './sheet.ts';

/** The fill of a room, meters. */
export type Depths = { readonly leastM: number; readonly meanM: number; readonly mostM: number };

/** `auto` adds aggregate where that saves a lift and the shallowest point is deep enough for it. */
export type ExtendChoice = 'auto' | 'never' | 'always';

/** Why the lifts are as they are, in meters. */
export type LiftNote =
  | { readonly kind: 'several'; readonly deepestM: number; readonly liftM: number; readonly count: number }
  | { readonly kind: 'aggregate'; readonly leastM: number; readonly mostM: number }
  | { readonly kind: 'cap' | 'no-aggregate' }
  | { readonly kind: 'too-shallow-for-aggregate'; readonly shallowestM: number; readonly leastM: number }
  | { readonly kind: 'too-thin'; readonly shallowestM: number; readonly leastM: number };

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
  readonly notes: readonly LiftNote[];
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
export function planLifts(depths: Depths, sheet: EffectiveSheet, extend: ExtendChoice): LiftPlan {
  const neat = sheet.liftM.value;
  const stones = sheet.aggregateShare === null ? null : (sheet.liftExtendedM?.value ?? null);
  const neatCount = liftCount(depths.mostM, neat.most);
  const canExtend = stones !== null && depths.leastM >= stones.least - HAIR_M;
  const saves = stones !== null && liftCount(depths.mostM, stones.most) < neatCount;
  const extended = extend === 'always' ? stones !== null : extend === 'auto' && canExtend && saves;
  const lift = extended && stones !== null ? stones : neat;
  const count = liftCount(depths.mostM, lift.most);
  const tooThin = depths.mostM > 0 && depths.leastM < lift.least - HAIR_M;
  const shallowestM = depths.leastM;
  const notes: LiftNote[] = [
    ...(count > 1 ? [{ kind: 'several', deepestM: depths.mostM, liftM: lift.most, count } as const] : []),
    ...(extended ? [{ kind: 'aggregate', leastM: lift.least, mostM: lift.most } as const, { kind: 'cap' } as const] : []),
    ...(!extended && saves && !canExtend ? [{ kind: 'too-shallow-for-aggregate', shallowestM, leastM: stones.least } as const] : []),
    ...(extend === 'always' && stones === null ? [{ kind: 'no-aggregate' } as const] : []),
    ...(tooThin ? [{ kind: 'too-thin', shallowestM, leastM: lift.least } as const] : []),
  ];
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
