/**
 * The same figures in the records, on screens, in lists, documents and the calendar: bags, helpers, durations, totals, dates, rooms that are
 * not poured. Documents are read as text, screens from the functions that they call.
 */
import Papa from 'papaparse';
import { describe, expect, it } from 'vitest';
import { agenda } from '../../../shared-core/agenda/agenda.ts';
import { calendarFeed } from '../../../shared-core/agenda/calendar-feed.ts';
import { ribbonView, todayList } from '../../../shared-core/agenda/today.ts';
import { datedAfter } from '../../../shared-core/documents/dated-after.ts';
import { nextRevision } from '../../../shared-core/documents/document-input.ts';
import { DOCUMENTS } from '../../../shared-core/documents/document-list.ts';
import { handoverRooms, unfinishedRooms } from '../../../shared-core/documents/handover-rooms.ts';
import { placeOf, handoverSheet } from '../../../shared-core/documents/handover-sheet.ts';
import { statedWords, USED_CAPTION, PLACED_CAPTION } from '../../../shared-core/documents/handover-tables.ts';
import { dataLists } from '../../../shared-core/documents/lists/data-lists.ts';
import { dataCsv } from '../../../shared-core/documents/lists/data-table.ts';
import { pourDaySheet } from '../../../shared-core/documents/pour-day-sheet.ts';
import { prepSheet } from '../../../shared-core/documents/prep-sheet.ts';
import { readTree } from '../../../shared-core/documents/stored-tree.ts';
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
import { test } from '../substrate/a-floor.ts';
import { flat, rowsOf, textOf } from './tree-text.ts';

const NOW = '2026-11-13T15:00:00.000Z';
const book = sampleAt(NOW);
const readings = wholeJobsOf(book).map((whole) => readJob(whole, NOW));
const [business] = book.business;
if (business === undefined) throw new Error('The sample has a business.');

const documents = readings.flatMap((reading) =>
  DOCUMENTS.filter((entry) => entry.missing(reading) === null).map((entry) => ({
    reading,
    kind: entry.kind,
    tree: entry.build({ reading, photos: [], now: NOW, revision: nextRevision(reading.whole, entry.kind), changes: [] }),
  })),
);
const issued = book.documents.flatMap((document) => {
  const tree = readTree(document.content);
  return tree === null ? [] : [{ document, tree }];
});

describe('documents of the sample', () => {
  it('are all there', () => {
    expect(documents.length).toBeGreaterThan(20);
    const paid = book.ledger.filter(({ kind }) => kind === 'invoice' || kind === 'payment');
    const handedOver = book.jobs.filter(({ rooms }) => rooms.every(({ handedOverAt }) => handedOverAt !== null));
    expect(issued.length).toBe(book.quotes.length + book.quotes.flatMap((quote) => quote.orders).length + paid.length + handedOver.length);
  });

  it('show no minute, no source from memory and no second sheet number', () => {
    for (const { tree, kind } of documents) {
      const text = textOf(tree);
      expect(text, kind).not.toMatch(/from memory/);
      expect(tree.title, kind).not.toMatch(/sheet \d+, sheet/);
      // A log and a timeline show minutes, because they are about the past. Future times are whole hours.
      if (kind !== 'job-record' && kind !== 'moisture-report') expect(text, kind).not.toMatch(/\d:[0-5]\d [ap]m/i);
    }
  });

  it('have one first heading, and no gap in the levels after it', () => {
    for (const { tree, kind } of [...documents, ...issued.map(({ tree }) => ({ tree, kind: 'quote' }))]) {
      const levels = flat(tree.blocks).flatMap((b) => (b.kind === 'heading' ? [b.level] : []));
      expect(
        levels.filter((level) => level === 1),
        kind,
      ).toEqual([1]);
      expect(levels[0], kind).toBe(1);
      levels.forEach((level, i) => expect(level, `${kind}: heading ${i + 1}`).toBeLessThanOrEqual((levels[i - 1] ?? 0) + 1));
    }
  });

  it('have different titles, so that no PDF replaces another', () => {
    const titles = [...documents.map(({ tree }) => tree.title), ...issued.map(({ tree }) => tree.title)];
    expect(new Set(titles).size).toBe(titles.length);
  });
});

const csvOf = (name: string): string => {
  const list = dataLists(book).find((one) => one.name === name);
  return list === undefined ? '' : dataCsv(list).replace(/^\uFEFF/, '');
};
const listOf = (name: string) => Papa.parse<Record<string, string>>(csvOf(name), { header: true, skipEmptyLines: true }).data;

describe('the same figure', () => {
  it('of a total: in the stored price, the issued document and the list of quotes', () => {
    const list = listOf('quotes');
    for (const quote of book.quotes) {
      const tree = issued.find(({ document }) => document.quoteId === quote.id && document.kind === 'quote')?.tree;
      const job = book.jobs.find((one) => one.id === quote.jobId);
      if (tree === undefined || job === undefined) throw new Error('no document');
      expect(suggestedOption(quote.priced).totalMinor).toBe(quote.totalMinor);
      expect(textOf(tree)).toContain(formatMoney(quote.totalMinor, quote.currency, 'en-US'));
      const row = list.find((one) => one['Job'] === job.number && one['Revision'] === String(quote.revision));
      expect(Math.round(Number(row?.['Total']) * 100)).toBe(quote.totalMinor);
    }
  });

  it('of bags to buy: in the estimate and on the shopping list, less the rooms that are poured', () => {
    for (const reading of readings) {
      const { suggested } = reading.estimate;
      const poured = new Set(reading.whole.pours.filter((p) => p.finishedAt !== null).flatMap((p) => p.roomIds));
      const { list } = shoppingFor(reading, suggested);
      const priced = suggestedOption(quotedPrice(reading.estimate, reading.whole.materials));
      const open = priced.rooms.filter((room) => !poured.has(room.roomId)).reduce((sum, room) => sum + room.bags, 0);
      const bags = list.items.filter((item) => suggested.takeoff.rooms.some((room) => room.materialId === item.materialId));
      expect(
        bags.reduce((sum, item) => sum + (item.containers ?? 0), 0),
        reading.whole.job.number,
      ).toBe(open);
    }
  });

  it('of bags placed: in the log, the handover sheet and the list of batches', () => {
    const batches = listOf('batches');
    expect(batches.length).toBeGreaterThan(0);
    for (const { reading, kind, tree } of documents) {
      if (kind !== 'handover') continue;
      for (const row of rowsOf(tree, PLACED_CAPTION)) {
        const listed = batches.filter((one) => one['Job'] === reading.whole.job.number && one['Rooms'] === row['Room']);
        expect(
          listed.reduce((sum, one) => sum + Number(one['Bags']), 0),
          row['Room'],
        ).toBe(Number(row['Bags']));
      }
    }
  });

  it('of a date: the handover sheet has a row for every room that has dates, and no other', () => {
    for (const { reading, kind, tree } of documents) {
      if (kind !== 'handover') continue;
      const named = rowsOf(tree, USED_CAPTION).map((row) => row['Room']);
      expect(named).toEqual(handoverRooms(reading).map(({ room }) => room.name));
      for (const { name } of unfinishedRooms(reading)) expect(named).not.toContain(name);
    }
  });

  it('of a day: no quote and no document cites a reading, a test or a pour later than itself', () => {
    for (const quote of book.quotes) {
      const { rooms } = quote.frozen;
      for (const room of rooms) if (room.survey.takenAt !== null) expect(room.survey.takenAt <= quote.issuedAt).toBe(true);
      for (const room of rooms) for (const test of room.tests) expect(test.takenAt <= quote.issuedAt, `${room.name} ${test.id}`).toBe(true);
    }
    for (const { whole } of readings) expect(datedAfter(whole, NOW)).toBeNull();
    const [reading] = readings.filter(({ whole }) => whole.pours.length > 0);
    const [pour] = reading?.whole.pours ?? [];
    if (reading === undefined || pour?.finishedAt == null) throw new Error('nothing is poured');
    const before = new Date(Date.parse(pour.finishedAt) - 1000).toISOString();
    for (const { whole } of readings) {
      const late = {
        ...whole,
        rooms: whole.rooms.map((room) => ({ ...room, tests: [test.air({ takenAt: '2027-05-12T15:00:00.000Z' })] })),
      };
      expect(datedAfter(late, NOW)).toContain(`a test of ${whole.rooms[0]?.name} is dated`);
    }
    // The latest reading of a log counts, wherever it stands in it; a deleted log does not.
    const [logged] = reading.whole.cureLogs.filter(({ readings: own }) => own.length > 1);
    const room = reading.whole.rooms.find(({ id }) => id === logged?.roomId);
    const [first, second] = logged?.readings ?? [];
    if (logged === undefined || first === undefined || second === undefined) throw new Error('The air of a room is logged.');
    const later = { ...second, instant: '2027-05-12T15:00:00.000Z' };
    for (const readings of [
      [first, later],
      [later, first],
    ]) {
      const withLog = (deletedAt: string | null) => datedAfter({ ...reading.whole, cureLogs: [{ ...logged, readings, deletedAt }] }, NOW);
      expect(withLog(null)).toContain(`an air reading of ${room?.name} is dated`);
      expect(withLog(NOW)).toBeNull();
    }
    expect(datedAfter({ ...reading.whole, cureLogs: [], clearanceTests: [] }, before)).toMatch(
      /^Nothing was saved: .* later than this document\./,
    );
  });

  it('of a reading: exported to a tenth of a millimeter, without binary noise', () => {
    const csv = csvOf('readings');
    expect(csv.split('\r\n').length).toBeGreaterThan(50);
    expect(csv).not.toMatch(/\d\.\d{5,}/);
  });
});

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
      expect(textOf(prepSheet({ reading, roomReading, madeAt: NOW, revision: 1, photos: [] })), 'prep sheet').toContain(`${bags} bags`);
      const day = pourDaySheet({ reading, roomIds: [facts.room.id], madeAt: NOW, revision: 1 });
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
    const day = pourDaySheet({ reading, roomIds: [facts.room.id], madeAt: NOW, revision: 1 });
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
    if (accepted === undefined || money.contract === null) return;
    if (accepted.orders.length === 0) expect(money.contract.totalMinor).toBe(accepted.totalMinor);
    if (handoverRooms(reading).length === 0) return;
    const sheet = textOf(handoverSheet(reading, { now: NOW, revision: 1, changes: [], photos: [] }));
    expect(sheet).toContain(`Contract total ${formatMoney(money.contract.totalMinor, accepted.currency, business.locale)}.`);
    expect(sheet.includes('Paid in full.')).toBe(money.isPaid);
  });
});
