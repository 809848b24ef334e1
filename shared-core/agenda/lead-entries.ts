/** Next steps of leads that have a day. */
import type { Customer } from '../book/customer.ts';
import type { Lead, LeadNext, LeadStep } from '../book/lead.ts';
import type { Property } from '../book/property.ts';
import { formatClockTime } from '../measure/clock-time.ts';
import { clockOfInstant, dayOfInstant, instantAt, startOfDay } from '../measure/moment.ts';
import { DEFAULT_LOCALE } from '../measure/number.ts';
import type { AgendaBusiness } from '../standing/job-bundle.ts';
import { dayNumberOf } from '../standing/local-days.ts';
import { customerWords } from '../standing/names.ts';
import { minutesLater } from '../standing/time-words.ts';
import type { AgendaEntry } from './agenda-entry.ts';
import { dayEnd, titleOf } from './entry-maker.ts';

/** Leads with the customers and properties they are about. */
export type LeadRows = {
  readonly leads: readonly Lead[];
  readonly customers: readonly Customer[];
  readonly properties: readonly Property[];
};

/** Time on site of a first visit. Typical. */
const VISIT_MINUTES = 60;

const WORDS: Readonly<Record<LeadStep, { readonly verb: string; readonly event: string }>> = {
  'call-back': { verb: 'Call back', event: 'call back' },
  visit: { verb: 'Visit', event: 'visit' },
  'quote-by': { verb: 'Quote', event: 'quote' },
};

/** A lead with the records and words that its lines share. */
export type NamedLead = {
  readonly lead: Lead;
  readonly customer: Customer;
  readonly property: Property | null;
  /** Of the property, or of the business where none is known. */
  readonly zone: string;
  /** `Dana Wicklow, 4 Tern Road`. */
  readonly person: string;
  /** `Call back`. */
  readonly verb: string;
};

/** Whether the day of a next step is over, or its time has come. */
function hasCome({ day, clock }: LeadNext, now: string, zone: string): boolean {
  const today = dayOfInstant(now, zone);
  return day < today || (day === today && clock !== null && clock < clockOfInstant(now, zone));
}

/** What is left of a next step once the quote is issued or decided, or the lead is closed: a visit that is still ahead. */
export function visitAhead(next: LeadNext | null, now: string, zone: string): LeadNext | null {
  return next?.step === 'visit' && !hasCome(next, now, zone) ? next : null;
}

/** Whether a lead is listed: it has a next step, or is open without a job. */
export const isListed = ({ deletedAt, state, jobId, next }: Lead): boolean =>
  deletedAt === null && (next !== null || (state === 'open' && jobId === null));

/** Listed leads with their customer. Archived customers are left out. */
export function openLeads({ leads, customers, properties }: LeadRows, timeZone: string): readonly NamedLead[] {
  return leads.flatMap((lead): NamedLead[] => {
    const customer = customers.find((c) => c.id === lead.customerId && c.deletedAt === null);
    if (customer === undefined || !isListed(lead)) return [];
    const property = properties.find((p) => p.id === lead.propertyId) ?? null;
    const person = [customerWords(customer.name), property?.address.line ?? ''].filter((w) => w !== '').join(', ');
    const verb = lead.next === null ? 'Plan' : WORDS[lead.next.step].verb;
    return [{ lead, customer, property, zone: property?.timeZone ?? timeZone, person, verb }];
  });
}

/** The entry of a lead's next step; null while none is set. */
export function leadEntry({ lead, customer, property, zone, person, verb }: NamedLead, locale: string): AgendaEntry | null {
  const { next } = lead;
  if (next === null) return null;
  const at = next.clock === null ? null : instantAt(next.day, next.clock, zone);
  const instant = at?.ok ? at.value.instant : startOfDay(next.day, zone);
  const allDay = at?.ok !== true;
  const onSite = next.step === 'visit' && !allDay;
  const { event } = WORDS[next.step];
  // A calendar shows what is not a visit for the whole day.
  const hour = allDay || onSite || next.clock === null ? '' : ` ${formatClockTime(next.clock, locale)}`;
  const kind = onSite ? 'lead-visit' : 'lead-step';
  const until = onSite ? minutesLater(instant, VISIT_MINUTES) : null;
  return {
    key: `${lead.id}:${kind}:${next.step}`,
    kind,
    jobId: lead.id,
    customerId: customer.id,
    roomIds: [],
    title: titleOf([], customer.name, `${event}${hour}`),
    verb,
    rest: `${person}.`,
    note: null,
    isUnready: false,
    instant,
    until,
    allDay,
    day: dayNumberOf(next.day),
    timeZone: zone,
    dueAt: dayEnd(next.day, zone),
    // Of a lead that is decided, a visit that was ahead then: when its day is over it asks for nothing, since nobody marks it done.
    settledAt: lead.state === 'open' ? null : dayEnd(next.day, zone),
    toDo: true,
    onSite,
    arriveAt: instant,
    isUnderWay: false,
    promised: false,
    agreed: true,
    place: [property?.address.line ?? '', property?.address.city ?? ''].filter((w) => w !== '').join(', '),
    opens: { jobId: lead.id, roomId: null, stage: 'assess' },
  };
}

/** An entry for each lead with a next step. */
export function leadEntries(rows: LeadRows, { timeZone, locale }: Pick<AgendaBusiness, 'timeZone' | 'locale'>): readonly AgendaEntry[] {
  return openLeads(rows, timeZone).flatMap((named) => leadEntry(named, locale === '' ? DEFAULT_LOCALE : locale) ?? []);
}
