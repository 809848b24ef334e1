/** The before and after sheet: photos from before and after the pour, with the flatness before and after. */
import { headingBlock, textBlock } from './blocks.ts';
import type { DocumentInput } from './document-input.ts';
import { beforeAfterPicture } from './handover-flatness.ts';
import { handoverRooms } from './handover-rooms.ts';
import { placeOf } from './handover-sheet.ts';
import { flatHeading, flatTable } from './handover-tables.ts';
import { customerLine, revisedDocument } from './letterhead.ts';
import { beforeAfterPhotos, type PaperPhoto, photosBlock } from './paper-photos.ts';
import type { Block, DocumentTree } from './tree.ts';

const MOST_LARGE = 1;

/** The sheet for every fully placed room. */
export function beforeAndAfter(input: DocumentInput): DocumentTree {
  const { reading, photos, now, isDrawn = true } = input;
  const place = placeOf(reading, now);
  const rooms = handoverRooms(reading);
  const pictures = rooms.flatMap((room): Block[] => {
    const { before, after } = beforeAfterPhotos(photos, room);
    if (before.length + after.length === 0) return [];
    // One on each side is large.
    const isFew = before.length <= MOST_LARGE && after.length <= MOST_LARGE;
    const side = (title: string, own: readonly PaperPhoto[], missing: string): Block[] => [
      headingBlock(3, title),
      own.length === 0 ? textBlock(missing) : photosBlock(own, place, { isLarge: isFew }),
    ];
    return [
      headingBlock(2, room.room.name),
      {
        kind: 'columns',
        shares: [1, 1],
        columns: [side('Before', before, 'No photo from before the pour.'), side('After', after, 'No photo from after the pour.')],
      },
    ];
  });
  return revisedDocument(input, {
    name: 'Before and after',
    about: 'Before and after at',
    blocks: [
      headingBlock(1, 'Before and after'),
      textBlock(customerLine(reading.whole)),
      flatHeading(place),
      ...flatTable(rooms, place),
      ...(isDrawn ? beforeAfterPicture(rooms, place) : []),
      ...(pictures.length === 0 ? [textBlock('No photos of these floors are on record.')] : pictures),
    ],
  });
}
