import { useMemo } from 'react';
import { type PaperPhoto, printedPhotos } from '../../shared-core/documents/paper-photos.ts';
import type { Photo } from '../../shared-core/book/papers.ts';
import { captionPhoto, storePhoto, deletePhoto } from './photo-commands.ts';
import { readPicture } from './pictures.ts';
import { useById, useWhere } from './use-records.ts';

type Picture = Omit<Parameters<typeof storePhoto>[0], 'jobId' | 'roomId'>;

const albumOf = (photos: readonly Photo[], of: { readonly jobId: string | null; readonly roomId: string | null }) => ({
  photos,
  read: readPicture,
  add: (picture: Picture) => storePhoto({ ...of, ...picture }),
  caption: captionPhoto,
  deleteEntry: deletePhoto,
});

/** A room's photos within a job, oldest first, with the commands on them. */
export function usePhotos(jobId: string, roomId: string) {
  const ofJob = useWhere('photos', 'jobId', jobId);
  return useMemo(() => {
    const photos = (ofJob ?? []).filter((photo) => photo.roomId === roomId).sort((a, b) => a.createdAt.localeCompare(b.createdAt));
    return albumOf(photos, { jobId, roomId });
  }, [ofJob, jobId, roomId]);
}

/** The photos that a job's documents print, without their pictures; undefined while loading. */
export function usePrintedPhotos(jobId: string): readonly PaperPhoto[] | undefined {
  const ofJob = useWhere('photos', 'jobId', jobId);
  return useMemo(() => ofJob && printedPhotos(ofJob).map((photo) => ({ photo, picture: '' })), [ofJob]);
}

/** Receipt photos by id, with the commands on them. */
export function useReceipts(jobId: string | null, ids: readonly string[]) {
  const found = useById('photos', ids);
  return useMemo(() => albumOf(found ?? [], { jobId, roomId: null }), [found, jobId]);
}
