/** How much of a room's floor is placed: none, part, or all. From its pour logs. */
import type { JobRoom } from '../book/job.ts';
import type { Pour } from '../book/pour-record.ts';
import { dayOfInstant } from '../measure/moment.ts';
import { type RoomFloor, roomFloor } from '../pour/placed-floor.ts';
import type { JobBundle, JobRoomFacts } from './job-bundle.ts';

/** `running` while a pour is under way; `part` while a lift or a part of the floor still has to be placed. */
export type PouredPart = 'none' | 'running' | 'part' | 'whole';

export type RoomPour = {
  readonly part: PouredPart;
  /** Fully placed lifts, and the number of lifts needed; at least one. */
  readonly liftsPlaced: number;
  readonly liftsPlanned: number;
  /** The last finished pour that placed something in the room; null before any. */
  readonly last: Pour | null;
  readonly running: Pour | null;
  readonly floor: RoomFloor;
};

/**
 * The date set for a room's next pour; null for none. One set for the day of its last pour, or before, was for that pour.
 * @param zone IANA time zone of the property
 */
export function nextPourAt({ pourAt }: Pick<JobRoom, 'pourAt'>, last: Pick<Pour, 'finishedAt'> | null, zone: string): string | null {
  const finishedAt = last?.finishedAt ?? null;
  return pourAt !== null && (finishedAt === null || dayOfInstant(pourAt, zone) > dayOfInstant(finishedAt, zone)) ? pourAt : null;
}

/** Whether a room's date is of a pour still to come, and not of one that placed its floor or is running. */
export function isPourAhead({ pours, pourEvents, property }: Pick<JobBundle, 'pours' | 'pourEvents' | 'property'>, room: JobRoom): boolean {
  const floor = roomFloor(pours, pourEvents, room.roomId);
  const isOpen = floor.running === null && floor.extent !== 'whole';
  return isOpen && nextPourAt(room, floor.pours.at(-1) ?? null, property.timeZone) !== null;
}

const knownOf = new WeakMap<JobBundle, Map<string, RoomPour>>();

/** Reads the pours of one room, once per bundle. A pour knows its own number of lifts; before one the estimate's counts. */
export function roomPour(bundle: JobBundle, facts: JobRoomFacts): RoomPour {
  const known = knownOf.get(bundle) ?? new Map<string, RoomPour>();
  knownOf.set(bundle, known);
  const pour = known.get(facts.room.id) ?? makeRoomPour(bundle, facts);
  known.set(facts.room.id, pour);
  return pour;
}

function makeRoomPour(bundle: JobBundle, facts: JobRoomFacts): RoomPour {
  const floor = roomFloor(bundle.pours, bundle.pourEvents, facts.room.id);
  const last = floor.pours.at(-1) ?? null;
  const stored = last === null ? (facts.summary?.lifts ?? 1) : floor.liftsPlanned;
  const liftsPlanned = Math.max(1, stored, floor.liftsWhole);
  const isWhole = floor.extent === 'whole' && floor.liftsWhole >= liftsPlanned;
  const part = floor.running !== null ? 'running' : floor.extent === 'none' ? 'none' : isWhole ? 'whole' : 'part';
  return { part, liftsPlaced: floor.liftsWhole, liftsPlanned, last, running: floor.running, floor };
}
