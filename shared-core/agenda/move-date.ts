/** A date on the agenda moved by working days, and the conflicts that follow. Nothing is stored here. */
import { businessCountry } from '../book/country-rules.ts';
import { addDaysToDay } from '../measure/day.ts';
import { clockOfInstant, dayOfInstant, instantAt } from '../measure/moment.ts';
import { workdayFrom } from '../measure/workdays.ts';
import type { JobBundle } from '../standing/job-bundle.ts';
import { dayOfNumber } from '../standing/local-days.ts';
import { type Agenda, agenda } from './agenda.ts';
import type { AgendaEntry, EntryKind } from './agenda-entry.ts';
import { conflicts } from './conflicts.ts';
import { type DateChange, movePour, type PourMove, withDates } from './move-pour.ts';

/** Dates a person sets. All others follow from a pour, a test, or a quote. */
const MOVABLE: ReadonlySet<EntryKind> = new Set(['finish-quote', 'prep-visit', 'pour', 'visit', 'handover']);

/** Whether an entry's date can be moved by hand. Work that is running has its date. */
export const isMovable = (entry: Pick<AgendaEntry, 'kind' | 'isUnderWay'>): boolean => MOVABLE.has(entry.kind) && !entry.isUnderWay;

export type MovedDate = Pick<PourMove, 'jobId' | 'dates' | 'visits' | 'after'> & {
  /** The new moment: an instant, or the start of the day for a whole-day entry. */
  readonly instant: string;
  /** New conflicts, as sentences. */
  readonly conflicts: readonly string[];
};

const FAR = '2200-01-01T00:00:00.000Z';

/** The next working day for an entry, at a moment still to come: one that is late comes to today at the earliest. */
function nextDay(entry: AgendaEntry, whole: Agenda, now: string): string {
  const { business } = whole;
  const week = { days: business.hours.days, country: businessCountry(business) };
  const day = dayOfNumber(entry.day);
  const { allDay, instant, timeZone: zone } = entry;
  const today = dayOfInstant(now, zone);
  const isOver = !allDay && clockOfInstant(instant, zone) <= clockOfInstant(now, zone);
  const first = isOver ? addDaysToDay(today, 1) : today;
  const next = addDaysToDay(day, 1);
  return workdayFrom(next > first ? next : first, week);
}

type Moved = Pick<MovedDate, 'dates' | 'visits' | 'instant'>;

function movedTo(bundle: JobBundle, entry: AgendaEntry, day: string, now: string): Moved | null {
  const zone = bundle.property.timeZone;
  const read = instantAt(day, clockOfInstant(entry.instant, zone), zone);
  const instant = read.ok ? read.value.instant : `${day}T12:00:00.000Z`;
  const dated = (dates: DateChange): Moved => ({ dates, visits: [], instant });
  switch (entry.kind) {
    case 'finish-quote':
      return dated({ quotePromisedOn: day });
    case 'prep-visit':
      return dated({ prepVisitAt: instant });
    case 'handover':
      return dated({ handoverAt: instant });
    case 'visit': {
      const visits = bundle.visits.filter((v) => entry.key.endsWith(`:${v.id}`));
      return { dates: {}, visits: visits.map((v) => ({ ...v, instant, sequence: v.sequence + 1, changedAt: now })), instant };
    }
    default:
      return null;
  }
}

/**
 * Moves an entry to the next working day.
 * @param whole the agenda the entry is on
 * @returns null when the entry follows from something else and cannot be moved
 */
export function moveDate(whole: Agenda, entry: AgendaEntry, now: string): MovedDate | null {
  const { jobId } = entry;
  const bundle = whole.jobs.find((j) => j.bundle.job.id === jobId)?.bundle;
  if (bundle === undefined || !isMovable(entry)) return null;
  const day = nextDay(entry, whole, now);
  const zone = bundle.property.timeZone;
  if (entry.kind === 'pour') {
    const read = instantAt(day, clockOfInstant(entry.instant, zone), zone);
    const move = read.ok ? movePour(whole, jobId, entry.roomIds, read.value.instant, now) : null;
    if (move === null || !read.ok) return null;
    const { dates, visits, after, breaks } = move;
    return { jobId, dates, visits, after, instant: read.value.instant, conflicts: breaks.map((b) => b.sentence) };
  }
  const moved = movedTo(bundle, entry, day, now);
  if (moved === null) return null;
  const { dates, visits, instant } = moved;
  const job = Object.keys(dates).length === 0 ? bundle.job : withDates({ ...bundle.job, changedAt: now }, dates);
  const next: JobBundle = { ...bundle, job, visits: bundle.visits.map((v) => visits.find((m) => m.id === v.id) ?? v) };
  const after = agenda(
    whole.jobs.map((j) => (j.bundle === bundle ? next : j.bundle)),
    whole.business,
    whole,
  );
  const before = new Set(conflicts(whole, now, FAR).map((c) => c.keys.join()));
  const fresh = conflicts(after, now, FAR).filter((c) => !before.has(c.keys.join()) || c.keys.includes(entry.key));
  return { jobId, dates, visits, after, instant, conflicts: fresh.map((c) => c.sentence) };
}

/**
 * Whether an entry is at a moment it was moved to: no longer once the move is undone, or the entry moved again. A pour moved to the moment
 * of another one of its job is one pour with it, of all their rooms.
 */
export function isAt({ entries }: Agenda, moved: Pick<AgendaEntry, 'key' | 'kind' | 'jobId' | 'roomIds' | 'instant'>): boolean {
  const isMoved = ({ key, kind, jobId, roomIds }: AgendaEntry): boolean =>
    moved.kind === 'pour'
      ? kind === 'pour' && jobId === moved.jobId && moved.roomIds.every((id) => roomIds.includes(id))
      : key === moved.key;
  return entries.some((entry) => isMoved(entry) && Date.parse(entry.instant) === Date.parse(moved.instant));
}

/** Conflicts of one job's dates, from now on. */
export function jobConflicts(whole: Agenda, jobId: string, now: string): readonly string[] {
  return conflicts(whole, now, FAR)
    .filter((c) => c.keys.some((key) => key.startsWith(`${jobId}:`)))
    .map((c) => c.sentence);
}
