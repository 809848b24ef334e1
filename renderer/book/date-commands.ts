/** Dates of a job: set by hand, or moved by a working day with the dates that depend on them. */
import type { MovedDate } from '../../shared-core/agenda/move-date.ts';
import type { Job } from '../../shared-core/book/job.ts';
import { nowInstant, type Outcome } from './command.ts';
import { write } from './write.ts';

/** Stores a moved date and the visits that moved with it as one edit. */
export function saveMovedDate(moved: MovedDate, label: string): Promise<Outcome> {
  const { job, visits } = moved;
  const pourAt = new Map(job.rooms.map((r) => [r.roomId, r.pourAt]));
  const change = (stored: Job): Job => ({
    ...stored,
    quotePromisedOn: job.quotePromisedOn,
    prepVisitAt: job.prepVisitAt,
    handoverAt: job.handoverAt,
    rooms: stored.rooms.map((r) => ({ ...r, pourAt: pourAt.get(r.roomId) ?? r.pourAt })),
  });
  return write(`moved ${label}`, nowInstant(), {
    patches: [
      { table: 'jobs', id: job.id, change },
      ...visits.map(({ id, instant }) => ({
        table: 'visits' as const,
        id,
        change: <V extends { readonly instant: string; readonly sequence: number }>(v: V): V => ({
          ...v,
          instant,
          sequence: v.sequence + 1,
        }),
      })),
    ],
  });
}
