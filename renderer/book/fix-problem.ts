/** Fixes data problems one at a time, when asked. A fix is undone like any edit. */
import type { DataProblem } from '../../shared-core/book/data-check.ts';
import type { Job } from '../../shared-core/book/job.ts';
import { done, type Outcome } from './command.ts';
import { Refusal } from './record-rules.ts';
import { write } from './write.ts';

/** The label of the button; null where the fix is elsewhere: in a backup, or in a field of a screen. */
export function fixWord(oddity: DataProblem): string | null {
  switch (oddity.kind) {
    case 'unreadable':
      return oddity.table === 'business' ? null : 'Delete record';
    case 'orphan':
      return 'Delete record';
    case 'room-gone':
      return 'Remove room from job';
    case 'number':
      return 'Use the next number';
    case 'number-issued':
    case 'frozen':
    case 'no-picture':
      return null;
  }
}

const renumbered = (job: Job | undefined, now: string, number: string): Job => {
  if (job === undefined) throw new Refusal('This job was deleted, so it needs no number.');
  return { ...job, number, changedAt: now };
};

export async function fixProblem({ kind, table, id, lacks }: DataProblem, now: string): Promise<Outcome> {
  switch (kind) {
    case 'unreadable':
    case 'orphan':
      return write('delete damaged record', now, { removes: [{ table, id }] });
    case 'room-gone':
      return write('remove missing room', now, {
        patches: [{ table: 'jobs', id, change: (job) => ({ ...job, rooms: job.rooms.filter((room) => room.roomId !== lacks?.id) }) }],
      });
    case 'number':
      return write('next job number', now, { numbered: { id, job: (number, was) => renumbered(was, now, number) } });
    case 'number-issued':
    case 'frozen':
    case 'no-picture':
      return done(undefined);
  }
}
