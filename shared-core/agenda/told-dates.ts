/** Dates as they are told to a customer: hours while a floor sets, whole days while it dries; and which of them are news. */
import type { Promised } from '../book/cure-record.ts';
import type { DatedMilestone } from '../cure/cure-input.ts';
import { standingPromises } from '../cure/promise-verdict.ts';
import { dayOfInstant, instantAt } from '../measure/moment.ts';
import type { CuredRoom } from '../standing/job-cures.ts';

const HOUR_MS = 3_600_000;

/**
 * The instant a date is promised for. A covering is promised for a day, and the day is kept until its last minute; walking
 * and furniture are promised for a time, rounded up to the whole hour so that it is never told sooner than it is.
 * @param at the instant expected
 */
export function toldFor(milestone: Pick<DatedMilestone, 'kind'>, at: string, zone: string): string {
  if (milestone.kind !== 'cover') return new Date(Math.ceil(Date.parse(at) / HOUR_MS) * HOUR_MS).toISOString();
  return dayKept(dayOfInstant(at, zone), zone);
}

/** The last minute of a day where the property stands. */
export function dayKept(day: string, zone: string): string {
  const last = instantAt(day, '23:59', zone, 'second');
  return last.ok ? last.value.at : `${day}T23:59:00.000Z`;
}

export type ToldDate = Pick<Promised, 'roomId' | 'milestone' | 'flooring' | 'promisedFor'>;

const TOLD_KINDS: ReadonlySet<string> = new Set(['walk-on', 'furniture', 'cover']);

/**
 * What a sheet made now tells that was not told before: walking, furniture and the covering of each room, where they are
 * still ahead and no standing promise says the same.
 */
export function datesTold(rooms: readonly CuredRoom[], promises: readonly Promised[], now: string, zone: string): ToldDate[] {
  return rooms.flatMap(({ room, schedule }) => {
    const standing = standingPromises(promises.filter((p) => p.roomId === room.id));
    const told = [
      ...schedule.milestones.filter((m) => TOLD_KINDS.has(m.kind) && m.kind !== 'cover'),
      ...(schedule.cover === null ? [] : [schedule.cover]),
    ];
    return told.flatMap((m): ToldDate[] => {
      if (m.likelyAt === null || m.likelyAt <= now) return [];
      const promisedFor = toldFor(m, m.likelyAt, zone);
      const before = standing.find((p) => p.milestone === m.kind && (p.flooring ?? m.flooring) === m.flooring);
      const isSame = before !== undefined && Date.parse(before.promisedFor) === Date.parse(promisedFor);
      return isSame ? [] : [{ roomId: room.id, milestone: m.kind, flooring: m.flooring, promisedFor }];
    });
  });
}
