/** What a saved document states differently from what it would state today. */
import type { MadeDocument } from '../book/papers.ts';
import type { UnitSystem } from '../measure/unit-system.ts';
import { type JobReading, readEstimated } from '../standing/read-job.ts';
import { DOCUMENTS } from './document-list.ts';
import type { PaperPhoto } from './paper-photos.ts';
import { readTree } from './stored-tree.ts';
import { treeChanges } from './tree-changes.ts';

/**
 * The job with what is known now, read as of the moment a document was made: a date that arrives as it was stated is no change. Neither is
 * what the document itself brought: its own place on record, the dates it promised, and the handover it was signed for. The language and
 * the units it is written in are no change either.
 */
function whenMade(reading: JobReading, { id, madeAt, kind }: MadeDocument, locale: string, units: UnitSystem): JobReading {
  const { whole } = reading;
  const rooms = whole.job.rooms.map((room) =>
    kind === 'job-record' || room.handedOverAt === null || room.handedOverAt <= madeAt
      ? room
      : { ...room, handedOverAt: null, handedOverTo: '' },
  );
  const then = {
    ...whole,
    business: { ...whole.business, locale, units },
    job: { ...whole.job, rooms },
    promises: whole.promises.filter(({ documentId }) => documentId !== id),
    documents: whole.documents.filter((one) => one.id !== id),
  };
  return readEstimated(then, madeAt, reading);
}

/**
 * One sentence for each thing that a saved document of a job states differently by now; empty while it is up to date, and for one that
 * is saved with a choice or was stored by another version. The document itself stays as it was issued.
 * @param photos the job's, for their captions; their pictures are not read
 */
export function changedSince(reading: JobReading, document: MadeDocument, photos: readonly PaperPhoto[]): string[] {
  const entry = DOCUMENTS.find(({ kind }) => kind === document.kind);
  const before = readTree(document.content);
  if (entry === undefined || before === null) return [];
  const { madeAt, revision } = document;
  const changesIn = (units: UnitSystem): string[] => {
    const then = whenMade(reading, document, before.language, units);
    const missing = entry.missing(then);
    if (missing !== null) return [missing];
    return treeChanges(before, entry.build({ reading: then, photos, now: madeAt, revision, changes: [], isDrawn: false }));
  };
  // A document does not store its units: it was written in those with fewer changes.
  const { units } = reading.whole.business;
  const changes = changesIn(units);
  const others = changes.length === 0 ? [] : changesIn(units === 'us' ? 'metric' : 'us');
  return others.length < changes.length ? others : changes;
}
