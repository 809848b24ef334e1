/** Whether the finish of a floor that slopes to a drain keeps a slope to it. */
import type { LevelChoice } from '../book/job.ts';
import type { Mark, Opening, Plan } from '../book/plan-fields.ts';
import { FOOT_M } from '../measure/length-units.ts';
import { type Plane, planeAtM } from '../survey/plane.ts';

/**
 * How a finish lies to a drain: `level`; `follow` keeps the floor's own slope; a ramp that is still level, or without both its elevations;
 * one whose low end is past the drain or away from it; one whose low end is at the drain; one with a slope where no drain is drawn.
 */
export type SlopeToDrain = 'level' | 'follow' | 'ramp-level' | 'ramp-past' | 'ramp-to' | 'ramp-drain-not-drawn';

/** An exterior door this wide lets vehicles in: 7 ft. Common practice, no source. */
const VEHICLE_DOOR_M = 7 * FOOT_M;

/** Whether vehicles can come in through an opening. */
export const isVehicleDoor = ({ kind, widthM }: Pick<Opening, 'kind' | 'widthM'>): boolean =>
  kind === 'exterior-door' && widthM >= VEHICLE_DOOR_M - 1e-6;

/** How a floor is finished, with the plane of a ramp; null while its heights do not define one. */
export type FinishToDrain = Pick<LevelChoice, 'mode'> & { readonly ramp: Plane | null };

type Finish = {
  readonly level: FinishToDrain;
  readonly plan: Pick<Plan, 'outline' | 'holes'>;
  readonly marks: readonly Mark[];
};

/** A drain this near to the low end of a ramp takes the water that comes down it, meters. Common practice, no source. */
const AT_DRAIN_M = 0.3;

/** A ramp no steeper than 1/8 in. in 10 ft, to which floors are placed, is level. Common practice, no source. */
const LEVEL_SLOPE = 1 / 960;

/** How a finish lies to the drain. */
export function slopeToDrain({ level, plan, marks }: Finish): SlopeToDrain {
  if (level.mode !== 'ramp') return level.mode;
  const { ramp } = level;
  const slope = ramp === null ? 0 : Math.hypot(ramp.slopeX, ramp.slopeY);
  if (ramp === null || slope <= LEVEL_SLOPE + 1e-9) return 'ramp-level';
  const heightM = ({ xM, yM }: { readonly xM: number; readonly yM: number }): number => planeAtM(ramp, xM, yM);
  const drains = [
    ...plan.holes.flatMap(({ kind, corners }) => (kind === 'drain' ? corners : [])),
    ...marks.flatMap(({ kind, points }) => (kind === 'drain' ? points : [])),
  ].map(heightM);
  if (drains.length === 0) return 'ramp-drain-not-drawn';
  const lowEndM = Math.min(...plan.outline.map(heightM));
  return Math.min(...drains) - lowEndM <= AT_DRAIN_M * slope ? 'ramp-to' : 'ramp-past';
}
