/** The notice to a customer whose floor is not complete, as a document and as a message. */
import { isSealed } from '../book/flooring.ts';
import type { IncidentKind, Pour } from '../book/pour-record.ts';
import { planDrawing } from '../drawing/plan.ts';
import type { CureSchedule } from '../cure/cure-schedule.ts';
import { regionsForCustomer } from '../drawing/pour-plan.ts';
import { formatArea } from '../measure/area.ts';
import { formatLength } from '../measure/length-format.ts';
import { formatInstant, formatInstantDay, isPastDay } from '../measure/moment.ts';
import { type FloorRest, floorRest } from '../pour/floor-rest.ts';
import { OPEN_SHARE, type RoomFloor } from '../pour/placed-floor.ts';
import type { LogEntry } from '../pour/log-time.ts';
import { liveEntries } from '../pour/pour-regions.ts';
import { laterM2 } from '../standing/rest-of-room.ts';
import { jobReadingCures } from '../standing/job-cures.ts';
import { capital } from '../measure/first-letter.ts';
import { listed, theRoom } from '../standing/names.ts';
import type { JobReading, RoomReading } from '../standing/read-job.ts';
import { beforeCover, defectWords } from '../standing/repair-words.ts';
import { roomFloorOf } from '../standing/read-pour.ts';
import { nextPourAt } from '../standing/room-pour.ts';
import { drawingBlock, headingBlock, listBlock, textBlock } from './blocks.ts';
import type { DocumentInput } from './document-input.ts';
import { type HandoverPlace, statedAt, statedWords } from './handover-tables.ts';
import { customerLine, revisedDocument, reachWords } from './letterhead.ts';
import { placeOf } from './handover-sheet.ts';
import type { Block, DocumentTree } from './tree.ts';

/** Troubles that stop a pour. A bad batch does not: pouring goes on, and the batch is marked suspect or taken out. */
const WHY: Readonly<Partial<Record<IncidentKind, string>>> = {
  'power-lost': 'the power failed',
  'water-lost': 'the water supply failed',
  'mixer-down': 'a mixer failed',
  'crew-lost': 'a crew member could not continue',
  'short-of-bags': 'the material ran short',
  'cold-edge': 'the wet edge had set before we could continue it',
  leak: 'material leaked through a gap',
};

type NoticeRoom = { readonly roomReading: RoomReading; readonly floor: RoomFloor; readonly rest: FloorRest };

/** Poured rooms with open or suspect areas. */
function noticeRooms(reading: JobReading): NoticeRoom[] {
  return reading.rooms.flatMap((roomReading): NoticeRoom[] => {
    const floor = roomFloorOf(reading, roomReading.room.id);
    const rest = floorRest(floor);
    return rest === null ? [] : [{ roomReading, floor, rest }];
  });
}

/** Whether a notice is needed. */
export const needsNotice = (reading: JobReading): boolean => noticeRooms(reading).length > 0;

/** Whether all of a room was placed, some of it removed since or not. */
const wasPlacedOnce = ({ floor: { lift }, rest }: Pick<NoticeRoom, 'floor' | 'rest'>): boolean =>
  lift !== null && rest.openM2 - rest.takenOutM2 <= lift.areaM2 * OPEN_SHARE;

/** Whether open floor is no more than the section that the last pour left for another day. */
const isLeftByPlan = (floor: RoomFloor, openM2: number): boolean => {
  const plannedM2 = laterM2(floor);
  return plannedM2 > 0 && openM2 <= plannedM2 + (floor.lift?.areaM2 ?? 0) * OPEN_SHARE;
};

/**
 * The trouble that stopped a pour. After it no batch was begun: else pouring went on, and it stopped for another reason. Only a pour short
 * of bags goes on to the last of them.
 */
function whyStopped(entries: readonly LogEntry[]): IncidentKind | null {
  const mixed = new Set<number>();
  let why: IncidentKind | null = null;
  for (const { event } of entries) {
    if (event.kind === 'incident' && WHY[event.what] !== undefined) why = event.what;
    const isBegun = event.kind === 'mixed' || (event.kind === 'placed' && !mixed.has(event.batch));
    if (event.kind === 'mixed') mixed.add(event.batch);
    if (why === 'short-of-bags' ? event.kind === 'bags-added' : isBegun) why = null;
  }
  return why;
}

/** What each day's pours placed of the last lift, square meters, some of it removed since or not. */
function pouredByDay({ lift, pours }: RoomFloor, dayOf: (pour: Pour) => string): ReadonlyMap<string, number> {
  const byDay = new Map<string, number>();
  for (const pour of pours) {
    const placed = lift?.regions.filter(({ pourId, state }) => pourId === pour.id && state !== 'not-placed') ?? [];
    if (placed.length > 0)
      byDay.set(
        dayOf(pour),
        placed.reduce((sum, { areaM2 }) => sum + areaM2, byDay.get(dayOf(pour)) ?? 0),
      );
  }
  return byDay;
}

/** What happened in one room, a sentence each. */
function happened(reading: JobReading, { roomReading, floor, rest }: NoticeRoom, { units, locale, zone }: HandoverPlace): string[] {
  const { whole } = reading;
  const { lift } = floor;
  const last = floor.pours.at(-1);
  if (lift === null || last === undefined) return [];
  const room = theRoom(roomReading.room.name);
  const why = whyStopped(liveEntries(last, whole.pourEvents));
  const area = (m2: number): string => formatArea(m2, units, locale);
  const byDay = pouredByDay(floor, (pour) => formatInstantDay(pour.finishedAt ?? pour.changedAt, zone, 'long', locale));
  const onDays = `On ${listed([...byDay.keys()])}`;
  if (lift.extent === 'none')
    return [`${onDays} we poured ${area(rest.takenOutM2)} of ${room} and removed it, because it was not good. It will be poured again.`];
  const sentences: string[] = [];
  const days = listed([...byDay].map(([day, areaM2]) => `${area(areaM2)} on ${day}`));
  const isPlacedOnce = wasPlacedOnce({ floor, rest });
  if (byDay.size > 1) sentences.push(`We poured ${days}: ${isPlacedOnce ? 'all of' : `part of the ${area(lift.areaM2)} in`} ${room}.`);
  else
    sentences.push(
      `${onDays} we poured ${isPlacedOnce ? 'all of' : `${area(lift.placedM2 + lift.takenOutM2)} of the ${area(lift.areaM2)} in`} ${room}.`,
    );
  if (!isPlacedOnce && isLeftByPlan(floor, rest.openM2 - rest.takenOutM2))
    sentences.push('This part was poured as planned. The rest follows.');
  else if (!isPlacedOnce) sentences.push(why === null ? 'We stopped before all of it was placed.' : `We stopped because ${WHY[why]}.`);
  if (rest.takenOutM2 > 0) sentences.push(`We removed ${area(rest.takenOutM2)} that was not good. It will be poured again.`);
  if (rest.openM2 > 0) sentences.push('The placed part ends at a straight edge, and the rest will join it there.');
  const cured = jobReadingCures(reading).find((one) => one.room.id === roomReading.room.id);
  const before = beforeCover(roomReading.jobRoom, cured?.schedule ?? { laidOn: null });
  const defects = defectWords(rest, { units, locale });
  if (defects !== '') sentences.push(`We found ${defects} and will repair this area ${before}.`);
  if (rest.toCheckM2 > 0) sentences.push(`We will check ${area(rest.toCheckM2)} of the floor ${before}.`);
  return sentences;
}

/** What may be walked on, and from when. */
function walking(reading: JobReading, noticeRoom: NoticeRoom, place: HandoverPlace): string[] {
  const { roomReading, rest } = noticeRoom;
  const cured = jobReadingCures(reading).find(({ room }) => room.id === roomReading.room.id);
  // A part that ends at open floor takes no furniture: the rest is poured beside it.
  const takesFurniture = ({ milestones }: CureSchedule): boolean => {
    const furnitureAt = statedAt(milestones.find(({ kind }) => kind === 'furniture'));
    return rest.openM2 <= 0 && furnitureAt !== null && furnitureAt <= place.now;
  };
  const parts = cured === undefined ? [] : cured.parts.length > 0 ? cured.parts : [{ pour: cured.pour, schedule: cured.schedule }];
  const sentences = parts.map(({ pour, schedule }) => {
    const walk = schedule.milestones.find((m) => m.kind === 'walk-on');
    const placed = formatInstantDay(pour.finishedAt ?? pour.changedAt, place.zone, 'short', place.locale);
    const part = rest.openM2 > 0 || parts.length > 1 ? `The part placed ${placed}` : 'The floor';
    const from = statedAt(walk);
    return from === null
      ? `${part}: keep off until we tell you.`
      : from <= place.now
        ? `${part} is open to ${takesFurniture(schedule) ? 'foot traffic and furniture with felt pads' : 'light foot traffic, soft-soled shoes'}.`
        : `${part} opens to light foot traffic ${statedWords(walk, place, 'weekday')}. Keep people and pets off until then.`;
  });
  return rest.openM2 > 0
    ? [
        ...sentences,
        wasPlacedOnce(noticeRoom)
          ? 'Keep off the part where the floor is removed. It must stay clean.'
          : 'Keep off the part that is not placed. It is primed, can be slippery, and must stay clean.',
      ]
    : sentences;
}

/** Whether dates change: those of a room with floor still to place that the plan had placed. */
const areDatesNew = ({ floor, rest }: NoticeRoom): boolean => rest.openM2 > 0 && !isLeftByPlan(floor, rest.openM2);

/** The dates that change, or that those given stay the same; empty where none were given. */
function datesOf(reading: JobReading, noticeRoom: NoticeRoom, { now, zone, locale }: HandoverPlace): string[] {
  const { roomReading, floor, rest } = noticeRoom;
  if (rest.openM2 <= 0) {
    const { promises, documents } = reading.whole;
    const wereGiven =
      promises.some(({ roomId, deletedAt }) => roomId === roomReading.room.id && deletedAt === null) ||
      documents.some(({ kind }) => kind === 'handover');
    return wereGiven ? ['The dates we gave you stay the same unless we tell you otherwise.'] : [];
  }
  const isNew = areDatesNew(noticeRoom);
  const poured = floor.pours.at(-1) ?? null;
  const last = poured?.finishedAt ?? '';
  const pourAt = nextPourAt(roomReading.jobRoom, poured, zone);
  if (pourAt === null || last === '' || isPastDay(pourAt, now, zone))
    return [
      `We will call you to set the day for the rest. ${isNew ? 'All later dates move, and we will send them' : 'We will send all later dates'} once that day is set.`,
    ];
  const days = Math.max(1, Math.round((Date.parse(pourAt) - Date.parse(last)) / 86_400_000));
  return [
    `We plan to pour the rest on ${formatInstant(pourAt, zone, 'weekday', locale)}.`,
    ...(isNew ? [`All later dates for this room move by about ${days === 1 ? '1 day' : `${days} days`}.`] : []),
    isSealed(roomReading.jobRoom.flooring)
      ? 'The floor is sealed only after all of it passes its moisture test.'
      : 'Flooring that needs a moisture test goes down only after the whole floor passes it.',
  ];
}

const aboutOf = (rooms: readonly NoticeRoom[]): string => (rooms.some(areDatesNew) ? 'what happened, and new dates' : 'what happened');

/** The message, never sent automatically; null where no notice is needed. */
export function noticeMessage(reading: JobReading, now: string): { readonly subject: string; readonly body: string } | null {
  const rooms = noticeRooms(reading);
  if (rooms.length === 0) return null;
  const { customer, business } = reading.whole;
  const place = placeOf(reading, now);
  const parts = rooms.flatMap((noticeRoom) => [
    happened(reading, noticeRoom, place).join(' '),
    walking(reading, noticeRoom, place).join(' '),
    datesOf(reading, noticeRoom, place).join(' '),
  ]);
  return {
    subject: `${capital(listed(rooms.map(({ roomReading }) => roomReading.room.name)))}: ${aboutOf(rooms)}`,
    body: [
      `Dear ${customer.name},`,
      ...parts.filter((part) => part !== ''),
      `Questions: call ${business.phone === '' ? 'us' : business.phone}.`,
      business.ownerName,
    ].join('\n\n'),
  };
}

function roomBlocks(reading: JobReading, noticeRoom: NoticeRoom, place: HandoverPlace): Block[] {
  const { room } = noticeRoom.roomReading;
  const { lift } = noticeRoom.floor;
  const dates = datesOf(reading, noticeRoom, place);
  const plan =
    lift === null || room.plan.outline.length < 3
      ? null
      : planDrawing({
          plan: room.plan,
          widthPx: 460,
          heightPx: 260,
          shows: 'lanes',
          lengthText: (lengthM) => formatLength(lengthM, place.units, place.locale),
          pour: {
            lanes: [],
            batches: regionsForCustomer(lift.regions),
            wetEdges: [],
            isPourMode: false,
            joints: noticeRoom.rest.joints.map((line, i) => ({ id: String(i), ...line })),
          },
          hasDimensions: false,
          openingWords: () => [],
        });
  return [
    headingBlock(2, room.name),
    ...(plan === null ? [] : [drawingBlock(plan, `Plan of ${room.name}: ${happened(reading, noticeRoom, place).join(' ')}`)]),
    headingBlock(3, 'What happened'),
    listBlock(happened(reading, noticeRoom, place)),
    headingBlock(3, 'Safe to walk on'),
    listBlock(walking(reading, noticeRoom, place)),
    ...(dates.length === 0 ? [] : [headingBlock(3, areDatesNew(noticeRoom) ? 'New dates' : 'Dates'), listBlock(dates)]),
  ];
}

/** The paper. */
export function floorNotice(input: DocumentInput): DocumentTree {
  const { reading, now } = input;
  const { business } = reading.whole;
  const place = placeOf(reading, now);
  const rooms = noticeRooms(reading);
  return revisedDocument(input, {
    name: 'Floor notice',
    about: `${capital(aboutOf(rooms))}${rooms.some(areDatesNew) ? ',' : ''} at`,
    blocks: [
      headingBlock(1, 'About your floor'),
      textBlock(customerLine(reading.whole)),
      ...rooms.flatMap((noticeRoom) => roomBlocks(reading, noticeRoom, place)),
      textBlock(`Questions: ${reachWords(business.ownerName, business)}.`),
    ],
  });
}
