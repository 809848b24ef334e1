/** The moisture test report: method, place, depth, hours, ambient conditions, instrument, results, limit and whose. Fields not on record are left to fill in. */
import { limitText, METHOD_NAMES, milestoneName, valueText, whoseLimit } from '../standing/cure-words.ts';
import { formatInstant, formatInstantDay } from '../measure/moment.ts';
import { formatPercent } from '../measure/percent.ts';
import { formatTemperature } from '../measure/temperature.ts';
import { fieldsBlock, headingBlock, listBlock, noteBlock, signatureBlock, tableBlocks, textBlock } from './blocks.ts';
import type { DocumentInput } from './document-input.ts';
import { handoverPlan } from './handover-picture.ts';
import { type HandoverRoom, handoverRooms } from './handover-rooms.ts';
import { placeOf } from './handover-sheet.ts';
import type { HandoverPlace } from './handover-tables.ts';
import { customerLine, issuerName, onLetterhead } from './letterhead.ts';
import type { Block, DocumentTree } from './tree.ts';

const PLAN_PX = { width: 696, height: 200 } as const;

/** Tests on record for a room since it was placed. */
function resultRows(handoverRoom: HandoverRoom, input: DocumentInput, place: HandoverPlace): string[][] {
  const { zone, locale } = place;
  const { clearance, placedAt } = handoverRoom.schedule;
  const methods = clearance?.requirement.methods ?? [];
  return input.reading.whole.clearanceTests
    .filter((test) => test.deletedAt === null && test.roomId === handoverRoom.room.id && test.takenAt >= placedAt)
    .toSorted((a, b) => a.takenAt.localeCompare(b.takenAt))
    .map((test) => {
      const method = methods.find((m) => m.method === test.method);
      return [
        handoverRoom.room.name,
        METHOD_NAMES[test.method],
        formatInstant(test.takenAt, zone, 'short', locale),
        valueText(test),
        method === undefined ? 'Not a method for this flooring' : `${limitText(method)}, ${whoseLimit(method)}`,
        [test.by, test.note].filter((part) => part !== '').join(', '),
      ];
    });
}

/** The air of a room at its last test; the newest reading where it was not tested. */
function ambientRows(handoverRoom: HandoverRoom, input: DocumentInput, { zone, units, locale }: HandoverPlace): string[][] {
  const readings = input.reading.whole.cureLogs
    .filter((log) => log.roomId === handoverRoom.room.id && log.deletedAt === null)
    .flatMap((log) => log.readings)
    .toSorted((a, b) => a.instant.localeCompare(b.instant));
  const testedAt = input.reading.whole.clearanceTests
    .flatMap((test) => (test.deletedAt === null && test.roomId === handoverRoom.room.id ? [test.takenAt] : []))
    .toSorted()
    .at(-1);
  const last = testedAt === undefined ? readings.at(-1) : readings.findLast(({ instant }) => instant <= testedAt);
  if (last === undefined) return [];
  return [
    [
      handoverRoom.room.name,
      formatInstant(last.instant, zone, 'short', locale),
      formatTemperature(last.tempC, units, locale),
      last.relativeHumidity === null ? 'Not recorded' : formatPercent(last.relativeHumidity, 0, locale),
    ],
  ];
}

/** The air of the rooms; fields to fill in where one has no reading on record. */
function ambientBlocks(rooms: readonly HandoverRoom[], input: DocumentInput, place: HandoverPlace): Block[] {
  const rows = rooms.flatMap((handoverRoom) => ambientRows(handoverRoom, input, place));
  const unread = rooms.filter(({ room }) => !rows.some(([name]) => name === room.name)).map(({ room }) => room.name);
  return [
    ...tableBlocks(
      'Ambient conditions',
      [
        ['Room', 0.25],
        ['Read', 0.25],
        ['Air', 0.2],
        ['Relative humidity', null],
      ],
      rows,
    ),
    ...unread.map((name) =>
      fieldsBlock(
        { label: 'Room', share: 0.25, value: name },
        { label: 'Read', share: 0.25 },
        { label: 'Air', share: 0.2 },
        { label: 'Relative humidity', share: 0.3 },
      ),
    ),
  ];
}

/** Rooms without a result, and why. */
function untestedWords(rooms: readonly HandoverRoom[], input: DocumentInput): Block[] {
  const untested = rooms.filter(
    ({ room, schedule }) =>
      !input.reading.whole.clearanceTests.some(
        (test) => test.deletedAt === null && test.roomId === room.id && test.takenAt >= schedule.placedAt,
      ),
  );
  const sentences = untested.map(({ room, schedule }) => {
    if (schedule.cover === null) return `${room.name}: no flooring chosen, no test on record.`;
    return schedule.clearance?.requirement.byHours === true
      ? `${room.name}: ${milestoneName(schedule.cover)} needs no moisture test. It waits for the data sheet’s cure time.`
      : `${room.name}: not tested yet.`;
  });
  return sentences.length === 0 ? [] : [listBlock(sentences)];
}

/** The report for every room that is placed whole. */
export function moistureReport(input: DocumentInput): DocumentTree {
  const { reading, now, revision } = input;
  const { business, property, job, customer } = reading.whole;
  const rooms = handoverRooms(reading);
  const place = placeOf(reading, now);
  const results = tableBlocks(
    'Results',
    [
      ['Room', 0.14],
      ['Method', 0.25],
      ['Read', 0.17],
      ['Result', 0.08],
      ['Limit', 0.17],
      ['Tested by, note', null],
    ],
    rooms.flatMap((handoverRoom) => resultRows(handoverRoom, input, place)),
  );
  const blocks: Block[] = [
    headingBlock(1, 'Moisture test report'),
    textBlock(customerLine({ customer, property })),
    {
      kind: 'drawing',
      drawing: handoverPlan(rooms, place, PLAN_PX.width, PLAN_PX.height),
      alt: `Plan of ${rooms.map((handoverRoom) => handoverRoom.room.name).join(', ')}. Mark each test location on it.`,
      caption: 'Mark each test location on the plan.',
      gives: true,
    },
    headingBlock(2, 'Results'),
    ...results,
    ...untestedWords(rooms, input),
    headingBlock(2, 'Ambient conditions'),
    ...ambientBlocks(rooms, input, place),
    headingBlock(2, 'Test conditions'),
    fieldsBlock({ label: 'Instrument, serial number', share: 0.5 }, { label: 'Calibration date', share: 0.5 }),
    fieldsBlock(
      { label: 'Test depth', share: 0.34 },
      { label: 'Hours equilibrated or exposed', share: 0.33 },
      { label: 'Hours HVAC was on before', share: 0.33 },
    ),
    signatureBlock(issuerName(business), business.ownerName),
    noteBlock('Follow the named test method and the flooring manufacturer’s limit. Results apply to the locations and the day tested.'),
  ];
  return onLetterhead(business, {
    title: `Moisture test report ${job.number} revision ${revision}, ${customer.name}`,
    subject: `Moisture tests at ${property.address.line}`,
    madeAt: now,
    right: [formatInstantDay(now, place.zone, 'full', place.locale), `Job ${job.number}, page {page} of {pages}`],
    blocks: [{ kind: 'cover', blocks }],
  });
}
