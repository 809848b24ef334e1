/** Changes to a job and to its rooms. */
import type { Job, JobRoom } from '../../shared-core/book/job.ts';
import type { Room } from '../../shared-core/book/room.ts';
import { nowInstant } from './moment.ts';
import type { Outcome } from './outcome.ts';
import { change, write } from './write.ts';

/** Changes a job by a pure function of it. */
export function changeJob(jobId: string, label: string, update: (job: Job) => Job): Promise<Outcome> {
  return change('jobs', jobId, label, nowInstant(), update);
}

/** Changes what the job decided about one of its rooms. */
export function changeJobRoom(jobId: string, roomId: string, label: string, update: (jobRoom: JobRoom) => JobRoom): Promise<Outcome> {
  return changeJob(jobId, label, (job) => ({ ...job, rooms: job.rooms.map((r) => (r.roomId === roomId ? update(r) : r)) }));
}

/** Chooses a room's material or primer. The first choice also becomes the usual one, which new rooms start with. */
export function chooseMaterial(
  jobId: string,
  roomId: string,
  of: { readonly usual: 'usualMaterialId' | 'usualPrimerId'; readonly id: string | null },
  how: (jobRoom: JobRoom) => JobRoom,
): Promise<Outcome> {
  return write(of.usual === 'usualMaterialId' ? 'material' : 'primer', nowInstant(), {
    patches: [
      {
        table: 'jobs',
        id: jobId,
        change: (job) => ({ ...job, rooms: job.rooms.map((room) => (room.roomId === roomId ? how(room) : room)) }),
      },
      { table: 'business', id: 'business', change: (b) => (b[of.usual] == null && of.id !== null ? { ...b, [of.usual]: of.id } : b) },
    ],
  });
}

/** Changes a room's own record. */
export function changeRoom(roomId: string, label: string, update: (room: Room) => Room): Promise<Outcome> {
  return change('rooms', roomId, label, nowInstant(), update);
}

/** Puts a job where it belongs: finished, set aside, or open again. All that is on record stays. */
export function putJob(job: Pick<Job, 'id' | 'number'>, state: Job['state']): Promise<Outcome> {
  const word = { open: 'reopened', finished: 'finished', declined: 'declined', 'set-aside': 'archived' }[state];
  return changeJob(job.id, `job ${job.number} ${word}`, (was) => ({ ...was, state }));
}
