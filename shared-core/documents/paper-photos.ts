/** Photos in documents: which photos each document has, with captions. */
import type { JobRoom } from '../book/job.ts';
import type { Photo } from '../book/papers.ts';
import type { Pour } from '../book/pour-record.ts';
import { joined } from '../measure/list.ts';
import { formatInstantDay } from '../measure/moment.ts';
import type { SignedLine } from '../prep/signed-lines.ts';
import { headingBlock } from './blocks.ts';
import type { Block } from './tree.ts';

/** A photo ready to be inked: its row, and the picture as a data address. */
export type PaperPhoto = {
  readonly photo: Pick<Photo, 'id' | 'caption' | 'takenAt' | 'createdAt' | 'roomId' | 'sha256' | 'mediaType'>;
  readonly picture: string;
};

/** The photos that documents print, oldest first. WebP is left out, because PDF cannot hold it. */
export const printedPhotos = (photos: readonly Photo[]): Photo[] =>
  photos
    .filter((photo) => photo.deletedAt === null && photo.mediaType !== 'image/webp')
    .sort((a, b) => (a.takenAt ?? a.createdAt).localeCompare(b.takenAt ?? b.createdAt));

/** Maximum photos per document; the job record has all. */
const MOST_ON_SHEET = 6;
const MOST_EACH_SIDE = 4;

const momentOf = ({ photo }: PaperPhoto): string => photo.takenAt ?? photo.createdAt;
const newestFirst = (a: PaperPhoto, b: PaperPhoto): number => momentOf(b).localeCompare(momentOf(a));

/**
 * Photos of a room's prep: those signed with a line first, then the newest.
 * @param room the room's id
 * @param begun when its first pour began; photos from then on are not of its prep
 */
export function prepPhotos(
  photos: readonly PaperPhoto[],
  room: string,
  lines: readonly SignedLine[],
  begun: string | null,
): readonly PaperPhoto[] {
  const signedWith = new Set(lines.flatMap((line) => line.signature?.photoIds ?? []));
  const own = photos.filter(
    (one) => one.photo.roomId === room && (begun === null || momentOf(one) < begun || signedWith.has(one.photo.id)),
  );
  const [withLine, others] = [own.filter(({ photo }) => signedWith.has(photo.id)), own.filter(({ photo }) => !signedWith.has(photo.id))];
  return [...withLine.sort(newestFirst), ...others.sort(newestFirst)].slice(0, MOST_ON_SHEET);
}

/**
 * A room's photos from before its pour and from after it, the last ones of each in the order they were taken. Photos signed with a prep
 * line show the prep, so they stand for the floor before only where there is no other.
 */
export function beforeAfterPhotos(
  photos: readonly PaperPhoto[],
  { room, jobRoom, pour }: { readonly room: { readonly id: string }; readonly jobRoom: Pick<JobRoom, 'signed'>; readonly pour: Pour },
): { readonly before: readonly PaperPhoto[]; readonly after: readonly PaperPhoto[] } {
  const signed = new Set(jobRoom.signed.flatMap(({ photoIds }) => photoIds));
  const own = photos.filter(({ photo }) => photo.roomId === room.id).toSorted((a, b) => momentOf(a).localeCompare(momentOf(b)));
  const begun = pour.startedAt ?? pour.createdAt;
  const finishedAt = pour.finishedAt ?? begun;
  const earlier = own.filter((photo) => momentOf(photo) < begun);
  const unsigned = earlier.filter(({ photo }) => !signed.has(photo.id));
  return {
    before: (unsigned.length === 0 ? earlier : unsigned).slice(-MOST_EACH_SIDE),
    after: own.filter((photo) => momentOf(photo) >= finishedAt).slice(-MOST_EACH_SIDE),
  };
}

/** A part of a job's record that has photos: a room's before or after its pour, by the room's id, or a pour's, by its own. */
export type PhotoPart = `before ${string}` | `pour ${string}` | `after ${string}` | 'other';

/**
 * A job's photos by the part they belong to, from where and when each was taken.
 * @param pours oldest first
 * @param rooms ids of the job's rooms
 * @param cured ids of the rooms that have a part after the pour
 */
export function photosByPart(
  photos: readonly PaperPhoto[],
  pours: readonly Pour[],
  rooms: ReadonlySet<string>,
  cured: ReadonlySet<string>,
): ReadonlyMap<PhotoPart, readonly PaperPhoto[]> {
  const partOf = (photo: PaperPhoto): PhotoPart => {
    const { roomId } = photo.photo;
    if (roomId === null || !rooms.has(roomId)) return 'other';
    const at = momentOf(photo);
    const last = pours.findLast((pour) => pour.roomIds.includes(roomId) && (pour.startedAt ?? pour.createdAt) <= at);
    if (last === undefined) return `before ${roomId}`;
    if (last.finishedAt === null || at < last.finishedAt) return `pour ${last.id}`;
    return cured.has(roomId) ? `after ${roomId}` : 'other';
  };
  const parts = new Map<PhotoPart, PaperPhoto[]>();
  for (const photo of photos) parts.set(partOf(photo), [...(parts.get(partOf(photo)) ?? []), photo]);
  return parts;
}

/**
 * The block of some photos, each with where, what and when.
 * @param before words put before a photo's own
 * @param isLarge each as wide as the column
 */
export function photosBlock(
  photos: readonly PaperPhoto[],
  { zone, locale }: { readonly zone: string; readonly locale: string },
  { before = () => '', isLarge = false }: { readonly before?: (photo: PaperPhoto['photo']) => string; readonly isLarge?: boolean } = {},
): Block {
  return {
    kind: 'photos',
    ...(isLarge ? { isLarge } : {}),
    photos: photos.map(({ photo, picture }) => ({
      picture,
      caption: joined([
        joined([before(photo), photo.caption], ': '),
        photo.takenAt === null ? '' : formatInstantDay(photo.takenAt, zone, 'dated', locale),
      ]),
    })),
  };
}

/** Photos of one part of a record under their heading; nothing where there are none. */
export const recordPhotos = (heading: string, photos: readonly PaperPhoto[] = [], place: Parameters<typeof photosBlock>[1]): Block[] =>
  photos.length === 0 ? [] : [headingBlock(3, heading), photosBlock(photos, place)];
