/** How deep a room and each of its lifts are at a place of the floor, and how its pours divide it. */
import type { JobRoom, LevelChoice } from '../book/job.ts';
import type { Room } from '../book/room.ts';
import { hasAggregate, liftDepthM } from '../material/lifts.ts';
import type { RoomTakeoff } from '../material/takeoff.ts';
import { type FillShares, fillShares } from '../pour/fill-shares.ts';
import type { PourRoom } from '../pour/room-bays.ts';
import { finishOf } from '../survey/settle-level.ts';
import { heightsAlong } from '../survey/surface.ts';
import type { SurveyedRoom } from '../survey/survey-room.ts';

/** What of an estimate says how deep a lift is. */
type LiftEstimate = { readonly survey: SurveyedRoom; readonly level: LevelChoice; readonly takeoff: RoomTakeoff };

/** A room whose readings are in. */
type Surveyed = Extract<SurveyedRoom, { readonly state: 'surveyed' }>;

/**
 * The depth of all lifts together at a place of the floor, meters on the room's axes.
 * @param restAt height of the open floor where it was read again, on the scale of the survey; null takes the survey
 */
export function roomDepth(
  { floor, level }: Surveyed,
  choice: LevelChoice,
  restAt: ((xM: number, yM: number) => number) | null = null,
): (xM: number, yM: number) => number {
  const finish = finishOf(level, choice, level.highSpotsAreGround);
  const texture = level.mode === 'follow' ? choice.textureM : 0;
  const height = heightsAlong(floor.surface);
  return (xM, yM) => {
    const { finishedM, groundM } = finish(xM, yM, restAt === null ? height(xM, yM).zM : restAt(xM, yM));
    return Math.max(0, finishedM - groundM + texture);
  };
}

/**
 * The depth one lift pours at a place of the floor; null while it is not known.
 * @param lift from 1, the lowest; past the last it is the last
 * @param restAt height of the open floor where it was read again, on the scale of the survey; null takes the survey
 */
export function depthOf(
  { survey, level: choice, takeoff }: LiftEstimate,
  lift: number,
  restAt: ((xM: number, yM: number) => number) | null,
): PourRoom['depth'] | null {
  if (survey.state === 'waiting') return null;
  const depthM = roomDepth(survey, choice, restAt);
  return ({ xM, yM }) => liftDepthM(depthM(xM, yM), takeoff.lifts, lift);
}

/** Mixed volume per bag puts on the floor in one lift, m3; null without a data sheet. */
export function placedM3({ lifts, aggregate, sheet, lossShare }: RoomTakeoff, lift: number): number | null {
  const mixM3 = hasAggregate(lifts, lift) ? aggregate?.mixM3 : undefined;
  return sheet === null ? null : (mixM3 ?? sheet.yieldM3.value) / (1 + lossShare);
}

/** How the bags of a room are divided among its lifts and sections; empty while those of a lift are not known. Without readings the floor counts as even. */
export const bagShares = (
  { plan }: Pick<Room, 'plan'>,
  { pourPlan }: Pick<JobRoom, 'pourPlan'>,
  { survey, level, takeoff: { lifts, liftBags } }: LiftEstimate,
): FillShares => fillShares({ plan, pourPlan }, lifts, liftBags ?? [], survey.state === 'surveyed' ? roomDepth(survey, level) : () => 1);
