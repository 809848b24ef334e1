/** Leads for Today: the next step of each and its day. */
import type { Lead } from '../book/lead.ts';
import { daysBetween } from '../measure/day.ts';
import { formatClockTime } from '../measure/clock-time.ts';
import { dayOfInstant } from '../measure/moment.ts';
import { DEFAULT_LOCALE } from '../measure/number.ts';
import { dayNumberOf } from '../standing/local-days.ts';
import { isLate, isSettled } from './agenda.ts';
import { leadEntry, type LeadRows, openLeads } from './lead-entries.ts';
import { dayFromToday, DAYS_AHEAD } from './today.ts';

export type LeadLine = {
  readonly lead: Lead;
  readonly customerId: string;
  /** `Call back`, set bold. */
  readonly verb: string;
  readonly rest: string;
  /** `tomorrow, 4 pm`; empty while no next step is set. */
  readonly when: string;
  readonly late: boolean;
  /** Late, or within the days that Today lists. */
  readonly due: boolean;
};

export type LeadListInput = LeadRows & {
  /** IANA time zone of the business. */
  readonly timeZone: string;
  readonly locale: string;
  readonly now: string;
};

/**
 * Open leads, the earliest step first, those without a next step last. A lead with a job is listed only while it has a next step.
 * Archived customers are left out.
 */
export function leadList({ timeZone, locale, now, ...rows }: LeadListInput): readonly LeadLine[] {
  const words = locale === '' ? DEFAULT_LOCALE : locale;
  const sortKey = ({ next }: Lead): string => (next === null ? '9' : `${next.day} ${next.clock ?? '99'}`);
  return openLeads(rows, timeZone)
    .toSorted((a, b) => sortKey(a.lead).localeCompare(sortKey(b.lead)) || a.lead.createdAt.localeCompare(b.lead.createdAt))
    .flatMap((named): LeadLine[] => {
      const { lead, customer, zone, person, verb } = named;
      const base = { lead, customerId: customer.id, verb };
      const { next } = lead;
      const entry = leadEntry(named, words);
      if (next === null || entry === null) return [{ ...base, rest: `the next step for ${person}.`, when: '', late: false, due: false }];
      if (isSettled(entry, now)) return [];
      const today = dayOfInstant(now, zone);
      const due = daysBetween(today, next.day) <= DAYS_AHEAD;
      const late = isLate(entry, now);
      const day = dayFromToday(dayNumberOf(next.day), dayNumberOf(today), words);
      const clock = next.clock === null ? '' : `, ${formatClockTime(next.clock, words)}`;
      const when = late && daysBetween(next.day, today) > 0 ? `late, due ${day}` : `${day}${clock}`;
      return [{ ...base, rest: `${person}.`, when, late, due }];
    });
}
