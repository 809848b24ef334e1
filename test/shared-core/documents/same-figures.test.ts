/**
 * Every document, list and calendar entry of the sample data is compared as text with the records and with each other: bags, totals, dates,
 * rooms that are not poured.
 */
import Papa from 'papaparse';
import { describe, expect, it } from 'vitest';
import { dataLists } from '../../../shared-core/documents/lists/data-lists.ts';
import { dataCsv } from '../../../shared-core/documents/lists/data-table.ts';
import { datedAfter } from '../../../shared-core/documents/dated-after.ts';
import { nextRevision } from '../../../shared-core/documents/document-input.ts';
import { DOCUMENTS } from '../../../shared-core/documents/document-list.ts';
import { handoverRooms, unfinishedRooms } from '../../../shared-core/documents/handover-rooms.ts';
import { statedWords, USED_CAPTION, PLACED_CAPTION } from '../../../shared-core/documents/handover-tables.ts';
import { placeOf } from '../../../shared-core/documents/handover-sheet.ts';
import { shoppingFor } from '../../../shared-core/standing/shopping-for.ts';
import { readTree } from '../../../shared-core/documents/stored-tree.ts';
import { formatMoney } from '../../../shared-core/price/money.ts';
import { quotedPrice, suggestedOption } from '../../../shared-core/price/quoted-price.ts';
import { flat, rowsOf, textOf } from './tree-text.ts';
import { sampleAt } from '../../sample-at.ts';
import { wholeJobsOf } from '../../../shared-core/sample/whole-jobs.ts';
import { readJob } from '../../../shared-core/standing/read-job.ts';

const NOW = '2026-11-13T15:00:00.000Z';
const book = sampleAt(NOW);
const readings = wholeJobsOf(book).map((whole) => readJob(whole, NOW));

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

  it('of a date: the handover sheet states what the cure states, for every room that has dates', () => {
    for (const { reading, kind, tree } of documents) {
      if (kind !== 'handover') continue;
      const place = placeOf(reading, NOW);
      const rows = rowsOf(tree, USED_CAPTION);
      expect(rows.map((row) => row['Room'])).toEqual(handoverRooms(reading).map((handoverRoom) => handoverRoom.room.name));
      for (const handoverRoom of handoverRooms(reading)) {
        const walk = handoverRoom.schedule.milestones.find((m) => m.kind === 'walk-on');
        expect(rows.find((row) => row['Room'] === handoverRoom.room.name)?.['Foot traffic']).toBe(statedWords(walk, place));
      }
      for (const room of unfinishedRooms(reading)) expect(rows.some((row) => row['Room'] === room.name)).toBe(false);
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
