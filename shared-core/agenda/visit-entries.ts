/** Return visits and their templates. */
import type { Visit } from '../book/cure-record.ts';
import { addDaysToDay, daysBetween } from '../measure/day.ts';
import { capital } from '../measure/first-letter.ts';
import { dayOfInstant, instantAt, isPastDay } from '../measure/moment.ts';
import { type WorkWeek, workdayBefore, workdayFrom } from '../measure/workdays.ts';
import type { AgendaEntry } from './agenda-entry.ts';
import type { EntryMaker } from './entry-maker.ts';
import type { JobRoomFacts } from '../standing/job-bundle.ts';
import { customerWords } from '../standing/names.ts';
import { roomPour } from '../standing/room-pour.ts';
import { minutesLater } from '../standing/time-words.ts';

type Words = { readonly verb: string; readonly event: string; readonly after?: string };
const WORDS: Readonly<Record<Visit['kind'], Words>> = {
  prep: { verb: 'Prep', event: 'prep' },
  'day-after': { verb: 'Inspect', event: 'day-after visit' },
  'before-flooring': { verb: 'Test', after: ' before the flooring', event: 'test before flooring' },
  'thirty-days': { verb: 'Revisit', event: '30-day visit' },
  'defects-end': { verb: 'Inspect', after: ' before the warranty ends', event: 'warranty visit' },
  callback: { verb: 'Callback:', event: 'callback' },
  own: { verb: 'Visit', event: 'visit' },
};

/**
 * How long after the pour of its rooms a visit is. Moved, or put off to a working day, it is not as many days after it as its kind says. A
 * planned pour may still be late, so no days are counted from it.
 */
function afterPour(
  make: EntryMaker,
  { instant }: Visit,
  rooms: readonly JobRoomFacts[],
): { readonly after: string; readonly note: string | null } {
  const pouredAt = rooms
    .flatMap((facts) => roomPour(make.bundle, facts).last?.finishedAt ?? [])
    .sort()
    .at(-1);
  if (pouredAt === undefined) return { after: ' after the pour', note: rooms.length === 0 ? null : 'The floor is not poured yet.' };
  const days = daysBetween(dayOfInstant(pouredAt, make.zone), dayOfInstant(instant, make.zone));
  const after = days === 1 ? ' the day after the pour' : days > 1 ? ` ${days} days after the pour` : ' after the pour';
  return { after, note: null };
}

/** An entry for each visit that is not done. */
export function visitEntries(make: EntryMaker): readonly AgendaEntry[] {
  return make.bundle.visits
    .filter((v) => v.deletedAt === null && v.cancelledAt === null && v.doneAt === null)
    .map((v) => {
      const rooms = make.rooms.filter((r) => v.roomIds.includes(r.room.id));
      const place = rooms.length > 0 ? make.theRooms(rooms) : customerWords(make.bundle.customer.name);
      const { verb, after = '', event } = WORDS[v.kind];
      const isTitled = v.kind === 'callback' || v.kind === 'own';
      const isAfterPour = v.kind === 'day-after' || v.kind === 'thirty-days';
      const when = isAfterPour ? afterPour(make, v, rooms) : { after, note: null };
      const own = {
        kind: 'visit' as const,
        name: v.id,
        roomIds: rooms.map((r) => r.room.id),
        event,
        verb,
        rest: isTitled ? `${place}. ${capital(v.title.trim()).replace(/\.$/, '')}.` : `${place}${when.after}.`,
        note: when.note,
        toDo: true,
        onSite: true,
        stage: v.kind === 'prep' ? ('prep' as const) : ('cure' as const),
      };
      return make.timed(own, v.instant, minutesLater(v.instant, v.minutes));
    });
}

export type VisitTemplate = {
  readonly kind: Exclude<Visit['kind'], 'callback' | 'own' | 'prep'>;
  readonly title: string;
  readonly minutes: number;
  /** When, counted from what. Common practice. */
  readonly from: 'pour' | 'test' | 'defects';
  readonly days: number;
};

/** The usual return visits. The owner can add others. */
export const VISIT_TEMPLATES: readonly VisitTemplate[] = [
  { kind: 'day-after', title: 'Day-after visit', minutes: 30, from: 'pour', days: 1 },
  { kind: 'before-flooring', title: 'Test before flooring', minutes: 45, from: 'test', days: 0 },
  { kind: 'thirty-days', title: '30-day visit', minutes: 30, from: 'pour', days: 30 },
  { kind: 'defects-end', title: 'Warranty visit', minutes: 45, from: 'defects', days: -14 },
];

/** Date that templates count from; null while unknown. */
export type VisitAnchors = {
  readonly pouredAt: string | null;
  /** The day to start the test before the flooring; null also where none is required. */
  readonly testOn: string | null;
  /** When a test for the flooring failed; null where none did, or a newer one passed. */
  readonly failedAt: string | null;
  readonly warrantyEnds: string | null;
};

/**
 * Date of a template's visit: its number of days later, moved to a working day, at a local time. A visit before a date stays
 * before it. @param clock the time of day, `09:00` @returns null while its base date is unknown
 */
export function templateAt(
  template: VisitTemplate,
  anchors: VisitAnchors,
  { clock, timeZone, week }: { readonly clock: string; readonly timeZone: string; readonly week: WorkWeek },
): string | null {
  const day =
    template.from === 'defects'
      ? anchors.warrantyEnds
      : template.from === 'pour'
        ? anchors.pouredAt && dayOfInstant(anchors.pouredAt, timeZone)
        : anchors.testOn;
  if (day === null || day === '') return null;
  const meant = addDaysToDay(day, template.days);
  const read = instantAt(template.days < 0 ? workdayBefore(meant, week) : workdayFrom(meant, week), clock, timeZone);
  return read.ok ? read.value.instant : null;
}

/** A usual visit that can still be planned, with its date. */
export type OfferedVisit = { readonly template: VisitTemplate; readonly instant: string };

type PlannedVisit = Pick<Visit, 'kind' | 'instant' | 'doneAt'>;

/**
 * The usual visits to offer for a room: not planned since its last pour, on a day that is not past. A visit before that pour was for an
 * earlier part or lift, and one up to the day of a failed test was for that test.
 * @param planned the room's visits, done ones among them
 */
export function offeredVisits(
  anchors: VisitAnchors,
  { now, planned }: { readonly now: string; readonly planned: readonly PlannedVisit[] },
  place: Parameters<typeof templateAt>[2],
): readonly OfferedVisit[] {
  const { pouredAt, failedAt } = anchors;
  const failedOn = failedAt === null ? '' : dayOfInstant(failedAt, place.timeZone);
  // A visit done early was on that day; one marked done late was on the day planned.
  const isOver = ({ kind, instant, doneAt }: PlannedVisit): boolean =>
    (doneAt ?? instant) <= (pouredAt ?? '') ||
    (kind === 'before-flooring' && dayOfInstant(doneAt !== null && doneAt < instant ? doneAt : instant, place.timeZone) <= failedOn);
  const kinds = new Set(planned.filter((v) => !isOver(v)).map(({ kind }) => kind));
  return VISIT_TEMPLATES.flatMap((template) => {
    const instant = templateAt(template, anchors, place);
    if (instant === null || kinds.has(template.kind) || isPastDay(instant, now, place.timeZone)) return [];
    return [{ template, instant }];
  });
}
