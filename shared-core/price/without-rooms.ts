/** Rooms that leave a job, with what belongs to them alone. */
import type { Job } from '../book/job.ts';
import { addedKey } from './line.ts';

/** The job without some of its rooms: their added lines, changed figures and options leave with them. */
export function withoutRooms(job: Job, roomIds: readonly string[]): Job {
  const { estimate } = job;
  const isOut = ({ roomId }: { readonly roomId: string | null }): boolean => roomId !== null && roomIds.includes(roomId);
  const outKeys = new Set(estimate.added.filter(isOut).map(({ id }) => addedKey(id)));
  return {
    ...job,
    rooms: job.rooms.filter((room) => !isOut(room)),
    estimate: {
      ...estimate,
      added: estimate.added.filter((line) => !isOut(line)),
      overrides: estimate.overrides.filter(
        ({ lineKey }) => !outKeys.has(lineKey) && !lineKey.split('/').some((part) => roomIds.includes(part)),
      ),
      options: estimate.options.map((option) => ({ ...option, rooms: option.rooms.filter((room) => !isOut(room)) })),
    },
  };
}
