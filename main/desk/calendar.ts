/** Calendar files by RFC 5545. Times are written in UTC, so that a change of daylight saving cannot move them and no VTIMEZONE is owed. */
import ical, { ICalAlarmType, ICalCalendarMethod, ICalEventStatus } from 'ical-generator';
import type { Taken } from '../../shared-core/desk/calls.ts';
import type { CalendarEvent } from '../../shared-core/desk/calendar-fields.ts';
import { DeskFailure } from './failure.ts';

const CRLF = '\r\n';
const utcDay = (day: string): Date => new Date(`${day}T00:00:00Z`);

const timesOf = (event: CalendarEvent): { start: Date; end: Date | null; allDay: boolean } => {
  if (event.startsAt !== null)
    return { start: new Date(event.startsAt), end: event.endsAt === null ? null : new Date(event.endsAt), allDay: false };
  if (event.firstDay !== null)
    return { start: utcDay(event.firstDay), end: event.dayAfterLast === null ? null : utcDay(event.dayAfterLast), allDay: true };
  throw new DeskFailure('bad-input', `“${event.summary}” has neither a time nor a day.`);
};

/** The text of a calendar file holding `events`, cancelled ones marked as such; every line ends in CRLF, the last one too. */
export function writeCalendar({ name, events, sentAt }: Taken<'calendar.write'>): string {
  const calendar = ical({
    name,
    prodId: { company: 'Straightedge', product: 'Job book', language: 'EN' },
    method: ICalCalendarMethod.PUBLISH,
  });
  for (const event of events) {
    const { start, end, allDay } = timesOf(event);
    const entry = calendar.createEvent({
      id: event.uid,
      sequence: event.sequence,
      stamp: new Date(sentAt),
      lastModified: new Date(event.changedAt),
      start,
      end,
      allDay,
      summary: event.summary,
      description: event.description === '' ? null : event.description,
      location: event.location === '' ? null : event.location,
      status: event.cancelled ? ICalEventStatus.CANCELLED : ICalEventStatus.CONFIRMED,
    });
    if (event.cancelled) continue;
    for (const minutes of event.alarmsMinutesBefore)
      entry.createAlarm({ type: ICalAlarmType.display, triggerBefore: minutes * 60, description: event.summary });
  }
  const text = calendar.toString();
  return text.endsWith(CRLF) ? text : text + CRLF;
}
