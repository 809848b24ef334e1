/** Documents of a job, stored with their content so that they can be printed again without calculating. */
import type { DocumentKind, MadeDocument, Sent, Signature, Photo } from '../../shared-core/book/papers.ts';
import { pictureName } from '../../shared-core/book/backup.ts';
import { nextRevision } from '../../shared-core/documents/document-input.ts';
import type { DocumentEntry } from '../../shared-core/documents/document-list.ts';
import { type PaperPhoto, printedPhotos } from '../../shared-core/documents/paper-photos.ts';
import { datedAfter } from '../../shared-core/documents/dated-after.ts';
import { photoNames, readTree, storedTree, withPhotos } from '../../shared-core/documents/stored-tree.ts';
import type { DocumentTree } from '../../shared-core/documents/tree.ts';
import { base64OfBytes } from '../desk/base64.ts';
import { inkPdf, savePdf, type InkedPdf } from '../desk/save-document.ts';
import { type JobReading, readJob } from '../../shared-core/standing/read-job.ts';
import { nowInstant, attempt, done, type Outcome, refused, stamps } from './command.ts';
import { readPicture } from './pictures.ts';
import { readWholeJob } from './use-whole-job.ts';
import { type Put, write } from './write.ts';
import { book } from './database.ts';

/** A document to store, with its PDF's hash and the program version. */
type NewDocument = {
  readonly jobId: string;
  readonly kind: DocumentKind;
  readonly revision: number;
  readonly tree: DocumentTree;
  readonly sha256: string | null;
  readonly programVersion: string;
  readonly changes?: readonly string[];
  readonly quoteId?: string | null;
  readonly entryId?: string | null;
  readonly photos?: readonly PaperPhoto[];
  readonly signatures?: readonly Signature[];
};

/** Maximum length of a change in the record; the document has it in full. */
const MAX_CHANGE = 200;
const MAX_CHANGES = 60;

export function documentRow(of: NewDocument, now: string): MadeDocument {
  const names = new Map(
    (of.photos ?? []).flatMap(({ photo, picture }) => {
      const name = pictureName(photo);
      return name === null ? [] : [[picture, name] as const];
    }),
  );
  return {
    ...stamps(now),
    jobId: of.jobId,
    kind: of.kind,
    revision: of.revision,
    title: of.tree.title.slice(0, MAX_CHANGE),
    // The tree of a signed copy keeps the day the quote was issued.
    madeAt: of.signatures === undefined ? of.tree.madeAt : now,
    changes: (of.changes ?? []).slice(0, MAX_CHANGES).map((text) => text.slice(0, MAX_CHANGE)),
    content: storedTree(of.tree, names),
    quoteId: of.quoteId ?? null,
    entryId: of.entryId ?? null,
    sha256: of.sha256,
    programVersion: of.programVersion,
    sent: [],
    signatures: [...(of.signatures ?? [])],
  };
}

/** Stores one document together with other records of the same edit. */
export async function storeDocument(
  of: NewDocument,
  withPuts: (documentId: string) => readonly Put[] = () => [],
): Promise<Outcome<string>> {
  const now = nowInstant();
  const row = documentRow(of, now);
  const written = await write(`save ${of.tree.title}`, now, { puts: [{ table: 'documents', row }, ...withPuts(row.id)] });
  return written.ok ? done(row.id) : written;
}

export type SavedDocument = { readonly ok: boolean; readonly text: string; readonly documentId: string | null };

/** Inks a tree, stores it, and saves the PDF. If inking fails nothing is stored; if storing fails no PDF is saved. */
export async function saveStored(tree: DocumentTree, store: (pdf: InkedPdf) => Promise<Outcome<string>>): Promise<SavedDocument> {
  const inked = await inkPdf(tree);
  if (!inked.ok) return { ok: false, text: inked.text, documentId: null };
  const stored = await store(inked.pdf);
  if (!stored.ok) return { ok: false, text: stored.message, documentId: null };
  const saved = await savePdf(tree.title, inked.pdf);
  return { ok: saved.ok, text: saved.text, documentId: stored.value };
}

/**
 * Inks a document, stores it with its content and saves the PDF.
 * @param withPuts records to write in the same edit
 */
export function saveDocument(
  of: Omit<NewDocument, 'sha256' | 'programVersion'>,
  withPuts: (documentId: string, sha256: string) => readonly Put[] = () => [],
): Promise<SavedDocument> {
  return saveStored(of.tree, ({ sha256, version }) =>
    storeDocument({ ...of, sha256, programVersion: version }, (id) => withPuts(id, sha256)),
  );
}

export async function reprintDocument(document: MadeDocument): Promise<SavedDocument> {
  const tree = await storedDocument(document);
  return tree.ok
    ? saveStored(tree.value, () => Promise.resolve(done(document.id)))
    : { ok: false, text: tree.message, documentId: document.id };
}

/** A stored document's tree with its photos. */
export async function storedDocument(document: MadeDocument): Promise<Outcome<DocumentTree>> {
  const tree = readTree(document.content);
  if (tree === null)
    return refused(`${document.title} was stored by another version and cannot be shown here. The saved PDF is still valid.`);
  return attempt(async () => {
    const pictures = await Promise.all(
      photoNames(tree).map(async (name) => {
        const bytes = await readPicture(name);
        const kind = name.endsWith('.png') ? 'png' : 'jpeg';
        return bytes === null ? [] : [[name, `data:image/${kind};base64,${base64OfBytes(bytes)}`] as const];
      }),
    );
    return done(withPhotos(tree, new Map(pictures.flat())));
  });
}

export function recordSent(documentId: string, sent: Omit<Sent, 'instant'>): Promise<Outcome> {
  const now = nowInstant();
  return write('record a document as sent', now, {
    patches: [{ table: 'documents', id: documentId, change: (row) => ({ ...row, sent: [...row.sent, { ...sent, instant: now }] }) }],
  });
}

/** Reads the job again, so that a field that was just left is included. Falls back to what the screen shows. */
export async function latestReading(shown: JobReading): Promise<JobReading> {
  const read = await attempt(async () => done(await readWholeJob(shown.whole.job.id)));
  return read.ok && read.value !== null ? readJob(read.value, nowInstant(), shown) : shown;
}

/** Builds a listed document, stores it and saves its PDF. */
export async function saveJobDocument(shown: JobReading, entry: DocumentEntry): Promise<SavedDocument> {
  const reading = await latestReading(shown);
  const missing = entry.missing(reading) ?? datedAfter(reading.whole, nowInstant());
  if (missing !== null) return { ok: false, text: missing, documentId: null };
  const { job } = reading.whole;
  const read = await attempt(async () => done(await paperPhotos(job.id)));
  if (!read.ok) return { ok: false, text: read.message, documentId: null };
  const photos = read.value;
  const revision = nextRevision(reading.whole, entry.kind);
  const tree = entry.build({ reading, photos, now: nowInstant(), revision, changes: [] });
  return saveDocument({ jobId: job.id, kind: entry.kind, revision, tree, photos });
}

/** The photos that a job's documents print, with their bytes. */
async function photosOfJob(jobId: string): Promise<readonly { readonly photo: Photo; readonly bytes: Uint8Array }[]> {
  const rows = await book().rowsOf('photos').where('jobId').equals(jobId).toArray();
  const read = await Promise.all(
    printedPhotos(rows).map(async (photo) => {
      const name = pictureName(photo);
      return { photo, bytes: name === null ? null : await readPicture(name) };
    }),
  );
  return read.flatMap(({ photo, bytes }) => (bytes === null ? [] : [{ photo, bytes }]));
}

/** Adds a data address to each picture. */
export async function paperPhotos(jobId: string): Promise<PaperPhoto[]> {
  return (await photosOfJob(jobId)).map(({ photo, bytes }) => ({
    photo,
    picture: `data:${photo.mediaType};base64,${base64OfBytes(bytes)}`,
  }));
}
