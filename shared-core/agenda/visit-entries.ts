/** Return visits, and the templates they start from. */
import type { Visit } from '../book/cure-record.ts';
import { addDaysToDay } from '../measure/day.ts';
import { dayOfInstant, instantAt } from '../measure/moment.ts';
import type { AgendaEntry } from './agenda-entry.ts';
import type { EntryMaker } from './entry-maker.ts';
import { customerWords } from '../standing/names.ts';
import { minutesLater, timeWords } from '../standing/time-words.ts';

const VERB: Readonly<Record<Visit['kind'], string>> = {
  prep: 'Prepare',
  'day-after': 'Look at',
  'before-flooring': 'Look at',
  'thirty-days': 'Return to',
  'defects-end': 'Inspect',
  callback: 'Return to',
  own: 'Visit',
};

const REASON: Readonly<Record<Visit['kind'], string>> = {
  prep: '',
  'day-after': ' the day after the pour',
  'before-flooring': ' before it is covered',
  'thirty-days': ' thirty days on',
  'defects-end': ' before the defects period ends',
  callback: '',
  own: '',
};

/** An entry for each visit that is still to be made. */
export function visitEntries(make: EntryMaker): readonly AgendaEntry[] {
  return make.bundle.visits
    .filter((v) => v.deletedAt === null && v.cancelledAt === null && v.doneAt === null)
    .map((v) => {
      const rooms = make.rooms.filter((r) => v.roomIds.includes(r.room.id));
      const what = rooms.length > 0 ? make.theRooms(rooms) : customerWords(make.bundle.customer.name);
      const time = timeWords(v.at, make.zone, make.locale);
      const titled = v.kind === 'callback' || v.kind === 'own';
      const own = {
        kind: 'visit' as const,
        name: v.id,
        roomIds: rooms.map((r) => r.room.id),
        verb: VERB[v.kind],
        rest: titled ? `${what} at ${time}: ${v.title}.` : `${what}${REASON[v.kind]}, at ${time}.`,
        toDo: true,
        onSite: true,
        stage: v.kind === 'prep' ? ('prep' as const) : ('handover' as const),
      };
      return make.timed(own, v.at, minutesLater(v.at, v.minutes));
    });
}

export type VisitTemplate = {
  readonly kind: Exclude<Visit['kind'], 'callback' | 'own' | 'prep'>;
  readonly title: string;
  readonly minutes: number;
  /** When, counted from what. Common practice. */
  readonly from: 'pour' | 'cover' | 'defects';
  readonly days: number;
};

/** The usual return visits. Own ones stand beside them. */
export const VISIT_TEMPLATES: readonly VisitTemplate[] = [
  { kind: 'day-after', title: 'Look at the new floor', minutes: 30, from: 'pour', days: 1 },
  { kind: 'before-flooring', title: 'Test before covering', minutes: 45, from: 'cover', days: 0 },
  { kind: 'thirty-days', title: 'Thirty days on', minutes: 30, from: 'pour', days: 30 },
  { kind: 'defects-end', title: 'End of the defects period', minutes: 45, from: 'defects', days: -14 },
];

/** What templates count from; null where it is not known yet. */
export type VisitAnchors = { readonly pouredAt: string | null; readonly coverAt: string | null; readonly defectsUntil: string | null };

/**
 * When a template's visit falls: so many days on, at the hour given, by the wall's clock of the property.
 * @param clock the time of day to come at, `09:00`
 * @returns null while what it counts from is not known
 */
export function templateAt(template: VisitTemplate, anchors: VisitAnchors, clock: string, timeZone: string): string | null {
  const day =
    template.from === 'defects'
      ? anchors.defectsUntil
      : template.from === 'pour'
        ? anchors.pouredAt && dayOfInstant(anchors.pouredAt, timeZone)
        : anchors.coverAt && dayOfInstant(anchors.coverAt, timeZone);
  if (day === null || day === '') return null;
  const at = instantAt(addDaysToDay(day, template.days), clock, timeZone);
  return at.ok ? at.value.at : null;
}
