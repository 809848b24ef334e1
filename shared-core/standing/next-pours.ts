/** The pours that are planned or under way, and how long each takes: what the calendar, the dates of a floor and the papers count by. */
import { liftPours } from '../pour/fill-shares.ts';
import { openFloor, type RoomFloor } from '../pour/placed-floor.ts';
import { type JobBundle, type JobRoomFacts, roomsOf } from './job-bundle.ts';
import { nextPourAt, roomPour } from './room-pour.ts';
import { type WorkCalendar, workCalendar, workedUntil } from '../cure/stated-date.ts';
import type { Business } from '../book/business.ts';
import type { Pour } from '../book/pour-record.ts';
import { hoursOfClock } from '../measure/clock-time.ts';
import { dayOfInstant } from '../measure/moment.ts';
import { minutesLater } from './time-words.ts';

/** How long a lift of a room takes while no estimate says. Typical. */
const LIFT_MINUTES = 180;

/**
 * When a pour planned for an instant would be over. No crew pours through the night: one longer than a working day is counted in the working
 * hours of several, as it has to be divided. The calendar has it as a conflict. Common practice, no source.
 */
export function pouredUntil(startAt: string, minutes: number, place: WorkCalendar): string {
  const straightOn = minutesLater(startAt, minutes);
  const fits =
    minutes / 60 <= hoursOfClock(place.to) - hoursOfClock(place.from) ||
    dayOfInstant(straightOn, place.zone) === dayOfInstant(startAt, place.zone);
  return fits ? straightOn : workedUntil(startAt, minutes / 60, place);
}

/** The lift a room's next pour is: the same one again while floor of it is open, else one more. */
export function nextLift(floor: Pick<RoomFloor, 'lift'>): { readonly number: number; readonly isRest: boolean } {
  const { lift } = floor;
  if (lift === null) return { number: 1, isRest: false };
  return lift.extent === 'whole' ? { number: lift.lift + 1, isRest: false } : { number: lift.lift, isRest: lift.extent === 'partly' };
}

/** What a pour places of one room: the lift, which pour of that lift it is from 0, and its likely minutes. */
export type RoomStep = { readonly lift: number; readonly nth: number; readonly minutes: number };

/** One pour: the rooms placed in it, in the job's order. */
export type NextPour = {
  readonly startAt: string;
  /** The pour that was started; null while it is planned. */
  readonly running: Pour | null;
  /** When its last room is placed: until then none of them cures whole. */
  readonly until: string;
  readonly rooms: readonly JobRoomFacts[];
};

/** What every pour still to come places of a room, the next one first. */
export function stepsToCome(bundle: JobBundle, facts: JobRoomFacts): readonly RoomStep[] {
  const { room, jobRoom, summary } = facts;
  const { floor, liftsPlanned } = roomPour(bundle, facts);
  const { number, isRest } = nextLift(floor);
  const divided = { plan: room.plan, pourPlan: jobRoom.pourPlan };
  // Without an estimate each lift counts alike.
  const shares = summary?.pourMinutes == null ? [] : summary.fillShares;
  const minutes = summary?.pourMinutes ?? LIFT_MINUTES * liftsPlanned;
  const lifts = Array.from({ length: Math.max(1, liftsPlanned - number + 1) }, (_, i) => number + i);
  return lifts.flatMap((lift) =>
    liftPours(shares, divided, { number: lift, of: liftsPlanned, open: isRest && lift === number ? openFloor(floor) : null }).map(
      (share, nth) => ({ lift, nth, minutes: minutes * share }),
    ),
  );
}

/** The pours of a job that are planned or under way. Rooms planned for the same moment are one pour. */
export function nextPours(
  bundle: JobBundle,
  business: Pick<Business, 'hours' | 'address' | 'locale'>,
  rooms: readonly JobRoomFacts[] = roomsOf(bundle),
): readonly NextPour[] {
  const place = workCalendar(business, bundle.property.timeZone);
  const groups = new Map<string, JobRoomFacts[]>();
  for (const facts of rooms) {
    const { part, last, running } = roomPour(bundle, facts);
    // A rest may be poured on the day of the pour before, whose date is then not its own.
    const plannedAt = nextPourAt(facts.jobRoom, last, bundle.property.timeZone) ?? (last === null ? null : (running?.startedAt ?? null));
    if (plannedAt === null || part === 'whole') continue;
    groups.set(plannedAt, [...(groups.get(plannedAt) ?? []), facts]);
  }
  return [...groups].map(([plannedAt, rooms]) => {
    const started = rooms.flatMap((r) => roomPour(bundle, r).running ?? []);
    const running = started.toSorted((a, b) => (a.startedAt ?? '').localeCompare(b.startedAt ?? ''))[0] ?? null;
    const startAt = running?.startedAt ?? plannedAt;
    const minutes = rooms.reduce((sum, r) => sum + (stepsToCome(bundle, r)[0]?.minutes ?? 0), 0);
    const until = running === null ? pouredUntil(startAt, minutes, place) : minutesLater(startAt, minutes);
    return { startAt, running, until, rooms };
  });
}

/** The next pour of a room; null while none is planned or under way. */
export const nextPourOf = (
  bundle: JobBundle,
  facts: JobRoomFacts,
  business: Pick<Business, 'hours' | 'address' | 'locale'>,
): NextPour | null =>
  nextPours(
    bundle,
    business,
    roomsOf(bundle).map((r) => (r.room.id === facts.room.id ? facts : r)),
  ).find(({ rooms }) => rooms.includes(facts)) ?? null;
