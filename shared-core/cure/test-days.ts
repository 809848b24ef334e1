/** When the moisture test before the flooring is started and read. */
import { addDaysToDay } from '../measure/day.ts';
import { dayOfInstant } from '../measure/moment.ts';
import { workdayBefore, workdayFrom } from '../measure/workdays.ts';
import { type CureSchedule, failedTestAt } from './cure-schedule.ts';
import { firstTestDay, type WorkCalendar } from './stated-date.ts';

const laterDay = (a: string, b: string): string => (a > b ? a : b);

/** Whether the test before the flooring is to be made now: its soonest day has come, or some of its results are there and too few. */
export function isTestDue({ cover, clearance, laidOn }: Pick<CureSchedule, 'cover' | 'clearance' | 'laidOn'>, now: string): boolean {
  if (cover === null || laidOn !== null || clearance?.passed === true || cover.clearanceTest?.byHours === true) return false;
  return clearance?.finding.kind === 'few' || (cover.earliestAt !== null && cover.earliestAt <= now);
}

/**
 * Days `2026-05-15` by which the test before the flooring is started, so that its result is read on the day it decides: as many days
 * before as it takes, on a working day, and none before the floor can be tested. After a test that failed it is started on a later day
 * than that one, and read no sooner than it takes.
 * @returns null where the flooring has no date or is down, and where no test is required or it is passed
 */
export function testDays(
  { cover, clearance, milestones, placedAt, laidOn }: Pick<CureSchedule, 'cover' | 'clearance' | 'milestones' | 'placedAt' | 'laidOn'>,
  place: WorkCalendar,
): { readonly startOn: string; readonly readOn: string } | null {
  const isTested = clearance?.requirement.byHours !== true && clearance?.passed !== true && laidOn === null;
  if (!isTested || cover === null || cover.statedAt === null) return null;
  const hours = cover.clearanceTest?.methods[0]?.hoursAfterPour ?? 0;
  const testTakes = Math.ceil(hours / 24);
  const decidedOn = dayOfInstant(cover.statedAt, place.zone);
  const planned = workdayBefore(addDaysToDay(decidedOn, -testTakes), place.week);
  const walkOnAt = milestones.find((m) => m.kind === 'walk-on')?.latestAt ?? null;
  const first = firstTestDay(placedAt, walkOnAt, place);
  const failedAt = failedTestAt({ clearance, laidOn });
  const again = failedAt === null ? first : workdayFrom(addDaysToDay(dayOfInstant(failedAt, place.zone), 1), place.week);
  const startOn = laterDay(planned, laterDay(first, again));
  return { startOn, readOn: laterDay(decidedOn, workdayFrom(addDaysToDay(startOn, testTakes), place.week)) };
}
