/** The job record: all records of one job, in order of time. */
import type { JobReading } from '../standing/read-job.ts';
import { listed } from '../standing/names.ts';
import { formatDay } from '../measure/day.ts';
import { formatInstantDay } from '../measure/moment.ts';
import { handoverPlan } from './handover-picture.ts';
import { handoverRooms, unfinishedRooms } from './handover-rooms.ts';
import { placeOf } from './handover-sheet.ts';
import type { HandoverPlace } from './handover-tables.ts';
import { addressLine, onLetterhead } from './letterhead.ts';
import { joined, recordPart, recordWords } from './record-blocks.ts';
import { recordCure } from './record-cure.ts';
import { recordFloor } from './record-floor.ts';
import { recordPour } from './record-pour.ts';
import { givenOut, peopleOf, timeline } from './record-timeline.ts';
import { type PaperPhoto, photosBlock } from './paper-photos.ts';
import type { Block, DocumentTree } from './tree.ts';

const PLAN_PX = { width: 696, height: 260 } as const;

const STATE = { open: 'open', declined: 'declined', finished: 'finished', 'set-aside': 'archived' } as const;

function headBlocks(reading: JobReading, { locale }: HandoverPlace): Block[] {
  const { job, customer, property, rooms } = reading.whole;
  const open = unfinishedRooms(reading).filter((room) => room.part !== 'none');
  const facts = [
    `Rooms: ${listed(rooms.map((room) => room.name))}.`,
    `The job is ${STATE[job.state]}.`,
    ...(job.crewNames.length === 0 ? [] : [`Crew: ${listed([...job.crewNames])}.`]),
    ...(job.defectsUntil === null ? [] : [`Warranty through ${formatDay(job.defectsUntil, 'full', locale)}.`]),
    ...(open.length === 0 ? [] : [`Not fully placed: ${listed(open.map((room) => room.name))}.`]),
  ];
  return [
    { kind: 'heading', level: 1, text: `Job record ${job.number}` },
    recordWords(joined([customer.name, addressLine(property.address)])),
    recordWords(facts.join(' ')),
    ...(job.notes === '' ? [] : [recordWords(job.notes)]),
  ];
}

function photoBlocks(reading: JobReading, photos: readonly PaperPhoto[], place: HandoverPlace): Block[] {
  if (photos.length === 0) return [];
  const nameOf = (id: string | null): string => reading.whole.rooms.find((room) => room.id === id)?.name ?? '';
  return [recordPart('Photos'), photosBlock(photos, place, (photo) => nameOf(photo.roomId))];
}

/**
 * The record of a job.
 * @param photos in the order they are printed, scaled down already
 * @param now instant it is made at
 */
export function jobRecord(reading: JobReading, photos: readonly PaperPhoto[], now: string): DocumentTree {
  const { whole } = reading;
  const { business, property, job, customer } = whole;
  const place = placeOf(reading, now);
  const rooms = handoverRooms(reading);
  const plan = rooms.length === 0 ? null : handoverPlan(rooms, place, PLAN_PX.width, PLAN_PX.height);
  const pours = whole.pours
    .filter((pour) => pour.deletedAt === null)
    .toSorted((a, b) => (a.startedAt ?? a.createdAt).localeCompare(b.startedAt ?? b.createdAt));
  return onLetterhead(business, {
    title: `Job record ${job.number}, ${customer.name}`,
    subject: `Everything on record about the floors at ${property.address.line}`,
    madeAt: now,
    right: [`Made ${formatInstantDay(now, property.timeZone, 'full', business.locale)}`, `Job ${job.number}, page {page} of {pages}`],
    blocks: [
      ...headBlocks(reading, place),
      ...(plan === null || plan.marks.length === 0
        ? []
        : [
            {
              kind: 'drawing' as const,
              drawing: plan,
              alt: `Plan of the placed rooms: ${rooms.map((handoverRoom) => handoverRoom.room.name).join(', ')}`,
              caption: '',
            },
          ]),
      ...timeline(reading, place),
      ...givenOut(reading, place),
      recordPart('Floor and prep'),
      ...reading.rooms.flatMap((roomReading) => recordFloor(roomReading, peopleOf(whole), place)),
      ...(pours.length === 0 ? [] : [recordPart('Pour'), ...pours.flatMap((pour) => recordPour(whole, pour, place))]),
      ...recordCure(whole, rooms, place),
      ...photoBlocks(reading, photos, place),
    ],
  });
}
