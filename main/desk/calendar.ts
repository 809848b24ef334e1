/** Calendar files by RFC 5545. Times are written in UTC, so that a change of daylight saving cannot move them and no VTIMEZONE is owed. */
import ical, { ICalAlarmType, ICalCalendarMethod, ICalEventStatus } from 'ical-generator';
import type { Taken } from '../../shared-core/desk/calls.ts';

type Calendar = Omit<Taken<'calendar.keep'>, 'file'>;

const CRLF = '\r\n';
const utcDay = (day: string): Date => new Date(`${day}T00:00:00Z`);

const STATUS = {
  CONFIRMED: ICalEventStatus.CONFIRMED,
  TENTATIVE: ICalEventStatus.TENTATIVE,
  CANCELLED: ICalEventStatus.CANCELLED,
} as const;

/** The text of a calendar file holding `events`, cancelled ones marked as such; every line ends in CRLF, the last one too. */
export function writeCalendar({ name, events, sentAt }: Calendar): string {
  const calendar = ical({
    name,
    prodId: { company: 'Straightedge', product: 'Job book', language: 'EN' },
    method: ICalCalendarMethod.PUBLISH,
  });
  for (const event of events) {
    const { day } = event;
    const entry = calendar.createEvent({
      id: event.uid,
      sequence: event.sequence,
      stamp: new Date(sentAt),
      start: day === null ? new Date(event.startAt) : utcDay(day.from),
      end: day === null ? new Date(event.endAt) : utcDay(day.until),
      allDay: day !== null,
      summary: event.summary,
      description: event.description === '' ? null : event.description,
      location: event.location === '' ? null : event.location,
      status: STATUS[event.status],
    });
    if (event.status === 'CANCELLED') continue;
    for (const minutes of event.alarmsMin)
      entry.createAlarm({ type: ICalAlarmType.display, triggerBefore: minutes * 60, description: event.summary });
  }
  const text = calendar.toString();
  return text.endsWith(CRLF) ? text : text + CRLF;
}
