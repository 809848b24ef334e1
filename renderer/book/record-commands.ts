/** Photos of a job for its documents. */
import { pictureName } from '../../shared-core/book/backup.ts';
import type { Photo } from '../../shared-core/book/papers.ts';
import type { PaperPhoto } from '../../shared-core/documents/paper-photos.ts';
import { base64OfBytes } from '../desk/base64.ts';
import { book } from './database.ts';
import { readPicture } from './pictures.ts';

/** A job's photos with their bytes, oldest first. WebP is left out, because PDF cannot hold it. */
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

/** Adds a data address to each picture. */
export async function paperPhotos(jobId: string): Promise<PaperPhoto[]> {
  return (await photosOfJob(jobId)).map(({ photo, bytes }) => ({
    photo,
    picture: `data:${photo.mediaType};base64,${base64OfBytes(bytes)}`,
  }));
}
