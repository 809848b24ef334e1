/** The tables of the handover sheet and of the pages made from it: when a floor can be used, what was placed, how flat, which tests. */
import {
  limitText,
  METHOD_NAMES,
  milestoneName,
  neededWords,
  overRoomsBrief,
  valueText,
  withoutHolesWords,
} from '../standing/cure-words.ts';
import type { ClearanceTest, Promised } from '../book/cure-record.ts';
import { isSealed } from '../book/flooring.ts';
import type { Mark } from '../book/plan-fields.ts';
import type { DatedMilestone } from '../cure/cure-input.ts';
import { hasFailedTest } from '../cure/cure-schedule.ts';
import { capital } from '../measure/first-letter.ts';
import { textWidthPx } from '../drawing/type-metrics.ts';
import { formatArea } from '../measure/area.ts';
import { formatDepth, isZeroDepth } from '../measure/length-format.ts';
import { dayOfInstant, formatInstantDay, formatLogInstant } from '../measure/moment.ts';
import { formatDay } from '../measure/day.ts';
import { formatNumber } from '../measure/number.ts';
import { isHonored } from '../plan/honored-marks.ts';
import { type FlatnessAfter, GAP_READING_M } from '../standing/flatness-after.ts';
import { listed } from '../standing/names.ts';
import { beforeCover, coverWait, repairWords } from '../standing/repair-words.ts';
import { USUAL_STRAIGHTEDGE_M } from '../survey/floor-flatness.ts';
import { rulesFor } from '../survey/tolerances.ts';
import { headingBlock, noteBlock, tableBlocks, textCell } from './blocks.ts';
import type { HandoverRoom } from './handover-rooms.ts';
import { isStatedAsDay, type WorkCalendar } from '../cure/stated-date.ts';
import { statedDateWords } from '../standing/time-words.ts';
import type { Block } from './tree.ts';
import type { UnitSystem } from '../book/business.ts';
import { isCleared } from '../standing/room-cure.ts';

export const USED_CAPTION = 'When you can use the floor';
export const TESTED_CAPTION = 'Moisture tests';
export const PLACED_CAPTION = 'Placed';
export const FLAT_CAPTION = 'Flatness';

/** Where and how the figures of a page are written, and as of when. */
export type HandoverPlace = {
  readonly now: string;
  readonly zone: string;
  readonly locale: string;
  readonly units: UnitSystem;
  /** ISO 3166 code of the business's country. */
  readonly country: string;
  readonly calendar: WorkCalendar;
};

const UNKNOWN = 'Not known yet';

/** The instant a customer is told for a milestone; null while no date can be given. */
export function statedAt(milestone: DatedMilestone | null | undefined): string | null {
  return milestone?.statedAt ?? null;
}

/** A milestone as a customer reads it: `Now` once it is past, else `May 27, 4 pm` or a day. */
export function statedWords(
  milestone: DatedMilestone | null | undefined,
  { now, calendar, locale }: HandoverPlace,
  style: 'short' | 'weekday' = 'short',
): string {
  if (milestone?.statedAt == null) return UNKNOWN;
  return milestone.statedAt <= now ? 'Now' : statedDateWords(milestone.kind, milestone.statedAt, calendar, style, locale);
}

/** Whether all of the floors are sealed toppings, so that no word of flooring applies. */
export const isAllSealed = (rooms: readonly HandoverRoom[]): boolean => rooms.every(({ jobRoom }) => isSealed(jobRoom.flooring));

/** What is still to repair or check, a line for each room: `Family room: repair a hollow spot (11 sq ft) before flooring goes down.` */
export const repairLines = (rooms: readonly HandoverRoom[], place: HandoverPlace): string[] =>
  rooms.flatMap(({ room, jobRoom, rest, schedule }) =>
    rest === null ? [] : [`${room.name}: ${repairWords(rest, place)} ${beforeCover(jobRoom, schedule)}.`],
  );

/** Rooms placed in more than one pour: how much on which day, and the joint between. */
export const partLines = (rooms: readonly HandoverRoom[], { zone, locale, units }: HandoverPlace): string[] =>
  rooms
    .filter(({ parts }) => parts.length > 1)
    .map(({ room, parts }) => {
      const days = parts.map(
        ({ pour, areaM2 }) =>
          `${formatInstantDay(pour.finishedAt ?? pour.changedAt, zone, 'short', locale)} (${formatArea(areaM2, units, locale)})`,
      );
      return `${room.name} was placed on ${listed(days)}. The dashed line on the plan is the joint between the pours.`;
    });

/** A line that is honored, as the installer and the owner know it. An expansion joint may always move. */
function honoredName({ kind, moves }: Mark): string {
  if (kind === 'expansion-joint') return 'expansion or isolation joint';
  const name = kind === 'crack' ? 'crack' : 'joint';
  return moves === 'moving' ? `active ${name}` : `${name} that may move`;
}

/** Joints and cracks that go on through the finished floor, a line for each kind of each room. They are drawn heavy on the plan. */
export const honoredLines = (rooms: readonly HandoverRoom[]): string[] => [
  ...new Set(
    rooms.flatMap(({ room, jobRoom }) => {
      const honor = isSealed(jobRoom.flooring) ? 'when the floor is sealed' : 'through the flooring';
      return room.marks
        .filter(isHonored)
        .map((mark) => `${room.name}, heavy line on the plan: ${honoredName(mark)}. Honor it ${honor}. Never fill it.`);
    }),
  ),
];

/**
 * When flooring may go down on a floor: `from` a day that can be expected, a day and never an hour, or once its `test` passed where that day
 * is over. `laid` on a day on record; `none` where no flooring is chosen, `failed` where its test did not pass, `cold` where it is too cold to say.
 */
export type FlooringReady =
  | { readonly kind: 'none' }
  | ({ readonly name: string } & (
      | { readonly kind: 'cleared' | 'failed' | 'cold' | 'test' }
      | { readonly kind: 'repair'; readonly wait: string }
      | { readonly kind: 'laid'; readonly day: string }
      | { readonly kind: 'from'; readonly day: string; readonly needsTest: boolean }
    ));

/** Decides when flooring may go down, for every table and drawing of the handover. */
export function flooringReady(room: HandoverRoom, { now, zone }: HandoverPlace): FlooringReady {
  const { cover, clearance, laidOn } = room.schedule;
  if (cover === null) return { kind: 'none' };
  const name = milestoneName(cover);
  if (laidOn !== null) return { kind: 'laid', name, day: laidOn };
  if (room.rest !== null) return { kind: 'repair', name, wait: coverWait(room) ?? '' };
  if (clearance?.passed === true || isCleared(room, now)) return { kind: 'cleared', name };
  if (hasFailedTest(room.schedule)) return { kind: 'failed', name };
  if (cover.statedAt === null) return { kind: 'cold', name };
  const day = dayOfInstant(cover.statedAt, zone);
  const needsTest = clearance?.requirement.byHours !== true;
  return needsTest && day <= dayOfInstant(now, zone) ? { kind: 'test', name } : { kind: 'from', name, day, needsTest };
}

/** What was done to the floor, before its day. */
export const laidWord = ({ jobRoom }: HandoverRoom): string => (isSealed(jobRoom.flooring) ? 'sealed' : 'laid');

/** When the flooring may go down, in words. */
function flooringCell(room: HandoverRoom, place: HandoverPlace): string {
  const ready = flooringReady(room, place);
  switch (ready.kind) {
    case 'none':
      return 'No flooring chosen';
    case 'repair':
      return `After ${ready.wait}`;
    case 'laid':
      return `${capital(laidWord(room))} ${formatDay(ready.day, 'short', place.locale)}`;
    case 'cleared':
      return room.schedule.clearance?.passed === true ? 'Cleared: test passed' : 'Cleared: cure time over';
    case 'failed':
      return 'Not yet: test not passed, test again';
    case 'cold':
      return 'Too cold to say';
    case 'test':
      return 'After its test';
    case 'from':
      return `${formatDay(ready.day, 'short', place.locale)} or later${ready.needsTest ? ', after its test' : ''}`;
  }
}

const milestoneOf = (room: HandoverRoom, kind: string): DatedMilestone | undefined => room.schedule.milestones.find((m) => m.kind === kind);

/** Width of the page between its margins, of the letters of a table, and of the space beside a cell's text, px; the widest a name's column gets. */
const [MEASURE_PX, LETTERS_PX, CELL_PX, MOST_SHARE] = [696, 15, 14, 0.25] as const;

/** Share of the width for the names of rooms, so that a long one takes few lines and a short one leaves the width to the others. */
export function roomShare(rooms: readonly { readonly room: { readonly name: string } }[], least: number): number {
  const widest = Math.max(0, ...rooms.map(({ room }) => textWidthPx(room.name, LETTERS_PX)));
  return Math.min(MOST_SHARE, Math.max(least, (widest + CELL_PX) / MEASURE_PX));
}

/** When each floor can be used, as dates that hold. */
export function usedTable(rooms: readonly HandoverRoom[], place: HandoverPlace): Block[] {
  return tableBlocks(USED_CAPTION, rooms, [
    ['Room', roomShare(rooms, 0.16), ({ room }) => room.name],
    ['Foot traffic', 0.15, (handoverRoom) => statedWords(milestoneOf(handoverRoom, 'walk-on'), place)],
    ['Furniture', 0.15, (handoverRoom) => statedWords(milestoneOf(handoverRoom, 'furniture'), place)],
    [isAllSealed(rooms) ? 'Finish' : 'Flooring', 0.19, flooringName],
    [
      isAllSealed(rooms) ? 'Ready for its sealer' : 'Ready for flooring',
      null,
      (handoverRoom) => textCell(flooringCell(handoverRoom, place), { bold: true }),
    ],
  ]);
}

const flooringName = ({ schedule }: HandoverRoom): string => (schedule.cover === null ? 'None chosen' : milestoneName(schedule.cover));

/** A promised date on the record, as it was stated: with an hour, or as a day. */
export const promisedFor = (
  { milestone, promisedFor: instant }: Promised,
  { zone, locale }: Pick<HandoverPlace, 'zone' | 'locale'>,
): string =>
  isStatedAsDay(milestone) ? formatInstantDay(instant, zone, 'dated', locale) : formatLogInstant(instant, zone, 'dated', locale);

/** The day or days a floor was placed on, over all of its pours: `Nov 30`, `Dec 1`. */
export const placedDays = (
  { placedAts }: Pick<HandoverRoom, 'placedAts'>,
  { zone, locale }: Pick<HandoverPlace, 'zone' | 'locale'>,
): string[] => [...new Set(placedAts.map((instant) => formatInstantDay(instant, zone, 'short', locale)))];

/** What went into each floor. */
export function placedTable(rooms: readonly HandoverRoom[], { zone, locale, units }: HandoverPlace): Block[] {
  const depth = (m: number | undefined): string => (m === undefined ? '' : formatDepth(m, units, locale));
  return tableBlocks(PLACED_CAPTION, rooms, [
    ['Room', roomShare(rooms, 0.14), ({ room }) => room.name],
    ['Placed', 0.09, (handoverRoom) => placedDays(handoverRoom, { zone, locale }).join(', ')],
    [
      'Product',
      null,
      ({ materials, lifts, moistureSystem }) =>
        `${listed([...new Set(materials.map(({ name }) => name))])}${lifts > 1 ? `, ${lifts} lifts` : ''}${moistureSystem === null ? '' : `. Under ${moistureSystem.isWhole ? 'it' : 'part of it'}: ${moistureSystem.name}`}`,
    ],
    ['Bags', 0.06, ({ bags }) => formatNumber(bags, { most: 1 }, locale), 'end'],
    ['Lots', 0.13, ({ lots }) => (lots.length === 0 ? 'Not recorded' : lots.join(', '))],
    ['Average', 0.09, (handoverRoom) => depth(handoverRoom.depth?.meanM), 'end'],
    ['Deepest', 0.09, (handoverRoom) => depth(handoverRoom.depth?.deepestM), 'end'],
  ]);
}

const FLAT_RESULTS: Readonly<Record<FlatnessAfter['verdict'], string>> = {
  'not-measured': 'Not measured',
  kept: 'Meets',
  'over-promise': 'Over promise',
  'over-limit': 'Does not meet',
};

/** The heading of the flatness table: its gaps are under this straightedge. */
export const flatHeading = (place: HandoverPlace): Block =>
  headingBlock(2, `${FLAT_CAPTION}: largest gap under a ${spanWords(USUAL_STRAIGHTEDGE_M, place)} straightedge`);

/** The largest gap before, promised and after, and what the flooring allows. */
export function flatTable(rooms: readonly HandoverRoom[], place: HandoverPlace): Block[] {
  const gap = (m: number): string => formatDepth(m, place.units, place.locale);
  // Readings on a slope or on a few places show no gap. They do not show that a floor was flat.
  const gapBefore = (m: number): string => (isZeroDepth(m, place.units) ? '' : gap(m));
  const allowed = (jobRoom: HandoverRoom['jobRoom']): string[] => {
    const limits = rulesFor({ ...jobRoom, country: place.country }).flatMap((rule) => rule.limits);
    return [...new Set(limits.map(({ gapM, spanM }) => `${gap(gapM)} in ${spanWords(spanM, place)}`))];
  };
  // Where the two print apart and it still meets, the table says why.
  const isWithinReading = ({ flatness: { after } }: HandoverRoom): boolean =>
    after.verdict === 'kept' &&
    after.worst !== null &&
    after.promisedM !== null &&
    after.worst.gapM > after.promisedM &&
    gap(after.worst.gapM) !== gap(after.promisedM);
  const reading = place.units === 'us' ? '1/32 in.' : `${formatNumber(GAP_READING_M * 1000, { most: 1 }, place.locale)} mm`;
  const table = tableBlocks(FLAT_CAPTION, rooms, [
    ['Room', roomShare(rooms, 0.16), ({ room }) => room.name],
    ['Before', 0.12, ({ flatness: { before } }) => (before === null ? 'Not measured' : gapBefore(before.worst.gapM))],
    ['Promised', 0.11, ({ flatness: { after } }) => (after.promisedM === null ? 'None' : gap(after.promisedM))],
    ['After', 0.15, ({ flatness: { after } }) => (after.worst === null ? 'Not measured' : gap(after.worst.gapM))],
    ['Flooring allows', 0.3 - (roomShare(rooms, 0.16) - 0.16), ({ jobRoom }) => listed(allowed(jobRoom)) || 'No flooring chosen'],
    ['Result', null, ({ flatness: { after } }) => textCell(FLAT_RESULTS[after.verdict], { bold: true })],
  ]);
  return rooms.some(isWithinReading) ? [...table, noteBlock(`A gap meets its promise within ${reading}: it is read no finer.`)] : table;
}

/** The length of a straightedge: `10 ft`, `3 m`. */
export function spanWords(spanM: number, { units, locale }: HandoverPlace): string {
  return units === 'us' ? `${formatNumber(spanM / 0.3048, { most: 1 }, locale)} ft` : `${formatNumber(spanM, { most: 1 }, locale)} m`;
}

type TestRow = {
  readonly name: string;
  readonly method: string;
  readonly limit: string;
  readonly result: string;
  readonly passed: boolean;
};

function testRows(rooms: readonly HandoverRoom[], { zone, locale }: HandoverPlace): TestRow[] {
  return rooms.flatMap(({ room, schedule }): TestRow[] => {
    const { clearance } = schedule;
    if (clearance === null || clearance.requirement.byHours) return [];
    const { finding, test } = clearance;
    const { methods } = clearance.requirement;
    const method = methods.find((m) => m.method === test?.method) ?? methods[0];
    const readOn = (one: ClearanceTest): string => `${valueText(one)} on ${formatInstantDay(one.takenAt, zone, 'short', locale)}`;
    const isBegun = finding.kind === 'too-soon' || finding.kind === 'other-method' || finding.kind === 'vapor-emission';
    const untested = [
      schedule.laidOn !== null ? 'No test on record' : `${isBegun ? 'No result counts yet' : 'Not tested yet'}${neededWords(method)}`,
      ...(finding.kind === 'first-check' ? [`First check: ${METHOD_NAMES[finding.test.method]}, ${readOn(finding.test)}`] : []),
      ...[withoutHolesWords(clearance.requirement) ?? []].flat(),
    ].join('. ');
    const verdict = finding.kind === 'no-limit' ? 'limit not entered' : clearance.passed ? 'passed' : 'not passed';
    const few = finding.kind === 'few' ? `${finding.have} of ${finding.method.wanted} tests${overRoomsBrief(finding.method)}, ` : '';
    const result = test === null ? untested : `${few}${readOn(test)}: ${few === '' ? verdict : 'more needed'}`;
    return [
      {
        name: room.name,
        method: method === undefined ? '' : METHOD_NAMES[method.method],
        limit: method === undefined ? '' : limitText(method),
        result,
        passed: clearance.passed,
      },
    ];
  });
}

/** The test each flooring needs, its limit and its result. */
export function testedTable(rooms: readonly HandoverRoom[], place: HandoverPlace): Block[] {
  return tableBlocks(TESTED_CAPTION, testRows(rooms, place), [
    ['Room', roomShare(rooms, 0.15), ({ name }) => name],
    ['Test', 0.36 - (roomShare(rooms, 0.15) - 0.15), ({ method }) => method],
    ['Max', 0.19, ({ limit }) => limit],
    ['Result', null, ({ result, passed }) => textCell(result, { bold: !passed })],
  ]);
}

/** For an installer: the flooring, the first day it can be expected, and the test with its limit and result, one row per room. */
export function readyTable(rooms: readonly HandoverRoom[], place: HandoverPlace): Block[] {
  const tests = testRows(rooms, place);
  const rows = rooms.map((handoverRoom) => ({ handoverRoom, test: tests.find(({ name }) => name === handoverRoom.room.name) }));
  return tableBlocks('Ready for flooring', rows, [
    ['Room', roomShare(rooms, 0.15), ({ handoverRoom }) => handoverRoom.room.name],
    ['Flooring', 0.19, ({ handoverRoom }) => flooringName(handoverRoom)],
    // The test and its result have columns of their own here.
    [
      'Ready',
      0.17,
      ({ handoverRoom }) => textCell(flooringCell(handoverRoom, place).replace(/(?:, after its test|: .*)$/, ''), { bold: true }),
    ],
    [
      'Test',
      0.13,
      ({ test }) => (test === undefined ? 'None' : (/ASTM \w+/.exec(test.method)?.[0] ?? test.method.replace('moisture content', 'MC'))),
    ],
    ['Max', 0.1, ({ test }) => test?.limit ?? 'None'],
    [
      'Result',
      null,
      ({ test, handoverRoom }) => test?.result ?? (handoverRoom.schedule.cover === null ? 'Choose the flooring' : 'No test required'),
    ],
  ]);
}
