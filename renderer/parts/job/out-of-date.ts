/** Which saved documents of a job are out of date. */
import type { MadeDocument } from '../../../shared-core/book/papers.ts';
import { changedSince } from '../../../shared-core/documents/changed-since.ts';
import type { DocumentEntry } from '../../../shared-core/documents/document-list.ts';
import type { PaperPhoto } from '../../../shared-core/documents/paper-photos.ts';
import type { JobReading } from '../../../shared-core/standing/read-job.ts';
import type { Stage } from '../../../shared-core/standing/stage.ts';
import { calculatedFor } from '../calculated-for.ts';

export type OutOfDate = { readonly entry: DocumentEntry; readonly document: MadeDocument; readonly changes: readonly string[] };

/** Changes told at a saved document; how many more there are is said. */
const MOST_CHANGES = 3;

/** What changed since a document was saved, as it reads beside it. */
export const changedWords = (changes: readonly string[]): string => {
  const sentences = changes.slice(0, MOST_CHANGES).map((change) => change.replace(/[^.!?]$/, '$&.'));
  const more = changes.length - sentences.length;
  return ['Out of date.', ...sentences, ...(more === 0 ? [] : [`${more} more ${more === 1 ? 'change' : 'changes'}.`])].join(' ');
};

/** What a saved document states differently by now, kept while no record of the job changes; nothing while the photos load. */
export function changesOf(reading: JobReading, document: MadeDocument, photos: readonly PaperPhoto[] | undefined): readonly string[] {
  if (photos === undefined) return [];
  const photosKey = photos.map(({ photo }) => `${photo.id}/${photo.caption}`).join(' ');
  const name = `changed since ${document.id} ${reading.estimateKey} ${photosKey}`;
  return calculatedFor(reading.whole, name, () => changedSince(reading, document, photos));
}

/** Whether a document was for a pour that is over: the list to shop by, the letter before the first day. */
const isServed = ({ offeredAt }: DocumentEntry, { standing }: JobReading): boolean =>
  standing.rooms.every(({ poured }) => poured === 'whole') && !offeredAt.some((stage) => AFTER_PREP.has(stage));
const AFTER_PREP: ReadonlySet<Stage> = new Set(['pour', 'cure', 'handover']);

/**
 * Of each of these kinds the newest saved document, where its content changed since. One given out at a handover since stays as it is,
 * and so does one whose pour is over.
 */
export function outOfDate(
  reading: JobReading,
  photos: readonly PaperPhoto[] | undefined,
  entries: readonly DocumentEntry[],
): readonly OutOfDate[] {
  const { documents, job } = reading.whole;
  const isGiven = ({ reader }: DocumentEntry, { madeAt }: MadeDocument): boolean =>
    reader !== 'file' && job.rooms.every(({ handedOverAt }) => handedOverAt !== null && handedOverAt >= madeAt);
  return entries.flatMap((entry) => {
    const document = documents
      .filter(({ kind, deletedAt }) => kind === entry.kind && deletedAt === null)
      .reduce<MadeDocument | null>((last, one) => (last === null || one.revision > last.revision ? one : last), null);
    if (document === null || isGiven(entry, document) || isServed(entry, reading)) return [];
    const changes = changesOf(reading, document, photos);
    return changes.length === 0 ? [] : [{ entry, document, changes }];
  });
}
