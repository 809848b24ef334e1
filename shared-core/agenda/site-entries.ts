/** Visits to the property before and for the pour: pour date, prep, primer, pour, handover. */
import type { AgendaEntry } from './agenda-entry.ts';
import type { EntryMaker } from './entry-maker.ts';
import { nextPourNumber } from './pour-keys.ts';
import type { JobRoomFacts } from '../standing/job-bundle.ts';
import { dayOfInstant, formatInstant, formatInstantsOn, instantAt, secondsBetween } from '../measure/moment.ts';
import { linesOpen } from '../standing/next-step.ts';
import { roomQuote } from '../standing/room-standing.ts';
import { helperCount } from '../pour/crew-names.ts';
import { countWords } from '../measure/count-words.ts';
import { capital } from '../measure/first-letter.ts';
import { customerWords, theRooms } from '../standing/names.ts';
import { roomPour } from '../standing/room-pour.ts';
import { nextPours } from '../standing/next-pours.ts';
import { primerWindow } from '../standing/room-cure.ts';
import { minutesLater, timeWords } from '../standing/time-words.ts';

/** Time on site before the first bag: staging, water, the pre-pour checklist. Common practice, no source. */
const SETUP_MINUTES = 55;
/** A prep visit takes the rest of the working day, and at most this. Typical. */
const PREP_MINUTES = 8 * 60;
/** Walking the customer through the handover sheet. Typical. */
const HANDOVER_MINUTES = 45;

/** Names the next pour of some rooms in a key: each room, with the number of its pour after the first. */
function pourName(make: EntryMaker, rooms: readonly JobRoomFacts[]): string {
  const nameOf = (facts: JobRoomFacts): string => {
    const number = nextPourNumber(roomPour(make.bundle, facts).floor);
    return number === '1' ? facts.room.id : `${facts.room.id}:${number}`;
  };
  return rooms.map(nameOf).join('+');
}

const poured = (make: EntryMaker, facts: JobRoomFacts): boolean => roomPour(make.bundle, facts).part !== 'none';

/** When a prep visit ends: with the working hours, where it starts within them. */
function prepEnd({ business, zone }: EntryMaker, startAt: string): string {
  const closing = instantAt(dayOfInstant(startAt, zone), business.hours.to, zone);
  const full = minutesLater(startAt, PREP_MINUTES);
  return closing.ok && closing.value.instant > startAt && closing.value.instant < full ? closing.value.instant : full;
}

function prepVisit(make: EntryMaker): readonly AgendaEntry[] {
  const { job } = make.bundle;
  const open = make.rooms.filter((r) => !poured(make, r) && (r.summary?.prepOpen ?? 1) > 0);
  if (job.prepVisitAt === null || open.length === 0) return [];
  const next = open.map((r) => r.summary?.prepNext ?? null).find((line) => line !== null);
  return [
    make.timed(
      {
        kind: 'prep-visit',
        name: '1',
        roomIds: open.map((r) => r.room.id),
        event: 'prep',
        verb: 'Prep',
        rest: `${make.theRooms(open)}.`,
        note: next === undefined ? null : `Next: ${next}.`,
        toDo: true,
        onSite: true,
        stage: 'prep',
      },
      job.prepVisitAt,
      prepEnd(make, job.prepVisitAt),
    ),
  ];
}

/** The rooms of the contract that nothing holds and that have no pour date. A hold is cleared first. */
function pourDate(make: EntryMaker): readonly AgendaEntry[] {
  const { quote } = make;
  if (quote?.state !== 'accepted') return [];
  const acceptedAt = quote.history.findLast(({ state }) => state === 'accepted')?.instant ?? quote.issuedAt;
  const acceptedOn = dayOfInstant(acceptedAt, make.zone);
  const open = make.rooms.filter(
    (r) =>
      !poured(make, r) &&
      r.jobRoom.pourAt === null &&
      (r.summary?.holds ?? []).length === 0 &&
      roomQuote(quote, r.room.id, acceptedAt) === 'accepted',
  );
  if (open.length === 0) return [];
  const roomIds = open.map((r) => r.room.id);
  const own = { kind: 'pour-date' as const, name: '1', roomIds, event: 'set pour date', toDo: true, stage: 'pour' as const };
  return [make.undated({ ...own, verb: 'Set', rest: `a pour date for ${make.theRooms(open)}.` }, acceptedOn)];
}

/** Prep lines that the rooms of a pour still need signed, as a sentence; empty for none. */
function prepOpenWords(make: EntryMaker, rooms: readonly JobRoomFacts[]): string {
  const waiting = rooms.filter((r) => !poured(make, r));
  const sum = (of: 'prepOpen' | 'prepTotal'): number => waiting.reduce((count, r) => count + (r.summary?.[of] ?? 0), 0);
  return sum('prepOpen') === 0 ? '' : ` ${linesOpen(sum('prepOpen'), sum('prepTotal'))}`;
}

/** How many holds on the rooms of a pour were overridden, as a sentence; empty for none. */
function overriddenWords(rooms: readonly JobRoomFacts[], locale: string): string {
  const count = rooms.reduce((sum, { summary }) => sum + (summary?.overridden ?? 0), 0);
  return count === 0 ? '' : ` ${countWords(count, 'hold', locale)} overridden.`;
}

/** The first hold on the rooms of a pour, as a sentence; empty for none. */
function holdWords(rooms: readonly JobRoomFacts[]): string {
  const [held] = rooms.flatMap(({ room, summary }) => (summary?.holds ?? []).map(({ why }) => ({ room, why })));
  if (held === undefined) return '';
  return rooms.length === 1 ? `On hold: ${held.why}.` : `${capital(theRooms([held.room.name]))} is on hold: ${held.why}.`;
}

function pourNote(make: EntryMaker, moment: string, rooms: readonly JobRoomFacts[]): string {
  const time = (instant: string) => timeWords(instant, make.zone, make.locale);
  const primer = rooms.flatMap((r) => primerWindow(make.bundle, r) ?? []);
  const bags = rooms.reduce((sum, r) => sum + (r.summary?.nextBags ?? 0), 0);
  const helpers = Math.max(...rooms.map((r) => helperCount(r.jobRoom.pourPlan, make.bundle.job.crewNames, make.business)));
  const from = primer
    .map((w) => w.fromAt)
    .sort()
    .at(-1);
  const until = primer.map((w) => w.untilAt).sort()[0];
  const window = from === undefined || until === undefined ? [] : formatInstantsOn(moment, [from, until], make.zone, make.locale);
  const parts = [
    ...(window.length === 0 ? [] : [`Primer is dry from ${window.join(' and past its limit from ')}.`]),
    `${bags > 0 ? `${bags} ${bags === 1 ? 'bag' : 'bags'}. ` : ''}${helpers === 0 ? 'No helper' : `${helpers} ${helpers === 1 ? 'helper' : 'helpers'}`}. Arrive by ${time(minutesLater(moment, -SETUP_MINUTES))}.`,
  ];
  return parts.map(capital).join(' ');
}

function pours(make: EntryMaker): readonly AgendaEntry[] {
  return nextPours(make.bundle, make.business).map(({ startAt: moment, running, until, rooms }) => {
    const startedAt = running?.startedAt ?? null;
    const time = (instant: string) => timeWords(instant, make.zone, make.locale);
    const isOneDay = dayOfInstant(moment, make.zone) === dayOfInstant(until, make.zone);
    const span = `${time(moment)} to ${isOneDay ? time(until) : formatInstant(until, make.zone, 'weekday', make.locale)}`;
    const ids = rooms.map((r) => r.room.id);
    const hold = startedAt === null ? holdWords(rooms) : '';
    const left = `${overriddenWords(rooms, make.locale)}${prepOpenWords(make, rooms)}`;
    const note = `${pourNote(make, moment, rooms)}${left}`;
    return make.timed(
      {
        kind: 'pour',
        name: pourName(make, rooms),
        roomIds: ids,
        event: 'pour',
        verb: 'Pour',
        rest: `${make.theRooms(rooms)}, ${startedAt === null ? span : `under way since ${time(startedAt)}`}.`,
        note: startedAt === null ? `${hold} ${note}`.trimStart() : null,
        isUnready: startedAt === null && `${hold}${left}` !== '',
        arriveAt: minutesLater(moment, -SETUP_MINUTES),
        isUnderWay: startedAt !== null,
        toDo: true,
        onSite: true,
        stage: 'pour',
        ...(running === null ? {} : { pourId: running.id }),
      },
      moment,
      until,
    );
  });
}

/** When the planned pour of each room is over, by room id. One that is under way has no such end. */
export function plannedEnds(entries: readonly AgendaEntry[]): ReadonlyMap<string, string> {
  const planned = entries.filter(({ kind, isUnderWay }) => kind === 'pour' && !isUnderWay);
  return new Map(planned.flatMap(({ roomIds, until }) => roomIds.flatMap((id) => (until === null ? [] : [[id, until] as const]))));
}

function primers(make: EntryMaker): readonly AgendaEntry[] {
  return make.rooms.flatMap((facts) => {
    const window = primerWindow(make.bundle, facts);
    if (window === null || roomPour(make.bundle, facts).part === 'whole') return [];
    const { pourAt } = facts.jobRoom;
    const inside = pourAt !== null && secondsBetween(window.fromAt, pourAt) >= 0 && secondsBetween(pourAt, window.untilAt) >= 0;
    // A calendar shows it for the whole day.
    const limit = timeWords(window.untilAt, make.zone, make.locale);
    return [
      make.timed(
        {
          kind: 'primer-window',
          name: pourName(make, [facts]),
          roomIds: [facts.room.id],
          event: `primer limit ${limit}`,
          verb: 'Pour or prime again:',
          rest: `${make.theRooms([facts])}. The primer is past its limit at ${limit}.`,
          fromAt: window.fromAt,
          toDo: !inside,
          stage: 'prep',
        },
        window.untilAt,
        null,
      ),
    ];
  });
}

function handover(make: EntryMaker): readonly AgendaEntry[] {
  const { job, customer, property } = make.bundle;
  const open = make.rooms.filter((r) => r.jobRoom.handedOverAt === null);
  if (job.handoverAt === null || open.length === 0) return [];
  const floorWords = property.address.line === '' ? `in ${theRooms(open.map((r) => r.room.name))}` : `at ${property.address.line}`;
  return [
    make.timed(
      {
        kind: 'handover',
        name: '1',
        roomIds: open.map((r) => r.room.id),
        event: 'handover',
        verb: 'Hand over',
        rest: `the floors ${floorWords} to ${customerWords(customer.name)}.`,
        toDo: true,
        onSite: true,
        stage: 'handover',
      },
      job.handoverAt,
      minutesLater(job.handoverAt, HANDOVER_MINUTES),
    ),
  ];
}

/** Entries that need someone on site. */
export function siteEntries(make: EntryMaker): readonly AgendaEntry[] {
  return [...pourDate(make), ...prepVisit(make), ...primers(make), ...pours(make), ...handover(make)];
}
