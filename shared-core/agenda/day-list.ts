/** The agenda as a list by day: late entries first, then all coming dates. */
import { DEFAULT_LOCALE } from '../measure/number.ts';
import { formatDay } from '../measure/day.ts';
import { type Agenda, isLate } from './agenda.ts';
import type { AgendaEntry } from './agenda-entry.ts';
import { dayInZones, type DayNumber, dayOfNumber } from '../standing/local-days.ts';
import { capital } from '../measure/first-letter.ts';
import { timeWords } from '../standing/time-words.ts';
import { dayFromToday, openEntries } from './today.ts';

export type DayLine = {
  readonly entry: AgendaEntry;
  /** `9:40 am` in the property's time zone; empty for a whole day. */
  readonly time: string;
};

export type DayGroup = {
  /** Null for late entries. */
  readonly day: DayNumber | null;
  /** `Late`, `Today, Tuesday, May 12`, `Friday, May 15`. */
  readonly called: string;
  readonly lines: readonly DayLine[];
};

export type DayList = {
  readonly groups: readonly DayGroup[];
  /** Number of dates left out because of the line limit. */
  readonly more: number;
};

/**
 * Entries by day. @param daysAhead number of days, counting today @param most maximum number of lines
 */
export function dayList(whole: Agenda, now: string, daysAhead: number, most: number): DayList {
  const locale = whole.business.locale === '' ? DEFAULT_LOCALE : whole.business.locale;
  const todayIn = dayInZones(now);
  const due: { readonly entry: AgendaEntry; readonly day: DayNumber | null }[] = [];
  for (const entry of openEntries(whole, now)) {
    const today = todayIn(entry.timeZone);
    // Work that began yesterday and is still running is today's, and so is what waits without a date.
    const day = entry.isUnderWay || entry.dueAt === null ? Math.max(entry.day, today) : entry.day;
    if (isLate(entry, now)) due.push({ entry, day: null });
    else if (day >= today && day < today + daysAhead) due.push({ entry, day });
  }
  const order = (a: DayNumber | null, b: DayNumber | null): number => (a ?? -1) - (b ?? -1);
  due.sort((a, b) => order(a.day, b.day));
  const groups = new Map<DayNumber | null, DayLine[]>();
  for (const { entry, day } of due.slice(0, most)) {
    const clock = entry.allDay ? '' : timeWords(entry.instant, entry.timeZone, locale);
    const time = day === null ? dayFromToday(entry.day, todayIn(entry.timeZone), locale) : clock;
    groups.set(day, [...(groups.get(day) ?? []), { entry, time }]);
  }
  const today = todayIn(whole.business.timeZone);
  const called = (day: DayNumber | null): string => {
    if (day === null) return 'Late';
    const words = formatDay(dayOfNumber(day), 'long', locale);
    return day - today < 2 && day >= today ? `${capital(dayFromToday(day, today, locale))}, ${words}` : words;
  };
  return {
    groups: [...groups].map(([day, lines]) => ({ day, called: called(day), lines })),
    more: Math.max(0, due.length - most),
  };
}
