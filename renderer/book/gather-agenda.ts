/** Reads the agenda of all jobs and leads for reminders and calendar files, which run in the background. */
import { type Agenda, agenda } from '../../shared-core/agenda/agenda.ts';
import { glanceJob, type JobGlance } from '../../shared-core/standing/read-job.ts';
import { book } from './database.ts';
import { nowInstant } from './command.ts';
import { readOpenLeads } from './use-leads.ts';
import { readBusiness } from './use-records.ts';
import { paced, readFigures } from './stored-figures.ts';
import { readJobsAhead } from './use-whole-job.ts';

export type GatheredAgenda = {
  readonly agenda: Agenda;
  /** By job id. Passed to the next reading, so that only changed jobs are calculated again. */
  readonly readings: ReadonlyMap<string, JobGlance>;
  /** Job numbers by id, archived jobs included. */
  readonly numbers: ReadonlyMap<string, string>;
  /** Ids of archived jobs. */
  readonly archive: ReadonlySet<string>;
  /** The company's name; empty until it is entered. */
  readonly name: string;
};

/** Job numbers from their index, without reading the jobs. */
async function readNumbers(): Promise<ReadonlyMap<string, string>> {
  const byNumber = book().rowsOf('jobs').orderBy('number');
  const [numbers, ids] = await Promise.all([byNumber.keys(), byNumber.primaryKeys()]);
  return new Map(ids.flatMap((id, i) => (typeof numbers[i] === 'string' ? [[id, numbers[i]]] : [])));
}

/**
 * Reads the jobs with dates ahead, as Today does. The jobs of past years are not read.
 * @param before the last result; null the first time
 * @returns null while there is no company record, or where a backup was opened or closed meanwhile
 */
export async function gatherAgenda(before: GatheredAgenda | null): Promise<GatheredAgenda | null> {
  const db = book();
  const business = await readBusiness();
  if (business === undefined) return null;
  const wholes = await readJobsAhead();
  const figures = await readFigures(wholes, nowInstant(), () => true);
  const readings = new Map<string, JobGlance>();
  const pace = paced();
  for (const whole of wholes) {
    const { id } = whole.job;
    readings.set(id, glanceJob(whole, figures?.get(id) ?? [], nowInstant(), before?.readings.get(id) ?? null));
    await pace();
  }
  const bundles = [...readings.values()].map((reading) => reading.bundle);
  const [numbers, leads] = [await readNumbers(), await readOpenLeads()];
  const archive = new Set(await db.rowsOf('jobs').where('deletedAt').above('').primaryKeys());
  if (book() !== db) return null;
  return { agenda: agenda(bundles, business, before?.agenda ?? null, leads), readings, numbers, archive, name: business.name };
}
