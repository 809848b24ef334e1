/** The photos of a room, as the screens show them. */
import { useMemo } from 'react';
import type { PhotoAlbum } from '../parts/PhotosPart.tsx';
import { captionPhoto, keepPhoto, deletePhoto } from './photo-commands.ts';
import { readPicture } from './pictures.ts';
import { useWhere } from './use-records.ts';

/** A room's photos within a job, oldest first, and what can be done with them. */
export function usePhotos(jobId: string, roomId: string): PhotoAlbum {
  const ofJob = useWhere('photos', 'jobId', jobId);
  return useMemo(
    () => ({
      photos: (ofJob ?? []).filter((photo) => photo.roomId === roomId).sort((a, b) => a.createdAt.localeCompare(b.createdAt)),
      read: readPicture,
      keep: (picture) => keepPhoto({ jobId, roomId, ...picture }),
      caption: captionPhoto,
      deleteEntry: deletePhoto,
    }),
    [ofJob, jobId, roomId],
  );
}
