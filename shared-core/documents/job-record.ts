/** The job record: everything the book holds about one job, for the day someone asks why. */
import { listed } from '../standing/names.ts';
import type { JobReading } from '../standing/read-job.ts';
import { formatDay } from '../measure/day.ts';
import { formatInstantDay } from '../measure/moment.ts';
import { formatMoney } from '../price/money.ts';
import { handoverPlan, type HandoverPlace } from './handover-picture.ts';
import { handoverRooms } from './handover-rooms.ts';
import { onLetterhead } from './letterhead.ts';
import { joined, recordPart, recordTable, recordWords } from './record-blocks.ts';
import { recordCure } from './record-cure.ts';
import { recordFloor } from './record-floor.ts';
import { recordPour } from './record-pour.ts';
import { type PaperPhoto, photosBlock } from './paper-photos.ts';
import type { Block, DocumentTree } from './tree.ts';

const PLAN_PX = { width: 696, height: 260 } as const;

const STATE = {
  open: 'open',
  declined: 'declined',
  finished: 'finished',
  'set-aside': 'set aside',
} as const;

function headBlocks(reading: JobReading, { locale }: HandoverPlace): Block[] {
  const { job, customer, property, rooms } = reading.whole;
  const where = joined([property.address.line, property.address.city]);
  const crew = job.crewNames.length === 0 ? '' : ` Crew: ${listed([...job.crewNames])}.`;
  const defects = job.defectsUntil === null ? '' : ` Defects until ${formatDay(job.defectsUntil, 'dated', locale)}.`;
  return [
    { kind: 'heading', level: 1, text: `Job ${job.number}: everything on record` },
    recordWords(`${customer.name}, ${where}. ${listed(rooms.map((room) => room.name))}. The job is ${STATE[job.state]}.${crew}${defects}`),
    ...(job.notes === '' ? [] : [recordWords(job.notes)]),
  ];
}

function quoteBlocks(reading: JobReading, { zone, locale }: HandoverPlace): Block[] {
  const day = (instant: string): string => formatInstantDay(instant, zone, 'dated', locale);
  return recordTable(
    'Quotes',
    [
      ['Quote', 0.12],
      ['Issued', 0.2],
      ['Total', 0.18],
      ['What became of it', null],
    ],
    reading.whole.quotes
      .filter((quote) => quote.deletedAt === null)
      .toSorted((a, b) => a.revision - b.revision)
      .map((quote) => [
        String(quote.revision),
        day(quote.issuedAt),
        formatMoney(quote.totalMinor, quote.currency, locale),
        quote.history.map((step) => joined([`${step.state} ${day(step.at)}`, step.by, step.note])).join('; '),
      ]),
  );
}

function photoBlocks(reading: JobReading, photos: readonly PaperPhoto[], place: HandoverPlace): Block[] {
  if (photos.length === 0) return [];
  const nameOf = (id: string | null): string => reading.whole.rooms.find((room) => room.id === id)?.name ?? '';
  return [recordPart('Photos'), photosBlock(photos, place, (photo) => nameOf(photo.roomId))];
}

/**
 * The record of a job.
 * @param photos in the order they are to stand, scaled down already
 * @param now instant; stands on the paper as when it was made
 */
export function jobRecord(reading: JobReading, photos: readonly PaperPhoto[], now: string): DocumentTree {
  const { whole } = reading;
  const { business, property, job } = whole;
  const { units, locale } = business;
  const place: HandoverPlace = { now, zone: property.timeZone, locale, units };
  const rooms = handoverRooms(reading);
  const plan = rooms.length === 0 ? null : handoverPlan(rooms, place, PLAN_PX.width, PLAN_PX.height);
  const pours = whole.pours
    .filter((pour) => pour.deletedAt === null)
    .toSorted((a, b) => (a.startedAt ?? a.createdAt).localeCompare(b.startedAt ?? b.createdAt));
  return onLetterhead(business, {
    title: `Job record ${job.number}`,
    subject: `Everything on record about the floors at ${property.address.line}`,
    madeAt: now,
    right: [`Made ${formatInstantDay(now, property.timeZone, 'full', locale)}`, `Job ${job.number}, page {page} of {pages}`],
    blocks: [
      ...headBlocks(reading, place),
      ...(plan === null || plan.marks.length === 0
        ? []
        : [
            {
              kind: 'drawing' as const,
              drawing: plan,
              alt: `Plan of the rooms poured: ${rooms.map((at) => at.room.name).join(', ')}`,
              caption: '',
            },
          ]),
      ...quoteBlocks(reading, place),
      recordPart('As found and made ready'),
      ...reading.rooms.flatMap((at) => recordFloor(at, place)),
      ...(pours.length === 0 ? [] : [recordPart('Pour'), ...pours.flatMap((pour) => recordPour(whole, pour, place))]),
      ...recordCure(whole, rooms, place),
      ...photoBlocks(reading, photos, place),
    ],
  });
}
