/** One row per room: its work and drying as strips between day numbers. */
import type { EntryMaker } from './entry-maker.ts';
import { hasFailedTest } from '../cure/cure-schedule.ts';
import type { JobRoomFacts } from '../standing/job-bundle.ts';
import { type DayNumber, dayNumberAt, dayNumberOf } from '../standing/local-days.ts';
import { shortName } from '../standing/names.ts';
import { coverWait } from '../standing/repair-words.ts';
import { nextPourOf } from '../standing/next-pours.ts';
import type { RoomCure } from '../standing/room-cure.ts';
import { roomPour } from '../standing/room-pour.ts';
import { milestoneName } from '../standing/cure-words.ts';

/** `ready` is the range from earliest to latest; `held` ends on the day the hold may be cleared. */
export type LaneKind = 'prep' | 'pour' | 'drying' | 'ready' | 'held';

export type RibbonStrip = {
  readonly kind: LaneKind;
  readonly fromDay: DayNumber;
  /** Infinity where no end is known. */
  readonly toDay: DayNumber;
  /** Not agreed yet: drawn dashed. */
  readonly agreed: boolean;
  /** Of a planned pour and what follows from it: from then on it has not happened. Null for what is placed. */
  readonly expiresAt: string | null;
};

export type RibbonRow = {
  readonly jobId: string;
  readonly roomId: string;
  readonly customerName: string;
  readonly address: string;
  readonly roomName: string;
  readonly lanes: readonly RibbonStrip[];
  /** Whether any of its floor is placed; false while its dates follow from a planned pour. */
  readonly poured: boolean;
  /** When its planned pour is over; null where none is planned, or it is under way. */
  readonly planEndsAt: string | null;
  /** Days of foot traffic and flooring, for the label; null where unknown. */
  readonly walkOnAt: string | null;
  readonly coverAt: string | null;
  readonly coverName: string | null;
  /** What a placed floor still waits for before its flooring; null for nothing. */
  readonly coverWait: string | null;
  /** Whether its flooring is down. */
  readonly isLaid: boolean;
  readonly timeZone: string;
};

/** Minimum width of a strip, in days, so that it can be seen. */
const LEAST_LANE_DAYS = 0.25;

/** Every pour of a room, the earliest first: those on record, and the next one that is planned or running. */
function pourLanes(make: EntryMaker, facts: JobRoomFacts, planEndsAt: string | null): readonly RibbonStrip[] {
  const { floor } = roomPour(make.bundle, facts);
  const done = floor.pours.map((p) => ({
    from: p.startedAt ?? p.finishedAt ?? p.changedAt,
    until: p.finishedAt ?? p.changedAt,
    expiresAt: null,
  }));
  const next = nextPourOf(make.bundle, facts, make.business);
  const planned = next === null ? [] : [{ from: next.startAt, until: next.until, expiresAt: planEndsAt }];
  return [...done, ...planned].map(({ from, until, expiresAt }) => {
    const fromDay = dayNumberAt(from, make.zone);
    const toDay = Math.max(dayNumberAt(until, make.zone), fromDay + LEAST_LANE_DAYS);
    return { kind: 'pour', fromDay, toDay, agreed: done.length > 0 || make.quote?.state === 'accepted', expiresAt };
  });
}

type Cured = { readonly cure: RoomCure | undefined; readonly planEndsAt: string | null };

function lanes(make: EntryMaker, facts: JobRoomFacts, { cure, planEndsAt }: Cured): readonly RibbonStrip[] {
  const agreed = make.quote?.state === 'accepted' || (cure?.poured ?? false);
  const strips: RibbonStrip[] = [];
  for (const hold of facts.summary?.holds ?? []) {
    strips.push({
      kind: 'held',
      fromDay: -Infinity,
      toDay: hold.liftsOn === null ? Infinity : dayNumberOf(hold.liftsOn),
      agreed: true,
      expiresAt: null,
    });
  }
  const pours = pourLanes(make, facts, planEndsAt);
  const last = pours.at(-1);
  const prepAt = make.bundle.job.prepVisitAt;
  if (prepAt !== null && facts.jobRoom.handedOverAt === null) {
    const fromDay = Math.floor(dayNumberAt(prepAt, make.zone));
    const toDay = pours.length === 0 ? fromDay + 1 : (pours.find((pour) => pour.fromDay > fromDay)?.fromDay ?? fromDay);
    if (toDay > fromDay) strips.push({ kind: 'prep', fromDay, toDay, agreed, expiresAt: null });
  }
  strips.push(...pours);
  const cover = cure?.schedule.cover ?? cure?.schedule.milestones.find((m) => m.kind === 'full') ?? null;
  if (last !== undefined && cover !== null) {
    const failed = cure !== undefined && hasFailedTest(cure.schedule);
    // Paused curing has no date, nor has a floor that failed its test, so the strip continues past the last day.
    const day = (instant: string | null) => (instant === null ? Infinity : dayNumberAt(instant, make.zone));
    const { toDay, expiresAt } = last;
    strips.push({ kind: 'drying', fromDay: toDay, toDay: Math.max(day(failed ? null : cover.likelyAt), toDay), agreed, expiresAt });
    if (!failed && cure?.schedule.clearance?.passed !== true && (cure?.schedule.laidOn ?? null) === null) {
      strips.push({ kind: 'ready', fromDay: day(cover.earliestAt), toDay: day(cover.latestAt), agreed, expiresAt });
    }
  }
  return strips;
}

/** The rows of one job. Day numbers are absolute; `ribbonView` cuts them to the weeks shown. */
export function ribbonRows(
  make: EntryMaker,
  cures: ReadonlyMap<string, RoomCure>,
  planEnds: ReadonlyMap<string, string>,
): readonly RibbonRow[] {
  return make.rooms.map((facts) => {
    const cure = cures.get(facts.room.id);
    const planEndsAt = planEnds.get(facts.room.id) ?? null;
    return {
      jobId: make.bundle.job.id,
      roomId: facts.room.id,
      customerName: shortName(make.bundle.customer.name),
      address: make.bundle.property.address.line,
      roomName: facts.room.name,
      lanes: lanes(make, facts, { cure, planEndsAt }),
      poured: cure?.poured ?? false,
      planEndsAt,
      walkOnAt: cure?.schedule.milestones.find((m) => m.kind === 'walk-on')?.statedAt ?? null,
      coverAt: cure?.schedule.cover?.statedAt ?? null,
      coverName: cure?.schedule.cover ? milestoneName(cure.schedule.cover) : null,
      coverWait: cure?.whole === true ? coverWait(cure) : null,
      isLaid: (cure?.schedule.laidOn ?? null) !== null,
      timeZone: make.zone,
    };
  });
}
