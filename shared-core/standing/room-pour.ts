/** What of a room's floor has been placed: no lift, some of it, or all of it. */
import type { Pour } from '../book/pour-record.ts';
import { finishedPours, type JobBundle, type JobRoomFacts } from './job-bundle.ts';

/** `running` while a pour is under way; `part` while a lift or a part of the floor still has to be placed. */
export type PouredPart = 'none' | 'running' | 'part' | 'whole';

export type RoomPour = {
  readonly part: PouredPart;
  /** Finished lifts, and how many the depth takes; at least one. */
  readonly liftsPlaced: number;
  readonly liftsPlanned: number;
  /** The last finished pour; null before any. */
  readonly last: Pour | null;
  readonly running: Pour | null;
};

/** Reads the pours of one room. The number of lifts is that of the estimate, or of the pours on record where those went further. */
export function roomPour(bundle: JobBundle, facts: JobRoomFacts): RoomPour {
  const roomId = facts.room.id;
  const finished = finishedPours(bundle, roomId);
  const last = finished.at(-1) ?? null;
  const running =
    bundle.pours.find((p) => p.deletedAt === null && p.startedAt !== null && p.finishedAt === null && p.roomIds.includes(roomId)) ?? null;
  const liftsPlaced = last?.lift ?? 0;
  const liftsPlanned = Math.max(1, facts.summary?.lifts ?? 1, liftsPlaced);
  const part = running !== null ? 'running' : last === null ? 'none' : liftsPlaced < liftsPlanned ? 'part' : 'whole';
  return { part, liftsPlaced, liftsPlanned, last, running };
}
