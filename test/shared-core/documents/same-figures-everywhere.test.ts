/**
 * The same figure on screens, lists, documents and in the calendar, read from the functions that the screens call: the estimate, the pour
 * plan, the prep list, Today's ribbon, the cure, the money of a job.
 */
import { describe, expect, it } from 'vitest';
import { agenda } from '../../../shared-core/agenda/agenda.ts';
import { calendarFeed } from '../../../shared-core/agenda/calendar-feed.ts';
import { ribbonView, todayList } from '../../../shared-core/agenda/today.ts';
import { handoverRooms } from '../../../shared-core/documents/handover-rooms.ts';
import { handoverSheet, placeOf } from '../../../shared-core/documents/handover-sheet.ts';
import { statedWords, USED_CAPTION } from '../../../shared-core/documents/handover-tables.ts';
import { pourDaySheet } from '../../../shared-core/documents/pour-day-sheet.ts';
import { prepSheet } from '../../../shared-core/documents/prep-sheet.ts';
import { formatDuration } from '../../../shared-core/measure/duration.ts';
import { dayOfInstant } from '../../../shared-core/measure/moment.ts';
import { formatMoney } from '../../../shared-core/price/money.ts';
import { quotedPrice, suggestedOption } from '../../../shared-core/price/quoted-price.ts';
import { wholeJobsOf } from '../../../shared-core/sample/whole-jobs.ts';
import { roomsOf } from '../../../shared-core/standing/job-bundle.ts';
import { jobReadingCures } from '../../../shared-core/standing/job-cures.ts';
import { jobMoney } from '../../../shared-core/standing/job-money.ts';
import { readJob } from '../../../shared-core/standing/read-job.ts';
import { readPour, roomsOfGo } from '../../../shared-core/standing/read-pour.ts';
import { roomCure } from '../../../shared-core/standing/room-cure.ts';
import { shoppingFor } from '../../../shared-core/standing/shopping-for.ts';
import { sampleAt } from '../../sample-at.ts';
import { flat, rowsOf, textOf } from './tree-text.ts';

const NOW = '2026-11-13T15:00:00.000Z';
const readings = wholeJobsOf(sampleAt(NOW)).map((whole) => readJob(whole, NOW));
const [first] = readings;
if (first === undefined) throw new Error('The sample has no job.');
const { business } = first.whole;
const all = agenda(
  readings.map((reading) => reading.bundle),
  business,
  null,
);
const feed = calendarFeed(all.entries, [], () => null, NOW);
const ribbon = ribbonView(all, todayList(all, NOW), NOW, business.timeZone, 60);

/** Rooms with a pour ahead, in one lift, and the readings to plan it. */
const planned = readings.flatMap((reading) =>
  roomsOf(reading.bundle).flatMap((facts) => {
    const roomReading = reading.rooms.find((r) => r.room.id === facts.room.id);
    const isAhead = facts.jobRoom.pourAt !== null && facts.jobRoom.pourAt > NOW;
    const read = readPour(reading, [facts.room.id]);
    if (!isAhead || roomReading === undefined || !read.ok || !read.value.layout.ok || read.value.lift.of > 1) return [];
    return [{ reading, facts, roomReading, read: read.value }];
  }),
);

describe('bags and helpers of a planned pour', () => {
  it('can be compared', () => {
    expect(planned.length).toBeGreaterThan(0);
  });

  it.each(planned.map((one) => [one.facts.room.name, one] as const))(
    '%s: one count of bags',
    (name, { reading, facts, roomReading, read }) => {
      const bags = roomReading.estimate?.takeoff.bags?.quotedBags ?? Number.NaN;
      expect(facts.summary?.bags, 'lists').toBe(bags);
      expect(reading.standing.rooms.find((r) => r.roomId === facts.room.id)?.bags, 'standing').toBe(bags);
      expect(read.bagsToBring, 'pour plan').toBe(bags);
      const priced = suggestedOption(quotedPrice(reading.estimate, reading.whole.materials));
      expect(priced.rooms.find((room) => room.roomId === facts.room.id)?.bags, 'price').toBe(bags);
      const staged = roomReading.preparation.lines.find((line) => line.item?.amount?.unit === 'bag')?.item?.amount?.value;
      expect(staged, 'prep list').toBe(bags);
      expect(textOf(prepSheet({ reading, roomReading, madeAt: NOW, photos: [] })), 'prep sheet').toContain(`${bags} bags`);
      const day = pourDaySheet({ reading, roomIds: [facts.room.id], madeAt: NOW });
      if (!day.ok) throw new Error(day.message);
      const figures = flat(day.value.blocks).flatMap((b) => (b.kind === 'figure' && b.label === 'Bags' ? [b.figure] : []));
      expect(figures, 'pour-day sheet').toEqual([String(bags)]);
      expect(textOf(day.value), `pour-day sheet of ${name}, staging`).toContain(`${bags} bags in`);
      const entry = all.entries.find((e) => e.kind === 'pour' && e.roomIds.includes(facts.room.id));
      const together = roomsOfGo(reading, facts.room.id);
      if (entry?.roomIds.length === 1 && together.length === 1) expect(entry.note, 'calendar').toContain(`${bags} bags.`);
      const { list } = shoppingFor(reading, reading.estimate.suggested);
      const bought = list.items.find((item) => item.materialId === facts.jobRoom.materialId)?.containers ?? 0;
      expect(bought, 'shopping list').toBeGreaterThanOrEqual(bags);
    },
  );

  it.each(planned.map((one) => [one.facts.room.name, one] as const))('%s: one count of helpers', (_, { facts, roomReading, read }) => {
    const { crew } = read.first;
    const helpers = crew.mixers + crew.carriers + crew.spreaders - 1;
    const briefed = roomReading.preparation.lines.find((line) => line.item?.amount?.unit === 'helper')?.item?.amount?.value ?? 0;
    expect(briefed, 'prep list').toBe(helpers);
    const entry = all.entries.find((e) => e.kind === 'pour' && e.roomIds.includes(facts.room.id));
    expect(entry?.note, 'calendar').toContain(helpers === 1 ? '1 helper.' : helpers === 0 ? 'No helper.' : `${helpers} helpers.`);
  });
});

describe('the duration of a planned pour', () => {
  it.each(planned.map((one) => [one.facts.room.name, one] as const))('%s: one duration', (_, { reading, facts, roomReading }) => {
    const minutes = Math.round(roomReading.estimate?.takeoff.pourMinutes ?? Number.NaN);
    const day = pourDaySheet({ reading, roomIds: [facts.room.id], madeAt: NOW });
    if (!day.ok) throw new Error(day.message);
    expect(textOf(day.value)).toContain(`about ${formatDuration(minutes * 60, business.locale)}.`);
    expect(Math.round(facts.summary?.pourMinutes ?? Number.NaN), 'calendar').toBe(minutes);
  });
});

describe('dates of a floor', () => {
  const floors = readings.flatMap((reading) => jobReadingCures(reading).map((cured) => ({ reading, cured })));

  it.each(floors.map((one) => [one.cured.room.name, one] as const))(
    '%s: one date for foot traffic and one for flooring',
    (_, { reading, cured }) => {
      const { room, schedule } = cured;
      const zone = reading.whole.property.timeZone;
      const facts = roomsOf(reading.bundle).find((r) => r.room.id === room.id);
      const own = facts === undefined ? null : roomCure(reading.bundle, facts, business);
      expect(own?.schedule.milestones.map((m) => m.statedAt)).toEqual(schedule.milestones.map((m) => m.statedAt));
      const walk = schedule.milestones.find((m) => m.kind === 'walk-on') ?? null;
      // The ribbon shows open jobs only.
      const row = ribbon.rows.find((r) => r.roomId === room.id);
      if (row !== undefined)
        expect([row.walkOnAt, row.coverAt], 'Today').toEqual([walk?.statedAt ?? null, schedule.cover?.statedAt ?? null]);
      else expect(reading.whole.job.state).not.toBe('open');
      const place = placeOf(reading, NOW);
      const sheet = handoverSheet(reading, { now: NOW, revision: 1, changes: [], photos: [] });
      const used = rowsOf(sheet, USED_CAPTION).find((r) => r['Room'] === room.name);
      if (handoverRooms(reading).some((handoverRoom) => handoverRoom.room.id === room.id))
        expect(used?.['Foot traffic']).toBe(statedWords(walk, place));
      for (const [kind, statedAt] of [
        ['walk-on', walk?.statedAt ?? null],
        // Once the floor has passed its test, the entry says on that day that it is cleared.
        ['cover', schedule.clearance?.passed === true ? schedule.clearedFrom : (schedule.cover?.statedAt ?? null)],
      ] as const) {
        const entry = all.entries.find((e) => e.kind === kind && e.roomIds.includes(room.id));
        if (entry === undefined || statedAt === null) continue;
        expect(dayOfInstant(entry.instant, zone), kind).toBe(dayOfInstant(statedAt, zone));
        expect(feed.events.find((e) => e.uid.startsWith(entry.key))?.day?.from, `calendar file: ${kind}`).toBe(
          dayOfInstant(statedAt, zone),
        );
        if (kind === 'walk-on') expect(entry.instant, 'agenda').toBe(statedAt);
      }
    },
  );
});

describe('money of a job', () => {
  it.each(readings.map((reading) => [reading.whole.job.number, reading] as const))('%s: one total', (_, reading) => {
    const { whole, estimate } = reading;
    const shown = suggestedOption(quotedPrice(estimate, whole.materials));
    // The foot of Quote and the estimate show the price of the option; the document prints the stored one.
    expect(estimate.suggested.price.totalMinor).toBe(shown.totalMinor);
    const accepted = whole.quotes.find((q) => q.state === 'accepted');
    const money = jobMoney(whole, NOW);
    expect(money.contract === null).toBe(accepted === undefined);
    expect(reading.standing.paid).toBe(money.contract === null ? null : money.isPaid);
    if (accepted === undefined || money.contract === null) return;
    if (accepted.orders.length === 0) expect(money.contract.totalMinor).toBe(accepted.totalMinor);
    if (handoverRooms(reading).length === 0) return;
    const sheet = textOf(handoverSheet(reading, { now: NOW, revision: 1, changes: [], photos: [] }));
    expect(sheet).toContain(`Contract total ${formatMoney(money.contract.totalMinor, accepted.currency, business.locale)}.`);
    expect(sheet.includes('Paid in full.')).toBe(money.isPaid);
  });
});
