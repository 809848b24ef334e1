/** Photos in documents: which photos each document has, with captions. */
import type { Photo } from '../book/papers.ts';
import { formatInstantDay } from '../measure/moment.ts';
import type { SignedLine } from '../prep/signed-lines.ts';
import type { Block } from './tree.ts';

/** A photo ready to be inked: its row, and the picture as a data address. */
export type PaperPhoto = {
  readonly photo: Pick<Photo, 'id' | 'caption' | 'takenAt' | 'createdAt' | 'roomId' | 'sha256' | 'mediaType'>;
  readonly picture: string;
};

/** Maximum photos per document; the job record has all. */
const MOST_ON_SHEET = 6;

const momentOf = ({ photo }: PaperPhoto): string => photo.takenAt ?? photo.createdAt;
const newestFirst = (a: PaperPhoto, b: PaperPhoto): number => momentOf(b).localeCompare(momentOf(a));

/**
 * Photos of a room's prep: those signed with a line first, then the newest.
 * @param room the room's id
 */
export function prepPhotos(photos: readonly PaperPhoto[], room: string, lines: readonly SignedLine[]): readonly PaperPhoto[] {
  const signedWith = new Set(lines.flatMap((line) => line.signature?.photoIds ?? []));
  const own = photos.filter(({ photo }) => photo.roomId === room);
  const [withLine, others] = [own.filter(({ photo }) => signedWith.has(photo.id)), own.filter(({ photo }) => !signedWith.has(photo.id))];
  return [...withLine.sort(newestFirst), ...others.sort(newestFirst)].slice(0, MOST_ON_SHEET);
}

/** Photos of poured rooms taken since their pour began: the newest of them, in the order they were taken. */
export function pouredPhotos(photos: readonly PaperPhoto[], begunAt: ReadonlyMap<string, string>): readonly PaperPhoto[] {
  const since = photos.filter((paperPhoto) => {
    const begun = paperPhoto.photo.roomId === null ? undefined : begunAt.get(paperPhoto.photo.roomId);
    return begun !== undefined && momentOf(paperPhoto) >= begun;
  });
  return since.sort(newestFirst).slice(0, MOST_ON_SHEET).reverse();
}

/** The block of some photos, each with where, what and when; `before` puts words before a photo's own. */
export function photosBlock(
  photos: readonly PaperPhoto[],
  { zone, locale }: { readonly zone: string; readonly locale: string },
  before: (photo: PaperPhoto['photo']) => string,
): Block {
  return {
    kind: 'photos',
    photos: photos.map(({ photo, picture }) => ({
      picture,
      caption: [before(photo), photo.caption, photo.takenAt === null ? '' : formatInstantDay(photo.takenAt, zone, 'dated', locale)]
        .filter((words) => words !== '')
        .join(', '),
    })),
  };
}
