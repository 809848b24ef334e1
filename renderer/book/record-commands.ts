/** A job's photos, ready for a document. */
import { pictureName } from '../../shared-core/book/backup.ts';
import type { Photo } from '../../shared-core/book/papers.ts';
import type { PaperPhoto } from '../../shared-core/documents/paper-photos.ts';
import { base64OfBytes } from '../parts/base64.ts';
import { book } from './database.ts';
import { readPicture } from './pictures.ts';

/** A job's photos with their bytes, oldest first. WebP cannot be inked and is left out. */
async function photosOfJob(jobId: string): Promise<readonly { readonly photo: Photo; readonly bytes: Uint8Array }[]> {
  const rows = await book().rowsOf('photos').where('jobId').equals(jobId).toArray();
  const shown = rows
    .filter((photo) => photo.deletedAt === null && photo.mediaType !== 'image/webp')
    .sort((a, b) => (a.takenAt ?? a.createdAt).localeCompare(b.takenAt ?? b.createdAt));
  const read = await Promise.all(
    shown.map(async (photo) => {
      const name = pictureName(photo);
      return { photo, bytes: name === null ? null : await readPicture(name) };
    }),
  );
  return read.flatMap(({ photo, bytes }) => (bytes === null ? [] : [{ photo, bytes }]));
}

/** The same with each picture as a data address. */
export async function paperPhotos(jobId: string): Promise<PaperPhoto[]> {
  return (await photosOfJob(jobId)).map(({ photo, bytes }) => ({
    photo,
    picture: `data:${photo.mediaType};base64,${base64OfBytes(bytes)}`,
  }));
}
