/** Calendar files (RFC 5545). Times are in UTC, so that daylight saving cannot move them and no VTIMEZONE is needed. */
import ical, { ICalAlarmType, ICalEventBusyStatus, ICalEventStatus, ICalEventTransparency } from 'ical-generator';
import type { Taken } from '../../shared-core/desk/calls.ts';

type Calendar = Omit<Taken<'calendar.save'>, 'file'>;

const CRLF = '\r\n';
/** A line break or control character in a name must not end the line. */
const oneLine = (text: string): string => text.replace(/[\p{Cc}\u2028\u2029\s]+/gu, ' ').trim();
const utcDay = (day: string): Date => new Date(`${day}T00:00:00Z`);

const STATUS = {
  CONFIRMED: ICalEventStatus.CONFIRMED,
  TENTATIVE: ICalEventStatus.TENTATIVE,
  CANCELLED: ICalEventStatus.CANCELLED,
} as const;

/** A calendar file of `events`, canceled ones marked. Every line ends in CRLF, including the last. */
export function writeCalendar({ name, events, sentAt }: Calendar): string {
  // No METHOD, because with one RFC 5546 requires an ORGANIZER.
  const calendar = ical({ name: oneLine(name), prodId: { company: 'Straightedge', product: 'Job book', language: 'EN' } });
  for (const event of events) {
    const { day } = event;
    const entry = calendar.createEvent({
      id: oneLine(event.uid),
      sequence: event.sequence,
      stamp: new Date(sentAt),
      start: day === null ? new Date(event.startAt) : utcDay(day.from),
      end: day === null ? new Date(event.endAt) : utcDay(day.until),
      allDay: day !== null,
      summary: oneLine(event.summary),
      description: event.description === '' ? null : event.description,
      location: event.location === '' ? null : oneLine(event.location),
      status: STATUS[event.status],
      transparency: event.busy ? ICalEventTransparency.OPAQUE : ICalEventTransparency.TRANSPARENT,
      busystatus: event.busy ? ICalEventBusyStatus.BUSY : ICalEventBusyStatus.FREE,
    });
    if (event.status === 'CANCELLED') continue;
    for (const minutes of event.alarmsMin)
      entry.createAlarm({
        type: ICalAlarmType.display,
        ...(minutes >= 0 ? { triggerBefore: minutes * 60 } : { triggerAfter: -minutes * 60 }),
        description: oneLine(event.summary),
      });
  }
  const text = calendar.toString();
  return text.endsWith(CRLF) ? text : text + CRLF;
}
