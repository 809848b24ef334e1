/** The moisture test report: method, place, depth, hours, ambient conditions, instrument, results, limit and whose. Fields not on record are left to fill in. */
import {
  fewTestsWords,
  limitText,
  METHOD_NAMES,
  milestoneName,
  neededWords,
  valueText,
  whoseLimit,
  withoutHolesWords,
} from '../standing/cure-words.ts';
import type { ClearanceTest, CureReading } from '../book/cure-record.ts';
import { inTestOrder } from '../cure/clearance-tests.ts';
import { isSealed } from '../book/flooring.ts';
import type { FloorTestKind } from '../book/layer.ts';
import { nameOf } from '../learn/logged-hours.ts';
import { joined } from '../measure/list.ts';
import { formatInstant } from '../measure/moment.ts';
import { formatPercent } from '../measure/percent.ts';
import { formatTemperature } from '../measure/temperature.ts';
import { kindOf } from '../substrate/test-kinds.ts';
import { asbestosLeftLines } from './asbestos-left.ts';
import {
  drawingBlock,
  fieldsBlock,
  headingBlock,
  listBlock,
  listPart,
  noteBlock,
  signatureBlock,
  tableBlocks,
  textBlock,
} from './blocks.ts';
import type { DocumentInput } from './document-input.ts';
import { heatCare } from './handover-care.ts';
import { handoverPlan } from './handover-picture.ts';
import { type HandoverRoom, handoverRooms } from './handover-rooms.ts';
import { placeOf } from './handover-sheet.ts';
import type { HandoverPlace } from './handover-tables.ts';
import { customerLine, issuerName, revisedDocument } from './letterhead.ts';
import { peopleOf } from './record-timeline.ts';
import type { Block, DocumentTree } from './tree.ts';

const PLAN_PX = { width: 696, height: 200 } as const;

const SUBSTRATE_MOISTURE: ReadonlySet<FloorTestKind> = new Set(['slab-humidity', 'moisture-dish', 'wood-moisture']);

/** Tests on record since the rooms were placed. */
function resultsTable(rooms: readonly HandoverRoom[], input: DocumentInput, { zone, locale }: HandoverPlace): Block[] {
  const results = rooms.flatMap((handoverRoom) =>
    testsOf(handoverRoom, input)
      .filter((test) => test.takenAt >= handoverRoom.schedule.placedAt)
      .map((test) => ({ test, handoverRoom })),
  );
  return tableBlocks('Results', results, [
    ['Room', 0.14, ({ handoverRoom }) => handoverRoom.room.name],
    ['Method', 0.25, ({ test }) => METHOD_NAMES[test.method]],
    ['Read', 0.17, ({ test }) => formatInstant(test.takenAt, zone, 'short', locale)],
    ['Result', 0.08, ({ test }) => valueText(test)],
    [
      'Limit',
      0.17,
      ({ test, handoverRoom: { schedule } }) => {
        const method = schedule.clearance?.requirement.methods.find((m) => m.method === test.method);
        if (method === undefined) return 'Not a method for this flooring';
        return joined([limitText(method), method.limit === null ? '' : whoseLimit(method), method.clears ? '' : 'first check only']);
      },
    ],
    ['Tested by, note', null, ({ test }) => joined([test.by, test.note])],
  ]);
}

/** Moisture of the slab or the wood as it was read before the pour. A moisture mitigation system is judged by these. */
function substrateTable(rooms: readonly HandoverRoom[], input: DocumentInput, { zone, locale, units }: HandoverPlace): Block[] {
  const people = peopleOf(input.reading.whole);
  const taken = rooms.flatMap(({ room, schedule }) =>
    room.tests
      .filter(({ kind, takenAt }) => SUBSTRATE_MOISTURE.has(kind) && takenAt < schedule.placedAt)
      .toSorted((a, b) => a.takenAt.localeCompare(b.takenAt))
      .map((test) => ({ room, test })),
  );
  return [
    ...(taken.length === 0 ? [] : [headingBlock(2, 'Substrate before the pour')]),
    ...tableBlocks('Substrate before the pour', taken, [
      ['Room', 0.14, ({ room }) => room.name],
      ['Test', 0.25, ({ test }) => kindOf(test).name],
      ['Read', 0.17, ({ test }) => formatInstant(test.takenAt, zone, 'short', locale)],
      ['Result', 0.25, ({ test }) => kindOf(test).words(test, units, locale)],
      ['Tested by, note', null, ({ test }) => joined([nameOf(test.by, people), test.note])],
    ]),
    ...rooms.flatMap(({ room, moistureSystem }) =>
      moistureSystem === null
        ? []
        : [
            textBlock(
              `${room.name}: moisture mitigation system under ${moistureSystem.isWhole ? 'the pour' : 'part of the pour'}: ${moistureSystem.name}.`,
            ),
          ],
    ),
  ];
}

const testsOf = ({ room }: HandoverRoom, { reading }: DocumentInput): ClearanceTest[] =>
  reading.whole.clearanceTests.filter((test) => test.deletedAt === null && test.roomId === room.id).toSorted(inTestOrder);

/** The air of a room at its last test; the newest reading where it was not tested. */
function airOf(handoverRoom: HandoverRoom, input: DocumentInput): CureReading | undefined {
  const readings = input.reading.whole.cureLogs
    .filter((log) => log.roomId === handoverRoom.room.id && log.deletedAt === null)
    .flatMap((log) => log.readings)
    .toSorted((a, b) => a.instant.localeCompare(b.instant));
  const testedAt = testsOf(handoverRoom, input).at(-1)?.takenAt;
  return testedAt === undefined ? readings.at(-1) : readings.findLast(({ instant }) => instant <= testedAt);
}

/** The air of the rooms; fields to fill in where one has no reading on record. */
function ambientBlocks(rooms: readonly HandoverRoom[], input: DocumentInput, { zone, units, locale }: HandoverPlace): Block[] {
  const airs = rooms.map((handoverRoom) => ({ name: handoverRoom.room.name, air: airOf(handoverRoom, input) }));
  const read = airs.flatMap(({ name, air }) => (air === undefined ? [] : [{ name, air }]));
  return [
    ...tableBlocks('Ambient conditions', read, [
      ['Room', 0.25, ({ name }) => name],
      ['Read', 0.25, ({ air }) => formatInstant(air.instant, zone, 'short', locale)],
      ['Air', 0.2, ({ air }) => formatTemperature(air.tempC, units, locale)],
      [
        'Relative humidity',
        null,
        ({ air }) => (air.relativeHumidity === null ? 'Not recorded' : formatPercent(air.relativeHumidity, 0, locale)),
      ],
    ]),
    ...airs
      .filter(({ air }) => air === undefined)
      .map(({ name }) =>
        fieldsBlock(
          { label: 'Room', share: 0.25, value: name },
          { label: 'Read', share: 0.25 },
          { label: 'Air', share: 0.2 },
          { label: 'Relative humidity', share: 0.3 },
        ),
      ),
  ];
}

/** Rooms without the results that their flooring needs, and why. */
function untestedWords(rooms: readonly HandoverRoom[], input: DocumentInput): Block[] {
  const untested = rooms.filter((handoverRoom) => {
    const { clearance, placedAt } = handoverRoom.schedule;
    if (clearance !== null && !clearance.requirement.byHours) return clearance.test === null || clearance.finding.kind === 'few';
    return testsOf(handoverRoom, input).every((test) => test.takenAt < placedAt);
  });
  const sentences = untested.map((handoverRoom) => {
    const { room, jobRoom, schedule } = handoverRoom;
    const hasTest = testsOf(handoverRoom, input).some((test) => test.takenAt >= schedule.placedAt);
    if (schedule.cover === null) return `${room.name}: no flooring chosen, no test on record.`;
    if (schedule.clearance?.requirement.byHours === true)
      return `${room.name}: ${milestoneName(schedule.cover)} needs no moisture test. It waits for the data sheet’s cure time.`;
    if (schedule.laidOn !== null)
      return `${room.name}: its ${isSealed(jobRoom.flooring) ? 'sealer' : 'flooring'} is down without enough tests on record.`;
    const few = schedule.clearance && fewTestsWords(schedule.clearance);
    if (few !== null) return `${room.name}: ${few}`;
    const words = schedule.clearance === null ? null : withoutHolesWords(schedule.clearance.requirement);
    const ask = `${neededWords(schedule.clearance?.requirement.methods[0])}.${words === null ? '' : ` ${words}`}`;
    return hasTest
      ? `${room.name}: no result counts for its ${isSealed(jobRoom.flooring) ? 'sealer' : 'flooring'} yet${ask}`
      : `${room.name}: not tested yet${ask}`;
  });
  return sentences.length === 0 ? [] : [listBlock(sentences)];
}

/** The report for every room that is placed whole. */
export function moistureReport(input: DocumentInput): DocumentTree {
  const { reading, now } = input;
  const { business } = reading.whole;
  const rooms = handoverRooms(reading);
  const place = placeOf(reading, now);
  const makers = [...new Set(rooms.map(({ jobRoom }) => (isSealed(jobRoom.flooring) ? 'sealer' : 'flooring')))].join(' or ');
  const blocks: Block[] = [
    headingBlock(1, 'Moisture test report'),
    textBlock(customerLine(reading.whole)),
    drawingBlock(
      handoverPlan(rooms, place, PLAN_PX.width, PLAN_PX.height),
      `Plan of ${rooms.map(({ room }) => room.name).join(', ')}. Mark each test location on it.`,
      { caption: 'Mark each test location on the plan.', gives: true },
    ),
    headingBlock(2, 'Results'),
    ...resultsTable(rooms, input, place),
    ...untestedWords(rooms, input),
    ...substrateTable(rooms, input, place),
    headingBlock(2, 'Ambient conditions'),
    ...ambientBlocks(rooms, input, place),
    ...listPart(2, 'Before any hole', [...asbestosLeftLines(rooms), ...heatCare(rooms)]),
    headingBlock(2, 'Test conditions'),
    fieldsBlock({ label: 'Instrument, serial number', share: 0.5 }, { label: 'Calibration date', share: 0.5 }),
    fieldsBlock(
      { label: 'Test depth', share: 0.34 },
      { label: 'Hours equilibrated or exposed', share: 0.33 },
      { label: 'Hours HVAC was on before', share: 0.33 },
    ),
    signatureBlock(issuerName(business), business.ownerName),
    noteBlock(`Follow the named test method and the ${makers} manufacturer’s limit. Results apply to the locations and the day tested.`),
  ];
  return revisedDocument(input, { name: 'Moisture test report', about: 'Moisture tests at', blocks: [{ kind: 'cover', blocks }] });
}
