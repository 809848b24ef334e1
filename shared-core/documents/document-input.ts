/** What every document of a job is built from. */
import type { DocumentKind, MadeDocument } from '../book/papers.ts';
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

/** One above the highest number ever used for this kind in the job. */
export function nextRevision(documents: readonly Pick<MadeDocument, 'kind' | 'revision'>[], kind: DocumentKind): number {
  return Math.max(0, ...documents.filter((d) => d.kind === kind).map((d) => d.revision)) + 1;
}
