/** Dates as they are stated to customers: hours within working hours while a floor sets, whole days after. */
import type { Business } from '../book/business.ts';
import { businessCountry } from '../book/country-rules.ts';
import type { MilestoneKind } from '../book/material.ts';
import { addDaysToDay } from '../measure/day.ts';
import { clockOfInstant, dayOfInstant, instantAt } from '../measure/moment.ts';
import { type WorkWeek, workdayFrom } from '../measure/workdays.ts';

/** The time zone of a property and the working hours of the business. */
export type WorkCalendar = {
  /** IANA time zone of the property. */
  readonly zone: string;
  /** `07:30`. */
  readonly from: string;
  readonly to: string;
  readonly week: WorkWeek;
};

/** The place of a business's dates at one property. */
export function workCalendar(business: Pick<Business, 'hours' | 'address' | 'locale'>, zone: string): WorkCalendar {
  const { from, to, days } = business.hours;
  return { zone, from, to, week: { days, country: businessCountry(business) } };
}

/** Stated with an hour, because it comes within about a day of the pour. All others are stated as days. */
const BY_HOUR: ReadonlySet<MilestoneKind> = new Set(['walk-on', 'cart', 'next-lift']);

/** Whether a date is stated as a day, without an hour. */
export const isStatedAsDay = (kind: MilestoneKind): boolean => !BY_HOUR.has(kind);

/** A wall-clock time of a day as an instant; an hour later where the clocks skip it. */
function instantOn(day: string, clock: string, zone: string): string {
  const read = instantAt(day, clock, zone);
  if (read.ok) return read.value.instant;
  const later = instantAt(day, `${String(Number(clock.slice(0, 2)) + 1).padStart(2, '0')}${clock.slice(2)}`, zone);
  return later.ok ? later.value.instant : `${day}T${clock}:00.000Z`;
}

/** When the next lift can be poured over one that is ready for it: the stated hour, on a working day. */
export function nextLiftTime(readyAt: string, place: WorkCalendar): string {
  const stated = statedFor('next-lift', readyAt, place);
  const day = dayOfInstant(stated, place.zone);
  const workday = workdayFrom(day, place.week);
  return workday === day ? stated : startOfWork(workday, place);
}

/** A day's start and end of work; null on a day that is not worked. */
function workHours(day: string, place: WorkCalendar): { readonly fromAt: string; readonly toAt: string } | null {
  if (workdayFrom(day, place.week) !== day) return null;
  return { fromAt: startOfWork(day, place), toAt: instantOn(day, place.to, place.zone) };
}

/** More days than this of one piece of work are not counted: the hours of a week may be none. */
const MOST_DAYS = 366;

/** When some hours of work are done that can start at an instant: within working hours, on working days. */
export function workedUntil(startAt: string, hours: number, place: WorkCalendar): string {
  let leftMs = hours * 3_600_000;
  let atMs = Date.parse(startAt);
  for (let i = 0, day = dayOfInstant(startAt, place.zone); i < MOST_DAYS && leftMs > 0; i++, day = addDaysToDay(day, 1)) {
    const work = workHours(day, place);
    if (work === null) continue;
    const fromMs = Math.max(atMs, Date.parse(work.fromAt));
    const doneMs = Math.max(0, Math.min(leftMs, Date.parse(work.toAt) - fromMs));
    if (doneMs === 0) continue;
    atMs = fromMs + doneMs;
    leftMs -= doneMs;
  }
  return new Date(atMs + leftMs).toISOString();
}

/** The same time of day as at an instant, on the first working day after another one. */
export function nextWorkdayAt(after: string, clockOf: string, { zone, week }: WorkCalendar): string {
  const day = workdayFrom(addDaysToDay(dayOfInstant(after, zone), 1), week);
  return instantOn(day, clockOfInstant(clockOf, zone), zone);
}

/** The instant of a stated day: when work begins on it. */
export function startOfWork(day: string, place: WorkCalendar): string {
  return instantOn(day, place.from, place.zone);
}

/** The first day on which what is reached at an instant is there when work begins. */
function dayReady(instant: string, place: WorkCalendar): string {
  const day = dayOfInstant(instant, place.zone);
  return Date.parse(instant) <= Date.parse(startOfWork(day, place)) ? day : addDaysToDay(day, 1);
}

/**
 * The first day to start a moisture test on a new floor: a working day after the day of the pour, once the floor is open to foot traffic.
 * Common practice, no source.
 * @param walkOnAt when it is open to foot traffic; null where that is not known
 */
export function firstTestDay(placedAt: string, walkOnAt: string | null, place: WorkCalendar): string {
  const next = addDaysToDay(dayOfInstant(placedAt, place.zone), 1);
  const open = walkOnAt === null ? next : dayReady(walkOnAt, place);
  return workdayFrom(open > next ? open : next, place.week);
}

/** The next whole hour: an expected instant is no more precise. */
export const wholeHour = (instant: string): string => new Date(Math.ceil(Date.parse(instant) / 3_600_000) * 3_600_000).toISOString();

/**
 * The instant to state for a milestone: the expected one rounded up, so that the stated date is kept. An hour is a whole one within
 * working hours; a day is the first on which the floor is ready when work begins. Flooring waits for a working day, because its
 * test is read on one.
 * @param instant the instant expected
 */
export function statedFor(kind: MilestoneKind, instant: string, place: WorkCalendar): string {
  const { zone, from, to, week } = place;
  if (!isStatedAsDay(kind)) {
    const hour = wholeHour(instant);
    const [day, clock] = [dayOfInstant(hour, zone), clockOfInstant(hour, zone)];
    if (clock < from) return instantOn(day, from, zone);
    return clock > to ? instantOn(addDaysToDay(day, 1), from, zone) : hour;
  }
  const ready = dayReady(instant, place);
  return startOfWork(kind === 'cover' ? workdayFrom(ready, week) : ready, place);
}
