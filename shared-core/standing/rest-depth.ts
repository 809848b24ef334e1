/**
 * The depth of the rest of a floor from its own readings. The placed floor is the known surface: readings on it tie the new ones to the
 * finish elevation, or to the top of the lift, whatever the laser was set to.
 */
import type { Room } from '../book/room.ts';
import type { UnitSystem } from '../measure/unit-system.ts';
import { pointInRegion } from '../plan/region.ts';
import type { RoomFloor } from '../pour/placed-floor.ts';
import { readFloor } from '../survey/read-floor.ts';
import { heightsAlong } from '../survey/surface.ts';

/** Readings on the placed floor that tie the rest to it; one alone could be a typo. Our choice, no source. */
export const TIE_LEAST = 2;
/** The fewest readings that give a surface. */
export const OPEN_LEAST = 3;

export type RestReadings = {
  /** Readings on the placed floor and on the open floor. */
  readonly tied: number;
  readonly open: number;
  /** Height of the bare open floor on the scale of the first survey, m; null until there are enough readings. */
  readonly groundAt: ((xM: number, yM: number) => number) | null;
};

/**
 * Reads the rest of a room.
 * @param topAt planned top of the placed lift on the scale of the first survey, m; null where it places nothing
 */
export function restReadings(
  room: Pick<Room, 'plan' | 'surveyRest'>,
  { lift }: Pick<RoomFloor, 'lift'>,
  topAt: (xM: number, yM: number) => number | null,
  units: UnitSystem,
): RestReadings {
  const survey = room.surveyRest;
  if (survey === null || lift === null) return { tied: 0, open: 0, groundAt: null };
  const placed = lift.regions.filter(({ state }) => state === 'placed' || state === 'suspect').flatMap(({ floor }) => floor);
  const heights = survey.readings.map((reading) => ({
    ...reading,
    valueM: survey.method === 'height' ? reading.valueM : -reading.valueM,
  }));
  const isOnPlaced = (point: { readonly xM: number; readonly yM: number }): boolean =>
    placed.some((piece) => pointInRegion(point, piece) === 'inside');
  const ties = heights.filter(isOnPlaced).flatMap((reading) => {
    const topM = topAt(reading.xM, reading.yM);
    return topM === null ? [] : [reading.valueM - topM];
  });
  const open = heights.filter((reading) => !isOnPlaced(reading));
  const counts = { tied: ties.length, open: open.length };
  if (ties.length < TIE_LEAST || open.length < OPEN_LEAST) return { ...counts, groundAt: null };
  const shiftM = ties.reduce((sum, offM) => sum + offM, 0) / ties.length;
  const read = readFloor(
    room.plan,
    { ...survey, method: 'height', readings: open.map((reading) => ({ ...reading, valueM: reading.valueM - shiftM })) },
    units,
  );
  if (!read.ok) return { ...counts, groundAt: null };
  const height = heightsAlong(read.floor.surface);
  return { ...counts, groundAt: (xM, yM) => height(xM, yM).zM };
}
