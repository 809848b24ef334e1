/** Builds the entries of one job: fills in common fields and converts between days and instants. */
import type { Quote } from '../book/quote.ts';
import { addDaysToDay } from '../measure/day.ts';
import { dayOfInstant, startOfDay } from '../measure/moment.ts';
import { DEFAULT_LOCALE } from '../measure/number.ts';
import type { AgendaEntry } from './agenda-entry.ts';
import { type AgendaBusiness, type JobBundle, type JobRoomFacts, roomsOf, standingQuote } from '../standing/job-bundle.ts';
import { dayNumberAt, dayNumberOf } from '../standing/local-days.ts';
import { roomsOfCustomer, shortName } from '../standing/names.ts';

type Own = Pick<AgendaEntry, 'kind' | 'roomIds' | 'verb' | 'rest' | 'toDo'> & {
  /** Distinguishes entries of the same kind in one job. */
  readonly name: string;
  /** The event, for the title: `pour`. */
  readonly event: string;
  readonly stage: AgendaEntry['opens']['stage'];
  readonly pourId?: string;
} & Partial<Pick<AgendaEntry, 'note' | 'isUnready' | 'fromAt' | 'promised' | 'settledAt' | 'onSite' | 'arriveAt' | 'isUnderWay'>>;

/** The longest title a phone's calendar shows in one line. */
const TITLE_LENGTH = 40;

/** Title of an entry: rooms, customer and event; names are shortened first. */
export function titleOf(rooms: readonly JobRoomFacts[], customerName: string, event: string): string {
  const [first] = rooms;
  const room = first === undefined ? '' : rooms.length === 1 ? first.room.name : `${first.room.name} +${rooms.length - 1}`;
  const customer = shortName(customerName);
  const cut = (text: string, length: number): string =>
    text.length <= length ? text : `${text.slice(0, Math.max(1, length - 1)).trimEnd()}…`;
  const lengthLeft = TITLE_LENGTH - event.length - 2;
  const roomPart = cut(oneLine(room), lengthLeft);
  if (roomPart === '') return `${cut(oneLine(customer), lengthLeft)}: ${event}`;
  const whoPart = lengthLeft - roomPart.length - 2 < 3 ? '' : `, ${cut(oneLine(customer), lengthLeft - roomPart.length - 2)}`;
  return `${roomPart}${whoPart}: ${event}`;
}

/** When a day is over, and what was due that day is late. */
export const dayEnd = (day: string, zone: string): string => startOfDay(addDaysToDay(day, 1), zone);

const latest = (a: string, b: string): string => (a > b ? a : b);

const oneLine = (text: string): string => text.replace(/\s+/g, ' ').trim();

/** Input for every entry of a job. */
export type EntryMaker = {
  readonly bundle: JobBundle;
  readonly business: AgendaBusiness;
  readonly rooms: readonly JobRoomFacts[];
  readonly quote: Quote | null;
  readonly zone: string;
  readonly locale: string;
  /** The Lindqvists’ family room. */
  readonly theRooms: (rooms: readonly JobRoomFacts[]) => string;
  /**
   * An entry at a time of day. Work that takes time is due until the day it begins on is over: nobody marks it done while doing it. A limit or a
   * promise, which has no end, is late at its hour.
   */
  readonly timed: (own: Own, instant: string, until: string | null) => AgendaEntry;
  /** An entry for a whole day; late when that day is over where the property stands. */
  readonly allDay: (own: Own, day: string) => AgendaEntry;
  /** A task without a date that waits since a day; never late. */
  readonly undated: (own: Own, since: string) => AgendaEntry;
};

/** Prepares the making of entries for one job. */
export function entryMaker(bundle: JobBundle, business: AgendaBusiness): EntryMaker {
  const { job, property, customer } = bundle;
  const zone = property.timeZone;
  const quote = standingQuote(bundle);
  const agreed = quote?.state === 'accepted';
  const shared = (own: Own) => ({
    key: `${job.id}:${own.kind}:${own.name}`,
    kind: own.kind,
    jobId: job.id,
    roomIds: own.roomIds,
    title: titleOf(
      roomsOf(bundle).filter((r) => own.roomIds.includes(r.room.id)),
      customer.name,
      own.event,
    ),
    verb: own.verb,
    rest: own.rest,
    note: own.note ?? null,
    isUnready: own.isUnready ?? false,
    ...(own.fromAt === undefined ? {} : { fromAt: own.fromAt }),
    timeZone: zone,
    toDo: own.toDo,
    onSite: own.onSite ?? false,
    isUnderWay: own.isUnderWay ?? false,
    promised: own.promised ?? false,
    settledAt: own.settledAt ?? null,
    agreed,
    place: [property.address.line, property.address.city].filter((t) => t !== '').join(', '),
    opens: { jobId: job.id, roomId: own.roomIds[0] ?? null, stage: own.stage, ...(own.pourId === undefined ? {} : { pourId: own.pourId }) },
  });
  const allDay = (own: Own, day: string): AgendaEntry => ({
    ...shared(own),
    instant: startOfDay(day, zone),
    arriveAt: startOfDay(day, zone),
    until: null,
    allDay: true,
    day: dayNumberOf(day),
    dueAt: dayEnd(day, zone),
  });
  return {
    bundle,
    business,
    rooms: roomsOf(bundle),
    quote,
    zone,
    locale: business.locale === '' ? DEFAULT_LOCALE : business.locale,
    theRooms: (rooms) =>
      roomsOfCustomer(
        rooms.map((r) => r.room.name),
        customer.name,
      ),
    timed: (own, instant, until) => ({
      ...shared(own),
      instant,
      arriveAt: own.arriveAt ?? instant,
      until,
      allDay: false,
      day: Math.floor(dayNumberAt(instant, zone)),
      // Work past midnight goes on until it ends.
      dueAt: until === null ? instant : latest(until, dayEnd(dayOfInstant(instant, zone), zone)),
    }),
    allDay,
    undated: (own, since) => ({ ...allDay(own, since), dueAt: null }),
  };
}
