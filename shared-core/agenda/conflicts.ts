/** Conflicts between planned entries, as sentences. */
import { clockOfInstant, dayOfInstant, formatInstant, formatInstantTime } from '../measure/moment.ts';
import { DEFAULT_LOCALE } from '../measure/number.ts';
import type { Agenda } from './agenda.ts';
import type { AgendaEntry } from './agenda-entry.ts';
import { roomsOf } from '../standing/job-bundle.ts';
import { businessCountry } from '../book/country-rules.ts';
import { dayOff } from '../measure/workdays.ts';
import { dayOfNumber } from '../standing/local-days.ts';
import { capital } from '../measure/first-letter.ts';
import { customerWords, theRooms } from '../standing/names.ts';

export type Conflict = {
  readonly kind: 'two-at-once' | 'primer' | 'outside-hours';
  /** The entries in conflict, the earlier first. */
  readonly keys: readonly string[];
  readonly instant: string;
  readonly sentence: string;
};

const ms = (instant: string): number => Date.parse(instant);
const endOf = (e: AgendaEntry): number => ms(e.until ?? e.instant);

/** Noun for an entry within a sentence: `the pour at 8 Cooper’s Wharf`. */
const NOUN: Readonly<Partial<Record<AgendaEntry['kind'], string>>> = {
  pour: 'the pour',
  'prep-visit': 'the prep visit',
  handover: 'the handover',
  visit: 'the visit',
  'lead-visit': 'the visit',
};
const noun = (e: AgendaEntry): string => NOUN[e.kind] ?? 'the work';

/** Where an entry is: `at 8 Cooper’s Wharf, Tarrow Falls`; without an address, its customer: `for the Lindqvists`. */
function placeWords({ jobs, leads }: Agenda, e: AgendaEntry): string {
  if (e.place !== '') return `at ${e.place}`;
  const customer =
    jobs.find(({ bundle }) => bundle.job.id === e.jobId)?.bundle.customer ?? leads?.rows.customers.find(({ id }) => id === e.customerId);
  return `for ${customerWords(customer?.name ?? '')}`;
}

function overlaps(whole: Agenda, onSite: readonly AgendaEntry[], locale: string): Conflict[] {
  const conflicts: Conflict[] = [];
  const called = (e: AgendaEntry): string => `${noun(e)} ${placeWords(whole, e)}`;
  const inRooms = (e: AgendaEntry): string => {
    const rooms = whole.jobs.flatMap(({ bundle }) => (bundle.job.id === e.jobId ? roomsOf(bundle) : []));
    return `${noun(e)} in ${theRooms(rooms.flatMap(({ room }) => (e.roomIds.includes(room.id) ? [room.name] : [])))}`;
  };
  let open: AgendaEntry[] = [];
  for (const e of onSite) {
    open = open.filter((o) => endOf(o) > ms(e.arriveAt));
    for (const o of open) {
      // Only prep may overlap with other work of the same job.
      if (o.jobId === e.jobId && (o.kind === 'prep-visit' || e.kind === 'prep-visit')) continue;
      const isSamePlace = o.jobId === e.jobId || (o.place !== '' && o.place === e.place);
      const isAtOnce = endOf(o) > ms(e.instant);
      // Who is there already does not have to arrive.
      if (isSamePlace && !isAtOnce) continue;
      const both = isAtOnce && o.kind === 'pour' && e.kind === 'pour' ? 'Two pours at the same time. ' : '';
      const name = isSamePlace && o.roomIds.length > 0 && e.roomIds.length > 0 ? inRooms : called;
      const when = (instant: string) => formatInstant(instant, e.timeZone, 'weekday', locale);
      const start = isAtOnce ? `${capital(name(e))} starts ${when(e.instant)}.` : `Arrive by ${when(e.arriveAt)} for ${name(e)}.`;
      const sentence = `${both}${start} ${capital(name(o))} ends at ${formatInstantTime(new Date(endOf(o)).toISOString(), e.timeZone, locale)}.`;
      conflicts.push({ kind: 'two-at-once', keys: [o.key, e.key], instant: e.instant, sentence });
    }
    open.push(e);
  }
  return conflicts;
}

function primerConflict(whole: Agenda, window: AgendaEntry, pours: readonly AgendaEntry[], locale: string): Conflict | null {
  const primer = `The primer ${placeWords(whole, window)}`;
  const roomId = window.roomIds[0] ?? '';
  const own = pours.find((p) => p.jobId === window.jobId && p.roomIds.includes(roomId));
  const closes = `${primer} is past its limit ${formatInstant(window.instant, window.timeZone, 'weekday', locale)}`;
  if (own !== undefined) {
    const dryAt = window.fromAt ?? window.instant;
    if (ms(own.instant) >= ms(dryAt) && ms(own.instant) <= ms(window.instant)) return null;
    const when = formatInstant(own.instant, own.timeZone, 'weekday', locale);
    const sentence =
      ms(own.instant) < ms(dryAt)
        ? `${primer} is not dry at the planned pour, ${when}. It is dry at ${formatInstantTime(dryAt, window.timeZone, locale)}.`
        : `${closes}, before the pour, ${when}. Pour sooner, or prime again.`;
    return { kind: 'primer', keys: [window.key, own.key], instant: dryAt, sentence };
  }
  // A pour at another property at the end of the window leaves no time for this one.
  const elsewhere = pours.find((p) => p.jobId !== window.jobId && ms(p.instant) <= ms(window.instant) && endOf(p) >= ms(window.instant));
  if (elsewhere === undefined) return null;
  const sentence = `${closes}, while the crew is ${elsewhere.place === '' ? 'on another job' : `at ${elsewhere.place}`}. No pour is planned for it.`;
  return { kind: 'primer', keys: [window.key, elsewhere.key], instant: window.instant, sentence };
}

function outsideHours(whole: Agenda, e: AgendaEntry, locale: string): Conflict | null {
  const { business } = whole;
  const { from, to, days } = business.hours;
  // The length of a first visit is typical: nobody entered it.
  const endsAt = new Date(e.kind === 'lead-visit' ? ms(e.instant) : endOf(e)).toISOString();
  const [start, end] = [clockOfInstant(e.instant, e.timeZone), clockOfInstant(endsAt, e.timeZone)];
  const subject = capital(`${noun(e)} ${placeWords(whole, e)}`);
  const when = formatInstant(e.instant, e.timeZone, 'weekday', locale);
  const reason = dayOff(dayOfNumber(e.day), { days, country: businessCountry(business) });
  const sentence =
    reason !== null
      ? `${subject} is on a ${reason === 'day off' ? reason : `federal holiday (${reason})`}: ${when}.`
      : start < from || start > to
        ? `${subject} starts ${start < from ? 'before' : 'after'} working hours: ${when}.`
        : dayOfInstant(endsAt, e.timeZone) !== dayOfInstant(e.instant, e.timeZone)
          ? `${subject} does not fit into one day: it ends ${formatInstant(endsAt, e.timeZone, 'weekday', locale)}.${e.kind === 'pour' ? ' Divide the floor, or plan a bigger crew.' : ''}`
          : end > to
            ? `${subject} ends after working hours, at ${formatInstantTime(endsAt, e.timeZone, locale)}.`
            : null;
  return sentence === null ? null : { kind: 'outside-hours', keys: [e.key], instant: e.instant, sentence };
}

/**
 * Conflicts between `from` and `until`, the earliest first. @param from instant; entries that ended before it are left out
 */
export function conflicts(whole: Agenda, from: string, until: string): readonly Conflict[] {
  const { business } = whole;
  const locale = business.locale === '' ? DEFAULT_LOCALE : business.locale;
  const [a, b] = [ms(from), ms(until)];
  const near = whole.entries.filter((e) => !e.allDay && endOf(e) >= a && ms(e.instant) <= b);
  const onSite = near.filter((e) => e.onSite).sort((x, y) => ms(x.arriveAt) - ms(y.arriveAt));
  const pours = near.filter((e) => e.kind === 'pour');
  const primers = near.flatMap((e) => (e.kind === 'primer-window' ? (primerConflict(whole, e, pours, locale) ?? []) : []));
  const late = onSite.flatMap((e) => outsideHours(whole, e, locale) ?? []);
  return [...overlaps(whole, onSite, locale), ...primers, ...late].sort(
    (x, y) => ms(x.instant) - ms(y.instant) || (x.sentence < y.sentence ? -1 : 1),
  );
}
