/** Calendar files (RFC 5545). Times are in UTC, so that daylight saving cannot move them and no VTIMEZONE is needed. */
import ical, { ICalAlarmRelatesTo, ICalAlarmType, ICalEventBusyStatus, ICalEventStatus, ICalEventTransparency } from 'ical-generator';
import type { Taken, Gives } from '../../shared-core/desk/calls.ts';
import type { CallName } from '../../shared-core/desk/call-names.ts';
import { askForFolder, readChoices, saveChoices } from './choices.ts';
import { DeskFailure } from './failure.ts';
import { readyPlace, replaceOwnFile } from './files.ts';
import type { Machine } from './host.ts';

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
    // Without RELATED the generator counts an alarm after the start from the end, and the end of an all-day event is the next day.
    for (const minutes of event.alarmsMin)
      entry
        .createAlarm({ type: ICalAlarmType.display, trigger: minutes * 60, description: oneLine(event.summary) })
        .relatesTo(ICalAlarmRelatesTo.start);
  }
  const text = calendar.toString();
  return text.endsWith(CRLF) ? text : text + CRLF;
}

type CalendarCall = Extract<CallName, `calendar.${string}`>;
type CalendarHandlers = { [N in CalendarCall]: (input: Taken<N>) => Promise<Gives<N>> };

const ASKED = {
  title: 'Calendar folder',
  refusal: 'Straightedge cannot ask for a folder here. Calendar files are still saved in the documents folder.',
};

export function createCalendarHandlers({
  dataFolder,
  papersFolder,
  chooseFolder,
}: Pick<Machine, 'dataFolder' | 'papersFolder' | 'chooseFolder'>): CalendarHandlers {
  const place = async (): Promise<Gives<'calendar.place'>> => {
    const { calendarFolder } = await readChoices(dataFolder);
    return { folder: calendarFolder ?? papersFolder, chosen: calendarFolder !== null, canChoose: chooseFolder !== null };
  };
  return {
    'calendar.place': place,
    'calendar.choose': async ({ choose }) => {
      const chosen = choose === 'other' ? await askForFolder(chooseFolder, ASKED) : null;
      if (choose === 'other' && chosen === null) return { ...(await place()), changed: false };
      await saveChoices(dataFolder, { ...(await readChoices(dataFolder)), calendarFolder: chosen });
      return { ...(await place()), changed: true };
    },
    'calendar.save': async ({ file, ...calendar }) => {
      const { folder, chosen } = await place();
      const bytes = Buffer.from(writeCalendar(calendar), 'utf8');
      if (!chosen) await readyPlace(folder);
      // Two sets of data may share the folder; each replaces only the file it wrote.
      const name = await replaceOwnFile(dataFolder, folder, file, bytes).catch((error: unknown) => {
        throw error instanceof DeskFailure && error.code === 'not-found'
          ? new DeskFailure(
              'not-found',
              `${file} was not saved because the folder ${folder} was not found. Reconnect its disk, or choose another folder under Settings.`,
              error,
            )
          : error;
      });
      return { name, folder, bytes: bytes.length };
    },
  };
}
