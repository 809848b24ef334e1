/** The present handover sheet compared with the last stored one. */
import type { JobReading } from '../../../shared-core/standing/read-job.ts';
import type { MadeDocument } from '../../../shared-core/book/papers.ts';
import { nextRevision } from '../../../shared-core/documents/document-input.ts';
import type { PaperPhoto } from '../../../shared-core/documents/paper-photos.ts';
import { handoverSheet } from '../../../shared-core/documents/handover-sheet.ts';
import type { DocumentTree } from '../../../shared-core/documents/tree.ts';
import { calculatedFor } from '../../parts/calculated-for.ts';
import { changesOf } from '../../parts/job/out-of-date.ts';

export type SheetToMake = {
  readonly revision: number;
  /** Without its drawings. */
  readonly tree: DocumentTree;
  /** Changes since the last one; empty for the first, and when nothing changed. */
  readonly changes: readonly string[];
  /** The last one; null before there is one. */
  readonly last: MadeDocument | null;
};

/** Handover sheets of a job, oldest first. */
export function sheetsOf({ whole }: JobReading): MadeDocument[] {
  return whole.documents.filter((d) => d.kind === 'handover' && d.deletedAt === null).sort((a, b) => a.revision - b.revision);
}

/**
 * The present sheet. Its number is one above the highest used, so that no number repeats.
 * @param photos the job's; undefined while they load, and nothing is compared
 */
export function sheetToMake(reading: JobReading, now: string, photos: readonly PaperPhoto[] | undefined): SheetToMake {
  const last = sheetsOf(reading).at(-1) ?? null;
  const revision = nextRevision(reading.whole, 'handover');
  const changes = last === null ? [] : changesOf(reading, last, photos);
  const tree = calculatedFor(reading, `sheet at ${now} ${changes.join(' ')}`, () =>
    handoverSheet(reading, { now, revision, changes, isDrawn: false }),
  );
  return { revision, changes, last, tree };
}
