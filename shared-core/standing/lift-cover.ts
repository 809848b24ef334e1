/** What of a floor one lift covers: all of it, or only the deep places. */
import { liftMostM, liftsAboveM } from '../material/lifts.ts';
import type { RoomEstimate } from '../price/estimate-room.ts';

/** The rooms of a pour, and the lift of each in the same order. */
type RoomsAtLift = {
  readonly rooms: readonly { readonly room: { readonly id: string; readonly name: string }; readonly estimate: RoomEstimate | null }[];
  readonly lifts: readonly { readonly number: number }[];
};

/** Whether one lift of a room lies over all of its floor, not only in the deep places. @param lift from 1, the lowest */
export function coversFloor(estimate: RoomEstimate | null, lift: number): boolean {
  if (estimate === null || estimate.takeoff.lifts === null || lift >= estimate.takeoff.lifts.count) return true;
  const { depths } = estimate.takeoff.room;
  return depths !== null && depths.leastM > liftsAboveM(estimate.takeoff.lifts, lift);
}

/**
 * A room whose lift is under the last: how deep it is at most, and how far under the finish its top is, meters. It lies over all of the
 * floor, or only in the deep places.
 */
export type LowerLift = {
  readonly roomId: string;
  readonly room: string;
  readonly mostM: number;
  readonly belowFinishM: number;
  readonly isDeepOnly: boolean;
};

/** The rooms of a pour whose lift is under the last. */
export function lowerLifts({ rooms, lifts }: RoomsAtLift): readonly LowerLift[] {
  return rooms.flatMap(({ room, estimate }, i) => {
    const lift = lifts[i]?.number ?? 1;
    const stack = estimate?.takeoff.lifts ?? null;
    if (stack === null || lift >= stack.count) return [];
    const isDeepOnly = !coversFloor(estimate, lift);
    return [{ roomId: room.id, room: room.name, mostM: liftMostM(stack, lift), belowFinishM: liftsAboveM(stack, lift), isDeepOnly }];
  });
}

/** The rooms of a pour whose lift only fills the deep places. */
export const deepFills = (pour: RoomsAtLift): readonly LowerLift[] => lowerLifts(pour).filter(({ isDeepOnly }) => isDeepOnly);
