/** The agenda of the whole book read once, for what runs behind the screens: reminders and calendar files. */
import { type Agenda, agenda } from '../../shared-core/agenda/agenda.ts';
import { type JobReading, readJob } from '../../shared-core/standing/read-job.ts';
import { book } from './database.ts';
import { readable } from './integrity.ts';
import { nowInstant } from './moment.ts';
import { readWholeJob } from './use-whole-job.ts';

export type GatheredAgenda = {
  readonly agenda: Agenda;
  /** By job id: given back at the next reading, so that only what changed is worked out again. */
  readonly readings: ReadonlyMap<string, JobReading>;
  /** The number a job goes by, by its id; of every job, also those put away. */
  readonly numbers: ReadonlyMap<string, string>;
  /** The ids of jobs put away. */
  readonly archive: ReadonlySet<string>;
  /** What the business is called; empty before it is named. */
  readonly name: string;
};

/** What a finished job still dries toward lies within so long of the last word on it. */
const LATELY_MS = 400 * 86_400_000;
/** A pause between two jobs: the screen is never held up by this. */
const breathe = (): Promise<void> => new Promise((resolve) => setTimeout(resolve, 0));

/**
 * Reads every job that is open, or finished with visits still to make.
 * @param before the same as it was gathered before; null the first time
 * @returns null while the book has no business record yet
 */
export async function gatherAgenda(before: GatheredAgenda | null): Promise<GatheredAgenda | null> {
  const it = book();
  const business = await it.rowsOf('business').get('business');
  if (business === undefined) return null;
  const all = readable('jobs', await it.rowsOf('jobs').toArray());
  const toMake = await it
    .rowsOf('visits')
    .filter((visit) => visit.doneAt === null && visit.cancelledAt === null && visit.deletedAt === null)
    .toArray();
  const waiting = new Set(toMake.map((visit) => visit.jobId));
  const readings = new Map<string, JobReading>();
  for (const job of all) {
    if (job.deletedAt !== null || (job.state !== 'open' && job.state !== 'finished')) continue;
    // Ten years of finished jobs with nothing still to come are not worked out for a calendar of what comes.
    if (job.state === 'finished' && !waiting.has(job.id) && Date.parse(nowInstant()) - Date.parse(job.changedAt) > LATELY_MS) continue;
    const whole = await readWholeJob(job.id);
    if (whole === null) continue;
    readings.set(job.id, readJob(whole, nowInstant(), before?.readings.get(job.id) ?? null));
    await breathe();
  }
  const bundles = [...readings.values()].map((reading) => reading.bundle);
  return {
    agenda: agenda(bundles, business, before?.agenda ?? null),
    readings,
    numbers: new Map(all.map((job) => [job.id, job.number])),
    archive: new Set(all.flatMap((job) => (job.deletedAt === null ? [] : [job.id]))),
    name: business.name,
  };
}
