/** Hostile text in every text field, through every document, list and calendar: it comes out as text, and nothing executes it. */
import { execFileSync } from 'node:child_process';
import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import ICAL from 'ical.js';
import Papa from 'papaparse';
import { describe, expect, it } from 'vitest';
import { writeCalendar } from '../../main/desk/calendar.ts';
import { inkDocument } from '../../main/desk/ink/ink-document.ts';
import { agenda } from '../../shared-core/agenda/agenda.ts';
import { calendarFeed } from '../../shared-core/agenda/calendar-feed.ts';
import { jobReadingCures } from '../../shared-core/standing/job-cures.ts';
import { readJob, type RoomReading } from '../../shared-core/standing/read-job.ts';
import { readPour } from '../../shared-core/standing/read-pour.ts';
import { shoppingFor } from '../../shared-core/standing/shopping-for.ts';
import { dataLists } from '../../shared-core/documents/lists/data-lists.ts';
import { dataCsv } from '../../shared-core/documents/lists/data-table.ts';
import { handoverSheet } from '../../shared-core/documents/handover-sheet.ts';
import { jobRecord } from '../../shared-core/documents/job-record.ts';
import { pourDaySheet } from '../../shared-core/documents/pour-day-sheet.ts';
import { prepSheet } from '../../shared-core/documents/prep-sheet.ts';
import { quoteSheet } from '../../shared-core/documents/quote-sheet.ts';
import { shoppingListSheet } from '../../shared-core/documents/shopping-list.ts';
import type { DocumentTree } from '../../shared-core/documents/tree.ts';
import { readingsCsv } from '../../renderer/plan/reading-csv.ts';
import { shoppingCsv } from '../../shared-core/documents/lists/shopping-csv.ts';
import { wholeJobsOf } from '../../shared-core/sample/whole-jobs.ts';
import { HOSTILE_MARK, hostileBook } from '../hostile-book.ts';
import { testFonts } from '../main/desk/working-desk.ts';
import { scratchFolder } from '../scratch-folder.ts';

const NOW = '2026-05-12T11:05:00.000Z';
const { book, fields } = hostileBook(NOW);
const readings = wholeJobsOf(book).map((whole) => readJob(whole, NOW));
/** Ignores spaces, soft hyphens and the quotation marks that the reader adds. */
const bare = (text: string): string => text.replace(/[\s\u00ad"]/g, '');

/** All text of a document tree. */
const textsOf = (value: unknown): string[] => {
  if (Array.isArray(value)) return value.flatMap(textsOf);
  if (typeof value !== 'object' || value === null) return [];
  return Object.entries(value).flatMap(([key, item]) => (key === 'text' && typeof item === 'string' ? [item] : textsOf(item)));
};

describe('hostile text', () => {
  it('is in every kind of record that has text', () => {
    for (const table of ['business', 'customers', 'properties', 'rooms', 'jobs', 'materials', 'quotes', 'visits'] as const)
      expect(fields.get(table) ?? 0, table).toBeGreaterThan(0);
  });

  const poured = readings.find((reading) => jobReadingCures(reading).length > 0 && reading.whole.pourEvents.length > 0);
  const [first] = readings;
  const [quote] = book.quotes;
  if (poured === undefined || first === undefined || quote === undefined) throw new Error('The sample has no such job.');
  const signedOf = (roomReading: RoomReading): number => roomReading.preparation.lines.filter((line) => line.signature !== null).length;
  // The room with the most initials, notes and photos: the floor poured today.
  const signed = readings
    .flatMap((reading) => reading.rooms.map((roomReading) => ({ reading, roomReading })))
    .sort((a, b) => signedOf(b.roomReading) - signedOf(a.roomReading))[0];
  const today = readings.find(({ whole }) => whole.job.id === 'sample-job-lindqvist');
  const pour = today === undefined ? null : readPour(today, ['sample-family']);
  if (signed === undefined || today === undefined || pour?.ok !== true) throw new Error('The sample has no such floor.');
  const wall = pourDaySheet({ reading: today, roomIds: ['sample-family'], madeAt: NOW, revision: 1 });
  if (!wall.ok) throw new Error(wall.message);
  const papers: readonly (readonly [string, DocumentTree])[] = [
    ['a quote', quoteSheet(quote)],
    ['a job record, with the log of its pour', jobRecord(poured, [], NOW, 1)],
    ['a prep sheet', prepSheet({ ...signed, madeAt: NOW, revision: 1 })],
    ['a sheet for the day of the pour', wall.value],
    ['a shopping list', shoppingListSheet(first, first.estimate.base, NOW, 1)],
    ['a handover sheet', handoverSheet(poured, { now: NOW, revision: 1, changes: [] })],
  ];
  const folder = scratchFolder('hostile');
  for (const [name, tree] of papers)
    it(`is text on ${name}, and nothing runs it`, async () => {
      const path = join(folder, `${name}.pdf`);
      writeFileSync(path, (await inkDocument(tree, testFonts())).pdf);
      execFileSync('qpdf', ['--check', path]);
      const printed = bare(execFileSync('pdftotext', ['-raw', path, '-'], { encoding: 'utf8' }));
      const hostile = textsOf(tree).filter((text) => text.includes(HOSTILE_MARK));
      expect(hostile.length).toBeGreaterThan(0);
      for (const text of hostile) expect(printed.includes(bare(text)), text).toBe(true);
      const objects = execFileSync('qpdf', ['--json', '--json-stream-data=none', path], { encoding: 'utf8', maxBuffer: 1e9 });
      // A key of the file's own objects; text of the data is within strings, which qpdf writes as u: or b:.
      for (const key of ['/JS', '/JavaScript', '/Launch', '/URI', '/OpenAction', '/AA', '/EmbeddedFile', '/SubmitForm', '/RichMedia'])
        expect(objects.includes(`"${key}"`), key).toBe(false);
    }, 120_000);

  it('is text in the bookkeeper’s lists, where no cell begins a formula', () => {
    const lists = [
      ...dataLists(book).map(dataCsv),
      ...readings.map((r) => shoppingCsv(shoppingFor(r, r.estimate.base).list, r.whole.business)),
      ...book.rooms.map((room) => readingsCsv(room.survey)),
    ];
    let seen = 0;
    for (const csv of lists) {
      const { data, errors } = Papa.parse<string[]>(csv, { skipEmptyLines: true });
      expect(errors).toEqual([]);
      expect(new Set(data.map((row) => row.length)).size).toBe(1);
      for (const cell of data.flat()) {
        if (cell.includes(HOSTILE_MARK)) seen += 1;
        expect(/^[=+@\t\r]/.test(cell) || /^-(?!\d+(\.\d+)?$)/.test(cell), cell).toBe(false);
      }
    }
    expect(seen).toBeGreaterThan(20);
  });

  it('is text in the calendar, which has no additional entry', () => {
    const business = book.business[0];
    if (business === undefined) throw new Error('no business');
    const all = agenda(
      readings.map((reading) => reading.bundle),
      business,
      null,
    );
    const { events } = calendarFeed(all.entries, [], () => null, NOW);
    const text = writeCalendar({ name: business.name, events: [...events], sentAt: NOW });
    const read = new ICAL.Component(ICAL.parse(text)).getAllSubcomponents('vevent').map((component) => new ICAL.Event(component));
    expect(read).toHaveLength(events.length);
    expect(events.some((event) => `${event.summary}${event.location}`.includes(HOSTILE_MARK))).toBe(true);
    const byUid = new Map(read.map((event) => [event.uid, event]));
    for (const event of events) expect(byUid.get(event.uid)).toMatchObject({ summary: event.summary, location: event.location });
  });
});
