/** What the job record says of one room before its pour: what was found, tested, made ready, and gone past in writing. */
import type { RoomReading } from '../standing/read-job.ts';
import type { FloorTest } from '../book/layer.ts';
import { formatInstant, formatInstantDay } from '../measure/moment.ts';
import { formatDepth, formatLength } from '../measure/length-format.ts';
import { formatNumber } from '../measure/number.ts';
import { testWords } from '../substrate/test-words.ts';
import type { HandoverPlace } from './handover-picture.ts';
import { joined, recordHeading, recordTable, recordWords } from './record-blocks.ts';
import type { Block } from './tree.ts';

const TEST_NAME: Readonly<Record<FloorTest['kind'], string>> = {
  'slab-humidity': 'humidity in the slab',
  'moisture-dish': 'moisture dish',
  'wood-moisture': 'moisture of the timber',
  'drop-absorption': 'drop of water',
  'surface-ph': 'pH of the surface',
  'pull-off': 'pull-off',
  scratch: 'scratch',
  air: 'air',
  'floor-bounce': 'bounce',
  'surface-look': 'look of the surface',
  laboratory: 'laboratory',
};

/** The survey and the level settled on, in a sentence. */
function surveyWords({ room, estimate }: RoomReading, { units, locale }: HandoverPlace): string {
  const taken = room.survey.readings.length;
  if (taken === 0) return 'The floor was not read.';
  const read = `${formatNumber(taken, { most: 0 }, locale)} heights were read before the pour`;
  const survey = estimate?.survey;
  if (survey?.state !== 'surveyed') return `${read}.`;
  const worst = survey.flatness.worst;
  const flat = `; out of flat by ${formatDepth(worst.gapM, units, locale)} under ${formatLength(worst.spanM, units, locale)} at the worst place`;
  const after = room.surveyAfter?.readings.length ?? 0;
  return `${read}${flat}.${after === 0 ? '' : ` ${formatNumber(after, { most: 0 }, locale)} were read after it.`}`;
}

/** One room as it was found and made ready. */
export function recordFloor(at: RoomReading, place: HandoverPlace): Block[] {
  const { room, jobRoom, assessment } = at;
  const { zone, locale, units } = place;
  const short = (instant: string): string => formatInstant(instant, zone, 'dated', locale);
  return [
    recordHeading(room.name),
    recordWords(surveyWords(at, place)),
    ...recordTable(
      `${room.name}: tests on the floor`,
      [
        ['Taken', 0.29],
        ['Test', 0.2],
        ['What it showed', 0.31],
        ['By, note', null],
      ],
      room.tests
        .toSorted((a, b) => a.takenAt.localeCompare(b.takenAt))
        .map((test) => [short(test.takenAt), TEST_NAME[test.kind], testWords(test, units, locale), joined([test.by, test.note])]),
    ),
    ...recordTable(
      `${room.name}: what follows from it`,
      [
        ['Verdict', 0.14],
        ['What', 0.52],
        ['Source', null],
      ],
      assessment.findings.map((finding) => [finding.verdict.replaceAll('-', ' '), `${finding.title}. ${finding.says}`, finding.source]),
    ),
    ...recordTable(
      `${room.name}: made ready`,
      [
        ['Signed', 0.2],
        ['By', 0.08],
        ['What the line said', 0.48],
        ['Note', null],
      ],
      jobRoom.signed.map((line) => [
        short(line.doneAt),
        line.initials,
        line.saidThen,
        joined([line.note, line.withdrawnAt === null ? '' : `taken back ${short(line.withdrawnAt)}`]),
      ]),
    ),
    ...recordTable(
      `${room.name}: gone past in writing`,
      [
        ['When', 0.29],
        ['By', 0.08],
        ['Why', null],
      ],
      jobRoom.overrides.map((override) => [short(override.at), override.initials, override.why]),
    ),
    ...(jobRoom.primedAt === null ? [] : [recordWords(`Last coat of primer ${formatInstant(jobRoom.primedAt, zone, 'dated', locale)}.`)]),
    ...(jobRoom.handedOverAt === null
      ? []
      : [
          recordWords(
            `Handed over ${formatInstantDay(jobRoom.handedOverAt, zone, 'dated', locale)}${(jobRoom.handedOverTo ?? '') === '' ? '' : `, received by ${jobRoom.handedOverTo}`}.`,
          ),
        ]),
  ];
}
