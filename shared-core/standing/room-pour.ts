/** What of a room's floor has been placed: none, some of it, or all of it. */
import type { Pour } from '../book/pour-record.ts';
import { roomFloor, type RoomFloor } from '../pour/placed-floor.ts';
import type { JobBundle, JobRoomFacts } from './job-bundle.ts';

/** `running` while a pour is under way; `part` while a lift or a part of the floor still has to be placed. */
export type PouredPart = 'none' | 'running' | 'part' | 'whole';

export type RoomPour = {
  readonly part: PouredPart;
  /** Lifts placed over all of the floor, and how many the depth takes; at least one. */
  readonly liftsPlaced: number;
  readonly liftsPlanned: number;
  /** The last finished pour; null before any. */
  readonly last: Pour | null;
  readonly running: Pour | null;
  /** Regions and areas: placed, suspect, not placed, taken out. */
  readonly floor: RoomFloor;
};

/** Reads the pours of one room. The number of lifts is the one stored with its pours, or the estimate's before that. */
export function roomPour(bundle: JobBundle, facts: JobRoomFacts): RoomPour {
  const floor = roomFloor(bundle.pours, bundle.pourEvents, facts.room.id);
  const last = floor.pours.at(-1) ?? null;
  const isStored = last?.asPoured !== undefined;
  const liftsPlanned = Math.max(1, isStored ? floor.liftsPlanned : (facts.summary?.lifts ?? 1), floor.liftsWhole);
  const isWhole = floor.extent === 'whole' && floor.liftsWhole >= liftsPlanned;
  const part = floor.running !== null ? 'running' : floor.extent === 'none' ? 'none' : isWhole ? 'whole' : 'part';
  return { part, liftsPlaced: floor.liftsWhole, liftsPlanned, last, running: floor.running, floor };
}
