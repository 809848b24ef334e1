/** Dates that a new document states for the first time. */
import type { Promised } from '../book/cure-record.ts';
import { standingPromises } from '../cure/promise-verdict.ts';
import type { CuredRoom } from '../standing/job-cures.ts';
import { isDatedCover } from '../standing/room-cure.ts';

export type StatedDate = Pick<Promised, 'roomId' | 'milestone' | 'flooring' | 'promisedFor'>;

const STATED_KINDS: ReadonlySet<string> = new Set(['walk-on', 'furniture']);

/**
 * Foot traffic, furniture and the flooring of each room, where still ahead and not promised for the same moment already. A floor that is
 * cleared owes no date for its flooring, and one with an open repair or check has none.
 */
export function newlyStatedDates(rooms: readonly CuredRoom[], promises: readonly Promised[], now: string): StatedDate[] {
  return rooms.flatMap((cured) => {
    const { room, schedule } = cured;
    const cover = isDatedCover(cured, now) ? schedule.cover : null;
    const standing = standingPromises(promises.filter((p) => p.roomId === room.id));
    const dated = [...schedule.milestones.filter((m) => STATED_KINDS.has(m.kind)), ...(cover === null ? [] : [cover])];
    return dated.flatMap((m): StatedDate[] => {
      if (m.statedAt === null || m.statedAt <= now) return [];
      const promisedFor = m.statedAt;
      const before = standing.find((p) => p.milestone === m.kind && (p.flooring ?? m.flooring) === m.flooring);
      const isSame = before !== undefined && Date.parse(before.promisedFor) === Date.parse(promisedFor);
      return isSame ? [] : [{ roomId: room.id, milestone: m.kind, flooring: m.flooring, promisedFor }];
    });
  });
}
