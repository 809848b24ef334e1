/** Dates of a job moved with the dates that depend on them: by a working day, or with a pour. */
import { type PourMove, withDates } from '../../shared-core/agenda/move-pour.ts';
import { nowInstant, type Outcome } from './command.ts';
import { visitPatches } from './visit-patches.ts';
import { write } from './write.ts';

/** Stores the dates and the visits that a move changes, and nothing else, as one edit. */
export function saveMove({ jobId, dates, visits }: Pick<PourMove, 'jobId' | 'dates' | 'visits'>, label: string): Promise<Outcome> {
  return write(label, nowInstant(), {
    patches: [
      { table: 'jobs', id: jobId, change: (job) => (Object.keys(dates).length === 0 ? job : withDates(job, dates)) },
      ...visitPatches(visits, ({ instant }) => ({ instant })),
    ],
  });
}
