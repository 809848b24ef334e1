/** What the job record says after the pour: the air day by day, dates expected and told, tests, visits, papers given out. */
import type { CuredRoom } from '../standing/job-cures.ts';
import type { CureLog } from '../book/cure-record.ts';
import type { WholeJob } from '../book/whole-job.ts';
import { valueText } from '../cure/clearance-tests.ts';
import { milestoneName } from '../cure/cure-schedule.ts';
import { formatDay } from '../measure/day.ts';
import { dayOfInstant, formatInstant, formatInstantDay } from '../measure/moment.ts';
import { formatNumber } from '../measure/number.ts';
import { formatPercent } from '../measure/percent.ts';
import { formatTemperature } from '../measure/temperature.ts';
import type { HandoverPlace } from './handover-picture.ts';
import { joined, recordPart, recordTable, recordWords } from './record-blocks.ts';
import type { Block } from './tree.ts';

/** Days of the log told one by one; further ones are summed up in the sentence above them. */
const MOST_DAYS = 120;

type Day = { readonly day: string; readings: number; leastC: number; mostC: number; humidity: number[] };

/** Readings by the day of the house's own clock, the first day first. */
function byDay(logs: readonly CureLog[], zone: string): Day[] {
  const days = new Map<string, Day>();
  for (const { at, tempC, relativeHumidity } of logs.flatMap((log) => log.readings)) {
    const day = dayOfInstant(at, zone);
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

/** The air of one room while it cured, a line a day, and every date with what it rests on. */
function curedRoom(cured: CuredRoom, whole: WholeJob, place: HandoverPlace): Block[] {
  const { zone, locale, units } = place;
  const { room, schedule } = cured;
  const temp = (tempC: number): string => formatTemperature(tempC, units, locale);
  const logs = whole.cureLogs.filter((log) => log.roomId === room.id && log.deletedAt === null);
  const days = byDay(logs, zone);
  const at = (instant: string | null): string => (instant === null ? 'not known' : formatInstant(instant, zone, 'short', locale));
  const { hoursStoodStill, gaps } = schedule.log;
  const still =
    hoursStoodStill < 1
      ? ''
      : ` The clock stood still ${formatNumber(hoursStoodStill, { most: 0 }, locale)} hours under ${temp(schedule.leastCureTempC)}.`;
  const silent = gaps.length === 0 ? '' : ` The log is silent in ${gaps.length} ${gaps.length === 1 ? 'place' : 'places'}.`;
  const count = days.reduce((sum, day) => sum + day.readings, 0);
  const sources = [...new Set(logs.map((log) => log.name))].slice(0, 6).join('; ');
  return [
    ...recordTable(
      `${room.name}: dates as they stand`,
      [
        ['For', 0.2],
        ['Earliest', 0.27],
        ['Likely', 0.27],
        ['Latest', null],
      ],
      schedule.milestones
        .filter((m) => m.kind !== 'cover' || m === schedule.cover)
        .map((m) => [m.name, at(m.earliestAt), at(m.likelyAt), at(m.latestAt)]),
    ),
    recordWords(
      count === 0
        ? `${room.name}: no reading of its air was taken; the air assumed counts throughout.`
        : `${room.name}: ${formatNumber(count, { most: 0 }, locale)} readings of its air (${sources}).${still}${silent}${days.length > MOST_DAYS ? ` The last ${MOST_DAYS} of ${days.length} days stand below.` : ''}`,
    ),
    ...recordTable(
      `${room.name}: its air by the day`,
      [
        ['Day', 0.25],
        ['Readings', 0.15],
        ['Coldest', 0.2],
        ['Warmest', 0.2],
        ['Humidity, mean', null],
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

/** Everything after the pour. */
export function recordCure(whole: WholeJob, cured: readonly CuredRoom[], place: HandoverPlace): Block[] {
  const { zone, locale } = place;
  const nameOf = (id: string): string => whole.rooms.find((room) => room.id === id)?.name ?? '';
  const short = (instant: string): string => formatInstant(instant, zone, 'short', locale);
  const dated = (instant: string): string => formatInstantDay(instant, zone, 'dated', locale);
  const standing = <R extends { readonly deletedAt: string | null }>(rows: readonly R[]): R[] => rows.filter((r) => r.deletedAt === null);
  const visits = standing(whole.visits).toSorted((a, b) => a.at.localeCompare(b.at));
  const documents = standing(whole.documents).toSorted((a, b) => a.madeAt.localeCompare(b.madeAt));
  return [
    ...(cured.length === 0 ? [] : [recordPart('Cure'), ...cured.flatMap((room) => curedRoom(room, whole, place))]),
    ...recordTable(
      'Dates told to the customer',
      [
        ['Room', 0.18],
        ['For', 0.16],
        ['Promised', 0.22],
        ['Told', 0.18],
        ['To whom, where', null],
      ],
      standing(whole.promises)
        .toSorted((a, b) => a.madeAt.localeCompare(b.madeAt))
        .map((p) => [
          nameOf(p.roomId),
          milestoneName(p.milestone, p.flooring),
          p.milestone === 'cover' ? dated(p.promisedFor) : short(p.promisedFor),
          dated(p.madeAt),
          joined([p.to, whole.documents.find((d) => d.id === p.documentId)?.title ?? (p.documentId === null ? 'said' : 'in a paper')]),
        ]),
    ),
    ...recordTable(
      'Tests before covering',
      [
        ['Room', 0.18],
        ['For', 0.16],
        ['Result', 0.2],
        ['Taken', 0.22],
        ['By, note', null],
      ],
      standing(whole.clearanceTests)
        .toSorted((a, b) => a.takenAt.localeCompare(b.takenAt))
        .map((test) => [
          nameOf(test.roomId),
          milestoneName('cover', test.flooring),
          valueText(test),
          short(test.takenAt),
          joined([test.by, test.note]),
        ]),
    ),
    ...recordTable(
      'Visits and callbacks',
      [
        ['When', 0.2],
        ['What for', 0.24],
        ['How it went', null],
      ],
      visits.map((visit) => [
        short(visit.at),
        joined([visit.title, visit.roomIds.map(nameOf).join(', ')]),
        [
          visit.cancelledAt !== null ? 'Called off.' : visit.doneAt === null ? 'Still to come.' : `Done ${dated(visit.doneAt)}.`,
          visit.cause === '' ? '' : `Cause: ${visit.cause}`,
          visit.fix === '' ? '' : `Done about it: ${visit.fix}`,
          visit.notes,
        ]
          .filter((part) => part !== '')
          .join(' '),
      ]),
    ),
    ...recordTable(
      'Papers made',
      [
        ['Made', 0.18],
        ['Paper', 0.3],
        ['Changed since the one before', null],
      ],
      documents.map((d) => [dated(d.madeAt), d.title, d.changes.join(' ')]),
    ),
  ];
}
