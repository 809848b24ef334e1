/** The last day a buyer may cancel a sale made at home. */
import { addDaysToDay, weekdayOf } from '../measure/day.ts';
import { federalHoliday } from '../measure/workdays.ts';

/** Business days a buyer has. Source: 16 CFR 429.1. */
const BUSINESS_DAYS = 3;
const SUNDAY = 7;

/**
 * The third business day after the day of the transaction. Every day counts but Sundays and federal holidays; Saturdays count.
 * Source: 16 CFR 429.0(f), 429.1(a). A state may give longer.
 * @param signedOn `2026-05-12`
 */
export function cancelBy(signedOn: string): string {
  let day = signedOn;
  for (let daysLeft = BUSINESS_DAYS; daysLeft > 0; ) {
    day = addDaysToDay(day, 1);
    if (weekdayOf(day) !== SUNDAY && federalHoliday(day) === null) daysLeft -= 1;
  }
  return day;
}
