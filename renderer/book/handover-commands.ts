/** Records who received which floors, and when. */
import type { Job } from '../../shared-core/book/job.ts';
import { nowInstant, type Outcome } from './command.ts';
import { write } from './write.ts';

/** Maximum length of a recipient's name. */
const NAME_LENGTH = 200;

/**
 * Records that rooms were handed over. A room not cleared for flooring stays on Today.
 * @param instant when, in UTC
 */
export function handOver(jobId: string, roomIds: readonly string[], instant: string, to: string): Promise<Outcome> {
  const change = (job: Job): Job => ({
    ...job,
    rooms: job.rooms.map((r) => (roomIds.includes(r.roomId) ? { ...r, handedOverAt: instant, handedOverTo: to.slice(0, NAME_LENGTH) } : r)),
  });
  return write(roomIds.length === 1 ? 'hand over' : `hand over ${roomIds.length} rooms`, nowInstant(), {
    patches: [{ table: 'jobs', id: jobId, change }],
  });
}
