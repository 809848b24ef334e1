/** Reads the agenda of all jobs for reminders and calendar files, which run in the background. */
import { type Agenda, agenda } from '../../shared-core/agenda/agenda.ts';
import { type JobReading, readJob } from '../../shared-core/standing/read-job.ts';
import { book } from './database.ts';
import { readable } from './integrity.ts';
import { nowInstant } from './command.ts';
import { readWholeJob } from './use-whole-job.ts';

export type GatheredAgenda = {
  readonly agenda: Agenda;
  /** By job id. Passed to the next reading, so that only changed jobs are calculated again. */
  readonly readings: ReadonlyMap<string, JobReading>;
  /** Job numbers by id, archived jobs included. */
  readonly numbers: ReadonlyMap<string, string>;
  /** Ids of archived jobs. */
  readonly archive: ReadonlySet<string>;
  /** The company's name; empty until it is entered. */
  readonly name: string;
};

/** A finished job whose record changed within this time may still be drying, ms. */
const LATELY_MS = 400 * 86_400_000;
/** Pauses between two jobs to keep the screens responsive. */
const breathe = (): Promise<void> => new Promise((resolve) => setTimeout(resolve, 0));

/**
 * Reads every job that is open, or finished with visits still due.
 * @param before the last result; null the first time
 * @returns null while there is no company record
 */
export async function gatherAgenda(before: GatheredAgenda | null): Promise<GatheredAgenda | null> {
  const db = book();
  const business = await db.rowsOf('business').get('business');
  if (business === undefined) return null;
  const all = readable('jobs', await db.rowsOf('jobs').toArray());
  const toMake = await db
    .rowsOf('visits')
    .filter((visit) => visit.doneAt === null && visit.cancelledAt === null && visit.deletedAt === null)
    .toArray();
  const waiting = new Set(toMake.map((visit) => visit.jobId));
  const readings = new Map<string, JobReading>();
  for (const job of all) {
    if (job.deletedAt !== null || (job.state !== 'open' && job.state !== 'finished')) continue;
    // Skips old finished jobs without a visit, because nothing of theirs is due.
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
