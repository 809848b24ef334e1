import { execFileSync } from 'node:child_process';
import { mkdtempSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { inkDocument } from '../../../main/desk/ink/ink-document.ts';
import { readJob } from '../../../shared-core/standing/read-job.ts';
import type { CureReading } from '../../../shared-core/book/cure-record.ts';
import type { LedgerEntry } from '../../../shared-core/book/ledger.ts';
import { contractOfJob } from '../../../shared-core/ledger/job-contract.ts';
import type { WholeJob } from '../../../shared-core/book/whole-job.ts';
import { treeChanges } from '../../../shared-core/documents/tree-changes.ts';
import { readTree } from '../../../shared-core/documents/stored-tree.ts';
import { handoverSheet } from '../../../shared-core/documents/handover-sheet.ts';
import { FLAT_CAPTION, PLACED_CAPTION, TESTED_CAPTION, USED_CAPTION } from '../../../shared-core/documents/handover-tables.ts';
import { type Block, type DocumentTree, documentTreeSchema } from '../../../shared-core/documents/tree.ts';
import type { Mark } from '../../../shared-core/drawing/marks.ts';
import { sampleAt } from '../../sample-at.ts';
import { samplePaperPhotos, samplePhotos } from '../../../shared-core/sample/sample-pictures.ts';
import { sampleClock } from '../../../shared-core/sample/sample-time.ts';
import { wholeJobsOf } from '../../../shared-core/sample/whole-jobs.ts';
import { formatMoney } from '../../../shared-core/price/money.ts';
import { credit, invoice, orderCredit, payment } from '../ledger/entries.ts';
import { testFonts } from '../../main/desk/working-desk.ts';
import { removeFolder } from '../../../build/remove-folder.mjs';

const NOW = '2026-05-12T16:00:00.000Z';
const jobs = wholeJobsOf(sampleAt(NOW));
const of = (id: string): WholeJob => {
  const found = jobs.find((w) => w.job.id === id);
  if (found === undefined) throw new Error(`The sample has the job ${id}.`);
  return found;
};
const whole = of('sample-job-abara');
const makeSheet = (job: WholeJob, revision: number, changes: readonly string[], now: string): DocumentTree =>
  handoverSheet(readJob(job, now), { now, revision, changes });
/** The sheet of the sample's job as it is, which most tests read. */
const sampleSheet = makeSheet(whole, 1, [], NOW);
const sheetOf = (job: WholeJob, revision = 1, changes: readonly string[] = [], now = NOW): DocumentTree =>
  job === whole && revision === 1 && changes.length === 0 && now === NOW ? sampleSheet : makeSheet(job, revision, changes, now);

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
const marksIn = (tree: DocumentTree): Mark[] => all(tree.blocks).flatMap((b) => (b.kind === 'drawing' ? marksOf(b.drawing.marks) : []));
const textOf = (tree: DocumentTree): string =>
  all(tree.blocks)
    .flatMap((b) => (b.kind === 'paragraph' ? b.runs : b.kind === 'list' ? b.items.flat() : []))
    .map((run) => run.text)
    .join('\n');

const inFolder = <T>(run: (folder: string) => T): T => {
  const folder = mkdtempSync(join(tmpdir(), 'straightedge-handover-'));
  try {
    return run(folder);
  } finally {
    removeFolder(folder);
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

/** Readings of a room at this temperature, hourly from 9 pm to 8 am, from a date on. */
const coldNights = (job: WholeJob, roomId: string, firstNight: string, nights: number, tempC: number): WholeJob => {
  const from = Date.parse(firstNight);
  const readings = Array.from({ length: nights }, (_, n) =>
    Array.from(
      { length: 12 },
      (_hour, h): CureReading => ({
        instant: new Date(from + n * 86_400_000 + h * 3_600_000).toISOString(),
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

it('counts one cold hour as an hour', () => {
  const { cureLogs, ...job } = coldNights(whole, 'sample-living', '2026-05-13T01:00:00.000Z', 1, 4);
  const own = cureLogs.filter((log) => log.roomId !== 'sample-living' || log.id === 'log-cold');
  const logs = own.map((log) => (log.id === 'log-cold' ? { ...log, readings: oneColdHour(log.readings) } : log));
  expect(textOf(sheetOf({ ...job, cureLogs: logs }))).toMatch(/Living room for 1 hour\b/);
});

/** 4 °C at one hour of a night, and 20 °C an instant before and after it. */
function oneColdHour(readings: readonly CureReading[]): CureReading[] {
  const from = Date.parse(readings[0]?.instant ?? '');
  return [
    [-1, 20],
    [0, 4],
    [60, 4],
    [61, 20],
  ].map(([min = 0, tempC = 0]) => ({
    instant: new Date(from + min * 60_000).toISOString(),
    tempC,
    relativeHumidity: null,
  }));
}

it('names each product that was placed in a room', () => {
  const ROOM = 'sample-living';
  const last = whole.pours.find((pour) => pour.roomIds.includes(ROOM) && pour.finishedAt !== null);
  if (last === undefined) throw new Error('The living room is poured.');
  const dayBefore = (instant: string | null): string | null => instant && new Date(Date.parse(instant) - 86_400_000).toISOString();
  const inLift = (pour: typeof last, lift: number) => ({
    ...pour,
    asPoured: { ...pour.asPoured, rooms: pour.asPoured.rooms.map((room) => ({ ...room, lift, liftsPlanned: 2 })) },
  });
  const earlier = {
    ...inLift(last, 1),
    id: 'pour-earlier',
    startedAt: dayBefore(last.startedAt),
    finishedAt: dayBefore(last.finishedAt),
    asPoured: { ...inLift(last, 1).asPoured, material: { ...last.asPoured.material, id: 'mat-other', name: 'Fiber underlayment' } },
  };
  const pours = [earlier, ...whole.pours.map((pour) => (pour === last ? inLift(last, 2) : pour))];
  const log = whole.pourEvents.filter((event) => event.pourId === last.id);
  const placedBefore = log.map((event) => ({ ...event, id: `${event.id}-b`, pourId: earlier.id, instant: dayBefore(event.instant) ?? '' }));
  const both = sheetOf({ ...whole, pours, pourEvents: [...whole.pourEvents, ...placedBefore] });
  const product = rowsOf(both, PLACED_CAPTION).find((row) => row['Room'] === 'Living room')?.['Product'];
  expect(product).toBe(`Fiber underlayment and ${last.asPoured.material.name}, 2 lifts`);
});

describe('the handover sheet', () => {
  it('matches the schema of documents and survives storage as text', () => {
    const tree = sheetOf(whole);
    expect(documentTreeSchema.safeParse(tree).error).toBeUndefined();
    expect(readTree(JSON.stringify(tree))).toEqual(tree);
    expect(readTree('{"title":"half a she')).toBeNull();
    expect(readTree('{"title":"another shape"}')).toBeNull();
  });

  it('names every placed room, first placed first, with its bags, lots and test', () => {
    const placed = rowsOf(sheetOf(whole), PLACED_CAPTION);
    expect(placed.map((row) => row['Room'])).toEqual(['Back hall', 'Dining room', 'Living room']);
    for (const row of placed) {
      expect(row['Bags']).toMatch(/^\d+$/);
      expect(row['Lots']).toMatch(/^L\d{6}A$/);
    }
    const tested = rowsOf(sheetOf(whole), TESTED_CAPTION);
    expect(tested.find((row) => row['Room'] === 'Living room')?.['Result']).toBe('Not tested yet, 3 needed');
    expect(tested.find((row) => row['Room'] === 'Back hall')?.['Result']).toMatch(/: passed$/);
  });

  it('shows the flatness from readings after the pour, against what the flooring allows', () => {
    const after = (dipM: number, takenAt = '2027-01-01T00:00:00.000Z') => {
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
          note: null,
          confirmed: true,
        }));
        return { ...room, surveyAfter: { ...room.survey, method: 'distance-down' as const, takenAt, readings } };
      });
      return rowsOf(sheetOf({ ...whole, rooms }), FLAT_CAPTION).find((row) => row['Room'] === 'Back hall');
    };
    expect(after(0)).toMatchObject({ After: '0″', Result: 'Meets' });
    // Half an inch: no published limit in feet is as wide (floors.md, tables of tolerances).
    expect(after(0.0127)?.['Result']).toBe('Does not meet');
    // Readings from before the last pour are of another floor.
    expect(after(0, '2020-01-01T00:00:00.000Z')?.['Result']).toBe('Not measured');
    expect(rowsOf(sheetOf(whole), FLAT_CAPTION).find((row) => row['Room'] === 'Living room')?.['Result']).toBe('Not measured');
  });

  it('draws only the placed rooms, and says where nothing is placed', () => {
    const nothing = sheetOf(of('sample-job-odell'));
    expect(all(nothing.blocks).map((b) => b.kind)).toEqual(['heading', 'paragraph']);
    const names = marksIn(sheetOf(whole)).flatMap((m) => (m.kind === 'group' && m.name.startsWith('room:') ? [m.name] : []));
    expect(new Set(names)).toEqual(new Set(['room:sample-back-hall', 'room:sample-dining', 'room:sample-living']));
  });

  it('prints in black without an accent color', () => {
    for (const mark of marksIn(sheetOf(whole))) {
      if (mark.kind === 'path') expect([null, 'ink', 'paper']).toContain(mark.fill);
      if (mark.kind !== 'group') expect(mark.kind === 'stipple' ? 'ink' : mark.ink).not.toBe('chalk');
    }
  });

  it.each(['us', 'metric'] as const)('has two pages for three rooms, in %s units on the matching paper', async (units) => {
    const first = await inked(sheetOf(withUnits(whole, units, units === 'us' ? 'letter' : 'a4')));
    expect(first.check).toMatch(/No syntax or stream encoding errors/);
    expect(first.pages).toHaveLength(2);
    expect(first.pages[1]).toContain('Received by, signature');
    const rooms = ['Living room', 'Dining room', 'Back hall'];
    const changes = rooms.map((room) => `${room}: likely June 16 (was June 14).`);
    const second = await inked(sheetOf(withUnits(whole, units, units === 'us' ? 'letter' : 'a4'), 2, changes));
    expect(second.pages).toHaveLength(2);
    expect(second.pages[0]).toContain('revision 2, page 1 of 2');
    expect(second.pages[1]).toContain('revision 2, page 2 of 2');
    expect(second.pages[0]).toContain(changes[0]);
  });

  const handed = ['sample-back-hall', 'sample-dining', 'sample-living'];
  it.each(
    [1, 2, 3].flatMap((count) =>
      (['letter', 'a4'] as const).flatMap((paper) => [true, false].map((hasPhotos) => [count, paper, hasPhotos] as const)),
    ),
  )('has two pages for %i rooms on %s paper, photos on record: %s', async (count, paper, hasPhotos) => {
    const kept = new Set(handed.slice(0, count));
    const few: WholeJob = { ...withUnits(whole, 'us', paper), pours: whole.pours.filter((p) => p.roomIds.some((id) => kept.has(id))) };
    const photos = hasPhotos
      ? samplePaperPhotos(samplePhotos(sampleClock(NOW)), few.job.id, () => '').map((one) => ({
          ...one,
          photo: { ...one.photo, roomId: 'sample-back-hall' },
        }))
      : [];
    const tree = handoverSheet(readJob(few, NOW), { now: NOW, revision: 1, changes: [], photos });
    const { pages } = await inked(tree);
    expect(pages).toHaveLength(2);
    expect(pages[1]).toContain('Received by, signature');
    expect(pages[1]?.includes('see the before and after sheet')).toBe(hasPhotos);
  });

  it('states dates as days, or whole hours within working hours, and never the likely hour', () => {
    for (const row of rowsOf(sheetOf(whole), USED_CAPTION)) {
      for (const title of ['Foot traffic', 'Furniture']) {
        expect(row[title]).toMatch(/^(Now|Not known yet|[A-Z][a-z]+ \d{1,2}(, \d{1,2} [ap]m)?)$/);
        const hour = /, (\d{1,2}) ([ap]m)$/.exec(row[title] ?? '');
        if (hour === null) continue;
        const clock = (Number(hour[1]) % 12) + (hour[2] === 'pm' ? 12 : 0);
        const { from, to } = whole.business.hours;
        expect(clock).toBeGreaterThanOrEqual(Number(from.slice(0, 2)));
        expect(clock).toBeLessThanOrEqual(Number(to.slice(0, 2)));
      }
    }
    const flat = JSON.stringify(all(sheetOf(whole).blocks).filter((b) => b.kind !== 'drawing'));
    expect(flat).not.toMatch(/\d:\d\d [ap]m/i);
  });

  it('dates a pour that ended a minute before midnight by its local day', () => {
    const instant = '2026-05-11T03:59:00.000Z';
    const late: WholeJob = {
      ...whole,
      pours: whole.pours.map((p) => ({ ...p, startedAt: '2026-05-11T01:00:00.000Z', finishedAt: instant })),
    };
    expect(rowsOf(sheetOf(late), PLACED_CAPTION).map((row) => row['Placed'])).toEqual(['May 10', 'May 10', 'May 10']);
  });

  it('lists what eight cold nights changed, and nothing else', () => {
    const before = sheetOf(whole);
    const cold = coldNights(whole, 'sample-living', '2026-05-13T01:00:00.000Z', 8, 4);
    const later = '2026-05-21T16:00:00.000Z';
    // Only the readings differ: the same instant, the same day.
    const after = handoverSheet(readJob(cold, later), { now: NOW, revision: 1, changes: [] });
    const changes = treeChanges(before, after);
    expect(changes.some((words) => /^Living room: .*ready for flooring .+ \(was .+\)\.$/.test(words))).toBe(true);
    // Besides the rooms' rows, the sheet's other lines change by their dates and by why: under the headings they stand.
    expect(changes.filter((words) => !words.startsWith('Living room: '))).toEqual(['Dates later than promised: changed.']);
    expect(treeChanges(before, before)).toEqual([]);
  });

  it('names a room that is new and one that was removed', () => {
    const few: WholeJob = { ...whole, pours: whole.pours.filter((p) => !p.roomIds.includes('sample-living')) };
    expect(treeChanges(sheetOf(few), sheetOf(whole))).toContain('Living room was added.');
    expect(treeChanges(sheetOf(whole), sheetOf(few))).toContain('Living room was removed.');
  });

  it('lists the steps of radiant heat, and the care of a bare floor, only where they apply', () => {
    expect(textOf(sheetOf(whole))).not.toMatch(/radiant heat on|evens out/);
    const heated: WholeJob = {
      ...whole,
      rooms: whole.rooms.map((r) => ({ ...r, circumstances: { ...r.circumstances, radiantHeat: 'in-floor' as const } })),
    };
    const text = textOf(sheetOf(heated));
    // Common practice where the data sheet is silent: 28 days over cement, 5 °F a day; ASTM F710 by a summary: 85 °F at most.
    expect(text).toMatch(
      /^Mon, June 8, .*Living room.*: \nTurn radiant heat on low.*5 °F warmer each day.*85 °F or below.* Until then: leave radiant heat off/m,
    );
    const bare: WholeJob = {
      ...whole,
      job: { ...whole.job, rooms: whole.job.rooms.map((r) => ({ ...r, flooring: 'bare-sealed' as const })) },
    };
    expect(textOf(sheetOf(bare))).toMatch(/the color evens out over some weeks/);
  });

  it('says what to avoid until a day, and nothing once the day is past', () => {
    const dated = /Living room: \nFurniture with felt pads\. Until then: no ladders, nothing heavy\./;
    expect(textOf(sheetOf(whole))).toMatch(dated);
    expect(textOf(sheetOf(whole, 1, [], '2027-01-10T12:00:00.000Z'))).not.toMatch(dated);
  });

  it('names the rooms it does not cover, without dates for them', () => {
    const few: WholeJob = { ...whole, pours: whole.pours.filter((p) => !p.roomIds.includes('sample-living')) };
    const tree = sheetOf(few);
    expect(textOf(tree)).toContain('Not part of this handover: Living room (not poured yet). No date here applies to it.');
    for (const caption of [USED_CAPTION, PLACED_CAPTION, FLAT_CAPTION])
      expect(rowsOf(tree, caption).some((row) => row['Room'] === 'Living room')).toBe(false);
  });

  it('draws the day each floor waits for beside its days', () => {
    const texts = marksIn(sheetOf(whole)).flatMap((m) => (m.kind === 'text' ? [m.text] : []));
    const ready = rowsOf(sheetOf(whole), USED_CAPTION).find((row) => row['Room'] === 'Living room')?.['Ready for flooring'] ?? '';
    expect(texts).toContain(ready.split(' or later')[0]);
  });

  it('draws no day for a floor whose day is over without a passed test, as its table has none', () => {
    const [model] = whole.clearanceTests;
    if (model === undefined) throw new Error('The sample has a test.');
    const later = '2026-11-10T16:00:00.000Z';
    const failed = { ...model, roomId: 'sample-living', flooring: 'wood-glued' as const, method: 'slab-humidity' as const };
    const over = { ...failed, unit: 'share' as const, value: 0.95, takenAt: '2026-11-09T16:00:00.000Z' };
    for (const [clearanceTests, cell, beside, inWords] of [
      [[], 'After its test', /, after its test$/, /ready for [^,]+ after its test$/],
      [[over], 'Not yet: test not passed, test again', /, test again$/, /not ready for [^,]+: its test did not pass$/],
    ] as const) {
      const sheet = sheetOf({ ...whole, clearanceTests }, 1, [], later);
      expect(rowsOf(sheet, USED_CAPTION).find((row) => row['Room'] === 'Living room')?.['Ready for flooring']).toBe(cell);
      const days = marksIn(sheet).find((mark) => mark.kind === 'group' && mark.name === 'days:sample-living');
      if (days?.kind !== 'group') throw new Error('The living room has its days.');
      const texts = days.marks.flatMap((mark) => (mark.kind === 'text' ? [mark.text] : []));
      expect(texts).toEqual(['Living room', expect.stringMatching(beside)]);
      expect(days.label).toMatch(/^Living room: placed [^,]+, /);
      expect(days.label).toMatch(inWords);
    }
  });

  it('draws each floor before and after the pour, with the gaps of its table', () => {
    const sheet = sheetOf(whole);
    const alts = all(sheet.blocks).flatMap((b) => (b.kind === 'drawing' && b.alt.startsWith('Flatness') ? [b.alt] : []));
    expect(alts).toHaveLength(1);
    for (const { Room = '', Before = '', After = '' } of rowsOf(sheet, FLAT_CAPTION)) {
      const words = (gap: string): string => (gap === 'Not measured' ? 'not measured' : `${gap} in 10 ft`);
      expect(alts[0]).toContain(`${Room} before the pour: ${words(Before)}`);
      expect(alts[0]).toContain(`${Room} after the pour: ${words(After)}`);
    }
    // Without readings after the pour there is nothing to compare.
    const unread = { ...whole, rooms: whole.rooms.map((room) => ({ ...room, surveyAfter: null })) };
    expect(all(sheetOf(unread).blocks).some((b) => b.kind === 'drawing' && b.alt.startsWith('Flatness'))).toBe(false);
  });

  it('gives no date while a room is too cold for any, and says so', () => {
    const frozen: WholeJob = {
      ...whole,
      job: {
        ...whole.job,
        rooms: whole.job.rooms.map((r) => ({ ...r, expectedAir: { tempC: -5, relativeHumidity: 0.5, enteredAt: NOW } })),
      },
    };
    const row = rowsOf(sheetOf(frozen), USED_CAPTION).find((r) => r['Room'] === 'Living room');
    expect(row?.['Ready for flooring']).toBe('Too cold to say');
  });
});

it('states what is still to pay from the account, where a deduction was credited after the last invoice', () => {
  const total = contractOfJob(whole.quotes)?.totalMinor ?? 0;
  const ofJob = (entry: LedgerEntry): LedgerEntry => ({ ...entry, jobId: whole.job.id });
  const textWith = (...paid: readonly LedgerEntry[]) => {
    const ledger = [invoice('a', 1, total + 50_000), orderCredit('c', 50_000), ...paid].map(ofJob);
    return textOf(sheetOf({ ...whole, ledger }));
  };
  // All is invoiced, 500.00 more than the contract; after the credit of 500.00 and all but 500.00 paid, 500.00 is left. By hand.
  expect(textWith(payment('p', total - 50_000))).toContain('Still to pay: $500.00.');
  const words = (minor: number): string => formatMoney(minor, 'USD', 'en-US');
  // The credit is inside the contract total; a credit beside it is not.
  expect(textWith(payment('p', total))).toContain(`Contract total ${words(total)}. Paid ${words(total)}. Paid in full.`);
  expect(textWith(payment('p', total + 50_000))).toContain(`Paid ${words(total + 50_000)}. We owe you $500.00.`);
  expect(textWith(credit('g', 'credit', 6_000), payment('p', total - 6_000))).toContain(
    `Contract total ${words(total)}. Credited $60.00. Paid ${words(total - 6_000)}. Paid in full.`,
  );
  expect(textWith(credit('w', 'write-off', 6_000), payment('p', total - 6_000))).toContain(
    `Credited $60.00. Paid ${words(total - 6_000)}. Nothing is left to pay.`,
  );
});
