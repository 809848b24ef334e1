/** The poured rooms of a job with their cure, depth and materials. */
import type { Pour } from '../book/pour-record.ts';
import type { Room } from '../book/room.ts';
import type { CureSchedule } from '../cure/cure-schedule.ts';
import type { FloorRest } from '../pour/floor-rest.ts';
import { liveEvents } from '../pour/log-time.ts';
import { poursIn } from '../pour/placed-floor.ts';
import { finishedPours, roomsOf } from './job-bundle.ts';
import { roomPour } from './room-pour.ts';
import type { JobReading } from './read-job.ts';
import { type CuredPart, pouredDepth, roomCure } from './room-cure.ts';

export type CuredRoom = {
  readonly room: Room;
  readonly schedule: CureSchedule;
  readonly depth: { readonly meanM: number; readonly deepestM: number } | null;
  readonly pour: Pour;
  /** Whether the whole floor is placed. Until then the schedule has no dates for flooring. */
  readonly whole: boolean;
  /** Floor left to place, repair or check; null where all of it is placed and sound. */
  readonly rest: FloorRest | null;
  /** Floor by pour where there were several pours or some floor is open; else empty. */
  readonly parts: readonly CuredPart[];
  /** When each pour whose floor is there was over, the first first, over all lifts. */
  readonly placedAts: readonly string[];
  /** Of those pours; voided entries are left out. */
  readonly bags: number;
  readonly lots: readonly string[];
};

/** Rooms with a finished pour, in the job's order. */
export function jobReadingCures(reading: JobReading): CuredRoom[] {
  const { bundle, whole } = reading;
  return roomsOf(bundle).flatMap((facts): CuredRoom[] => {
    const pours = finishedPours(bundle, facts.room.id);
    const pour = pours.at(-1);
    const cure = roomCure(bundle, facts, whole.business);
    if (pour === undefined || cure?.poured !== true) return [];
    const there = poursIn(roomPour(bundle, facts).floor);
    const ids = new Set(there.map((p) => p.id));
    const live = liveEvents(whole.pourEvents.filter((e) => ids.has(e.pourId)));
    const placed = live.flatMap((e) => (e.kind === 'placed' && (e.roomId === null || e.roomId === facts.room.id) ? [e.bags] : []));
    return [
      {
        room: facts.room,
        schedule: cure.schedule,
        whole: cure.whole,
        rest: cure.rest,
        parts: cure.parts,
        depth: pouredDepth(pour, facts.room.id) ?? facts.summary?.depth ?? null,
        pour,
        placedAts: there.map((p) => p.finishedAt ?? p.changedAt),
        bags: placed.reduce((sum, n) => sum + n, 0),
        lots: [...new Set(live.flatMap((e) => (e.kind === 'lot' ? [e.lot] : [])))],
      },
    ];
  });
}
