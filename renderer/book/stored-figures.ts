/** Caches the figures of job estimates, so that a list estimates only the jobs that changed. */
import { figuresOf, type JobFigures } from '../../shared-core/standing/job-figures.ts';
import { estimateDayOf, figuresStampOf } from '../../shared-core/standing/read-job.ts';
import type { WholeJob } from '../../shared-core/book/whole-job.ts';
import { estimateOf } from '../workers/job-estimates.ts';
import { book, type FiguresRow } from './database.ts';

/** Identifies the arithmetic of this build. */
declare const __ARITHMETIC__: string;

/** Longest work between two pauses for the screens, ms. */
const STRETCH_MS = 12;
/** Between two jobs, so that the screens get their turn. A timer of 0 ms waits 4 ms after a few in a row. */
const rest = (): Promise<void> =>
  new Promise((resolve) => {
    const { port1, port2 } = new MessageChannel();
    port1.onmessage = () => {
      port1.close();
      resolve();
    };
    port2.postMessage(null);
  });

/** Rests where the work since the last rest was long enough to hold up a key. */
export function paced(): () => Promise<void> {
  let since = performance.now();
  return async () => {
    if (performance.now() - since < STRETCH_MS) return;
    await rest();
    since = performance.now();
  };
}

/** Everything the figures of a job depend on: if it is unchanged, so are they. */
export function figuresStamp(whole: WholeJob, now: string): string {
  return `${__ARITHMETIC__} ${figuresStampOf(whole, estimateDayOf(whole, now))}`;
}

const storedFigures = async (jobIds: readonly string[]): Promise<Map<string, FiguresRow>> => {
  const rows = await book().figures.bulkGet([...jobIds]);
  return new Map(rows.filter((row) => row !== undefined).map((row) => [row.jobId, row]));
};

/** Stores the figures. A failure is ignored, because they can be calculated again. */
const storeFigures = async (rows: readonly FiguresRow[]): Promise<void> => {
  try {
    await book().figures.bulkPut([...rows]);
  } catch {
    // Calculated again when next needed.
  }
};

/**
 * The figures of these jobs: cached where nothing changed, the rest calculated with pauses.
 * @param isWanted called between two jobs
 * @returns null when they are no longer wanted
 */
export async function readFigures(
  wholes: readonly WholeJob[],
  now: string,
  isWanted: () => boolean,
): Promise<ReadonlyMap<string, JobFigures> | null> {
  const before = await storedFigures(wholes.map((whole) => whole.job.id));
  const figures = new Map<string, JobFigures>();
  const rows: FiguresRow[] = [];
  const pace = paced();
  for (const whole of wholes) {
    const [jobId, stamp] = [whole.job.id, figuresStamp(whole, now)];
    const known = before.get(jobId);
    if (known?.stamp === stamp) {
      figures.set(jobId, known.figures);
      continue;
    }
    const row: FiguresRow = { jobId, stamp, figures: figuresOf((await estimateOf(whole, now)).estimate) };
    rows.push(row);
    figures.set(jobId, row.figures);
    await pace();
    if (!isWanted()) break;
  }
  if (rows.length > 0) await storeFigures(rows);
  return isWanted() ? figures : null;
}

/** Deletes the figures of all other jobs: lists show only open ones. */
export async function forgetFiguresBut(open: readonly WholeJob[]): Promise<void> {
  const ids = new Set(open.map((whole) => whole.job.id));
  try {
    const outdated = (await book().figures.toCollection().primaryKeys()).filter((id) => !ids.has(id));
    if (outdated.length > 0) await book().figures.bulkDelete(outdated);
  } catch {
    // A failure only leaves unused rows until the next time.
  }
}
