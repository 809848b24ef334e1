/** The way on for what is odd in the book: asked for one at a time, undone like any edit. */
import type { Oddity } from '../../shared-core/book/snapshot-check.ts';
import { done, type Outcome } from './outcome.ts';
import { write } from './write.ts';

/** The word of the button; null where the way on is elsewhere: another copy, a field of its sheet. */
export function mendWord(oddity: Oddity): string | null {
  switch (oddity.kind) {
    case 'unreadable':
      return oddity.table === 'business' ? null : 'Take it out of the book';
    case 'orphan':
      return 'Take it out of the book';
    case 'room-gone':
      return 'Leave the room out of the job';
    case 'counter':
      return 'Go on after the highest';
    case 'frozen':
    case 'number':
    case 'no-picture':
      return null;
  }
}

/** Mends one. */
export async function mendOddity({ kind, table, id, lacks, least }: Oddity, now: string): Promise<Outcome> {
  switch (kind) {
    case 'unreadable':
    case 'orphan':
      return write('taking out a record that was odd', now, { removes: [{ table, id }] });
    case 'room-gone':
      return write('leaving out a room that is gone', now, {
        patches: [{ table: 'jobs', id, change: (job) => ({ ...job, rooms: job.rooms.filter((room) => room.roomId !== lacks?.id) }) }],
      });
    case 'counter':
      return write('the next job’s number', now, {
        patches: [{ table: 'business', id, change: (business) => ({ ...business, nextJobSerial: least ?? business.nextJobSerial }) }],
      });
    case 'frozen':
    case 'number':
    case 'no-picture':
      return done(undefined);
  }
}
