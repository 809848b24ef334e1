/** Moves a pour: the dates that move with it and the conflicts that follow. Nothing is stored here. */
import type { Visit } from '../book/cure-record.ts';
import type { Job } from '../book/job.ts';
import { addDaysToDay, daysBetween } from '../measure/day.ts';
import { clockOfInstant, dayOfInstant, formatInstant, formatInstantDay, instantAt } from '../measure/moment.ts';
import { DEFAULT_LOCALE } from '../measure/number.ts';
import { roomFloor } from '../pour/placed-floor.ts';
import { type Agenda, agenda } from './agenda.ts';
import type { AgendaEntry } from './agenda-entry.ts';
import { conflicts } from './conflicts.ts';
import { type JobBundle, roomsOf } from '../standing/job-bundle.ts';
import { theRoom } from '../standing/names.ts';
import { owedPromises } from '../standing/room-cure.ts';
import { nextPourAt, roomPour } from '../standing/room-pour.ts';
import { promiseWords } from '../standing/cure-words.ts';

export type MovedEntry = { readonly entry: AgendaEntry; readonly fromAt: string; readonly toAt: string };

/** What moves, after its verb: `the Odells’ hall, 9 am to noon. From Wed, May 13, 9 am to Thu, May 14, 9 am.`; whole days without an hour. */
export function movedWords({ entry, fromAt, toAt }: MovedEntry, locale: string): string {
  const format = entry.allDay ? formatInstantDay : formatInstant;
  const [from, to] = [fromAt, toAt].map((instant) => format(instant, entry.timeZone, 'weekday', locale));
  return `${entry.rest} From ${from} to ${to}.`;
}

export type Break = { readonly instant: string; readonly sentence: string };

/** The dates of a job that a move changes, and no other. */
export type DateChange = Partial<Pick<Job, 'quotePromisedOn' | 'prepVisitAt' | 'handoverAt'>> & {
  /** Rooms that are poured together, at a new time. */
  readonly pour?: { readonly roomIds: readonly string[]; readonly pourAt: string };
};

/** A job with some of its dates changed. All else of it stays. */
export function withDates(job: Job, { pour, ...dates }: DateChange): Job {
  if (pour === undefined) return { ...job, ...dates };
  const { roomIds, pourAt } = pour;
  return { ...job, ...dates, rooms: job.rooms.map((r) => (roomIds.includes(r.roomId) ? { ...r, pourAt } : r)) };
}

export type PourMove = {
  readonly jobId: string;
  /** The changed dates and visits, not stored. */
  readonly dates: DateChange;
  readonly visits: readonly Visit[];
  readonly moved: readonly MovedEntry[];
  /** New conflicts, the earliest first. */
  readonly breaks: readonly Break[];
  /** The agenda as it is once the move is stored. */
  readonly after: Agenda;
};

/** Visits dated from the pour, which move with it. */
const HANGS_ON_POUR: readonly Visit['kind'][] = ['day-after', 'before-flooring', 'thirty-days'];

const isOpenVisit = (v: Visit): boolean => v.deletedAt === null && v.doneAt === null && v.cancelledAt === null;

/** The same local time some days later; an hour later where daylight saving skips that time. */
function shifted(instant: string, days: number, zone: string): string {
  const day = addDaysToDay(dayOfInstant(instant, zone), days);
  const read = instantAt(day, clockOfInstant(instant, zone), zone);
  return read.ok ? read.value.instant : new Date(Date.parse(instant) + days * 86_400_000).toISOString();
}

type Visited = Pick<JobBundle, 'visits' | 'pours' | 'pourEvents' | 'property'>;

/** Visits of the moved rooms. Once floor is placed in a room its visits are dated from that pour, and stay. */
export function movedVisits(job: Visited, roomIds: readonly string[], days: number, now: string): readonly Visit[] {
  if (days === 0) return [];
  const isPlaced = (id: string): boolean => roomFloor(job.pours, job.pourEvents, id).pours.length > 0;
  return job.visits
    .filter((v) => isOpenVisit(v) && HANGS_ON_POUR.includes(v.kind))
    .filter((v) => v.roomIds.some((id) => roomIds.includes(id)) && !v.roomIds.some(isPlaced))
    .map((v) => ({ ...v, instant: shifted(v.instant, days, job.property.timeZone), sequence: v.sequence + 1, changedAt: now }));
}

/** Open visits for work in rooms that leave the job, and in no other: there is nothing left to visit. */
export function visitsWithout({ visits }: Pick<Visited, 'visits'>, roomIds: readonly string[]): readonly Visit[] {
  const isOfWork = ({ kind }: Visit): boolean => kind !== 'own' && kind !== 'callback';
  return visits.filter((v) => isOpenVisit(v) && isOfWork(v) && v.roomIds.length > 0 && v.roomIds.every((id) => roomIds.includes(id)));
}

/** A handover before the floor is open to foot traffic. */
function handoverBreak(after: Agenda, jobId: string, locale: string): Break[] {
  const job = after.jobs.find((j) => j.bundle.job.id === jobId);
  const instant = job?.bundle.job.handoverAt ?? null;
  if (job === undefined || instant === null) return [];
  return job.bundle.rooms.flatMap((room) => {
    const walk = job.cures.get(room.id)?.schedule.milestones.find((m) => m.kind === 'walk-on')?.statedAt ?? null;
    if (walk === null || walk <= instant) return [];
    const zone = job.bundle.property.timeZone;
    return [
      {
        instant,
        sentence: `The handover, ${formatInstant(instant, zone, 'weekday', locale)}, is before ${theRoom(room.name)} is open to foot traffic.`,
      },
    ];
  });
}

function promiseBreaks(after: Agenda, jobId: string, now: string, locale: string): (Break & { readonly id: string })[] {
  const job = after.jobs.find((j) => j.bundle.job.id === jobId);
  if (job === undefined) return [];
  const zone = job.bundle.property.timeZone;
  return job.bundle.rooms.flatMap((room) => {
    const cure = job.cures.get(room.id);
    return (cure === undefined ? [] : owedPromises(cure, now)).flatMap((v) => {
      if (v.state !== 'late') return [];
      const promisedDay = formatInstant(v.promise.promisedFor, zone, 'weekday', locale);
      return [
        {
          id: v.promise.id,
          instant: v.promise.promisedFor,
          sentence: `The date promised for ${theRoom(room.name)}, ${promisedDay}, would be ${promiseWords(v).toLowerCase()}.`,
        },
      ];
    });
  });
}

const SOON = '2200-01-01T00:00:00.000Z';

/**
 * Tries a move. @param whole the current agenda, this job included @param roomIds rooms poured together @param toAt new start of the pour
 * @returns null when the job is not on the agenda or none of the rooms has its next pour planned
 */
export function movePour(whole: Agenda, jobId: string, roomIds: readonly string[], toAt: string, now: string): PourMove | null {
  const before = whole.jobs.find((j) => j.bundle.job.id === jobId);
  if (before === undefined) return null;
  const { bundle } = before;
  const zone = bundle.property.timeZone;
  const [fromAt] = roomsOf(bundle).flatMap((facts) =>
    roomIds.includes(facts.room.id) ? (nextPourAt(facts.jobRoom, roomPour(bundle, facts).last, zone) ?? []) : [],
  );
  if (fromAt === undefined) return null;
  const locale = whole.business.locale === '' ? DEFAULT_LOCALE : whole.business.locale;
  const days = daysBetween(dayOfInstant(fromAt, zone), dayOfInstant(toAt, zone));
  const visits = movedVisits(bundle, roomIds, days, now);
  const dates: DateChange = { pour: { roomIds, pourAt: toAt } };
  const job = withDates({ ...bundle.job, changedAt: now }, dates);
  const next: JobBundle = { ...bundle, job, visits: bundle.visits.map((v) => visits.find((m) => m.id === v.id) ?? v) };
  const bundles = whole.jobs.map((j) => (j.bundle === bundle ? next : j.bundle));
  const after = agenda(bundles, whole.business, whole);
  const entriesBefore = new Map(before.entries.map((e) => [e.key, e]));
  const nextJob = after.jobs.find((j) => j.bundle === next);
  const moved = (nextJob?.entries ?? []).flatMap((entry) => {
    const old = entriesBefore.get(entry.key);
    return old === undefined || old.instant === entry.instant ? [] : [{ entry, fromAt: old.instant, toAt: entry.instant }];
  });
  const conflictsBefore = new Set(conflicts(whole, now, SOON).map((c) => c.keys.join()));
  const lateBefore = new Set(promiseBreaks(whole, jobId, now, locale).map((b) => b.id));
  const handoverBefore = new Set(handoverBreak(whole, jobId, locale).map((b) => b.sentence));
  const breaks: Break[] = [
    ...conflicts(after, now, SOON).filter((c) => !conflictsBefore.has(c.keys.join())),
    ...promiseBreaks(after, jobId, now, locale).filter((b) => !lateBefore.has(b.id)),
    ...handoverBreak(after, jobId, locale).filter((b) => !handoverBefore.has(b.sentence)),
  ]
    .map(({ instant, sentence }) => ({ instant, sentence }))
    .sort((a, b) => Date.parse(a.instant) - Date.parse(b.instant));
  return { jobId, dates, visits, moved, breaks, after };
}
