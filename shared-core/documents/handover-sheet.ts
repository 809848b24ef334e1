/** The handover sheet: two pages a family keeps. When the floor can be used, what was placed, how flat it is, its care and warranty. */
import { countWords } from '../measure/count-words.ts';
import { formatDay } from '../measure/day.ts';
import { formatDuration } from '../measure/duration.ts';
import { joined } from '../measure/list.ts';
import { dayOfInstant, formatInstantDay } from '../measure/moment.ts';
import { formatTemperature } from '../measure/temperature.ts';
import { workCalendar } from '../cure/stated-date.ts';
import { formatMoney } from '../price/money.ts';
import { stillToPayMinor, termsOfJob } from '../ledger/job-contract.ts';
import { jobMoney } from '../standing/job-money.ts';
import { listed } from '../standing/names.ts';
import type { JobReading } from '../standing/read-job.ts';
import { beforeCover } from '../standing/repair-words.ts';
import { isCleared, isDatedCover } from '../standing/room-cure.ts';
import { ASBESTOS_LEFT, asbestosLeftLines } from './asbestos-left.ts';
import { customerSignature, drawingBlock, headingBlock, listBlock, listPart, noteBlock, signatureBlock, textBlock } from './blocks.ts';
import { warrantyClause } from './clauses.ts';
import { bareCare, byDate, heatCare, whileItDries } from './handover-care.ts';
import { beforeAfterPicture } from './handover-flatness.ts';
import { daysInWords, handoverDays, handoverPlan } from './handover-picture.ts';
import { CHANGES_HEADING } from './tree-changes.ts';
import { type HandoverRoom, handoverRooms, receivedBy, type UnfinishedRoom, unfinishedRooms } from './handover-rooms.ts';
import {
  flatHeading,
  flatTable,
  flooringReady,
  type HandoverPlace,
  honoredLines,
  isAllSealed,
  partLines,
  PLACED_CAPTION,
  placedTable,
  repairLines,
  statedAt,
  TESTED_CAPTION,
  testedTable,
  usedTable,
} from './handover-tables.ts';
import { customerLine, issuerName, onLetterhead, reachWords } from './letterhead.ts';
import type { DocumentInput } from './document-input.ts';
import { beforeAfterPhotos, type PaperPhoto } from './paper-photos.ts';
import { NO_STRUCTURAL_CHECK } from './quote-terms.ts';
import type { Block, DocumentTree, Run } from './tree.ts';
import { warrantyOf } from '../standing/warranty-period.ts';
import { milestoneName } from '../standing/cure-words.ts';
import { lowerFirst } from '../measure/first-letter.ts';

/** The page between its margins, in sheet units, and how far a wide drawing runs past it. */
const MEASURE_PX = 696;
const OVER_PX = 38;
/** Height of the plan: the first page has to hold the table as well. */
const PLAN_PX = { most: 250, perRoom: 22, beside: 180, under: 80 } as const;
/** Share of the width the plan has beside what changed, and the space between the two. */
const PLAN_SHARE = 0.55;
const COLUMN_GAP_PX = 24;
const MAX_CHANGES = 6;

/** The photos are on the before and after sheet, and this sheet says so. */
export type HandoverChoice = Omit<DocumentInput, 'reading' | 'photos'> & Partial<Pick<DocumentInput, 'photos'>>;

/** Where and how a document of a job writes its figures. */
export function placeOf({ whole }: Pick<JobReading, 'whole'>, now: string): HandoverPlace {
  const { business, property } = whole;
  const zone = property.timeZone;
  return {
    now,
    zone,
    locale: business.locale,
    units: business.units,
    country: business.address.country,
    calendar: workCalendar(business, zone),
  };
}

const PART_WORDS: Readonly<Record<UnfinishedRoom['part'], string>> = {
  none: 'not poured yet',
  running: 'being poured',
  part: 'partly poured',
};

/** Rooms without dates, named so that no date is taken for theirs. */
function unfinishedWords(rooms: readonly UnfinishedRoom[]): Block[] {
  if (rooms.length === 0) return [];
  const parts = rooms.map((room) => `${room.name} (${PART_WORDS[room.part]})`);
  return [
    textBlock(`Not part of this handover: ${listed(parts)}. No date here applies to ${rooms.length === 1 ? 'it' : 'them'}.`, {
      bold: true,
    }),
  ];
}

/** Repairs and checks of the placed floors that we owe. */
function stillToDo(rooms: readonly HandoverRoom[], place: HandoverPlace): Block[] {
  const lines = repairLines(rooms, place);
  return lines.length === 0 ? [] : [textBlock(`We still have work to do. ${lines.join(' ')}`, { bold: true })];
}

/** Cold hours that moved dates, and dates promised earlier than they are now. */
function movedWords(reading: JobReading, rooms: readonly HandoverRoom[], place: HandoverPlace): string[] {
  const { zone, locale, units } = place;
  const cold = rooms.filter(({ schedule }) => schedule.laidOn === null && schedule.log.hoursStoodStill >= 1);
  const limits = new Map<string, string[]>();
  for (const { schedule, room } of cold) {
    const limit = formatTemperature(schedule.leastCureTempC, units, locale);
    const hours = `${room.name} for ${countWords(Math.round(schedule.log.hoursStoodStill), 'hour', locale)}`;
    limits.set(limit, [...(limits.get(limit) ?? []), hours]);
  }
  const paused = [...limits].map(([limit, hours]) => `Curing paused below ${limit}: ${listed(hours)}.`);
  const moved = rooms.flatMap((handoverRoom) => {
    const { schedule, room } = handoverRoom;
    return schedule.milestones.flatMap((m) => {
      const stated = statedAt(m);
      const promised = reading.whole.promises
        .filter((p) => p.deletedAt === null && p.roomId === room.id && p.milestone === m.kind && (p.flooring ?? m.flooring) === m.flooring)
        .toSorted((a, b) => a.madeAt.localeCompare(b.madeAt))
        .at(-1);
      if (stated === null || promised === undefined || dayOfInstant(stated, zone) <= dayOfInstant(promised.promisedFor, zone)) return [];
      if (m.kind === 'cover' && (m !== schedule.cover || !isDatedCover(handoverRoom, place.now))) return [];
      const day = (instant: string): string => formatInstantDay(instant, zone, 'short', locale);
      return [`${room.name}, ${milestoneName(m)}: ${day(stated)}, not ${day(promised.promisedFor)}.`];
    });
  });
  return [...paused, ...moved];
}

/** Changes since the last revision, and dates later than promised: a column each. */
function changedColumns(changes: readonly string[], moved: readonly string[]): Block[][] {
  return [
    { title: CHANGES_HEADING, lines: changes },
    { title: 'Dates later than promised', lines: moved },
  ].flatMap(({ title, lines }) => (lines.length === 0 ? [] : [listPart(2, title, lines)]));
}

/** The plan under two columns of changes, beside one, or alone. */
function withPlan(changed: Block[][], plan: Block | null): Block[] {
  const [first] = changed;
  if (plan === null || first === undefined) return [...changed.flat(), ...(plan === null ? [] : [plan])];
  if (changed.length > 1) return [{ kind: 'columns', shares: changed.map(() => 1), columns: changed }, plan];
  return [{ kind: 'columns', shares: [1 - PLAN_SHARE, PLAN_SHARE], columns: [first, [plan]] }];
}

/** One list of changes stands beside the plan; two stand over it, and it gives up height to them. */
function planBlock(rooms: readonly HandoverRoom[], place: HandoverPlace, lists: number, described: string): Block | null {
  const planPx = PLAN_PX.most - Math.max(0, rooms.length - 2) * PLAN_PX.perRoom;
  const plan =
    lists === 1
      ? handoverPlan(rooms, place, MEASURE_PX * PLAN_SHARE - COLUMN_GAP_PX, Math.min(planPx, PLAN_PX.beside))
      : handoverPlan(rooms, place, MEASURE_PX, lists === 0 ? planPx : PLAN_PX.under);
  return plan.marks.length === 0 ? null : drawingBlock(plan, `Plan of the placed rooms. ${described}`, { gives: lists !== 1 });
}

/** Page 1: plan, days, table, advice before flooring and while the floor dries. */
function firstPage(
  reading: JobReading,
  rooms: readonly HandoverRoom[],
  place: HandoverPlace,
  { changes, isDrawn = true }: HandoverChoice,
): Block[] {
  const listedChanges =
    changes.length > MAX_CHANGES
      ? [...changes.slice(0, MAX_CHANGES - 1), `${changes.length - MAX_CHANGES + 1} more changes on this sheet.`]
      : changes;
  const changed = changedColumns(listedChanges, movedWords(reading, rooms, place));
  const open = rooms.filter(({ schedule }) => schedule.laidOn === null);
  const described = rooms.map((handoverRoom) => `${handoverRoom.room.name}: ${daysInWords(handoverRoom, place)}`).join('; ');
  const days = isDrawn
    ? handoverDays(rooms, place, { widthPx: MEASURE_PX + 2 * OVER_PX, insetPx: OVER_PX, hasKey: true, isNarrow: false })
    : null;
  return [
    headingBlock(1, 'Your new floors'),
    textBlock(customerLine(reading.whole)),
    ...unfinishedWords(unfinishedRooms(reading)),
    ...stillToDo(rooms, place),
    ...withPlan(changed, isDrawn ? planBlock(rooms, place, changed.length, described) : null),
    headingBlock(2, 'When you can use the floor'),
    ...(days === null
      ? []
      : [drawingBlock(days, `Days from pour to ${isAllSealed(rooms) ? 'sealer' : 'flooring'}. ${described}`, { wide: true })]),
    ...usedTable(rooms, place),
    ...datedLines(reading, rooms, place),
    ...listPart(2, isAllSealed(open) ? 'Until it is sealed' : 'Until flooring goes down', [
      ...planOn(open, place),
      ...(open.length === 0 ? [] : whileItDries(open, place)),
    ]),
  ];
}

/** What is allowed from each day to come, and what to avoid before. */
function datedLines(reading: JobReading, rooms: readonly HandoverRoom[], place: HandoverPlace): Block[] {
  const lines = byDate(rooms, reading.whole.visits, place).map(({ when, where, what, before }): Run[] => [
    { text: `${when}${where === '' ? '' : `, ${where}`}: `, bold: true },
    { text: `${what}${before === '' ? '' : ` Until then: ${lowerFirst(before)}`}` },
  ]);
  return lines.length === 0 ? [] : [listBlock(lines)];
}

/** Whether the table has a date of a floor that is still ahead. */
const hasDateAhead = (handoverRoom: HandoverRoom, place: HandoverPlace): boolean =>
  flooringReady(handoverRoom, place).kind === 'from' || byDate([handoverRoom], [], place).length > 0;

/** What the flooring dates ask for; nothing once every floor is cleared. */
function planOn(rooms: readonly HandoverRoom[], place: HandoverPlace): string[] {
  const open = rooms.filter((handoverRoom) => !isCleared(handoverRoom, place.now));
  if (open.length === 0) return [];
  const tested = open.filter((handoverRoom) => needsTest(handoverRoom) && handoverRoom.schedule.clearance?.passed !== true);
  const test = isAllSealed(tested)
    ? 'The floor is sealed only after it meets the moisture limit on the sealer’s data sheet.'
    : 'Have the moisture test done in the days before your flooring date. The floor must meet the flooring manufacturer’s limit.';
  const dates = open.some((handoverRoom) => hasDateAhead(handoverRoom, place)) ? ['Plan on the dates above or later.'] : [];
  return [[...dates, ...(tested.length === 0 ? [] : [test])].join(' ')].filter((words) => words !== '');
}

/** A floor whose flooring waits for a moisture test; tile waits for the data sheet's hours alone. */
export const needsTest = ({ schedule }: Pick<HandoverRoom, 'schedule'>): boolean => schedule.clearance?.requirement.byHours === false;

/** The amounts paid and due; empty where no quote was accepted. */
function balanceWords({ whole }: JobReading, now: string): string[] {
  const { contract, account } = jobMoney(whole, now);
  if (contract === null) return [];
  const money = (minor: number): string => formatMoney(minor, contract.currency, whole.business.locale);
  const total = `Contract total ${money(contract.totalMinor)}.`;
  if (whole.ledger.length === 0) return [total];
  const received = account.receivedMinor - account.refundedMinor;
  // A credit for change orders is inside the contract total already.
  const credited = account.creditedMinor - account.orderCreditsMinor + account.writtenOffMinor;
  const due = stillToPayMinor(contract, account);
  const less = credited === 0 ? '' : ` Credited ${money(credited)}.`;
  const settled = account.writtenOffMinor === 0 ? 'Paid in full.' : 'Nothing is left to pay.';
  const left = due > 0 ? `Still to pay: ${money(due)}.` : due < 0 ? `We owe you ${money(-due)}.` : settled;
  return [`${total}${less} Paid ${money(received)}. ${left}`];
}

function warrantyWords(reading: JobReading): string[] {
  const { locale } = reading.whole.business;
  const { warrantyMonths, clauses } = termsOfJob(reading.whole);
  const { ends } = warrantyOf(reading.whole);
  const period =
    ends !== null
      ? `Warranty through ${formatDay(ends, 'dated', locale)}.`
      : warrantyMonths === null
        ? ''
        : `Warranty: ${countWords(warrantyMonths, 'month', locale)} from the day of handover.`;
  // The starter text says no more than the contract and the certificate.
  const own = clauses.some(({ topic }) => topic === 'warranty') ? warrantyClause(reading.whole) : '';
  const words = joined([period, own], ' ');
  return words === '' ? [] : [words];
}

/** Possible cold joints, each by its letter on the plan. */
function jointWords(rooms: readonly HandoverRoom[], { locale }: HandoverPlace): string[] {
  return rooms.flatMap((handoverRoom) =>
    handoverRoom.joins.map(
      (join) =>
        `${join.letter} on the plan, ${handoverRoom.room.name}: the wet edge was open ${formatDuration(Math.round(join.openMin) * 60, locale)}. ${
          handoverRoom.schedule.laidOn === null
            ? `Check it for a ridge or a hairline crack ${beforeCover(handoverRoom.jobRoom, handoverRoom.schedule)}.`
            : 'Watch the floor over it for a ridge or a crack.'
        }`,
    ),
  );
}

/** The page with what was placed, how flat it is, tests, warranty, care and the signatures. */
function secondPage(
  reading: JobReading,
  rooms: readonly HandoverRoom[],
  place: HandoverPlace,
  { photos = [], isDrawn = true }: HandoverChoice,
): Block[] {
  const { whole } = reading;
  const { business, customer } = whole;
  const care = bareCare(rooms);
  const joints = jointWords(rooms, place);
  const parts = partLines(rooms, place);
  const tested = testedTable(rooms, place);
  const owed = [...balanceWords(reading, place.now), ...warrantyWords(reading)];
  return [
    headingBlock(2, PLACED_CAPTION),
    ...placedTable(rooms, place),
    ...(parts.length === 0 ? [] : [listBlock(parts)]),
    flatHeading(place),
    ...flatTable(rooms, place),
    ...(isDrawn ? beforeAfterPicture(rooms, place) : []),
    ...(tested.length === 0 ? [] : [headingBlock(2, TESTED_CAPTION), ...tested]),
    ...listPart(2, 'Possible cold joints', joints),
    ...listPart(2, 'Joints that go through the floor', honoredLines(rooms)),
    ...listPart(2, ASBESTOS_LEFT, asbestosLeftLines(rooms)),
    headingBlock(2, 'Care, warranty and balance'),
    listBlock([
      care ?? 'After the flooring is down, follow the flooring manufacturer’s care instructions.',
      ...heatCare(rooms),
      `Do not grind or sand this floor: the dust is hazardous. ${NO_STRUCTURAL_CHECK}`,
      ...owed,
      ...photoWords(rooms, photos),
      `Questions, a crack, a hollow sound, or a damp spot: ${reachWords(business.ownerName, business)}.`,
    ]),
    {
      kind: 'together',
      blocks: [
        signatureBlock(issuerName(business), business.ownerName),
        customerSignature('Received by', customer.name, receivedBy(rooms)),
      ],
    },
  ];
}

/** When it was handed over, is planned to be, or the day whose dates it states. */
function handedOverWords(rooms: readonly HandoverRoom[], reading: JobReading, { now, zone, locale }: HandoverPlace): string {
  const days = rooms
    .flatMap((handoverRoom) => (handoverRoom.jobRoom.handedOverAt === null ? [] : [handoverRoom.jobRoom.handedOverAt]))
    .sort();
  const last = days.length === rooms.length ? days.at(-1) : undefined;
  if (last !== undefined) return `Handed over ${formatInstantDay(last, zone, 'full', locale)}`;
  const planned = reading.whole.job.handoverAt;
  const isAhead = planned !== null && dayOfInstant(planned, zone) > dayOfInstant(now, zone);
  return isAhead
    ? `Handover planned for ${formatInstantDay(planned, zone, 'full', locale)}`
    : `As of ${formatInstantDay(now, zone, 'full', locale)}`;
}

/** Where the photos are: the sheet has no room for them beside what a family keeps. */
function photoWords(rooms: readonly HandoverRoom[], photos: readonly PaperPhoto[]): string[] {
  const has = rooms.some((room) => {
    const { before, after } = beforeAfterPhotos(photos, room);
    return before.length + after.length > 0;
  });
  return has ? ['Photos of the floors: see the before and after sheet.'] : [];
}

/** The sheet for every room that is placed whole. Without one it says so. */
export function handoverSheet(reading: JobReading, choice: HandoverChoice): DocumentTree {
  const { now, revision } = choice;
  const { business, property, job, customer } = reading.whole;
  const rooms = handoverRooms(reading);
  const place = placeOf(reading, now);
  return onLetterhead(business, {
    title: `Handover ${job.number} revision ${revision}, ${customer.name}`,
    subject: `Dates, flatness, and care of the floors at ${property.address.line}`,
    madeAt: now,
    right: [handedOverWords(rooms, reading, place), `Job ${job.number}, revision ${revision}, page {page} of {pages}`],
    blocks:
      rooms.length === 0
        ? [headingBlock(1, 'No floor is finished yet'), noteBlock('The handover sheet is available once a floor is fully placed.')]
        : [
            { kind: 'cover' as const, blocks: firstPage(reading, rooms, place, choice) },
            { kind: 'cover' as const, blocks: secondPage(reading, rooms, place, choice) },
          ],
  });
}
