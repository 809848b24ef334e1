import { useMemo } from 'react';
import type { PhotoAlbum } from '../parts/PhotosPart.tsx';
import { captionPhoto, keepPhoto, deletePhoto } from './photo-commands.ts';
import { readPicture } from './pictures.ts';
import { useById, useWhere } from './use-records.ts';

/** A room's photos within a job, oldest first, with the commands on them. */
export function usePhotos(jobId: string, roomId: string): PhotoAlbum {
  const ofJob = useWhere('photos', 'jobId', jobId);
  return useMemo(
    () => ({
      photos: (ofJob ?? []).filter((photo) => photo.roomId === roomId).sort((a, b) => a.createdAt.localeCompare(b.createdAt)),
      read: readPicture,
      add: (picture) => keepPhoto({ jobId, roomId, ...picture }),
      caption: captionPhoto,
      deleteEntry: deletePhoto,
    }),
    [ofJob, jobId, roomId],
  );
}

/** Receipt photos by id, with the commands on them. */
export function useReceipts(jobId: string | null, ids: readonly string[]): PhotoAlbum {
  const found = useById('photos', ids);
  return useMemo(
    () => ({
      photos: found ?? [],
      read: readPicture,
      add: (picture) => keepPhoto({ jobId, roomId: null, ...picture }),
      caption: captionPhoto,
      deleteEntry: deletePhoto,
    }),
    [found, jobId],
  );
}
