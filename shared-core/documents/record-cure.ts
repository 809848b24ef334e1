/** The job record after the pour: room air day by day, dates expected and promised, tests, visits. */
import type { CuredRoom } from '../standing/job-cures.ts';
import type { CureLog } from '../book/cure-record.ts';
import type { DatedMilestone } from '../cure/cure-input.ts';
import { isStatedAsDay } from '../cure/stated-date.ts';
import type { WholeJob } from '../book/whole-job.ts';
import { METHOD_NAMES, milestoneName, valueText } from '../standing/cure-words.ts';
import { formatDay } from '../measure/day.ts';
import { dayOfInstant, formatLogInstant, formatInstantDay } from '../measure/moment.ts';
import { formatNumber } from '../measure/number.ts';
import { formatPercent } from '../measure/percent.ts';
import { formatTemperature } from '../measure/temperature.ts';
import type { HandoverPlace } from './handover-tables.ts';
import type { PaperPhoto, PhotoPart } from './paper-photos.ts';
import { joined, recordPart, recordPhotos, recordTable, recordWords } from './record-blocks.ts';
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
  // Expected dates are shown in whole hours while the floor sets, then in days.
  const expected = (kind: DatedMilestone['kind'], instant: string | null): string => {
    if (instant === null) return 'Not known';
    if (isStatedAsDay(kind)) return formatInstantDay(instant, zone, 'short', locale);
    return formatLogInstant(new Date(Math.ceil(Date.parse(instant) / 3_600_000) * 3_600_000).toISOString(), zone, 'short', locale);
  };
  const { hoursStoodStill, gaps } = schedule.log;
  const pausedWords =
    hoursStoodStill < 1
      ? ''
      : ` Curing paused for ${formatNumber(hoursStoodStill, { most: 0 }, locale)} hours below ${temp(schedule.leastCureTempC)}.`;
  const silent = gaps.length === 0 ? '' : ` The log has ${gaps.length} ${gaps.length === 1 ? 'gap' : 'gaps'}.`;
  const count = days.reduce((sum, day) => sum + day.readings, 0);
  const sources = [...new Set(logs.map((log) => log.name))].slice(0, 6).join('; ');
  return [
    ...recordTable(
      `${room.name}: expected dates`,
      [
        ['Milestone', 0.2],
        ['Earliest', 0.27],
        ['Likely', 0.27],
        ['Latest', null],
      ],
      schedule.milestones
        .filter((m) => m.kind !== 'cover' || m === schedule.cover)
        .map((m) => [milestoneName(m), expected(m.kind, m.earliestAt), expected(m.kind, m.likelyAt), expected(m.kind, m.statedAt)]),
    ),
    recordWords(
      count === 0
        ? `${room.name}: no air readings. The dates use the assumed temperature and humidity.`
        : `${room.name}: ${formatNumber(count, { most: 0 }, locale)} air readings (${sources}).${pausedWords}${silent}${days.length > MOST_DAYS ? ` The last ${MOST_DAYS} of ${days.length} days are listed.` : ''}`,
    ),
    ...recordTable(
      `${room.name}: air by day`,
      [
        ['Day', 0.25],
        ['Readings', 0.15],
        ['Coldest', 0.2],
        ['Warmest', 0.2],
        ['Average humidity', null],
      ],
      days
        .slice(-MOST_DAYS)
        .map((day) => [
          formatDay(day.day, 'dated', locale),
          formatNumber(day.readings, { most: 0 }, locale),
          temp(day.leastC),
          temp(day.mostC),
          day.humidity.length === 0 ? '' : formatPercent(mean(day.humidity), 0, locale),
        ]),
    ),
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
  const visits = standing(whole.visits).toSorted((a, b) => a.instant.localeCompare(b.instant));
  return [
    ...(cured.length === 0 ? [] : [recordPart('Cure')]),
    ...cured.flatMap((one) => [
      ...curedRoom(one, whole, place),
      ...recordPhotos(`${one.room.name}: photos after the pour`, photos.get(`after ${one.room.id}`), place),
    ]),
    ...recordTable(
      'Promised dates',
      [
        ['Room', 0.14],
        ['Milestone', 0.19],
        ['Promised for', 0.22],
        ['Promised on', 0.2],
        ['Given to, document', null],
      ],
      standing(whole.promises)
        .toSorted((a, b) => a.madeAt.localeCompare(b.madeAt))
        .map((p) => [
          nameOf(p.roomId),
          milestoneName({ kind: p.milestone, flooring: p.flooring }),
          p.milestone === 'cover' ? dated(p.promisedFor) : short(p.promisedFor),
          dated(p.madeAt),
          joined([
            p.to,
            whole.documents.find((d) => d.id === p.documentId)?.title ?? (p.documentId === null ? 'verbally' : 'in a document'),
          ]),
        ]),
    ),
    ...recordTable(
      'Moisture tests',
      [
        ['Room', 0.14],
        ['Flooring', 0.19],
        ['Test', 0.31],
        ['Taken', 0.18],
        ['Tested by, note', null],
      ],
      standing(whole.clearanceTests)
        .toSorted((a, b) => a.takenAt.localeCompare(b.takenAt))
        .map((test) => [
          nameOf(test.roomId),
          milestoneName({ kind: 'cover', flooring: test.flooring }),
          `${METHOD_NAMES[test.method]}: ${valueText(test)}`,
          short(test.takenAt),
          joined([test.by, test.note]),
        ]),
    ),
    ...recordTable(
      'Visits and callbacks',
      [
        ['Date', 0.2],
        ['Visit', 0.4],
        ['Result', null],
      ],
      visits.map((visit) => [
        short(visit.instant),
        joined([visit.title, visit.roomIds.map(nameOf).join(', ')]),
        [
          visit.cancelledAt !== null ? 'Canceled.' : visit.doneAt === null ? 'Planned.' : `Done ${dated(visit.doneAt)}.`,
          visit.cause === '' ? '' : `Cause: ${visit.cause}`,
          visit.fix === '' ? '' : `Fix: ${visit.fix}`,
          visit.notes,
        ]
          .filter((part) => part !== '')
          .join(' '),
      ]),
    ),
  ];
}
