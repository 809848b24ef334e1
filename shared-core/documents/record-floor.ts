/** The job record of one room before its pour: tests, findings, prep, and overridden holds. */
import type { RoomReading } from '../standing/read-job.ts';
import type { Override } from '../book/job.ts';
import { DOCUMENT_WORDS, findingWords } from '../assess/overrides.ts';
import { isSealed } from '../book/flooring.ts';
import { formatDay } from '../measure/day.ts';
import { nameOf } from '../learn/logged-hours.ts';
import { capital } from '../measure/first-letter.ts';
import { joined } from '../measure/list.ts';
import { formatLogInstant, formatInstantDay } from '../measure/moment.ts';
import { kindOf } from '../substrate/test-kinds.ts';
import type { HandoverPlace } from './handover-tables.ts';
import { floorFlatness, USUAL_STRAIGHTEDGE_M } from '../survey/floor-flatness.ts';
import { readFloor } from '../survey/read-floor.ts';
import { flatnessWords } from './quote-table.ts';
import { headingBlock, recordTable, textBlock } from './blocks.ts';
import type { Block } from './tree.ts';
import { countWords } from '../measure/count-words.ts';

const documentOf = ({ document }: Override): string =>
  document === undefined ? '' : ` ${capital(DOCUMENT_WORDS[document.kind])} ${document.number} by ${document.issuedBy}.`;

const VERDICT_NAME: Readonly<Record<string, string>> = { go: 'Go', 'go-with-work': 'Prep needed', hold: 'Hold' };

/** The readings before and after, with the flatness they show. */
function surveyWords({ room, jobRoom, estimate }: RoomReading, { units, locale, country }: HandoverPlace): string {
  const taken = room.survey.readings.length;
  if (taken === 0) return 'The floor was not measured.';
  const count = (n: number): string => countWords(n, 'reading', locale);
  const rest = room.surveyRest?.readings.length ?? 0;
  const after = room.surveyAfter?.readings.length ?? 0;
  const survey = estimate?.survey;
  const flat = survey?.state === 'surveyed' ? ` Largest gap before: ${flatnessWords(survey.flatness.worst.gapM, { units, locale })}.` : '';
  const read = room.surveyAfter === null ? null : readFloor(room.plan, room.surveyAfter, units);
  const gapAfter =
    read === null || !read.ok
      ? ''
      : ` Largest gap after: ${flatnessWords(floorFlatness(read.floor, USUAL_STRAIGHTEDGE_M, { ...jobRoom, country }).worst.gapM, { units, locale })}.`;
  return `${count(taken)} before the pour.${flat}${rest === 0 ? '' : ` ${count(rest)} before the rest was poured.`}${after === 0 ? '' : ` ${count(after)} after it.${gapAfter}`}`;
}

/** One room as found and prepared. */
export function recordFloor(roomReading: RoomReading, people: readonly string[], place: HandoverPlace): Block[] {
  const { room, jobRoom, assessment } = roomReading;
  const named = (initials: string): string => nameOf(initials, people);
  const { zone, locale, units } = place;
  const short = (instant: string): string => formatLogInstant(instant, zone, 'dated', locale);
  return [
    headingBlock(3, room.name),
    textBlock(surveyWords(roomReading, place)),
    ...recordTable(
      `${room.name}: tests`,
      room.tests.toSorted((a, b) => a.takenAt.localeCompare(b.takenAt)),
      [
        ['Taken', 0.3, (test) => short(test.takenAt)],
        ['Test', 0.25, (test) => kindOf(test).name],
        ['Result', 0.29, (test) => kindOf(test).words(test, units, locale)],
        ['Tested by, note', null, (test) => joined([named(test.by), test.note])],
      ],
    ),
    ...recordTable(`${room.name}: findings`, assessment.findings, [
      ['Verdict', 0.14, ({ verdict }) => VERDICT_NAME[verdict] ?? verdict],
      ['Finding', 0.52, findingWords],
      ['Source', null, ({ source }) => capital(source)],
    ]),
    ...recordTable(
      `${room.name}: prep`,
      jobRoom.signed.toSorted((a, b) => a.doneAt.localeCompare(b.doneAt)),
      [
        ['Signed', 0.3, (line) => short(line.doneAt)],
        ['By', 0.14, (line) => named(line.initials)],
        ['Line', null, (line) => line.signedText],
        ['Note', 0.17, (line) => joined([line.note, line.withdrawnAt === null ? '' : `voided ${short(line.withdrawnAt)}`])],
      ],
    ),
    ...recordTable(`${room.name}: overridden and cleared holds`, jobRoom.overrides, [
      ['Date', 0.18, ({ instant }) => short(instant)],
      ['By', 0.12, ({ initials }) => named(initials)],
      ['Hold', 0.4, ({ hold }) => hold ?? 'Not recorded'],
      ['Reason', null, (override) => `${override.why}${documentOf(override)}`],
    ]),
    ...(jobRoom.primedAt === null ? [] : [textBlock(`Last primer coat: ${formatLogInstant(jobRoom.primedAt, zone, 'dated', locale)}.`)]),
    ...(jobRoom.flooringLaidOn == null
      ? []
      : [
          textBlock(
            `${isSealed(jobRoom.flooring) ? 'Floor sealed' : 'Flooring laid'} ${formatDay(jobRoom.flooringLaidOn, 'dated', locale)}.`,
          ),
        ]),
    ...(jobRoom.handedOverAt === null
      ? []
      : [
          textBlock(
            `Handed over ${formatInstantDay(jobRoom.handedOverAt, zone, 'dated', locale)}${(jobRoom.handedOverTo ?? '') === '' ? '' : `, received by ${jobRoom.handedOverTo}`}.`,
          ),
        ]),
  ];
}
