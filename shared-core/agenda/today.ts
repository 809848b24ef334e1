/** Today: the lettered tasks, the ribbon of the weeks shown, and the summary sentence. */
import { formatDay } from '../measure/day.ts';
import { dayOfInstant } from '../measure/moment.ts';
import { DEFAULT_LOCALE } from '../measure/number.ts';
import { type Agenda, isLate, isSettled } from './agenda.ts';
import { type AgendaEntry, isBrokenPromise } from './agenda-entry.ts';
import { dayInZones, type DayNumber, dayNumberAt, dayOfNumber, weekdayOfNumber } from '../standing/local-days.ts';
import { standingAt } from '../price/quote-state.ts';
import { type RoomStanding, roomStanding } from '../standing/room-standing.ts';
import type { RibbonRow, RibbonStrip } from './day-ribbon.ts';
import { dayEnd } from './entry-maker.ts';
import { timeWords } from '../standing/time-words.ts';

/** Days ahead on the list. */
export const DAYS_AHEAD = 7;
/** N opens a new lead. */
const LETTERS = 'ABCDEFGHIJKLMOPQRSTUVWXYZ';

export type TodayLine = {
  /** The key on the keyboard and the mark on the ribbon; empty past Z. */
  readonly letter: string;
  readonly entry: AgendaEntry;
  readonly late: boolean;
  readonly isToday: boolean;
  /** `5:30 pm`, `late, promised Monday`, `Friday`; `since Monday` for a task without a date. */
  readonly when: string;
};

/** Name of a day relative to today: `today`, `tomorrow`, `Friday` within a week either way, `May 29` beyond. */
export function dayFromToday(day: DayNumber, today: DayNumber, locale: string): string {
  const days = Math.floor(day) - Math.floor(today);
  if (days === 0) return 'today';
  if (days === 1) return 'tomorrow';
  const iso = dayOfNumber(day);
  return Math.abs(days) < 7 ? (formatDay(iso, 'long', locale).split(/[, ]/)[0] ?? '') : formatDay(iso, 'short', locale);
}

function whenWords(entry: AgendaEntry, day: string, late: boolean, locale: string): string {
  const time = entry.allDay ? '' : timeWords(entry.instant, entry.timeZone, locale);
  if (late) return `late, ${entry.promised ? 'promised' : 'due'} ${day === 'today' && time !== '' ? time : day}`;
  if (day === 'today') return entry.allDay ? 'today' : time;
  if (entry.dueAt === null) return `since ${day}`;
  return day;
}

/** `promised December 25, in 30 days`: the days left to tell the customer. */
function leftWords(entry: AgendaEntry, day: string, today: DayNumber): string {
  const daysLeft = Math.floor(entry.day) - Math.floor(today);
  return daysLeft < 2 ? `promised ${day}` : `promised ${day}, in ${daysLeft} days`;
}

/**
 * Poured first, then what has an hour today, then promises the customer must hear about in time, then what is late, then the days
 * to come.
 */
function rank(entry: AgendaEntry, today: DayNumber, late: boolean): number {
  if (entry.isUnderWay || (entry.day === today && entry.kind === 'pour')) return 0;
  if (entry.day === today && !entry.allDay && !late) return 1;
  if (isBrokenPromise(entry)) return 2;
  if (late) return 3;
  return entry.day === today ? 4 : 5;
}

/** The entries that stand at a moment: neither settled nor still to begin, and one line for both expiry and follow-up of a quote about to expire. */
export function openEntries(whole: Pick<Agenda, 'entries'>, now: string): readonly AgendaEntry[] {
  const todayIn = dayInZones(now);
  const open = whole.entries.filter((e) => !isSettled(e, now) && (e.dueAt !== null || e.day <= todayIn(e.timeZone)));
  const expiring = new Set(open.flatMap((e) => (e.kind === 'quote-expires' && e.day <= todayIn(e.timeZone) + DAYS_AHEAD ? [e.jobId] : [])));
  return open.filter((e) => e.kind !== 'quote-waits' || !expiring.has(e.jobId));
}

/** Leads have a list and a count of their own. */
const isOfLead = ({ customerId }: AgendaEntry): boolean => customerId !== undefined;

/**
 * Tasks of today and the coming week, the most urgent first.
 * @param kept letters given before, by the key of the entry; no other entry gets them
 */
export function todayList(whole: Agenda, now: string, kept: ReadonlyMap<string, string> = new Map()): readonly TodayLine[] {
  const taken = new Set(kept.values());
  const free = [...LETTERS].filter((letter) => !taken.has(letter));
  const locale = whole.business.locale === '' ? DEFAULT_LOCALE : whole.business.locale;
  const todayIn = dayInZones(now);
  // Caches the words of a day, because many entries share it.
  const days = new Map<string, string>();
  const called = (day: DayNumber, today: DayNumber): string => {
    const key = `${day} ${today}`;
    const known = days.get(key) ?? dayFromToday(day, today, locale);
    days.set(key, known);
    return known;
  };
  return openEntries(whole, now)
    .filter((e) => e.toDo && !isOfLead(e) && (isBrokenPromise(e) || e.day <= todayIn(e.timeZone) + DAYS_AHEAD))
    .map((entry) => {
      const today = todayIn(entry.timeZone);
      const late = isLate(entry, now);
      const day = called(entry.day, today);
      const when = isBrokenPromise(entry) && !late ? leftWords(entry, day, today) : whenWords(entry, day, late, locale);
      return { entry, late, isToday: entry.day === today, order: rank(entry, today, late), when };
    })
    .sort((a, b) => a.order - b.order)
    .map(({ order: _order, ...line }) => ({ letter: kept.get(line.entry.key) ?? free.shift() ?? '', ...line }));
}

/**
 * Letters by the key of their entry, and the day they are of: each stays with its entry that day, so that a key pressed twice moves one
 * thing. The next day gives them out again, so that a screen left open does not run out of them.
 */
export type Letters = { day: DayNumber | null; readonly byKey: Map<string, string> };

/** The list with the letters that its entries had before, noting those it gives. */
export function letteredList(whole: Agenda, now: string, letters: Letters): readonly TodayLine[] {
  const today = dayInZones(now)(whole.business.timeZone);
  if (letters.day !== today) letters.byKey.clear();
  letters.day = today;
  const list = todayList(whole, now, letters.byKey);
  for (const { letter, entry } of list) if (letter !== '') letters.byKey.set(entry.key, letter);
  return list;
}

/** What stands beside the first line; null where its sentence has it, or it is only today. */
export function firstDate({ entry, late, isToday, when }: TodayLine): string | null {
  const hasHour = !entry.allDay && entry.kind !== 'pour';
  return late || entry.promised || !isToday || hasHour ? when : null;
}

export type RibbonView = {
  readonly firstDay: DayNumber;
  readonly days: number;
  /** Position of the current time, in days from the first. */
  readonly today: number;
  readonly rows: readonly RibbonRowView[];
};

export type RibbonRowView = Omit<RibbonRow, 'lanes'> & {
  readonly standing: RoomStanding;
  /** From 0, the first day shown. `began` and `goesOn` are cut by the edge: drawn with a break line. */
  readonly lanes: readonly (RibbonStrip & { readonly began: boolean; readonly goesOn: boolean })[];
  readonly letters: readonly string[];
  /** `oak from Jun 1`, shown after the last strip. */
  readonly label: string;
};

function labelOf(row: RibbonRow, standing: RoomStanding, now: string, today: DayNumber, locale: string): string {
  const hold = standing.holds[0];
  if (hold !== undefined) return `on hold: ${hold.why}`;
  if (standing.cleared && row.isLaid) return `${row.coverName ?? 'flooring'} laid`;
  if (standing.cleared) return row.coverName === null ? 'ready for use' : `cleared for ${row.coverName}`;
  const words: string[] = [];
  const onDay = (instant: string) => dayFromToday(dayNumberAt(instant, row.timeZone), today, locale);
  const isPlanOver = row.planEndsAt !== null && row.planEndsAt <= now;
  if (row.walkOnAt !== null && row.walkOnAt > now && (row.poured || !isPlanOver))
    words.push(`foot traffic ${onDay(row.walkOnAt)}, ${timeWords(row.walkOnAt, row.timeZone, locale)}`);
  if (row.planEndsAt !== null && isPlanOver)
    words.push(dayEnd(dayOfInstant(row.planEndsAt, row.timeZone), row.timeZone) < now ? 'pour is late' : 'pour not started');
  else if (row.coverWait !== null) words.push(row.isLaid ? row.coverWait : `${row.coverName ?? 'ready for use'} after ${row.coverWait}`);
  else if (row.coverAt !== null)
    words.push(row.coverAt <= now ? `test for ${row.coverName ?? 'flooring'}` : `${row.coverName ?? 'flooring'} ${onDay(row.coverAt)}`);
  return words.join(', ') || STAGE_LABEL[standing.stage];
}

const STAGE_LABEL: Readonly<Record<RoomStanding['stage'], string>> = {
  assess: 'assess',
  prep: 'prep',
  estimate: 'estimate',
  quote: 'quote',
  pour: 'no pour date',
  cure: 'curing',
  handover: 'ready to hand over',
  done: 'done',
};

/**
 * The ribbon from Monday of this week. @param zone time zone of the business, which decides the current day
 */
export function ribbonView(whole: Agenda, list: readonly TodayLine[], now: string, zone: string, days: number): RibbonView {
  const locale = whole.business.locale === '' ? DEFAULT_LOCALE : whole.business.locale;
  const nowDay = dayNumberAt(now, zone);
  const firstDay = Math.floor(nowDay) - (weekdayOfNumber(nowDay) - 1);
  const cut = (s: RibbonStrip) => ({
    ...s,
    fromDay: Math.max(0, s.fromDay - firstDay),
    toDay: Math.min(days, s.toDay - firstDay),
    began: s.fromDay < firstDay,
    goesOn: s.toDay - firstDay > days,
  });
  const rows = whole.jobs.flatMap((job) =>
    job.rows.flatMap((row) => {
      const standing = roomStanding(job.bundle, row.roomId, whole.business, now);
      if (standing === null) return [];
      return [
        {
          ...row,
          standing,
          lanes: row.lanes
            .filter(({ expiresAt }) => expiresAt === null || expiresAt > now)
            .map(cut)
            .filter((s) => s.toDay >= s.fromDay && s.toDay >= 0 && s.fromDay <= days),
          letters: list
            .filter((l) => l.letter !== '' && l.entry.jobId === row.jobId && l.entry.roomIds.includes(row.roomId))
            .map((l) => l.letter),
          label: labelOf(row, standing, now, Math.floor(nowDay), locale),
        },
      ];
    }),
  );
  return { firstDay, days, today: nowDay - firstDay, rows };
}

type LeadDue = {
  /** Its next step is late, or within the days of the list. */
  readonly due: boolean;
  readonly late: boolean;
};

/** The whole business in a few sentences: `2 items are due today. 3 rooms are curing. 1 quote is with a customer. 1 room is on hold.` */
export function summarySentence(whole: Agenda, leads: readonly LeadDue[], now: string): string {
  let curing = 0;
  let held = 0;
  let quotes = 0;
  for (const job of whole.jobs) {
    if (job.bundle.quotes.some((q) => standingAt(q, now) === 'issued' && q.deletedAt === null)) quotes++;
    for (const { roomId } of job.rows) {
      const standing = roomStanding(job.bundle, roomId, whole.business, now);
      if (standing?.state === 'held') held++;
      else if (standing?.curing === true) curing++;
    }
  }
  const lateLeads = leads.filter((lead) => lead.late).length;
  const late = openEntries(whole, now).filter((e) => isLate(e, now) && !isOfLead(e)).length + lateLeads;
  const counted = (n: number, singular: string, plural: string) => (n === 0 ? [] : [`${n} ${n === 1 ? singular : plural}.`]);
  const list = todayList(whole, now);
  const parts = [
    ...counted(
      list.filter(({ entry, isToday, late: isPast }) => isToday && !isPast && entry.dueAt !== null).length,
      'item is due today',
      'items are due today',
    ),
    ...counted(curing, 'room is curing', 'rooms are curing'),
    ...counted(quotes, 'quote is with a customer', 'quotes are with customers'),
    ...counted(held, 'room is on hold', 'rooms are on hold'),
    ...counted(leads.filter((lead) => lead.due).length - lateLeads, 'lead is due this week', 'leads are due this week'),
    ...counted(late, 'item is late', 'items are late'),
  ];
  if (parts.length > 0) return parts.join(' ');
  return list.length === 0 ? 'Nothing is due.' : 'Nothing is due today.';
}
