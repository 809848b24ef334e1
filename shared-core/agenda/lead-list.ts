/** Leads for Today: the next step of each and its day. */
import type { Customer } from '../book/customer.ts';
import type { Lead, LeadStep } from '../book/lead.ts';
import type { Property } from '../book/property.ts';
import { daysBetween } from '../measure/day.ts';
import { formatClockTime } from '../measure/clock-time.ts';
import { clockOfInstant, dayOfInstant } from '../measure/moment.ts';
import { DEFAULT_LOCALE } from '../measure/number.ts';
import { customerWords } from '../standing/names.ts';
import { dayNumberOf } from '../standing/local-days.ts';
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

const VERB: Readonly<Record<LeadStep, string>> = { 'call-back': 'Call back', visit: 'Visit', 'quote-by': 'Quote' };

export type LeadListInput = {
  readonly leads: readonly Lead[];
  readonly customers: readonly Customer[];
  readonly properties: readonly Property[];
  /** IANA time zone of the business. */
  readonly timeZone: string;
  readonly locale: string;
  readonly now: string;
};

/**
 * Open leads, the earliest step first, those without a next step last. A lead with a job is listed only while it has a next step.
 * Archived customers are left out.
 */
export function leadList({ leads, customers, properties, timeZone, locale, now }: LeadListInput): readonly LeadLine[] {
  const words = locale === '' ? DEFAULT_LOCALE : locale;
  const open = leads.filter((lead) => lead.deletedAt === null && lead.state === 'open' && (lead.jobId === null || lead.next !== null));
  const sortKey = ({ next }: Lead): string => (next === null ? '9' : `${next.day} ${next.clock ?? '99'}`);
  return open
    .toSorted((a, b) => sortKey(a).localeCompare(sortKey(b)) || a.createdAt.localeCompare(b.createdAt))
    .flatMap((lead): LeadLine[] => {
      const customer = customers.find((c) => c.id === lead.customerId && c.deletedAt === null);
      if (customer === undefined) return [];
      const property = properties.find((p) => p.id === lead.propertyId);
      const zone = property?.timeZone ?? timeZone;
      const address = property === undefined || property.address.line === '' ? '' : `, ${property.address.line}`;
      const person = `${customerWords(customer.name)}${address}`;
      const base = { lead, customerId: customer.id };
      const { next } = lead;
      if (next === null) return [{ ...base, verb: 'Plan', rest: `the next step for ${person}.`, when: '', late: false, due: false }];
      const today = dayOfInstant(now, zone);
      const due = daysBetween(today, next.day) <= DAYS_AHEAD;
      const late = next.day < today || (next.day === today && next.clock !== null && next.clock < clockOfInstant(now, zone));
      const day = dayFromToday(dayNumberOf(next.day), dayNumberOf(today), words);
      const clock = next.clock === null ? '' : `, ${formatClockTime(next.clock, words)}`;
      const when = late && daysBetween(next.day, today) > 0 ? `late, due ${day}` : `${day}${clock}`;
      return [{ ...base, verb: VERB[next.step], rest: `${person}.`, when, late, due }];
    });
}
