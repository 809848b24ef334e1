import type { Job, JobRoom } from '../../shared-core/book/job.ts';
import type { Room } from '../../shared-core/book/room.ts';
import { book } from './database.ts';
import { nowInstant, type Outcome } from './command.ts';
import { openJobWith } from './record-rules.ts';
import { change, write, updated, type Update } from './write.ts';

export function changeJob(jobId: string, label: string, update: Update<Job>): Promise<Outcome> {
  return change('jobs', jobId, label, nowInstant(), update);
}

export function changeJobRoom(jobId: string, roomId: string, label: string, update: Update<JobRoom>): Promise<Outcome> {
  return changeJob(jobId, label, (job) => ({ ...job, rooms: job.rooms.map((r) => (r.roomId === roomId ? updated(r, update) : r)) }));
}

/** Chooses a room's material or primer. The company's first choice becomes the default for new rooms. */
export function chooseMaterial(
  jobId: string,
  roomId: string,
  of: { readonly usual: 'usualMaterialId' | 'usualPrimerId'; readonly id: string | null },
  update: Update<JobRoom>,
): Promise<Outcome> {
  return write(of.usual === 'usualMaterialId' ? 'material' : 'primer', nowInstant(), {
    patches: [
      {
        table: 'jobs',
        id: jobId,
        change: (job) => ({ ...job, rooms: job.rooms.map((room) => (room.roomId === roomId ? updated(room, update) : room)) }),
      },
      { table: 'business', id: 'business', change: (b) => (b[of.usual] == null && of.id !== null ? { ...b, [of.usual]: of.id } : b) },
    ],
  });
}

export function changeRoom(roomId: string, label: string, update: Update<Room>): Promise<Outcome> {
  return change('rooms', roomId, label, nowInstant(), update);
}

/** The job open again, where it was in this state. */
export const reopened = (job: Job, from: Job['state']): Job => (job.state === from ? { ...job, state: 'open' } : job);

/** Whether no other open job has a room of this one by now. */
export async function mayReopen(jobId: string): Promise<boolean> {
  const job = await book().rowsOf('jobs').get(jobId);
  const roomIds = job?.rooms.map(({ roomId }) => roomId) ?? [];
  return (await openJobWith(roomIds, jobId)) === null;
}

/** Finishes, archives or reopens a job. All its records stay. */
export function putJob(job: Pick<Job, 'id' | 'number'>, state: Job['state']): Promise<Outcome> {
  const word = { open: 'reopen', finished: 'finish', declined: 'decline', 'set-aside': 'archive' }[state];
  return changeJob(job.id, `${word} job ${job.number}`, { state });
}
