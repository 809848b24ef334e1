/** Which saved documents of a job are out of date. */
import type { MadeDocument } from '../../../shared-core/book/papers.ts';
import { changedSince } from '../../../shared-core/documents/changed-since.ts';
import { type DocumentEntry, DOCUMENTS } from '../../../shared-core/documents/document-list.ts';
import type { PaperPhoto } from '../../../shared-core/documents/paper-photos.ts';
import type { JobReading } from '../../../shared-core/standing/read-job.ts';
import { calculatedFor } from '../calculated-for.ts';

export type OutOfDate = { readonly entry: DocumentEntry; readonly document: MadeDocument; readonly changes: readonly string[] };

/** The newest saved document of each kind whose content changed since; none while the photos load. */
export function outOfDate(reading: JobReading, photos: readonly PaperPhoto[] | undefined): readonly OutOfDate[] {
  if (photos === undefined) return [];
  const photosKey = photos.map(({ photo }) => `${photo.id}/${photo.caption}`).join(' ');
  return DOCUMENTS.flatMap((entry) => {
    const document = reading.whole.documents
      .filter(({ kind, deletedAt }) => kind === entry.kind && deletedAt === null)
      .reduce<MadeDocument | null>((last, one) => (last === null || one.revision > last.revision ? one : last), null);
    if (document === null) return [];
    const changes = calculatedFor(reading, `changed since ${document.id} ${photosKey}`, () => changedSince(reading, document, photos));
    return changes.length === 0 ? [] : [{ entry, document, changes }];
  });
}
