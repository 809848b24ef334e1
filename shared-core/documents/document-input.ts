/** What every document of a job is built from. */
import type { DocumentKind } from '../book/papers.ts';
import type { WholeJob } from '../book/whole-job.ts';
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
  /** Whether it has its drawings: lettering them is nine tenths of the work, and a screen shows them elsewhere. */
  readonly isDrawn?: boolean;
};

/** What was numbered in a job. */
export type Numbered = {
  readonly documents: readonly Pick<WholeJob['documents'][number], 'kind' | 'revision'>[];
  readonly unreadNumbers?: WholeJob['unreadNumbers'];
};

/** One above the highest number ever used for this kind in the job, by a record that can be read or not. */
export function nextRevision({ documents, unreadNumbers = [] }: Numbered, kind: DocumentKind): number {
  return Math.max(0, ...[...documents, ...unreadNumbers].filter((d) => d.kind === kind).map((d) => d.revision)) + 1;
}
