/** The before and after sheet: photos from before and after the pour, with the flatness before and after. */
import { formatInstantDay } from '../measure/moment.ts';
import { headingBlock, textBlock } from './blocks.ts';
import type { DocumentInput } from './document-input.ts';
import { beforeAfterPicture } from './handover-flatness.ts';
import { type HandoverRoom, handoverRooms } from './handover-rooms.ts';
import { placeOf } from './handover-sheet.ts';
import { flatHeading, flatTable } from './handover-tables.ts';
import { addressLine, onLetterhead } from './letterhead.ts';
import { type PaperPhoto, photosBlock } from './paper-photos.ts';
import type { Block, DocumentTree } from './tree.ts';

const MAX_EACH = 4;
const takenAt = ({ photo }: PaperPhoto): string => photo.takenAt ?? photo.createdAt;

/** A room's photos before and after its pour. */
function sides(
  room: HandoverRoom,
  photos: readonly PaperPhoto[],
): { readonly before: readonly PaperPhoto[]; readonly after: readonly PaperPhoto[] } {
  const own = photos.filter(({ photo }) => photo.roomId === room.room.id);
  const begun = room.pour.startedAt ?? room.pour.createdAt;
  const finishedAt = room.pour.finishedAt ?? begun;
  return {
    before: own.filter((photo) => takenAt(photo) < begun).slice(0, MAX_EACH),
    after: own.filter((photo) => takenAt(photo) >= finishedAt).slice(-MAX_EACH),
  };
}

/** The sheet for every fully placed room. */
export function beforeAndAfter({ reading, photos, now, revision }: DocumentInput): DocumentTree {
  const { business, property, job, customer } = reading.whole;
  const place = placeOf(reading, now);
  const rooms = handoverRooms(reading);
  const pictures = rooms.flatMap((room): Block[] => {
    const { before, after } = sides(room, photos);
    const side = (title: string, own: readonly PaperPhoto[], missing: string): Block[] => [
      headingBlock(3, title),
      own.length === 0 ? textBlock(missing) : photosBlock(own, place, () => ''),
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
  return onLetterhead(business, {
    title: `Before and after ${job.number} revision ${revision}, ${customer.name}`,
    subject: `Before and after at ${property.address.line}`,
    madeAt: now,
    right: [formatInstantDay(now, place.zone, 'full', place.locale), `Job ${job.number}, page {page} of {pages}`],
    blocks: [
      headingBlock(1, 'Before and after'),
      textBlock([customer.name, addressLine(property.address)].filter((p) => p !== '').join(', ')),
      flatHeading(place),
      ...flatTable(rooms, place),
      ...beforeAfterPicture(rooms, place),
      ...pictures,
    ],
  });
}
