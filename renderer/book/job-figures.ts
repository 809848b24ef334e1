/** What the estimates of jobs say, kept beside them: a list of jobs estimates only those that changed since it was last shown. */
import { figuresOf, type JobFigures } from '../../shared-core/standing/job-figures.ts';
import { estimateDayOf, figuresStampOf } from '../../shared-core/standing/read-job.ts';
import type { WholeJob } from '../../shared-core/book/whole-job.ts';
import { estimateOf } from '../workers/job-estimates.ts';
import { book, type FiguresRow } from './database.ts';

/** Names the arithmetic this program was built with. */
declare const __ARITHMETIC__: string;

/** Work at a stretch before the screen has its turn. */
const STRETCH_MS = 12;
const rest = (): Promise<void> => new Promise((resolve) => setTimeout(resolve));

/** What the figures of a job hang on: while it is the same, so are they. */
export function figuresStamp(whole: WholeJob, now: string): string {
  return `${__ARITHMETIC__} ${figuresStampOf(whole, estimateDayOf(whole, now))}`;
}

const kept = async (jobIds: readonly string[]): Promise<Map<string, FiguresRow>> => {
  const rows = await book().figures.bulkGet([...jobIds]);
  return new Map(rows.filter((row) => row !== undefined).map((row) => [row.jobId, row]));
};

/** Keeps what was worked out; a book that takes no more is none the worse for it. */
const storeFigures = async (rows: readonly FiguresRow[]): Promise<void> => {
  try {
    await book().figures.bulkPut([...rows]);
  } catch {
    // They are worked out again the next time.
  }
};

/**
 * The figures of these jobs: those kept where nothing changed, the others worked out with rests between.
 * @param isWanted asked between two jobs
 * @returns null when they were not wanted any more
 */
export async function readFigures(
  wholes: readonly WholeJob[],
  now: string,
  isWanted: () => boolean,
): Promise<ReadonlyMap<string, JobFigures> | null> {
  const before = await kept(wholes.map((whole) => whole.job.id));
  const figures = new Map<string, JobFigures>();
  const rows: FiguresRow[] = [];
  let since = performance.now();
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
    if (performance.now() - since < STRETCH_MS) continue;
    await rest();
    since = performance.now();
    if (!isWanted()) break;
  }
  if (rows.length > 0) await storeFigures(rows);
  return isWanted() ? figures : null;
}

/** Forgets the figures of all jobs but these: those of jobs no longer open are not shown. */
export async function forgetFiguresBut(open: readonly WholeJob[]): Promise<void> {
  const ids = new Set(open.map((whole) => whole.job.id));
  try {
    const gone = (await book().figures.toCollection().primaryKeys()).filter((id) => !ids.has(id));
    if (gone.length > 0) await book().figures.bulkDelete(gone);
  } catch {
    // They take a little room until the next time.
  }
}
