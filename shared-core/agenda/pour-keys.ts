/**
 * Numbers of a room's pours in the keys of entries, so that each pour has entries of its own: the lift, and with each rest of it one more,
 * such as `2` for lift 2 and `1.2` for the rest of lift 1.
 */
import type { Pour } from '../book/pour-record.ts';
import type { RoomFloor } from '../pour/placed-floor.ts';
import { roomOf } from '../pour/pour-regions.ts';
import { nextLift } from '../standing/next-pours.ts';

export type NumberedPour = { readonly number: string; readonly pour: Pour };

type Pours = Pick<RoomFloor, 'roomId' | 'pours'>;

const numberOf = (lift: number, nth: number): string => (nth === 1 ? String(lift) : `${lift}.${nth}`);

const ofLift = ({ roomId, pours }: Pours, lift: number): readonly Pour[] => pours.filter((pour) => roomOf(pour, roomId).lift === lift);

/** The finished pours of a room with their numbers, in order. */
export function numberedPours(floor: Pours): readonly NumberedPour[] {
  return floor.pours.map((pour) => {
    const { lift } = roomOf(pour, floor.roomId);
    return { number: numberOf(lift, ofLift(floor, lift).indexOf(pour) + 1), pour };
  });
}

/** The number of the pour that comes next, or runs. */
export function nextPourNumber(floor: Pours & Pick<RoomFloor, 'lift'>): string {
  const lift = nextLift(floor).number;
  return numberOf(lift, ofLift(floor, lift).length + 1);
}
