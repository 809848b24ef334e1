import { useMemo } from 'react';
import { captionPhoto, storePhoto, deletePhoto } from './photo-commands.ts';
import { readPicture } from './pictures.ts';
import { useById, useWhere } from './use-records.ts';

type Picture = Omit<Parameters<typeof storePhoto>[0], 'jobId' | 'roomId'>;

/** A room's photos within a job, oldest first, with the commands on them. */
export function usePhotos(jobId: string, roomId: string) {
  const ofJob = useWhere('photos', 'jobId', jobId);
  return useMemo(
    () => ({
      photos: (ofJob ?? []).filter((photo) => photo.roomId === roomId).sort((a, b) => a.createdAt.localeCompare(b.createdAt)),
      read: readPicture,
      add: (picture: Picture) => storePhoto({ jobId, roomId, ...picture }),
      caption: captionPhoto,
      deleteEntry: deletePhoto,
    }),
    [ofJob, jobId, roomId],
  );
}

/** Receipt photos by id, with the commands on them. */
export function useReceipts(jobId: string | null, ids: readonly string[]) {
  const found = useById('photos', ids);
  return useMemo(
    () => ({
      photos: found ?? [],
      read: readPicture,
      add: (picture: Picture) => storePhoto({ jobId, roomId: null, ...picture }),
      caption: captionPhoto,
      deleteEntry: deletePhoto,
    }),
    [found, jobId],
  );
}
