/** The bags, hours and dates of a room that takes more than one pour: the same on every screen and document, before each of its pours. */
import { describe, expect, it } from 'vitest';
import { agenda } from '../../../shared-core/agenda/agenda.ts';
import { pourSchema } from '../../../shared-core/book/pour-record.ts';
import { pourDaySheet } from '../../../shared-core/documents/pour-day-sheet.ts';
import { prepSheet } from '../../../shared-core/documents/prep-sheet.ts';
import { quotedDates } from '../../../shared-core/documents/quote-dates.ts';
import { datesDrawing } from '../../../shared-core/documents/quote-drawings.ts';
import { formatDuration } from '../../../shared-core/measure/duration.ts';
import { INCH_M } from '../../../shared-core/measure/length-units.ts';
import { dayOfInstant } from '../../../shared-core/measure/moment.ts';
import { bagsToMix } from '../../../shared-core/pour/layout.ts';
import { freeze } from '../../../shared-core/price/issue-quote.ts';
import { roomsOf } from '../../../shared-core/standing/job-bundle.ts';
import { stepsToCome } from '../../../shared-core/standing/next-pours.ts';
import { type JobReading, readJob } from '../../../shared-core/standing/read-job.ts';
import { readPour } from '../../../shared-core/standing/read-pour.ts';
import { pouredPlanOf, readPourRecord } from '../../../shared-core/standing/read-poured.ts';
import { roomCure } from '../../../shared-core/standing/room-cure.ts';
import { shoppingFor } from '../../../shared-core/standing/shopping-for.ts';
import { at, family, jobOf, logOf, NOW, ofSection, ROOM } from './poured-family.ts';
import { flat, textOf } from './tree-text.ts';

const HALL = 'sample-hall';
const odell = jobOf('sample-job-odell');
type Whole = typeof odell;
type JobRoom = Whole['job']['rooms'][number];

const withRoom = (whole: Whole, roomId: string, change: (room: JobRoom) => JobRoom): Whole => ({
  ...whole,
  job: { ...whole.job, rooms: whole.job.rooms.flatMap((room) => (room.roomId === roomId ? [change(room)] : [])) },
});

/** A room alone, filled evenly so many inches deep. */
const even = (whole: Whole, roomId: string, depthIn: number, withAggregate = false): Whole =>
  withRoom(whole, roomId, (room) => ({
    ...{ ...room, withAggregate },
    level: { ...room.level, mode: 'follow', followThicknessM: depthIn * INCH_M, textureM: 0 },
  }));

const inSections = (whole: Whole, section: number): Whole => withRoom(ofSection(whole, section), ROOM, (room) => room);

function pourOf(reading: JobReading, roomId: string) {
  const read = readPour(reading, [roomId]);
  if (!read.ok || !read.value.layout.ok) throw new Error('The room can be laid out.');
  return { read: read.value, layout: read.value.layout.value };
}

/** The job after its next pour placed all that it was to place. */
function afterNext(whole: Whole, roomId: string, day: string): Whole {
  const { read, layout } = pourOf(readJob(whole, at(day, 0)), roomId);
  const id = `pour-${day}`;
  const pour = pourSchema.parse({
    ...{
      id,
      createdAt: at(day, 0),
      changedAt: at(day, 0),
      deletedAt: null,
      jobId: whole.job.id,
      roomIds: [roomId],
      lift: read.lift.number,
    },
    ...{ materialId: read.material.id, startedAt: at(day, 0), finishedAt: at(day, 400), fromPaper: false, notes: '' },
    ...{ bagsOnSite: read.bagsToBring, bagsPlanned: read.bagsNeeded, asPoured: pouredPlanOf(read, whole.materials) },
  });
  const log = logOf(id, [
    ...layout.batches.map(({ number }) => ({
      ...{ kind: 'placed', batch: number, roomId, lane: null, bags: bagsToMix(layout, number), instant: at(day, number) },
    })),
    { kind: 'finished', bagsLeft: null, floor: read.later[0]?.length === 0 ? 'whole' : 'partly', instant: at(day, 400) },
  ]);
  return { ...whole, pours: [...whole.pours, pour], pourEvents: [...whole.pourEvents, ...log] };
}

/** What each place says of the next pour. */
function saidOf(whole: Whole, roomId: string, now: string) {
  const reading = readJob(whole, now);
  const { business } = whole;
  const roomReading = reading.rooms.find(({ room }) => room.id === roomId);
  const [facts] = roomsOf(reading.bundle);
  if (roomReading === undefined || facts === undefined) throw new Error('The job has the room.');
  const day = pourDaySheet({ reading, roomIds: [roomId], madeAt: now, revision: 1 });
  if (!day.ok) throw new Error(day.message);
  const entry = agenda([reading.bundle], business, null).entries.find(({ kind }) => kind === 'pour');
  if (entry?.until == null) throw new Error('The pour is on the calendar.');
  const { read } = pourOf(reading, roomId);
  const record = readPourRecord(reading, { id: 'pour', bagsPlanned: read.bagsNeeded, plans: undefined, asPoured: pouredPlanOf(read, []) });
  const powder = shoppingFor(reading, reading.estimate.base).list.items.find(({ materialId }) => materialId === read.material.id);
  const quotes = quotedDates(freeze(whole), reading.estimate.base, now);
  const minutes = (Date.parse(entry.until) - Date.parse(entry.instant)) / 60_000;
  return {
    sheets: { day: textOf(day.value), prep: textOf(prepSheet({ reading, roomReading, madeAt: now, revision: 1, photos: [] })) },
    figure: flat(day.value.blocks).flatMap((b) => (b.kind === 'figure' && b.label === 'Bags' ? [b.figure] : [])),
    ...{ note: entry.note, bags: facts.summary?.nextBags ?? Number.NaN, brought: read.bagsToBring, minutes },
    lasts: formatDuration(Math.round(minutes) * 60, business.locale),
    recorded: record.ok ? record.value.bagsToBring : null,
    toBuy: powder?.containers ?? Number.NaN,
    taken: roomReading.estimate?.takeoff,
    quoted: quotes[0],
    drawn: JSON.stringify(datesDrawing(freeze(whole), quotes, 800)),
    cure: roomCure(reading.bundle, facts, business)?.schedule,
    day: (instant: string) => dayOfInstant(instant, whole.property.timeZone),
  };
}

describe.each([
  ['in two lifts', HALL, () => even(odell, HALL, 2), (whole: Whole) => whole],
  ['in two lifts, the first with aggregate', HALL, () => even(odell, HALL, 1.75, true), (whole: Whole) => whole],
  ['in two sections', ROOM, () => inSections(family, 1), (whole: Whole) => inSections(whole, 2)],
])('a room %s', (_, roomId, first, then) => {
  const planned = (whole: Whole, day: string): Whole => withRoom(whole, roomId, (room) => ({ ...room, pourAt: at(day, 0) }));
  const before = planned(first(), '13');
  const one = saidOf(before, roomId, NOW);
  const two = saidOf(planned(then(afterNext(before, roomId, '13')), '20'), roomId, at('19', 0));

  it.each([
    ['first', one],
    ['second', two],
  ])('has one count of bags and one duration for its %s pour', (__, said) => {
    expect(said.bags).toBeGreaterThan(0);
    expect([said.brought, said.recorded]).toEqual([said.bags, said.bags]);
    expect(said.figure).toEqual([String(said.bags)]);
    expect(said.sheets.day).toContain(`${said.bags} bags in`);
    expect(said.sheets.prep).toContain(`${said.bags} bags`);
    expect(said.note).toContain(`${said.bags} bags.`);
    expect(said.sheets.day).toContain(`about ${said.lasts}.`);
  });

  it('takes in all the bags and the minutes of the estimate', () => {
    const quoted = one.taken?.bags?.quotedBags ?? Number.NaN;
    expect(one.toBuy).toBe(quoted);
    expect(two.toBuy).toBe(two.bags);
    // Each pour is rounded up to whole bags.
    expect(one.bags + two.bags - quoted).toBeGreaterThanOrEqual(0);
    expect(one.bags + two.bags - quoted).toBeLessThanOrEqual(1);
    expect(one.minutes + two.minutes).toBeCloseTo(one.taken?.pourMinutes ?? Number.NaN, 3);
    // One pace: a pour takes its share of the minutes as of the bags.
    expect(one.minutes / two.minutes / (one.bags / two.bags)).toBeCloseTo(1, 1);
  });

  it('has the dates of its quote on the calendar', () => {
    const walk = one.cure?.milestones.find(({ kind }) => kind === 'walk-on')?.statedAt;
    expect(one.quoted?.pourAt).toBe(at('13', 0));
    expect(one.quoted?.lastPourAt).toBe(one.cure?.placedAt);
    expect(one.day(one.quoted?.lastPourAt ?? '') > one.day(at('13', 0))).toBe(true);
    expect([one.quoted?.walkOnAt, one.quoted?.cover?.latestAt]).toEqual([walk, one.cure?.cover?.latestAt]);
    expect(one.drawn).toContain('first pour, foot traffic');
  });
});

describe('a room in two lifts of two sections', () => {
  it('is set up for, and has a day on site, for each of its four pours', () => {
    const daysOf = (whole: Whole): number => readJob(whole, NOW).estimate.base.days;
    const whole = even(family, ROOM, 2);
    const reading = readJob(inSections(whole, 1), NOW);
    const [facts] = roomsOf(reading.bundle);
    expect(facts === undefined ? [] : stepsToCome(reading.bundle, facts).map(({ lift }) => lift)).toEqual([1, 1, 2, 2]);
    expect(reading.rooms[0]?.estimate?.takeoff.setUps).toBe(4);
    expect(reading.estimate.base.days).toBe(daysOf(whole) + 2);
  });
});
