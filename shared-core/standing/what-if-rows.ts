/** The current job and the what-if: bags, cost, price and finish, each with its difference. */
import { formatDuration } from '../measure/duration.ts';
import { formatDepth } from '../measure/length-format.ts';
import { formatInstant } from '../measure/moment.ts';
import { formatNumber } from '../measure/number.ts';
import { formatMoney } from '../price/money.ts';
import { roomsOf } from './job-bundle.ts';
import type { JobReading } from './read-job.ts';
import { roomCure } from './room-cure.ts';
import { minutesLater } from './time-words.ts';

/** What is compared. */
export type WhatIfKey = 'depth' | 'gaps' | 'bags' | 'lifts' | 'cost' | 'net' | 'total' | 'pour' | 'walk-on' | 'cover' | 'days';

/** One figure of both. */
export type WhatIfRow = {
  readonly key: WhatIfKey;
  readonly name: string;
  /** Of this room, or of all rooms of the job together. */
  readonly of: 'room' | 'job';
  /** Current and what-if value; a dash where it cannot be calculated. */
  readonly asPlanned: string;
  readonly asTried: string;
  /** The signed difference; empty where there is none. */
  readonly change: string;
};

/** When a room is done. Minutes; counted from the start of the pour, and instants where a day is set. */
type Finish = {
  readonly pourMin: number | null;
  readonly pourAt: string | null;
  readonly walkOnMin: number | null;
  readonly coverMin: number | null;
};

const NONE = '–';
const DAY_MIN = 1440;

/** Its finish by the pour date, or as if poured now, to compare durations. */
function finishOf(reading: JobReading, roomId: string, now: string): Finish {
  const roomReading = reading.rooms.find((r) => r.room.id === roomId);
  const facts = roomsOf(reading.bundle).find((r) => r.room.id === roomId);
  const taken = roomReading?.estimate?.takeoff ?? null;
  const pourMin = taken === null || taken.bags === null ? null : taken.pourMinutes;
  const pourAt = roomReading?.jobRoom.pourAt ?? null;
  const from = pourAt ?? now;
  const cure =
    facts === undefined
      ? null
      : // A copy: the cures of a bundle are computed once, and this one is of a pour that is only assumed.
        roomCure({ ...reading.bundle }, { ...facts, jobRoom: { ...facts.jobRoom, pourAt: from } }, reading.whole.business);
  const since = (instant: string | null | undefined): number | null =>
    instant == null || pourMin === null ? null : (Date.parse(instant) - Date.parse(from)) / 60_000;
  return {
    pourMin,
    pourAt,
    walkOnMin: since(cure?.schedule.milestones.find((m) => m.kind === 'walk-on')?.likelyAt),
    coverMin: since(cure?.schedule.cover?.likelyAt),
  };
}

/**
 * The rows.
 * @param planned the current job
 * @param tried the what-if
 * @param roomId whose depth, bags and finish are shown; money is of all rooms
 * @param now instant; stands for the pour's beginning while no day is set
 */
export function whatIfRows(planned: JobReading, tried: JobReading, roomId: string, now: string): WhatIfRow[] {
  const { business, property } = planned.whole;
  const { units, locale, currency } = business;
  const readings = [planned, tried] as const;
  const [takeoffBefore, takeoffAfter] = readings.map(
    (reading) => reading.rooms.find((r) => r.room.id === roomId)?.estimate?.takeoff ?? null,
  );
  const [flatWas, flatIs] = readings.map((reading) => reading.rooms.find((r) => r.room.id === roomId)?.estimate?.flatness ?? null);
  const [from, to] = [finishOf(planned, roomId, now), finishOf(tried, roomId, now)];
  const row = (
    { key, name, of }: Pick<WhatIfRow, 'key' | 'name' | 'of'>,
    values: readonly [number | null | undefined, number | null | undefined],
    format: (value: number) => string,
    change: ((by: number) => string) | null,
  ): WhatIfRow => {
    const [a, b] = values;
    const asPlanned = a == null ? NONE : format(a);
    const asTried = b == null ? NONE : format(b);
    const difference = a == null || b == null || asPlanned === asTried ? 0 : b - a;
    return {
      key,
      name,
      of,
      asPlanned,
      asTried,
      change: difference === 0 || change === null ? '' : `${difference > 0 ? '+' : '−'}${change(Math.abs(difference))}`,
    };
  };
  const count = (n: number): string => formatNumber(n, { most: 0 }, locale);
  const money = (minor: number): string => formatMoney(minor, currency, locale, 'bare');
  const depth = (m: number): string => formatDepth(m, units, locale);
  const lasts = (min: number): string => formatDuration(Math.round(min) * 60, locale);
  const price = (amount: 'costMinor' | 'netMinor' | 'totalMinor') =>
    [planned.estimate.base.price[amount], tried.estimate.base.price[amount]] as const;
  const moment = (finish: Finish, min: number | null): string | null =>
    finish.pourAt === null || min === null ? null : formatInstant(minutesLater(finish.pourAt, min), property.timeZone, 'short', locale);
  const days = (min: number): string => `${formatNumber(min / DAY_MIN, { most: 1 }, locale)} d`;
  const long = (min: number): string => (min < 2 * DAY_MIN ? lasts(Math.round(min / 15) * 15) : days(min));
  // A row of instants where a pour date is set, otherwise of durations after the start of the pour.
  const finish = (key: WhatIfKey, name: string, after: string, minutesOf: (f: Finish) => number | null): WhatIfRow => {
    const plain = row({ key, name: from.pourAt === null ? after : name, of: 'room' }, [minutesOf(from), minutesOf(to)], long, long);
    const [a, b] = [moment(from, minutesOf(from)), moment(to, minutesOf(to))];
    return a === null || b === null ? plain : { ...plain, asPlanned: a, asTried: b, change: a === b ? '' : plain.change };
  };
  return [
    row(
      { key: 'depth', name: 'Average depth', of: 'room' },
      [takeoffBefore?.room.depths?.meanM, takeoffAfter?.room.depths?.meanM],
      depth,
      depth,
    ),
    row({ key: 'gaps', name: 'Expected gaps', of: 'room' }, [flatWas?.expectedM, flatIs?.expectedM], depth, depth),
    row({ key: 'bags', name: 'Bags', of: 'room' }, [takeoffBefore?.bags?.quotedBags, takeoffAfter?.bags?.quotedBags], count, count),
    row({ key: 'lifts', name: 'Lifts', of: 'room' }, [takeoffBefore?.lifts?.count, takeoffAfter?.lifts?.count], count, count),
    row({ key: 'pour', name: 'Pour duration', of: 'room' }, [from.pourMin, to.pourMin], lasts, lasts),
    finish('walk-on', 'Open to foot traffic', 'Open to foot traffic after', (f) => f.walkOnMin),
    finish('cover', 'Ready for flooring', 'Ready for flooring after', (f) => f.coverMin),
    row({ key: 'days', name: 'Days on site', of: 'job' }, [planned.estimate.base.days, tried.estimate.base.days], count, count),
    row({ key: 'cost', name: 'Cost', of: 'job' }, price('costMinor'), money, money),
    row({ key: 'net', name: 'Subtotal', of: 'job' }, price('netMinor'), money, money),
    row({ key: 'total', name: 'Total', of: 'job' }, price('totalMinor'), money, money),
  ];
}
