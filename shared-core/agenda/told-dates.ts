/** Which dates a document made now tells a customer that were not told before. */
import type { Promised } from '../book/cure-record.ts';
import { standingPromises } from '../cure/promise-verdict.ts';
import type { CuredRoom } from '../standing/job-cures.ts';

export type ToldDate = Pick<Promised, 'roomId' | 'milestone' | 'flooring' | 'promisedFor'>;

const TOLD_KINDS: ReadonlySet<string> = new Set(['walk-on', 'furniture']);

/** Foot traffic, furniture and the flooring of each room, where still ahead and not promised for the same moment already. */
export function datesTold(rooms: readonly CuredRoom[], promises: readonly Promised[], now: string): ToldDate[] {
  return rooms.flatMap(({ room, schedule }) => {
    const standing = standingPromises(promises.filter((p) => p.roomId === room.id));
    const told = [...schedule.milestones.filter((m) => TOLD_KINDS.has(m.kind)), ...(schedule.cover === null ? [] : [schedule.cover])];
    return told.flatMap((m): ToldDate[] => {
      if (m.toldAt === null || m.toldAt <= now) return [];
      const promisedFor = m.toldAt;
      const before = standing.find((p) => p.milestone === m.kind && (p.flooring ?? m.flooring) === m.flooring);
      const isSame = before !== undefined && Date.parse(before.promisedFor) === Date.parse(promisedFor);
      return isSame ? [] : [{ roomId: room.id, milestone: m.kind, flooring: m.flooring, promisedFor }];
    });
  });
}
