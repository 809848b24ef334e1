/** Changes to a job and to its rooms. */
import type { Job, JobRoom } from '../../shared-core/book/job.ts';
import type { Room } from '../../shared-core/book/room.ts';
import { nowInstant } from './moment.ts';
import type { Outcome } from './outcome.ts';
import { change } from './write.ts';

/** Changes a job by a pure function of it. */
export function changeJob(jobId: string, label: string, update: (job: Job) => Job): Promise<Outcome> {
  return change('jobs', jobId, label, nowInstant(), update);
}

/** Changes what the job decided about one of its rooms. */
export function changeJobRoom(jobId: string, roomId: string, label: string, update: (jobRoom: JobRoom) => JobRoom): Promise<Outcome> {
  return changeJob(jobId, label, (job) => ({ ...job, rooms: job.rooms.map((r) => (r.roomId === roomId ? update(r) : r)) }));
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
