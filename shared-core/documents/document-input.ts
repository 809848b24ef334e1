/** What every document of a job is built from. */
import type { JobReading } from '../standing/read-job.ts';
import type { PaperPhoto } from './paper-photos.ts';

export type DocumentInput = {
  readonly reading: JobReading;
  /** The job's photos, oldest first. */
  readonly photos: readonly PaperPhoto[];
  readonly now: string;
  readonly revision: number;
  /** What changed since the revision before. */
  readonly changes: readonly string[];
};
