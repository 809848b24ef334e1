/** The work between two lifts of a room. */
import { hoursFor } from '../prep/task-hours.ts';
import type { RoomTakeoff } from './takeoff.ts';

/** The lower lift is abraded and vacuumed, then primed: hours of one person, and the hours that each coat dries before what follows. */
export type LiftBreak = { readonly surfaceHours: number; readonly coats: number; readonly coatHours: number; readonly dryHours: number };

/** The work before each later lift of a room; null where one lift fills it. */
export function liftBreak({
  room: { areaM2 },
  liftPrimer,
  primings,
}: Pick<RoomTakeoff, 'room' | 'liftPrimer' | 'primings'>): LiftBreak | null {
  if (primings < 2) return null;
  return {
    surfaceHours: hoursFor('abrade', areaM2) + hoursFor('vacuum', areaM2),
    coats: liftPrimer?.coats ?? 0,
    coatHours: hoursFor('primeCoat', areaM2),
    dryHours: liftPrimer?.dryHours.least ?? 0,
  };
}
