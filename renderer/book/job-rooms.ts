/** Which rooms of a house a job is about: taking another in, letting one go, placing them beside one another. */
import type { Job } from '../../shared-core/book/job.ts';
import type { Property } from '../../shared-core/book/property.ts';
import type { Room } from '../../shared-core/book/room.ts';
import { newJobRoom } from '../../shared-core/book/new-records.ts';
import type { Plan } from '../../shared-core/book/plan-fields.ts';
import { book } from './database.ts';
import { changeJob } from './job-commands.ts';
import { nowInstant } from './moment.ts';
import { type Outcome, refused } from './outcome.ts';
import { write } from './write.ts';

/** Takes more rooms of the house into a job, each to be assessed. */
export function takeIn(job: Job, roomIds: readonly string[], names: string): Promise<Outcome> {
  return changeJob(job.id, `took ${names} into ${job.number}`, (j) => ({
    ...j,
    rooms: [...j.rooms, ...roomIds.filter((id) => !j.rooms.some((r) => r.roomId === id)).map(newJobRoom)],
  }));
}

/** What of the job hangs on a room, in words; null when nothing does. */
const hangsOn = async (job: Job, roomId: string): Promise<string | null> => {
  const it = book();
  const of = <T extends 'quotes' | 'pours' | 'cureLogs' | 'promises' | 'clearanceTests' | 'visits'>(table: T) =>
    it.rowsOf(table).where('jobId').equals(job.id).toArray();
  const live = <T extends { readonly deletedAt: string | null }>(rows: readonly T[]): T[] => rows.filter((r) => r.deletedAt === null);
  if (live(await of('pours')).some((pour) => pour.roomIds.includes(roomId))) return 'a pour';
  if (live(await of('quotes')).some((q) => ['issued', 'accepted'].includes(q.state) && q.frozen.job.rooms.some((r) => r.roomId === roomId)))
    return 'a quote that stands';
  if (job.rooms.some((r) => r.roomId === roomId && r.signed.length > 0)) return 'a signed line of the prep';
  if (live(await of('cureLogs')).some((log) => log.roomId === roomId)) return 'a log of its air';
  if (live(await of('promises')).some((promised) => promised.roomId === roomId)) return 'a promised date';
  if (live(await of('clearanceTests')).some((tested) => tested.roomId === roomId)) return 'a test';
  if (live(await of('visits')).some((visit) => visit.roomIds.includes(roomId))) return 'a visit';
  return null;
};

/** Lets a room go from a job when nothing hangs on it; the room itself, with its plan and readings, stays in the house. */
export async function letGo(job: Job, roomId: string, name: string): Promise<Outcome> {
  if (job.rooms.length === 1) return refused(`${name} is the only room of ${job.number}: set the job aside instead.`);
  const what = await hangsOn(job, roomId);
  if (what !== null) return refused(`${name} stays in ${job.number}: ${what} hangs on it.`);
  return changeJob(job.id, `let ${name} go from ${job.number}`, (j) => ({ ...j, rooms: j.rooms.filter((r) => r.roomId !== roomId) }));
}

/** Puts a room somewhere else in the house; `letters` moves the access notes that stand in it. One step of undo. */
export function placeRoom(
  property: Property,
  room: Room,
  placedAt: Plan['placedAt'],
  letters: (property: Property, room: Room, placedAt: Plan['placedAt']) => Property,
): Promise<Outcome> {
  return write(`where the ${room.name.toLowerCase()} stands`, nowInstant(), {
    patches: [
      { table: 'rooms', id: room.id, change: (r) => ({ ...r, plan: { ...r.plan, placedAt } }) },
      { table: 'properties', id: property.id, change: (p) => (p.access.some((n) => n.at !== null) ? letters(p, room, placedAt) : p) },
    ],
  });
}
