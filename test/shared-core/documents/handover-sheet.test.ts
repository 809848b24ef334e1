import { execFileSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import ICAL from 'ical.js';
import { describe, expect, it } from 'vitest';
import { writeCalendar } from '../../../main/desk/calendar.ts';
import { inkDocument } from '../../../main/desk/ink/ink-document.ts';
import { calendarFeed } from '../../../shared-core/agenda/calendar-feed.ts';
import { jobAgenda } from '../../../shared-core/agenda/job-agenda.ts';
import { jobReadingCures } from '../../../shared-core/standing/job-cures.ts';
import { readJob } from '../../../shared-core/standing/read-job.ts';
import type { CureReading } from '../../../shared-core/book/cure-record.ts';
import type { WholeJob } from '../../../shared-core/book/whole-job.ts';
import { treeChanges } from '../../../shared-core/documents/handover-changes.ts';
import { readTree } from '../../../shared-core/documents/stored-tree.ts';
import { handoverSheet, POURED_CAPTION, TESTED_CAPTION, USED_CAPTION } from '../../../shared-core/documents/handover-sheet.ts';
import { type Block, type DocumentTree, documentTreeSchema } from '../../../shared-core/documents/tree.ts';
import type { Mark } from '../../../shared-core/drawing/marks.ts';
import { sampleBook } from '../../../shared-core/sample/sample-book.ts';
import { wholeJobsOf } from '../../../shared-core/sample/whole-jobs.ts';
import { testFonts } from '../../main/desk/working-desk.ts';

const NOW = '2026-05-12T16:00:00.000Z';
const jobs = wholeJobsOf(sampleBook(NOW));
const of = (id: string): WholeJob => {
  const found = jobs.find((w) => w.job.id === id);
  if (found === undefined) throw new Error(`The sample has the job ${id}.`);
  return found;
};
const whole = of('sample-job-abara');
const sheetOf = (job: WholeJob, revision = 1, changes: readonly string[] = [], now = NOW): DocumentTree =>
  handoverSheet(readJob(job, now), { now, revision, changes });

const all = (blocks: readonly Block[]): Block[] =>
  blocks.flatMap((b) => [
    b,
    ...(b.kind === 'columns' ? all(b.columns.flat()) : b.kind === 'together' || b.kind === 'cover' ? all(b.blocks) : []),
  ]);
const rowsOf = (tree: DocumentTree, caption: string): Record<string, string>[] => {
  const table = all(tree.blocks).find((b) => b.kind === 'table' && b.caption === caption);
  if (table?.kind !== 'table') throw new Error(`The sheet has a table ${caption}.`);
  return table.rows.map((row) =>
    Object.fromEntries(table.columns.map((c, i) => [c.title, (row.cells[i] ?? []).map((run) => run.text).join('')])),
  );
};
const marksOf = (marks: readonly Mark[]): Mark[] => marks.flatMap((m) => (m.kind === 'group' ? [m, ...marksOf(m.marks)] : [m]));
const drawn = (tree: DocumentTree): Mark[] => all(tree.blocks).flatMap((b) => (b.kind === 'drawing' ? marksOf(b.drawing.marks) : []));
const said = (tree: DocumentTree): string =>
  all(tree.blocks)
    .flatMap((b) => (b.kind === 'paragraph' ? b.runs : b.kind === 'list' ? b.items.flat() : []))
    .map((run) => run.text)
    .join('\n');

const inFolder = <T>(run: (folder: string) => T): T => {
  const folder = mkdtempSync(join(tmpdir(), 'straightedge-handover-'));
  try {
    return run(folder);
  } finally {
    rmSync(folder, { recursive: true });
  }
};
const inked = async (tree: DocumentTree): Promise<{ pages: string[]; check: string }> => {
  const { pdf } = await inkDocument(tree, testFonts());
  return inFolder((folder) => {
    const path = join(folder, 'sheet.pdf');
    writeFileSync(path, pdf);
    const text = execFileSync('pdftotext', ['-layout', path, '-'], { encoding: 'utf8' });
    return {
      pages: text.split('\f').filter((page) => page.trim() !== ''),
      check: execFileSync('qpdf', ['--check', path], { encoding: 'utf8' }),
    };
  });
};

/** Nights of a room at so many degrees, hourly from nine in the evening to eight, beginning on a day. */
const coldNights = (job: WholeJob, roomId: string, firstNight: string, nights: number, tempC: number): WholeJob => {
  const from = Date.parse(firstNight);
  const readings = Array.from({ length: nights }, (_, n) =>
    Array.from(
      { length: 12 },
      (_hour, h): CureReading => ({
        at: new Date(from + n * 86_400_000 + h * 3_600_000).toISOString(),
        tempC: h === 0 || h === 11 ? 17 : tempC,
        relativeHumidity: null,
      }),
    ),
  ).flat();
  const stamps = { id: 'log-cold', createdAt: NOW, changedAt: NOW, deletedAt: null };
  return {
    ...job,
    cureLogs: [...job.cureLogs, { ...stamps, jobId: job.job.id, roomId, source: 'by-hand', name: 'nights', readings }],
  };
};
const withUnits = (job: WholeJob, units: 'us' | 'metric', paper: 'letter' | 'a4'): WholeJob => ({
  ...job,
  business: { ...job.business, units, paper },
});

describe('the handover sheet', () => {
  it('keeps to the contract of documents and survives being kept as text', () => {
    const tree = sheetOf(whole);
    expect(documentTreeSchema.safeParse(tree).error).toBeUndefined();
    expect(readTree(JSON.stringify(tree))).toEqual(tree);
    expect(readTree('{"title":"half a she')).toBeNull();
    expect(readTree('{"title":"another shape"}')).toBeNull();
  });

  it('names every poured room, first poured first, with its bags, lot and test', () => {
    const poured = rowsOf(sheetOf(whole), POURED_CAPTION);
    expect(poured.map((row) => row['Room'])).toEqual(['Back hall', 'Dining room', 'Living room']);
    for (const row of poured) expect(row['Bags, lots']).toMatch(/^\d+ bags?, L\d{6}A$/);
    const tested = rowsOf(sheetOf(whole), TESTED_CAPTION);
    expect(tested.find((row) => row['Room'] === 'Living room')?.['Result']).toBe('not yet released for covering');
    expect(tested.find((row) => row['Room'] === 'Back hall')?.['Result']).toMatch(/: released$/);
    expect(rowsOf(sheetOf({ ...whole, clearanceTests: [] }), TESTED_CAPTION).map((row) => row['Result'])).toEqual(
      Array.from({ length: 3 }, () => 'not yet released for covering'),
    );
  });

  it('says how flat the floor came out by a survey after the pour, and which limits for its covering it keeps', () => {
    const after = (dipM: number): string => {
      const rooms = whole.rooms.map((room) => {
        if (room.id !== 'sample-back-hall') return room;
        const xs = room.plan.outline.map((corner) => corner.xM);
        const ys = room.plan.outline.map((corner) => corner.yM);
        const [x0, y0] = [Math.min(...xs), Math.min(...ys)];
        const [dx, dy] = [Math.max(...xs) - x0, Math.max(...ys) - y0];
        const readings = Array.from({ length: 25 }, (_, i) => ({
          id: `after-${i}`,
          xM: x0 + dx * (0.1 + 0.2 * (i % 5)),
          yM: y0 + dy * (0.1 + 0.2 * Math.floor(i / 5)),
          valueM: i === 12 ? 1 + dipM : 1,
          note: 'as it is',
        }));
        return { ...room, surveyAfter: { ...room.survey, method: 'distance-down' as const, readings } };
      });
      return rowsOf(sheetOf({ ...whole, rooms }), POURED_CAPTION).find((row) => row['Room'] === 'Back hall')?.['Out of flat'] ?? '';
    };
    expect(after(0)).toMatch(/^0″ under .*Within the limit for: /);
    expect(after(0)).not.toContain('Past the limit');
    // Half an inch: no published limit in feet is so wide (floors.md, tables of tolerances).
    expect(after(0.0127)).toMatch(/ under .*Past the limit for: /);
    expect(after(0.0127)).not.toContain('Within the limit');
  });

  it('says no wall but the poured rooms’, and nothing poured as nothing', () => {
    const nothing = sheetOf(of('sample-job-odell'));
    expect(all(nothing.blocks).map((b) => b.kind)).toEqual(['heading', 'paragraph']);
    const names = drawn(sheetOf(whole)).flatMap((m) => (m.kind === 'group' && m.name.startsWith('room:') ? [m.name] : []));
    expect(new Set(names)).toEqual(new Set(['room:sample-back-hall', 'room:sample-dining', 'room:sample-living']));
  });

  it('prints in black: nothing on it is filled but with ink and paper, and no accent is used', () => {
    for (const mark of drawn(sheetOf(whole))) {
      if (mark.kind === 'path') expect([null, 'ink', 'paper']).toContain(mark.fill);
      if (mark.kind !== 'group') expect(mark.kind === 'stipple' ? 'ink' : mark.ink).not.toBe('chalk');
    }
  });

  it.each(['us', 'metric'] as const)('takes two pages for three rooms, in %s units on the paper that goes with them', async (units) => {
    const first = await inked(sheetOf(withUnits(whole, units, units === 'us' ? 'letter' : 'a4')));
    expect(first.check).toMatch(/No syntax or stream encoding errors/);
    expect(first.pages).toHaveLength(2);
    expect(first.pages[0]).toContain('Handed over by');
    const rooms = ['Living room', 'Dining room', 'Back hall'];
    const changes = rooms.map((room) => `${room}: likely June 16 (was June 14).`);
    const second = await inked(sheetOf(withUnits(whole, units, units === 'us' ? 'letter' : 'a4'), 2, changes));
    expect(second.pages).toHaveLength(2);
    expect(second.pages[0]).toContain('sheet 2, page 1 of 2');
    expect(second.pages[1]).toContain('sheet 2, page 2 of 2');
    expect(second.pages[0]).toContain(changes[0]);
  });

  // The calendar is read back by ical.js, the paper by pdftotext, the day told by the platform's own Intl.
  it('and the calendar give the same days, and both those of the property’s own zone', async () => {
    for (const timeZone of ['America/New_York', 'Pacific/Auckland']) {
      const moved: WholeJob = { ...whole, property: { ...whole.property, timeZone } };
      const reading = readJob(moved, NOW);
      const feed = calendarFeed(jobAgenda(reading.bundle, moved.business).entries, [], () => null, NOW);
      const calendar = new ICAL.Component(ICAL.parse(writeCalendar({ name: 'Job', events: [...feed.events], sentAt: NOW })) as unknown[]);
      const events = calendar.getAllSubcomponents('vevent').map((event) => new ICAL.Event(event));
      const tree = handoverSheet(reading, { now: NOW, revision: 1, changes: [] });
      const { pages } = await inked(tree);
      const day = new Intl.DateTimeFormat('en-US', { timeZone, month: 'long', day: 'numeric' });
      for (const row of rowsOf(tree, USED_CAPTION)) {
        const event = events.find(
          (e) => e.summary.toLowerCase().includes(`${row['Room'] ?? ''} to be dry`.toLowerCase()) && e.summary.includes('Expect'),
        );
        if (event === undefined) throw new Error(`The calendar expects the ${row['Room'] ?? 'room'} to be dry.`);
        const told = day.format(event.startDate.toJSDate());
        expect(row['Likely']).toBe(told);
        expect(pages[0]).toMatch(new RegExp(`${row['Room'] ?? ''}.*${told}\\s*\\n`));
      }
    }
  });

  it('tells a pour that ended a minute before midnight by the day it was there', () => {
    const at = '2026-05-11T03:59:00.000Z';
    const late: WholeJob = { ...whole, pours: whole.pours.map((p) => ({ ...p, startedAt: '2026-05-11T01:00:00.000Z', finishedAt: at })) };
    expect(rowsOf(sheetOf(late), POURED_CAPTION).map((row) => row['Poured'])).toEqual(['May 10', 'May 10', 'May 10']);
  });

  it('says what three cold nights changed, and only that', () => {
    const before = sheetOf(whole);
    const cold = coldNights(whole, 'sample-living', '2026-05-13T01:00:00.000Z', 3, 4);
    const later = '2026-05-16T16:00:00.000Z';
    // Nothing but the readings: seen from the same moment, on the same day.
    const after = handoverSheet(readJob(cold, later), { now: NOW, revision: 2, changes: [] });
    const changes = treeChanges(before, after, [USED_CAPTION, TESTED_CAPTION, POURED_CAPTION]);
    expect(changes.some((words) => /^Living room: .*likely .+ \(was June 14\)\.$/.test(words))).toBe(true);
    expect(changes.every((words) => words.startsWith('Living room: '))).toBe(true);
    expect(treeChanges(before, before, [USED_CAPTION])).toEqual([]);
  });

  it('names a room that is new and one that is gone', () => {
    const few: WholeJob = { ...whole, pours: whole.pours.filter((p) => !p.roomIds.includes('sample-living')) };
    expect(treeChanges(sheetOf(few), sheetOf(whole), [USED_CAPTION])).toEqual(['Living room was added.']);
    expect(treeChanges(sheetOf(whole), sheetOf(few), [USED_CAPTION])).toEqual(['Living room was removed.']);
  });

  it('tells carts, furniture and loads with their hour: the morning of that day would be too soon', () => {
    const reading = readJob(whole, NOW);
    const dates = rowsOf(sheetOf(whole), 'Do and don’t, by date');
    const words = { cart: 'A light cart', furniture: 'Furniture, felt' } as const;
    const hour = new Intl.DateTimeFormat('en-US', { timeZone: whole.property.timeZone, hour: 'numeric', minute: '2-digit' });
    let told = 0;
    for (const { room, schedule } of jobReadingCures(reading))
      for (const [kind, what] of Object.entries(words)) {
        const at = schedule.milestones.find((m) => m.kind === kind)?.likelyAt;
        if (at == null || at <= NOW) continue;
        const row = dates.find((r) => r['Do']?.startsWith(what) === true && r['Where']?.includes(room.name) === true);
        const clock = hour
          .format(new Date(at))
          .replace(/:00/, '')
          .replace(/\s(AM|PM)/, (_, half: string) => ` ${half.toLowerCase()}`);
        expect(row?.['From']).toContain(clock);
        told += 1;
      }
    expect(told).toBeGreaterThan(0);
  });

  it('tells the steps of heating in the floor, and how a bare floor is cared for, only where they are', () => {
    expect(said(sheetOf(whole))).not.toMatch(/heating back|evening out/);
    const heated: WholeJob = {
      ...whole,
      rooms: whole.rooms.map((r) => ({ ...r, circumstances: { ...r.circumstances, radiantHeat: 'in-floor' as const } })),
    };
    const dates = rowsOf(sheetOf(heated), 'Do and don’t, by date').filter((row) => (row['Where'] ?? '').includes('Living room'));
    const step = (words: RegExp) => dates.find((row) => words.test(row['Do'] ?? ''));
    // EN 1264-4, from memory: cement 21 days after it was placed, water at 20 to 25 °C for three days, then by steps.
    expect(step(/heating back on: water at 77 °F, left there for 3 days/)?.['From']).toBe('Mon, June 1');
    expect(step(/heating back on/)?.['Before then']).toContain('heating off');
    expect(step(/9 °F warmer each day/)?.['From']).toBe('Thu, June 4');
    const bare: WholeJob = {
      ...whole,
      job: { ...whole.job, rooms: whole.job.rooms.map((r) => ({ ...r, flooring: 'bare-sealed' as const })) },
    };
    expect(said(sheetOf(bare))).toMatch(/stays bare: its color goes on evening out for weeks/);
  });

  it('says beside what is done from a day what is not done before it, and nothing any more once the day is there', () => {
    const dates = rowsOf(sheetOf(whole), 'Do and don’t, by date');
    const wood = dates.find((row) => row['Where'] === 'Living room' && /^Test; /.test(row['Do'] ?? ''));
    expect(wood?.['Before then']).toBe('no rugs, tape or boards lying flat');
    const used = rowsOf(sheetOf(whole), USED_CAPTION).find((row) => row['Room'] === 'Living room');
    expect(wood?.['From']).toContain(used?.['Likely']);
    const later = rowsOf(sheetOf(whole, 1, [], '2027-01-10T12:00:00.000Z'), 'Do and don’t, by date');
    expect(later.map((row) => row['From'])).toEqual(later.map(() => 'Now'));
  });

  it('draws the day each floor waits for beside its days, and its first steps where they come days after the pour', () => {
    const texts = (job: WholeJob): string[] => drawn(sheetOf(job)).flatMap((m) => (m.kind === 'text' ? [m.text] : []));
    const likely = rowsOf(sheetOf(whole), USED_CAPTION).find((row) => row['Room'] === 'Living room')?.['Likely'] ?? '';
    expect(texts(whole)).toContain(likely);
    expect(texts(whole)).not.toContain('walk on');
    const slow: WholeJob = {
      ...whole,
      materials: whole.materials.map((m) => ({
        ...m,
        powder: m.powder && {
          ...m.powder,
          milestones: m.powder.milestones.map((one) => (one.kind === 'walk-on' ? { ...one, hoursLeast: 168, hoursMost: 192 } : one)),
        },
      })),
    };
    expect(texts(slow)).toContain('walk on');
  });

  it('gives no date while a room is too cold for any, and says so', () => {
    const frozen: WholeJob = {
      ...whole,
      job: { ...whole.job, rooms: whole.job.rooms.map((r) => ({ ...r, assumedTempC: -5 })) },
    };
    const row = rowsOf(sheetOf(frozen), USED_CAPTION).find((r) => r['Room'] === 'Living room');
    expect(row?.['Cover between']).toBe('too cold to say');
    expect(row?.['Likely']).toBe('not yet known');
  });
});
