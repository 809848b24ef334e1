/** The handover sheet: two pages a family keeps. When the floor can be used, what was placed, how flat it is, its care and warranty. */
import { formatArea } from '../measure/area.ts';
import { formatDay } from '../measure/day.ts';
import { formatDuration } from '../measure/duration.ts';
import { formatNumber } from '../measure/number.ts';
import { dayOfInstant, formatInstantDay } from '../measure/moment.ts';
import { formatTemperature } from '../measure/temperature.ts';
import { workCalendar } from '../cure/stated-date.ts';
import { formatMoney } from '../price/money.ts';
import { jobMoney } from '../standing/job-money.ts';
import { listed } from '../standing/names.ts';
import type { JobReading } from '../standing/read-job.ts';
import { headingBlock, listBlock, noteBlock, signatureBlock, tableBlocks, textBlock } from './blocks.ts';
import { bareCare, byDate, whileItDries } from './handover-care.ts';
import { daysInWords, handoverDays, handoverPlan } from './handover-picture.ts';
import { type HandoverRoom, handoverRooms, type UnfinishedRoom, unfinishedRooms } from './handover-rooms.ts';
import {
  FLAT_CAPTION,
  flatTable,
  type HandoverPlace,
  PLACED_CAPTION,
  placedTable,
  statedAt,
  statedWords,
  TESTED_CAPTION,
  testedTable,
  usedTable,
} from './handover-tables.ts';
import { addressLine, issuerName, onLetterhead } from './letterhead.ts';
import { type PaperPhoto, photosBlock, pouredPhotos } from './paper-photos.ts';
import type { Block, DocumentTree } from './tree.ts';

/** The page between its margins, in sheet units, and how far a wide drawing runs past it. */
const MEASURE_PX = 696;
const OVER_PX = 38;
/** Height of the plan: the first page has to hold the table as well. */
const PLAN_PX = { most: 250, least: 100, perRoom: 22, perChange: 26 } as const;
const MAX_CHANGES = 6;

export type HandoverChoice = {
  readonly now: string;
  readonly revision: number;
  readonly changes: readonly string[];
  /** The job's photos; those of the placed floors since their pours began are printed. */
  readonly photos?: readonly PaperPhoto[];
};

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

/** Cold hours that moved dates, and dates promised earlier than they are now. */
function movedWords(reading: JobReading, rooms: readonly HandoverRoom[], place: HandoverPlace): string[] {
  const { zone, locale, units } = place;
  const cold = rooms.filter(({ schedule }) => schedule.log.hoursStoodStill >= 1);
  const limits = new Map<string, string[]>();
  for (const { schedule, room } of cold) {
    const limit = formatTemperature(schedule.leastCureTempC, units, locale);
    const hours = `${room.name} for ${formatNumber(schedule.log.hoursStoodStill, { most: 0 }, locale)} hours`;
    limits.set(limit, [...(limits.get(limit) ?? []), hours]);
  }
  const paused = [...limits].map(([limit, hours]) => `Curing paused below ${limit}: ${listed(hours)}.`);
  const moved = rooms.flatMap(({ schedule, room }) =>
    schedule.milestones.flatMap((m) => {
      const stated = statedAt(m);
      const promised = reading.whole.promises
        .filter((p) => p.deletedAt === null && p.roomId === room.id && p.milestone === m.kind && (p.flooring ?? m.flooring) === m.flooring)
        .toSorted((a, b) => a.madeAt.localeCompare(b.madeAt))
        .at(-1);
      if (stated === null || promised === undefined || dayOfInstant(stated, zone) <= dayOfInstant(promised.promisedFor, zone)) return [];
      if (m.kind === 'cover' && m !== schedule.cover) return [];
      return [`${room.name}, ${m.name}: ${statedWords(m, place)} (was ${formatInstantDay(promised.promisedFor, zone, 'short', locale)}).`];
    }),
  );
  return [...paused, ...moved];
}

/** Changes since the last revision, beside promised dates that moved; they share a line of the page. */
function changedBlocks(changes: readonly string[], moved: readonly string[]): Block[] {
  const lists = [
    { title: 'Changed since the last revision', lines: changes },
    { title: 'Promised dates that moved', lines: moved },
  ].filter(({ lines }) => lines.length > 0);
  if (lists.length === 0) return [];
  const columns = lists.map(({ title, lines }) => [headingBlock(2, title), listBlock(lines)]);
  return [{ kind: 'columns', shares: columns.map(() => 1), columns }];
}

/** Page 1: plan, days, table, advice before flooring and while the floor dries. */
function firstPage(reading: JobReading, rooms: readonly HandoverRoom[], place: HandoverPlace, changes: readonly string[]): Block[] {
  const { customer, property } = reading.whole;
  const listedChanges =
    changes.length > MAX_CHANGES
      ? [...changes.slice(0, MAX_CHANGES - 1), `${changes.length - MAX_CHANGES + 1} more changes in the tables.`]
      : changes;
  const moved = movedWords(reading, rooms, place);
  const most = Math.max(listedChanges.length, moved.length);
  // Their heading takes the height of two lines.
  const lines = most === 0 ? 0 : most + 2;
  const planPx = Math.max(PLAN_PX.least, PLAN_PX.most - Math.max(0, rooms.length - 2) * PLAN_PX.perRoom - lines * PLAN_PX.perChange);
  const plan = handoverPlan(rooms, place, MEASURE_PX, planPx);
  const days = handoverDays(rooms, place, { widthPx: MEASURE_PX + 2 * OVER_PX, insetPx: OVER_PX, hasKey: true, isNarrow: false });
  const described = rooms.map((handoverRoom) => `${handoverRoom.room.name}: ${daysInWords(handoverRoom, place)}`).join('; ');
  return [
    headingBlock(1, 'Your new floors'),
    textBlock([customer.name, addressLine(property.address)].filter((p) => p !== '').join(', ')),
    ...unfinishedWords(unfinishedRooms(reading)),
    ...changedBlocks(listedChanges, moved),
    ...(plan.marks.length === 0
      ? []
      : [{ kind: 'drawing' as const, drawing: plan, alt: `Plan of the placed rooms. ${described}`, caption: '', gives: true }]),
    headingBlock(2, 'When you can use the floor'),
    ...(days === null
      ? []
      : [{ kind: 'drawing' as const, drawing: days, alt: `Days from pour to flooring. ${described}`, caption: '', wide: true }]),
    ...usedTable(rooms, place),
    {
      kind: 'columns',
      shares: [1, 1],
      columns: [
        [
          headingBlock(2, 'Before flooring goes down'),
          textBlock(
            `Plan on the dates above or later.${rooms.some(needsTest) ? ' Have the moisture test done in the days before your flooring date. The floor must meet the flooring manufacturer’s limit.' : ''}`,
          ),
        ],
        [headingBlock(2, 'While it dries'), listBlock(whileItDries(rooms, place))],
      ],
    },
  ];
}

/** What is allowed from each day, and what to avoid before. */
function datedTable(reading: JobReading, rooms: readonly HandoverRoom[], place: HandoverPlace): Block[] {
  const dates = byDate(rooms, reading.whole.visits, place);
  if (dates.length === 0) return [];
  return [
    headingBlock(2, 'Day by day'),
    ...tableBlocks(
      'Day by day',
      [
        ['From', 0.2],
        ['Room', 0.18],
        ['Allowed use', 0.32],
        ['Before that date', null],
      ],
      dates.map((d) => [d.when, d.where, d.what, d.before]),
    ),
  ];
}

/** A floor whose flooring waits for a moisture test; tile waits for the data sheet's hours alone. */
const needsTest = ({ schedule }: HandoverRoom): boolean => schedule.clearance?.requirement.byHours === false;

/** The amounts paid and due; empty where no quote was accepted. */
function balanceWords({ whole }: JobReading, now: string): string[] {
  const { contract, account, isPaid } = jobMoney(whole, now);
  if (contract === null) return [];
  const money = (minor: number): string => formatMoney(minor, contract.currency, whole.business.locale);
  const total = `Contract total ${money(contract.totalMinor)}.`;
  if (whole.ledger.length === 0) return [total];
  const received = account.receivedMinor - account.refundedMinor;
  const due = contract.totalMinor - received - account.creditedMinor - account.writtenOffMinor;
  return [`${total} Paid ${money(received)}. ${isPaid || due <= 0 ? 'Paid in full.' : `Balance due ${money(due)}.`}`];
}

function warrantyWords({ whole }: JobReading): string[] {
  const { business, job } = whole;
  const own = business.contract.warrantyText.trim();
  return [
    ...(job.defectsUntil === null ? [] : [`Warranty through ${formatDay(job.defectsUntil, 'full', business.locale)}.`]),
    ...(own === '' ? [] : [own]),
  ];
}

/** Rooms placed in more than one pour: how much on which day, and the joint between. */
function pouredInParts(rooms: readonly HandoverRoom[], { zone, locale, units }: HandoverPlace): Block[] {
  const says = rooms
    .filter(({ parts }) => parts.length > 1)
    .map(({ room, parts }) => {
      const days = parts.map(
        ({ pour, areaM2 }) =>
          `${formatInstantDay(pour.finishedAt ?? pour.changedAt, zone, 'short', locale)} (${formatArea(areaM2, units, locale)})`,
      );
      return `${room.name} was placed on ${listed(days)}. The dashed line on the plan is the joint between the pours.`;
    });
  return says.length === 0 ? [] : [listBlock(says)];
}

/** Possible cold joints, each by its letter on the plan. */
function jointWords(rooms: readonly HandoverRoom[], { locale }: HandoverPlace): string[] {
  return rooms.flatMap((handoverRoom) =>
    handoverRoom.joins.map(
      (join) =>
        `${join.letter} on the plan, ${handoverRoom.room.name}: the wet edge was open ${formatDuration(Math.round(join.openMin) * 60, locale)}. Check it for a ridge or a hairline crack before flooring goes down.`,
    ),
  );
}

/** The page with what was placed, how flat it is, tests, warranty, care and the signatures. */
function secondPage(reading: JobReading, rooms: readonly HandoverRoom[], place: HandoverPlace): Block[] {
  const { whole } = reading;
  const { business, customer } = whole;
  const care = bareCare(rooms);
  const joints = jointWords(rooms, place);
  const tested = testedTable(rooms, place);
  const call = [business.ownerName, business.phone, business.email].filter((p) => p !== '').join(', ');
  const owed = [...balanceWords(reading, place.now), ...warrantyWords(reading)];
  return [
    ...datedTable(reading, rooms, place),
    headingBlock(2, PLACED_CAPTION),
    ...placedTable(rooms, place),
    ...pouredInParts(rooms, place),
    headingBlock(2, `${FLAT_CAPTION}: largest gap under a straightedge`),
    ...flatTable(rooms, place),
    ...(tested.length === 0 ? [] : [headingBlock(2, TESTED_CAPTION), ...tested]),
    ...(joints.length === 0 ? [] : [headingBlock(2, 'Possible cold joints'), listBlock(joints)]),
    headingBlock(2, 'Care, warranty and balance'),
    listBlock([
      care ?? 'After the flooring is down, follow the flooring manufacturer’s care instructions.',
      'Do not grind or sand this floor: the dust is hazardous. We have not checked the structure.',
      ...owed,
      `Questions, a crack, a hollow sound, or a damp spot: call ${call === '' ? 'us' : call}.`,
    ]),
    {
      kind: 'together',
      blocks: [signatureBlock(issuerName(business), business.ownerName), signatureBlock('Received by', customer.name)],
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

/** The floors as they were placed. */
function photoBlocks(rooms: readonly HandoverRoom[], photos: readonly PaperPhoto[], place: HandoverPlace): Block[] {
  const begunAt = new Map(rooms.map(({ room, pour }) => [room.id, pour.startedAt ?? pour.createdAt]));
  const shown = pouredPhotos(photos, begunAt);
  if (shown.length === 0) return [];
  const nameOf = (id: string | null): string => rooms.find(({ room }) => room.id === id)?.room.name ?? '';
  return [headingBlock(2, 'Photos'), photosBlock(shown, place, (photo) => nameOf(photo.roomId))];
}

/** The sheet for every room that is placed whole. Without one it says so. */
export function handoverSheet(reading: JobReading, { now, revision, changes, photos = [] }: HandoverChoice): DocumentTree {
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
            { kind: 'cover' as const, blocks: firstPage(reading, rooms, place, changes) },
            ...secondPage(reading, rooms, place),
            ...photoBlocks(rooms, photos, place),
          ],
  });
}
