/** The buyer's right to cancel a home sale within three business days (16 CFR part 429): whether a quote gives it, and until when. */
import type { Frozen, Quote } from '../book/quote.ts';
import { addDaysToDay, weekdayOf } from '../measure/day.ts';
import { dayOfInstant } from '../measure/moment.ts';
import { federalHoliday } from '../measure/workdays.ts';
import { isBusiness } from './names.ts';

/**
 * Whether a quote has the notice of cancellation: in the US, as the company's settings say, and not for what is a business for certain, unless the
 * job says otherwise. The rule covers services for personal, family or household purposes. Source: 16 CFR 429.0(b), from memory.
 */
export function hasCancellationNotice({ business, job, customer }: Pick<Frozen, 'business' | 'job' | 'customer'>): boolean {
  const isUsual = business.contract.cancellationNotice && !isBusiness(customer.name);
  return business.address.country === 'US' && (job.estimate.cancellationNotice ?? isUsual);
}

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

/**
 * Whether a contract was canceled in the days the buyer had, counted where the property is: then all that was paid is to be paid back
 * within ten business days. Source: 16 CFR 429.1(b), (g), from memory. A state may give longer.
 */
export function isCanceledInTime({ frozen, history, timeZone }: Quote): boolean {
  const dayOf = (state: 'accepted' | 'declined'): string | null => {
    const found = history.findLast((line) => line.state === state);
    return found === undefined ? null : dayOfInstant(found.instant, timeZone);
  };
  const [signedOn, canceledOn] = [dayOf('accepted'), dayOf('declined')];
  return signedOn !== null && canceledOn !== null && hasCancellationNotice(frozen) && canceledOn <= cancelBy(signedOn);
}
