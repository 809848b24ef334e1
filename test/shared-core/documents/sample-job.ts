import type { WholeJob } from '../../../shared-core/book/whole-job.ts';
import { wholeJobsOf } from '../../../shared-core/sample/whole-jobs.ts';
import { sampleAt } from '../../sample-at.ts';

/** The sample's job of a number, at an instant of 2026. */
export function sampleJob(number: string, now: string): WholeJob {
  const found = wholeJobsOf(sampleAt(now)).find((whole) => whole.job.number === number);
  if (found === undefined) throw new Error(`the sample has no job ${number}`);
  return found;
}
