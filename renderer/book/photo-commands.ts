/** Photos of a room: adding, describing and deleting. Bytes are stored under their hash. */
import { pictureName } from '../../shared-core/book/backup.ts';
import type { Photo } from '../../shared-core/book/papers.ts';
import { book } from './database.ts';
import { stamps, nowInstant, attempt, done, type Outcome, refused } from './command.ts';
import { storePictures } from './pictures.ts';
import { change, write } from './write.ts';

/** A resized picture with its hash. */
export type NewPhoto = Pick<Photo, 'jobId' | 'roomId' | 'caption' | 'takenAt' | 'mediaType' | 'widthPx' | 'heightPx'> & {
  readonly bytes: Uint8Array<ArrayBuffer>;
};

async function sha256Of(bytes: Uint8Array<ArrayBuffer>): Promise<string> {
  const digest = new Uint8Array(await crypto.subtle.digest('SHA-256', bytes));
  return [...digest].map((byte) => byte.toString(16).padStart(2, '0')).join('');
}

/** Stores the bytes and then the record, and returns the record's id. */
export async function storePhoto({ bytes, ...of }: NewPhoto): Promise<Outcome<string>> {
  const now = nowInstant();
  const row: Photo = { ...stamps(now), ...of, sha256: await sha256Of(bytes) };
  const name = pictureName(row);
  if (name === null) return refused('Choose a JPEG, PNG, or WebP photo.', 'mediaType');
  const stored = await storePictures([{ name, data: bytes }]);
  if (!stored.ok) return stored;
  const written = await write(row.caption === '' ? 'add photo' : `photo: ${row.caption}`, now, { puts: [{ table: 'photos', row }] });
  return written.ok ? done(row.id) : written;
}

export function captionPhoto(id: string, caption: string): Promise<Outcome> {
  return change('photos', id, 'photo caption', nowInstant(), { caption });
}

/** Deletes a photo. One of a signed paper, or printed in a change order, cannot be deleted. */
export async function deletePhoto(id: string): Promise<Outcome> {
  const now = nowInstant();
  const read = await attempt(async () => {
    const photo = await book().rowsOf('photos').get(id);
    if (photo?.jobId == null) return done(false);
    const documents = await book().rowsOf('documents').where('jobId').equals(photo.jobId).toArray();
    const quotes = await book().rowsOf('quotes').where('jobId').equals(photo.jobId).toArray();
    return done(
      documents.some((one) => one.signatures.some((signature) => signature.photoId === id)) ||
        quotes.some((quote) => quote.orders.some((order) => order.photoIds.includes(id))),
    );
  });
  if (!read.ok) return read;
  if (read.value) return refused('This photo is part of a contract, so it cannot be deleted.');
  return change('photos', id, 'delete photo', now, { deletedAt: now });
}
