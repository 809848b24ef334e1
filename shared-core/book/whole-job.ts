/** One job with everything that hangs on it, as screens, documents and the agenda take it. */
import type { Business } from './business.ts';
import type { Client } from './client.ts';
import type { CoverTest, CureLog, Promised, Visit } from './cure-record.ts';
import type { Job, JobRoom } from './job.ts';
import type { Material } from './material.ts';
import type { CalendarEntry, MadeDocument } from './papers.ts';
import type { Pour, PourEvent } from './pour-record.ts';
import type { Property } from './property.ts';
import type { Quote } from './quote.ts';
import type { Room } from './room.ts';

export type WholeJob = {
  readonly business: Business;
  readonly client: Client;
  readonly property: Property;
  readonly job: Job;
  /** The job's rooms, in the job's order. */
  readonly rooms: readonly Room[];
  /** Every room of the house, for the key plan. */
  readonly houseRooms: readonly Room[];
  readonly materials: readonly Material[];
  readonly quotes: readonly Quote[];
  readonly pours: readonly Pour[];
  readonly pourEvents: readonly PourEvent[];
  readonly cureLogs: readonly CureLog[];
  readonly promises: readonly Promised[];
  readonly coverTests: readonly CoverTest[];
  readonly visits: readonly Visit[];
  readonly documents: readonly MadeDocument[];
  readonly calendarEntries: readonly CalendarEntry[];
};

/** One room of a job: its record and what the job decided about it. */
export type RoomOfJob = { readonly room: Room; readonly jobRoom: JobRoom };

/** The room with its place in the job; null when the job does not hold it. */
export function roomOfJob(whole: WholeJob, roomId: string): RoomOfJob | null {
  const room = whole.rooms.find((r) => r.id === roomId);
  const jobRoom = whole.job.rooms.find((r) => r.roomId === roomId);
  return room === undefined || jobRoom === undefined ? null : { room, jobRoom };
}

/** A material by id; null when it is not chosen or not there. */
export function materialById(whole: WholeJob, id: string | null): Material | null {
  return id === null ? null : (whole.materials.find((m) => m.id === id) ?? null);
}
