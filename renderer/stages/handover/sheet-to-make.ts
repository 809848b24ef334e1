/** The handover sheet as it would be made now, beside the last one made. */
import type { JobReading } from '../../../shared-core/standing/read-job.ts';
import type { MadeDocument } from '../../../shared-core/book/papers.ts';
import { treeChanges } from '../../../shared-core/documents/handover-changes.ts';
import { readTree } from '../../../shared-core/documents/stored-tree.ts';
import { handoverSheet } from '../../../shared-core/documents/handover-sheet.ts';
import { FLAT_CAPTION, PLACED_CAPTION, TESTED_CAPTION, USED_CAPTION } from '../../../shared-core/documents/handover-tables.ts';
import type { DocumentTree } from '../../../shared-core/documents/tree.ts';

export type SheetToMake = {
  readonly revision: number;
  readonly tree: DocumentTree;
  /** Since the sheet before; empty for the first, and while nothing changed. */
  readonly changes: readonly string[];
  /** The last one made; null before there is one. */
  readonly last: MadeDocument | null;
};

const COMPARED = [USED_CAPTION, TESTED_CAPTION, PLACED_CAPTION, FLAT_CAPTION];

/** Sheets of a job, the first first. */
export function sheetsOf({ whole }: JobReading): MadeDocument[] {
  return whole.documents.filter((d) => d.kind === 'handover' && d.deletedAt === null).sort((a, b) => a.revision - b.revision);
}

/** What would be made now. Its number is one above the highest given out, so that no number is given twice. */
export function sheetToMake(reading: JobReading, now: string): SheetToMake {
  const sheets = reading.whole.documents.filter((d) => d.kind === 'handover');
  const last = sheetsOf(reading).at(-1) ?? null;
  const revision = Math.max(0, ...sheets.map((d) => d.revision)) + 1;
  const before = last === null ? null : readTree(last.content);
  const plain = handoverSheet(reading, { now, revision, changes: [] });
  const changes = before === null ? [] : treeChanges(before, plain, COMPARED);
  return { revision, changes, last, tree: changes.length === 0 ? plain : handoverSheet(reading, { now, revision, changes }) };
}
