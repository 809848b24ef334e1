/** The job record: all records of one job, in order of time. */
import type { JobReading } from '../standing/read-job.ts';
import { listed } from '../standing/names.ts';
import { formatDay } from '../measure/day.ts';
import { formatInstantDay, formatEntryTime, formatLogInstant } from '../measure/moment.ts';
import { handoverPlan } from './handover-picture.ts';
import { handoverRooms, unfinishedRooms } from './handover-rooms.ts';
import { placeOf } from './handover-sheet.ts';
import type { HandoverPlace } from './handover-tables.ts';
import { customerLine, onLetterhead } from './letterhead.ts';
import { drawingBlock, headingBlock, recordTable, textBlock } from './blocks.ts';
import { recordCure } from './record-cure.ts';
import { recordFloor } from './record-floor.ts';
import { givenOut, peopleOf, timeline } from './record-timeline.ts';
import { type PaperPhoto, photosBlock, photosByPart, recordPhotos } from './paper-photos.ts';
import type { Block, DocumentTree } from './tree.ts';
import { warrantyOf } from '../standing/warranty-period.ts';
import type { WholeJob } from '../book/whole-job.ts';
import type { Pour, PourEvent } from '../book/pour-record.ts';
import { bagsWords, entryInFull, entryWords, type LogWordsPlace } from './log-words.ts';
import { voidedIds } from '../pour/log-time.ts';
import { jobStateWord } from '../standing/job-money.ts';
import { placedFloor, type PlacedRoom } from '../pour/placed-floor.ts';

const PLAN_PX = { width: 696, height: 260 } as const;

function headBlocks(reading: JobReading, { locale }: HandoverPlace): Block[] {
  const { job, rooms, quotes } = reading.whole;
  const { ends } = warrantyOf(reading.whole);
  const open = unfinishedRooms(reading).filter((room) => room.part !== 'none');
  const facts = [
    `Rooms: ${listed(rooms.map((room) => room.name))}.`,
    `The job is ${jobStateWord(job, quotes)}.`,
    ...(job.crewNames.length === 0 ? [] : [`Crew: ${listed([...job.crewNames])}.`]),
    ...(ends === null ? [] : [`Warranty through ${formatDay(ends, 'full', locale)}.`]),
    ...(open.length === 0 ? [] : [`Not fully placed: ${listed(open.map((room) => room.name))}.`]),
  ];
  return [
    headingBlock(1, `Job record ${job.number}`),
    textBlock(customerLine(reading.whole)),
    textBlock(facts.join(' ')),
    ...(job.notes === '' ? [] : [textBlock(job.notes)]),
  ];
}

/** Photos that belong to no room of the record, or to a floor that has no part of its own in it. */
function otherPhotos(photos: readonly PaperPhoto[], place: HandoverPlace): Block[] {
  return photos.length === 0 ? [] : [headingBlock(2, 'Photos'), photosBlock(photos, place)];
}

/**
 * The record of a job.
 * @param photos in the order they are printed, scaled down already
 * @param now instant it is made at
 */
export function jobRecord(reading: JobReading, photos: readonly PaperPhoto[], now: string, revision: number): DocumentTree {
  const { whole } = reading;
  const { business, property, job, customer } = whole;
  const place = placeOf(reading, now);
  const rooms = handoverRooms(reading);
  const plan = rooms.length === 0 ? null : handoverPlan(rooms, place, PLAN_PX.width, PLAN_PX.height);
  const pours = whole.pours
    .filter((pour) => pour.deletedAt === null)
    .toSorted((a, b) => (a.startedAt ?? a.createdAt).localeCompare(b.startedAt ?? b.createdAt));
  const nameOf = (id: string): string => whole.rooms.find((room) => room.id === id)?.name ?? '';
  const sorted = photosByPart(photos, pours, new Set(whole.rooms.map(({ id }) => id)), new Set(rooms.map(({ room }) => room.id)));
  return onLetterhead(business, {
    title: `Job record ${job.number} revision ${revision}, ${customer.name}`,
    subject: `Everything on record about the floors at ${property.address.line}`,
    madeAt: now,
    right: [
      `Made ${formatInstantDay(now, property.timeZone, 'full', business.locale)}`,
      `Job ${job.number}, revision ${revision}, page {page} of {pages}`,
    ],
    blocks: [
      ...headBlocks(reading, place),
      ...(plan === null || plan.marks.length === 0
        ? []
        : [drawingBlock(plan, `Plan of the placed rooms: ${rooms.map(({ room }) => room.name).join(', ')}`)]),
      ...timeline(reading, place),
      ...givenOut(reading, place),
      headingBlock(2, 'Floor and prep'),
      ...reading.rooms.flatMap((roomReading) => [
        ...recordFloor(roomReading, peopleOf(whole), place),
        ...recordPhotos(`${roomReading.room.name}: photos before the pour`, sorted.get(`before ${roomReading.room.id}`), place),
      ]),
      ...(pours.length === 0 ? [] : [headingBlock(2, 'Pour')]),
      ...pours.flatMap((pour) => [
        ...recordPour(whole, pour, place),
        ...recordPhotos(`${listed(pour.roomIds.map(nameOf))}: photos of the pour`, sorted.get(`pour ${pour.id}`), place),
      ]),
      ...recordCure(whole, rooms, place, sorted),
      ...otherPhotos(sorted.get('other') ?? [], place),
    ],
  });
}

/** The missing or suspect floor of a pour, one sentence per room; empty where all is placed. */
function openWords(room: PlacedRoom, name: string): string {
  if (room.extent === 'none') return `${name}: no floor was placed.`;
  const lanes =
    room.openLanes.length === 0 ? '' : ` Open: ${room.openLanes.length === 1 ? 'lane' : 'lanes'} ${listed(room.openLanes.map(String))}.`;
  if (room.extent === 'partly') return `${name}: partly poured.${lanes}`;
  return room.suspectM2 > 0 ? `${name}: all of the floor was placed. Part of it is suspect.` : '';
}

/** One pour with its log. */
function recordPour(whole: WholeJob, pour: Pour, place: HandoverPlace): Block[] {
  const { zone, locale, units } = place;
  const names = new Map(whole.rooms.map((room) => [room.id, room.name]));
  const storedName = (id: string): string | undefined => pour.asPoured.rooms.find((r) => r.roomId === id)?.name;
  const roomName = (id: string | null): string => (id === null ? '' : (storedName(id) ?? names.get(id) ?? ''));
  const events = whole.pourEvents.filter((event) => event.pourId === pour.id).toSorted((a, b) => a.seq - b.seq);
  const began = pour.startedAt ?? events[0]?.instant ?? '';
  const voided = voidedIds(events);
  const voidedBy = new Map(events.flatMap((event) => (event.kind === 'undone' ? [[event.eventId, event.seq] as const] : [])));
  const words: LogWordsPlace = { units, locale, zone, layout: pour.asPoured.layout, roomName };
  const material = pour.asPoured.material.name;
  const rooms = listed(pour.roomIds.map(roomName).filter((name) => name !== ''));
  const timeText = (instant: string | null): string =>
    instant === null ? 'not recorded' : formatLogInstant(instant, zone, 'dated', locale);
  const paper = pour.fromPaper ? ' Times were entered from a handwritten log and are estimates.' : '';
  const title = `${rooms}${pour.lift > 1 ? `, lift ${pour.lift}` : ''}`;
  const open =
    pour.finishedAt === null
      ? []
      : placedFloor(pour, events)
          .map((room) => openWords(room, roomName(room.roomId)))
          .filter((w) => w !== '');
  const voidWords = (id: string, own: PourEvent): string => {
    const other = events.find((event) => event.id === id);
    return `Voided: entry ${other?.seq ?? ''}, ${entryWords(other ?? own, words)}`;
  };
  return [
    headingBlock(3, title),
    textBlock(
      `${material}. Started ${timeText(pour.startedAt)}, finished ${timeText(pour.finishedAt)}. ${bagsWords(pour.bagsPlanned, locale)} planned, ${bagsWords(pour.bagsOnSite, locale)} on site.${paper}`,
    ),
    ...open.map((sentence) => textBlock(sentence)),
    ...(pour.notes === '' ? [] : [textBlock(pour.notes)]),
    ...recordTable(`${title}: pour log`, events, [
      ['No.', 0.07, (event) => String(event.seq)],
      ['Time', 0.17, (event) => `${formatEntryTime(event.instant, began, zone, locale)}${event.estimated ? ', estimated' : ''}`],
      ['Entry', null, (event) => (event.kind === 'undone' ? voidWords(event.eventId, event) : entryInFull(event, events, words))],
      ['Status', 0.2, (event) => (voided.has(event.id) ? `Voided by entry ${voidedBy.get(event.id) ?? ''}` : '')],
    ]),
  ];
}
