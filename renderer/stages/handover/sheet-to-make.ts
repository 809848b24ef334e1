/** The present handover sheet compared with the last stored one. */
import type { JobReading } from '../../../shared-core/standing/read-job.ts';
import type { MadeDocument } from '../../../shared-core/book/papers.ts';
import { nextRevision } from '../../../shared-core/documents/document-input.ts';
import { treeChanges } from '../../../shared-core/documents/handover-changes.ts';
import { readTree } from '../../../shared-core/documents/stored-tree.ts';
import { handoverSheet } from '../../../shared-core/documents/handover-sheet.ts';
import { FLAT_CAPTION, PLACED_CAPTION, TESTED_CAPTION, USED_CAPTION } from '../../../shared-core/documents/handover-tables.ts';
import type { DocumentTree } from '../../../shared-core/documents/tree.ts';

export type SheetToMake = {
  readonly revision: number;
  /** Without its drawings. */
  readonly tree: DocumentTree;
  /** Changes since the last one; empty for the first, and when nothing changed. */
  readonly changes: readonly string[];
  /** The last one; null before there is one. */
  readonly last: MadeDocument | null;
};

const COMPARED = [USED_CAPTION, TESTED_CAPTION, PLACED_CAPTION, FLAT_CAPTION];

/** Handover sheets of a job, oldest first. */
export function sheetsOf({ whole }: JobReading): MadeDocument[] {
  return whole.documents.filter((d) => d.kind === 'handover' && d.deletedAt === null).sort((a, b) => a.revision - b.revision);
}

/** The present sheet. Its number is one above the highest used, so that no number repeats. */
export function sheetToMake(reading: JobReading, now: string): SheetToMake {
  const last = sheetsOf(reading).at(-1) ?? null;
  const revision = nextRevision(reading.whole, 'handover');
  const before = last === null ? null : readTree(last.content);
  const sheetAt = (instant: string, changes: readonly string[]): DocumentTree =>
    handoverSheet(reading, { now: instant, revision, changes, isDrawn: false });
  // Compared as of the day the last one was made: a date that arrives as it was stated is no change.
  const changes = before === null ? [] : treeChanges(before, sheetAt(before.madeAt, []), COMPARED);
  return { revision, changes, last, tree: sheetAt(now, changes) };
}
