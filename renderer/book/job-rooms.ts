/** The rooms of a job: adding, removing, and placing them on the property plan. */
import type { Job, JobRoom } from '../../shared-core/book/job.ts';
import type { Property } from '../../shared-core/book/property.ts';
import type { Room } from '../../shared-core/book/room.ts';
import type { Plan } from '../../shared-core/book/plan-fields.ts';
import { inheritedJobRoom, inheritedRoom, sharesFloor } from '../../shared-core/book/same-room.ts';
import { book } from './database.ts';
import { hasRoom, ordersHolding } from '../../shared-core/price/change-order.ts';
import { withoutRooms } from '../../shared-core/price/without-rooms.ts';
import { changeJob } from './job-commands.ts';
import { newId, nowInstant, attempt, done, type Outcome, refused } from './command.ts';
import { Refusal } from './record-rules.ts';
import { leadsOfRooms } from './lead-patches.ts';
import { startingRooms } from './starting-rooms.ts';
import { write } from './write.ts';

/** A job with more rooms. One that a change order removed comes back with its records. */
function withRooms({ withdrawn = [], ...job }: Job, rooms: readonly JobRoom[]): Job {
  const added = rooms.filter(({ roomId }) => !job.rooms.some((r) => r.roomId === roomId));
  const left = withdrawn.filter(({ roomId }) => !added.some((r) => r.roomId === roomId));
  return {
    ...job,
    rooms: [...job.rooms, ...added.map((room) => withdrawn.find(({ roomId }) => roomId === room.roomId) ?? room)],
    ...(left.length === 0 ? {} : { withdrawn: left }),
  };
}

/** Adds rooms to a job, which becomes that of the open leads about them. */
export async function addToJob(job: Job, roomIds: readonly string[], names: string): Promise<Outcome> {
  const read = await attempt(async () => {
    const rooms = await startingRooms(await book().rowsOf('business').get('business'), roomIds);
    return done({ rooms, leads: await leadsOfRooms(job.customerId, roomIds, job.id) });
  });
  if (!read.ok) return read;
  const { rooms, leads } = read.value;
  const patches = [{ table: 'jobs' as const, id: job.id, change: (j: Job) => withRooms(j, rooms) }, ...leads];
  return write(`add ${names} to ${job.number}`, nowInstant(), { patches });
}

/** What in the job depends on a room, in words; null for nothing. */
const dependsOn = async (job: Job, roomId: string): Promise<string | null> => {
  const db = book();
  const of = <T extends 'quotes' | 'pours' | 'cureLogs' | 'promises' | 'clearanceTests' | 'visits'>(table: T) =>
    db.rowsOf(table).where('jobId').equals(job.id).toArray();
  const live = <T extends { readonly deletedAt: string | null }>(rows: readonly T[]): T[] => rows.filter((r) => r.deletedAt === null);
  if (live(await of('pours')).some((pour) => pour.roomIds.includes(roomId))) return 'a pour';
  const quotes = live(await of('quotes')).filter((q) => ['issued', 'accepted'].includes(q.state));
  const having = quotes.find((q) => hasRoom(q, roomId));
  if (having !== undefined) return having.frozen.job.rooms.some((r) => r.roomId === roomId) ? 'a current quote' : 'a change order';
  if (ordersHolding(quotes, roomId).length > 0) return 'a change order';
  if (job.rooms.some((r) => r.roomId === roomId && r.signed.length > 0)) return 'a signed prep line';
  if (live(await of('cureLogs')).some((log) => log.roomId === roomId)) return 'a climate log';
  if (live(await of('promises')).some((promised) => promised.roomId === roomId)) return 'a promised date';
  if (live(await of('clearanceTests')).some((tested) => tested.roomId === roomId)) return 'a test';
  if (live(await of('visits')).some((visit) => visit.roomIds.includes(roomId))) return 'a visit';
  return null;
};

/** Removes a room from a job when nothing in the job depends on it. The property still has the room with its plan and readings. */
export async function removeFromJob(job: Job, roomId: string, name: string): Promise<Outcome> {
  if (job.rooms.length === 1) return refused(`${name} is the only room in job ${job.number}. Archive the job instead.`);
  const found = await attempt(async () => done(await dependsOn(job, roomId)));
  if (!found.ok) return found;
  const dependents = found.value;
  if (dependents !== null) return refused(`${name} cannot be removed from job ${job.number} because it has ${dependents}.`);
  return changeJob(job.id, `remove ${name} from ${job.number}`, (j) => withoutRooms(j, [roomId]));
}

/** Moves a room on the property plan, and with `letters` the access notes in it. One step of undo. */
export function placeRoom(
  property: Property,
  room: Room,
  placedAt: Plan['placedAt'],
  letters: (property: Property, room: Room, placedAt: Plan['placedAt']) => Property,
): Promise<Outcome> {
  return write(`position of ${room.name}`, nowInstant(), {
    patches: [
      { table: 'rooms', id: room.id, change: (r) => ({ ...r, plan: { ...r.plan, placedAt } }) },
      { table: 'properties', id: property.id, change: (p) => (p.access.some((n) => n.point !== null) ? letters(p, room, placedAt) : p) },
    ],
  });
}

/** Copies materials, flooring, and the layers, tests and answers that a room lacks from another room of the job; one step of undo. */
export async function sameAs(jobId: string, toId: string, fromId: string): Promise<Outcome> {
  const read = await attempt(async () => done(await book().rowsOf('rooms').bulkGet([toId, fromId])));
  if (!read.ok) return read;
  const [to, from] = read.value;
  if (to === undefined || from === undefined) return refused('Room not found. It may have been deleted.');
  const change = (job: Job): Job => {
    const source = job.rooms.find((room) => room.roomId === fromId);
    if (source === undefined) throw new Refusal(`${from.name} was removed from the job, so nothing was copied.`);
    const of = { room: from, jobRoom: source };
    return {
      ...job,
      rooms: job.rooms.map((jobRoom) => (jobRoom.roomId === toId ? inheritedJobRoom({ room: to, jobRoom }, of) : jobRoom)),
    };
  };
  const not = sharesFloor(to, from) || from.layers.length === 0 ? '' : ', without its layers, primer, and moisture mitigation';
  return write(`${to.name} same as ${from.name}${not}`, nowInstant(), {
    patches: [
      { table: 'rooms', id: toId, change: (room) => inheritedRoom(room, from, newId) },
      { table: 'jobs', id: jobId, change },
    ],
  });
}
