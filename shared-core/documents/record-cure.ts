/** The job record after the pour: room air day by day, dates expected and promised, tests, visits. */
import { inTestOrder } from '../cure/clearance-tests.ts';
import type { CuredRoom } from '../standing/job-cures.ts';
import type { CureLog } from '../book/cure-record.ts';
import type { DatedMilestone } from '../cure/cure-input.ts';
import { isStatedAsDay, wholeHour } from '../cure/stated-date.ts';
import type { WholeJob } from '../book/whole-job.ts';
import { METHOD_NAMES, milestoneName, valueText } from '../standing/cure-words.ts';
import { statedDateWords } from '../standing/time-words.ts';
import { countWords } from '../measure/count-words.ts';
import { formatDay } from '../measure/day.ts';
import { joined } from '../measure/list.ts';
import { dayOfInstant, formatLogInstant, formatInstantDay } from '../measure/moment.ts';
import { formatNumber } from '../measure/number.ts';
import { formatPercent } from '../measure/percent.ts';
import { formatTemperature } from '../measure/temperature.ts';
import { type HandoverPlace, promisedFor } from './handover-tables.ts';
import { type PaperPhoto, type PhotoPart, recordPhotos } from './paper-photos.ts';
import { headingBlock, recordTable, textBlock } from './blocks.ts';
import type { Block } from './tree.ts';

/** Days of the log printed one by one; earlier ones are counted in the sentence above them. */
const MOST_DAYS = 120;

type Day = { readonly day: string; readings: number; leastC: number; mostC: number; humidity: number[] };

/** Log entries by the day where the property is, oldest first. */
function byDay(logs: readonly CureLog[], zone: string): Day[] {
  const days = new Map<string, Day>();
  for (const { instant, tempC, relativeHumidity } of logs.flatMap((log) => log.readings)) {
    const day = dayOfInstant(instant, zone);
    const known = days.get(day) ?? { day, readings: 0, leastC: tempC, mostC: tempC, humidity: [] };
    known.readings += 1;
    known.leastC = Math.min(known.leastC, tempC);
    known.mostC = Math.max(known.mostC, tempC);
    if (relativeHumidity !== null) known.humidity.push(relativeHumidity);
    days.set(day, known);
  }
  return [...days.values()].sort((a, b) => a.day.localeCompare(b.day));
}

const mean = (values: readonly number[]): number => values.reduce((sum, value) => sum + value, 0) / values.length;

/** The air of one room while it cured, one line per day, and every date. */
function curedRoom(cured: CuredRoom, whole: WholeJob, place: HandoverPlace): Block[] {
  const { zone, locale, units } = place;
  const { room, schedule } = cured;
  const temp = (tempC: number): string => formatTemperature(tempC, units, locale);
  const logs = whole.cureLogs.filter((log) => log.roomId === room.id && log.deletedAt === null);
  const days = byDay(logs, zone);
  const dated = (kind: DatedMilestone['kind'], instant: string | null): string =>
    instant === null ? 'Not known' : statedDateWords(kind, instant, place, 'short', locale);
  // Expected dates are shown in whole hours while the floor sets, then in days. The latest is what the customer is told.
  const expected = (kind: DatedMilestone['kind'], instant: string | null): string =>
    dated(kind, instant === null || isStatedAsDay(kind) ? instant : wholeHour(instant));
  const { hoursStoodStill, gaps } = schedule.log;
  const pausedWords =
    hoursStoodStill < 1
      ? ''
      : ` Curing paused for ${countWords(Math.round(hoursStoodStill), 'hour', locale)} below ${temp(schedule.leastCureTempC)}.`;
  const silent = gaps.length === 0 ? '' : ` The log has ${gaps.length} ${gaps.length === 1 ? 'gap' : 'gaps'}.`;
  const count = days.reduce((sum, day) => sum + day.readings, 0);
  const sources = [...new Set(logs.map((log) => log.name))].slice(0, 6).join('; ');
  return [
    ...recordTable(
      `${room.name}: expected dates`,
      schedule.milestones.filter((m) => m.kind !== 'cover' || m === schedule.cover),
      [
        ['Milestone', 0.2, (m) => milestoneName(m)],
        ['Earliest', 0.27, (m) => expected(m.kind, m.earliestAt)],
        ['Likely', 0.27, (m) => expected(m.kind, m.likelyAt)],
        ['Latest', null, (m) => dated(m.kind, m.statedAt)],
      ],
    ),
    textBlock(
      count === 0
        ? `${room.name}: no air readings. The dates use the assumed temperature and humidity.`
        : `${room.name}: ${countWords(count, 'air reading', locale)} (${sources}).${pausedWords}${silent}${days.length > MOST_DAYS ? ` The last ${MOST_DAYS} of ${days.length} days are listed.` : ''}`,
    ),
    ...recordTable(`${room.name}: air by day`, days.slice(-MOST_DAYS), [
      ['Day', 0.25, ({ day }) => formatDay(day, 'dated', locale)],
      ['Readings', 0.15, ({ readings }) => formatNumber(readings, { most: 0 }, locale)],
      ['Coldest', 0.2, ({ leastC }) => temp(leastC)],
      ['Warmest', 0.2, ({ mostC }) => temp(mostC)],
      ['Average humidity', null, ({ humidity }) => (humidity.length === 0 ? '' : formatPercent(mean(humidity), 0, locale))],
    ]),
  ];
}

/**
 * The record after the pour.
 * @param photos the job's, by the part they belong to
 */
export function recordCure(
  whole: WholeJob,
  cured: readonly CuredRoom[],
  place: HandoverPlace,
  photos: ReadonlyMap<PhotoPart, readonly PaperPhoto[]>,
): Block[] {
  const { zone, locale } = place;
  const nameOf = (id: string): string => whole.rooms.find((room) => room.id === id)?.name ?? '';
  const short = (instant: string): string => formatLogInstant(instant, zone, 'short', locale);
  const dated = (instant: string): string => formatInstantDay(instant, zone, 'dated', locale);
  const standing = <R extends { readonly deletedAt: string | null }>(rows: readonly R[]): R[] => rows.filter((r) => r.deletedAt === null);
  return [
    ...(cured.length === 0 ? [] : [headingBlock(2, 'Cure')]),
    ...cured.flatMap((one) => [
      ...curedRoom(one, whole, place),
      ...recordPhotos(`${one.room.name}: photos after the pour`, photos.get(`after ${one.room.id}`), place),
    ]),
    ...recordTable(
      'Promised dates',
      standing(whole.promises).toSorted((a, b) => a.madeAt.localeCompare(b.madeAt) || a.promisedFor.localeCompare(b.promisedFor)),
      [
        ['Room', 0.14, ({ roomId }) => nameOf(roomId)],
        ['Milestone', 0.19, ({ milestone, flooring }) => milestoneName({ kind: milestone, flooring })],
        ['Promised for', 0.22, (p) => promisedFor(p, place)],
        ['Promised on', 0.2, ({ madeAt }) => dated(madeAt)],
        [
          'Given to, document',
          null,
          ({ to, documentId }) =>
            joined([to, whole.documents.find((d) => d.id === documentId)?.title ?? (documentId === null ? 'verbally' : 'in a document')]),
        ],
      ],
    ),
    ...recordTable('Moisture tests', standing(whole.clearanceTests).toSorted(inTestOrder), [
      ['Room', 0.14, ({ roomId }) => nameOf(roomId)],
      ['Flooring', 0.19, ({ flooring }) => milestoneName({ kind: 'cover', flooring })],
      ['Test', 0.31, (test) => `${METHOD_NAMES[test.method]}: ${valueText(test)}`],
      ['Taken', 0.18, ({ takenAt }) => short(takenAt)],
      ['Tested by, note', null, ({ by, note }) => joined([by, note])],
    ]),
    ...recordTable(
      'Visits and callbacks',
      standing(whole.visits).toSorted((a, b) => a.instant.localeCompare(b.instant)),
      [
        ['Date', 0.2, ({ instant }) => short(instant)],
        ['Visit', 0.4, ({ title, roomIds }) => joined([title, roomIds.map(nameOf).join(', ')])],
        [
          'Result',
          null,
          ({ cancelledAt, doneAt, cause, fix, notes }) =>
            joined(
              [
                cancelledAt !== null ? 'Canceled.' : doneAt === null ? 'Planned.' : `Done ${dated(doneAt)}.`,
                cause === '' ? '' : `Cause: ${cause}`,
                fix === '' ? '' : `Fix: ${fix}`,
                notes,
              ],
              ' ',
            ),
        ],
      ],
    ),
  ];
}
