/** The job record of one room before its pour: tests, findings, prep, and overridden holds. */
import type { RoomReading } from '../standing/read-job.ts';
import type { Override } from '../book/job.ts';
import { DOCUMENT_WORDS } from '../assess/overrides.ts';
import { nameOf } from '../learn/logged-hours.ts';
import { capital } from '../standing/names.ts';
import { formatLogInstant, formatInstantDay } from '../measure/moment.ts';
import { formatNumber } from '../measure/number.ts';
import { kindOf } from '../substrate/test-kinds.ts';
import type { HandoverPlace } from './handover-tables.ts';
import { floorFlatness, USUAL_STRAIGHTEDGE_M } from '../survey/floor-flatness.ts';
import { readFloor } from '../survey/read-floor.ts';
import { flatnessWords } from './quote-table.ts';
import { joined, recordHeading, recordTable, recordWords } from './record-blocks.ts';
import type { Block } from './tree.ts';

const documentOf = ({ document }: Override): string =>
  document === undefined ? '' : ` ${capital(DOCUMENT_WORDS[document.kind])} ${document.number} by ${document.issuedBy}.`;

const VERDICT_NAME: Readonly<Record<string, string>> = { go: 'Go', 'go-with-work': 'Prep needed', hold: 'Hold' };

/** The readings before and after, with the flatness they show. */
function surveyWords({ room, jobRoom, estimate }: RoomReading, { units, locale, country }: HandoverPlace): string {
  const taken = room.survey.readings.length;
  if (taken === 0) return 'The floor was not measured.';
  const count = (n: number): string => formatNumber(n, { most: 0 }, locale);
  const rest = room.surveyRest?.readings.length ?? 0;
  const after = room.surveyAfter?.readings.length ?? 0;
  const survey = estimate?.survey;
  const flat = survey?.state === 'surveyed' ? ` Largest gap before: ${flatnessWords(survey.flatness.worst.gapM, { units, locale })}.` : '';
  const read = room.surveyAfter === null ? null : readFloor(room.plan, room.surveyAfter, units);
  const gapAfter =
    read === null || !read.ok
      ? ''
      : ` Largest gap after: ${flatnessWords(floorFlatness(read.floor, USUAL_STRAIGHTEDGE_M, { ...jobRoom, country }).worst.gapM, { units, locale })}.`;
  return `${count(taken)} readings before the pour.${flat}${rest === 0 ? '' : ` ${count(rest)} readings before the rest was poured.`}${after === 0 ? '' : ` ${count(after)} readings after it.${gapAfter}`}`;
}

/** One room as found and prepared. */
export function recordFloor(roomReading: RoomReading, people: readonly string[], place: HandoverPlace): Block[] {
  const { room, jobRoom, assessment } = roomReading;
  const named = (initials: string): string => nameOf(initials, people);
  const { zone, locale, units } = place;
  const short = (instant: string): string => formatLogInstant(instant, zone, 'dated', locale);
  return [
    recordHeading(room.name),
    recordWords(surveyWords(roomReading, place)),
    ...recordTable(
      `${room.name}: tests`,
      [
        ['Taken', 0.3],
        ['Test', 0.25],
        ['Result', 0.29],
        ['Tested by, note', null],
      ],
      room.tests
        .toSorted((a, b) => a.takenAt.localeCompare(b.takenAt))
        .map((test) => [
          short(test.takenAt),
          kindOf(test).name,
          kindOf(test).words(test, units, locale),
          joined([named(test.by), test.note]),
        ]),
    ),
    ...recordTable(
      `${room.name}: findings`,
      [
        ['Verdict', 0.14],
        ['Finding', 0.52],
        ['Source', null],
      ],
      assessment.findings.map((finding) => [
        VERDICT_NAME[finding.verdict] ?? finding.verdict,
        `${capital(finding.title)}. ${finding.text}`,
        capital(finding.source),
      ]),
    ),
    ...recordTable(
      `${room.name}: prep`,
      [
        ['Signed', 0.3],
        ['By', 0.14],
        ['Line', null],
        ['Note', 0.17],
      ],
      jobRoom.signed
        .toSorted((a, b) => a.doneAt.localeCompare(b.doneAt))
        .map((line) => [
          short(line.doneAt),
          named(line.initials),
          line.signedText,
          joined([line.note, line.withdrawnAt === null ? '' : `voided ${short(line.withdrawnAt)}`]),
        ]),
    ),
    ...recordTable(
      `${room.name}: overridden and cleared holds`,
      [
        ['Date', 0.3],
        ['By', 0.14],
        ['Reason', null],
      ],
      jobRoom.overrides.map((override) => [short(override.instant), named(override.initials), `${override.why}${documentOf(override)}`]),
    ),
    ...(jobRoom.primedAt === null ? [] : [recordWords(`Last primer coat: ${formatLogInstant(jobRoom.primedAt, zone, 'dated', locale)}.`)]),
    ...(jobRoom.handedOverAt === null
      ? []
      : [
          recordWords(
            `Handed over ${formatInstantDay(jobRoom.handedOverAt, zone, 'dated', locale)}${(jobRoom.handedOverTo ?? '') === '' ? '' : `, received by ${jobRoom.handedOverTo}`}.`,
          ),
        ]),
  ];
}
