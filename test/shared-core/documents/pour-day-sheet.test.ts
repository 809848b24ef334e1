import { execFileSync } from 'node:child_process';
import { mkdtempSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { inkDocument } from '../../../main/desk/ink/ink-document.ts';
import type { Room } from '../../../shared-core/book/room.ts';
import { type JobReading, readJob } from '../../../shared-core/standing/read-job.ts';
import { type PourReading, readPour } from '../../../shared-core/standing/read-pour.ts';
import { formatDepth } from '../../../shared-core/measure/length-format.ts';
import { mixingRules } from '../../../shared-core/documents/mixing-rules.ts';
import { heldFindings } from '../../../shared-core/documents/prep-sheet.ts';
import { pourDaySheet, stationsOf } from '../../../shared-core/documents/pour-day-sheet.ts';
import { type Block, type DocumentTree, documentTreeSchema } from '../../../shared-core/documents/tree.ts';
import type { Mark } from '../../../shared-core/drawing/marks.ts';
import { sampleAt } from '../../sample-at.ts';
import { wholeJobsOf } from '../../../shared-core/sample/whole-jobs.ts';
import { testFonts } from '../../main/desk/working-desk.ts';
import { textOf } from './tree-text.ts';
import { removeFolder } from '../../../build/remove-folder.mjs';

const NOW = '2026-05-12T12:00:00.000Z';
const whole = wholeJobsOf(sampleAt(NOW)).find((w) => w.job.id === 'sample-job-lindqvist');
if (whole === undefined) throw new Error('The sample has the job that is poured today.');

const reading: JobReading = readJob(whole, NOW);
const pourOf = (of: JobReading, rooms: readonly string[]): PourReading => {
  const read = readPour(of, rooms);
  if (!read.ok) throw new Error(read.problem.kind);
  return read.value;
};
const sheetOf = (of: JobReading, rooms: readonly string[]): DocumentTree => {
  const sheet = pourDaySheet({ reading: of, roomIds: rooms, madeAt: NOW, revision: 1 });
  if (!sheet.ok) throw new Error(sheet.message);
  return sheet.value;
};
const all = (blocks: readonly Block[]): Block[] =>
  blocks.flatMap((b) => [b, ...(b.kind === 'columns' ? all(b.columns.flat()) : 'blocks' in b ? all(b.blocks) : [])]);
const words = (marks: readonly Mark[]): string[] =>
  marks.flatMap((m) => (m.kind === 'text' ? [m.text] : m.kind === 'group' ? words(m.marks) : []));

const inked = async (tree: DocumentTree): Promise<{ pages: number; text: string }> => {
  const { pdf, pages } = await inkDocument(tree, testFonts());
  const folder = mkdtempSync(join(tmpdir(), 'straightedge-day-'));
  const path = join(folder, 'day.pdf');
  writeFileSync(path, pdf);
  const text = execFileSync('pdftotext', [path, '-'], { encoding: 'utf8' }).replace(/\s+/g, ' ');
  if (process.env['STRAIGHTEDGE_LOOK'] !== undefined) writeFileSync(process.env['STRAIGHTEDGE_LOOK'], pdf);
  removeFolder(folder);
  return { pages, text };
};

describe('the pour-day sheet', () => {
  it('matches the schema of documents', () => {
    expect(documentTreeSchema.safeParse(sheetOf(reading, ['sample-family'])).error).toBeUndefined();
  });

  it('keeps who to call and first aid on the page of the wall under a company name of two lines', async () => {
    const named = { ...whole, business: { ...whole.business, name: 'Tarrow Valley Floor Leveling and Concrete Repair LLC' } };
    expect((await inked(sheetOf(readJob(named, NOW), ['sample-family']))).pages).toBe(2);
  });

  // A crew pours by what hangs on the wall: what stops it is there first. Common practice, no source.
  it('has the holds of the prep sheet before the figures, each with its room, or says that there are none', async () => {
    const held = wholeJobsOf(sampleAt(NOW)).find((w) => w.job.number === '26-029');
    if (held === undefined) throw new Error('The sample has the job over presumed asbestos.');
    const basement = readJob(held, NOW);
    const sheet = sheetOf(basement, ['sample-basement']);
    const [roomReading] = basement.rooms;
    const findings = roomReading === undefined ? [] : heldFindings(roomReading);
    expect(findings.length).toBeGreaterThan(5);
    const [top = ''] = textOf(sheet).split('\nBags ');
    expect(top).toContain('On hold, do not pour.');
    for (const { title } of findings) expect(top.toLowerCase()).toContain(title.toLowerCase());
    expect(top).toMatch(/asbestos/);
    expect((await inked(sheet)).pages).toBe(2);
    expect(textOf(sheetOf(reading, ['sample-family']))).toContain('No holds from the assessment.');
  });

  it('is told from the sheet of another room, day and revision on every page', async () => {
    const sheet = sheetOf(reading, ['sample-family']);
    const { text } = await inked(sheet);
    for (const page of ['1 of 2', '2 of 2']) expect(text).toContain(`Family room, revision 1, page ${page}`);
    expect(sheet.title).toContain('revision 1, Family room');
    expect(sheet.head.right.join(' ')).toMatch(/May 12/);
  });

  it('has lanes that add up to the bags of the whole floor', () => {
    const read = pourOf(reading, ['sample-family']);
    if (!read.layout.ok) throw new Error(read.layout.problem.kind);
    const printed = all(sheetOf(reading, ['sample-family']).blocks)
      .flatMap((b) => (b.kind === 'paragraph' ? b.runs.map((r) => r.text) : []))
      .find((t) => t.startsWith('Lane'));
    const each = [...(printed ?? '').matchAll(/([\d.]+)\u00a0bags/g)].map((m) => Number(m[1]));
    expect(each.length).toBe(read.layout.value.lanes.length);
    const bags = each.reduce((sum, n) => sum + n, 0);
    // Each is rounded to a tenth of a bag.
    expect(Math.abs(bags - read.layout.value.volumeM3 / read.bagYieldM3)).toBeLessThanOrEqual(0.05 * each.length + 1e-9);
    expect(Math.ceil(read.layout.value.volumeM3 / read.bagYieldM3 - 1e-6)).toBe(read.bagsNeeded);
  });

  it('uses the bags of the estimate: the same floor, computed lane by lane', () => {
    const read = pourOf(reading, ['sample-family']);
    const estimated = reading.rooms.find((r) => r.room.id === 'sample-family')?.estimate?.takeoff.bags?.exactBags ?? Number.NaN;
    expect(Math.abs(read.bagsNeeded - Math.ceil(estimated))).toBeLessThanOrEqual(1);
  });

  it('numbers the batches on its plan', () => {
    const read = pourOf(reading, ['sample-family']);
    const plan = all(sheetOf(reading, ['sample-family']).blocks).find((b) => b.kind === 'drawing');
    if (plan?.kind !== 'drawing' || !read.layout.ok) throw new Error('There is a plan.');
    const numbers = words(plan.drawing.marks).filter((w) => /^\d+$/.test(w));
    expect(numbers.length).toBeGreaterThan(read.layout.value.batches.length / 2);
    expect(new Set(numbers).size).toBe(numbers.length);
  });

  it('has figures, plan, stations and stop rules on page 1 and details on page 2, on both paper sizes', async () => {
    for (const paper of ['letter', 'a4'] as const) {
      const { pages, text } = await inked({ ...sheetOf(reading, ['sample-family']), paper });
      expect(pages).toBe(2);
      const [front = '', back = ''] = text.split('Mixing and placing');
      for (const words of ['Bags', 'Time per batch', 'Water', 'Stations', 'Stop if', 'Power is lost', 'Call', 'First aid'])
        expect(front).toContain(words);
      for (const words of ['Never add more water.', 'Lane 1', 'Staging', 'Wet edge at most']) expect(back).toContain(words);
    }
  });

  it('fits a big crew and a second room on two pages', async () => {
    const jobRooms = reading.whole.job.rooms.map((r) => ({ ...r, materialId: reading.whole.job.rooms[0]?.materialId ?? null }));
    const both = readJob({ ...reading.whole, pours: [], pourEvents: [], job: { ...reading.whole.job, rooms: jobRooms } }, NOW);
    const rooms = jobRooms.map((r) => r.roomId);
    const { pages, text } = await inked(sheetOf(both, rooms));
    expect(rooms.length).toBe(2);
    expect(pages).toBe(2);
    expect(text).toContain('Sunroom');
  });

  it.each([3, 6, 7, 12])('fits %i people by name at their stations, each once, on two pages', async (count) => {
    const names = Array.from({ length: count }, (_, i) => `Marguerite Oldcastle ${String.fromCharCode(65 + i)}.`);
    const station = ['mixing', 'carrying', 'spreading'] as const;
    const stations = names.map((name, i) => ({ name, station: station[i % 3] ?? ('mixing' as const) }));
    const rooms = reading.whole.job.rooms.map((r) =>
      r.pourPlan === null ? r : { ...r, pourPlan: { ...r.pourPlan, crew: { ...r.pourPlan.crew, stations } } },
    );
    const named = readJob({ ...reading.whole, job: { ...reading.whole.job, rooms, crewNames: names } }, NOW);
    for (const paper of ['letter', 'a4'] as const) {
      const { pages, text } = await inked({ ...sheetOf(named, ['sample-family']), paper });
      expect(pages).toBe(2);
      expect(text.match(/Oldcastle/g)?.length).toBe(count);
    }
  });

  it('loads one batch at a time in the singular', () => {
    const crew = { ...pourOf(reading, [reading.rooms[0]?.room.id ?? '']).first.crew, carry: 'cart' as const, cartBatches: 1 };
    expect(stationsOf(crew, [], 'en-US').map(({ task }) => task)).toContain('1 batch per load.');
  });

  it('allows as long for spiking as pour mode does: until healing ends, but no longer than the batch works', () => {
    const { first, material } = pourOf(reading, ['sample-family']);
    const input = {
      crew: first.crew,
      sheet: material.powder,
      leastM: 0.003,
      lower: [],
      roomCount: 1,
      hasExit: true,
      overHeat: false,
      nothingStuckIn: false,
      aggregateKg: 0,
      units: 'us' as const,
      locale: 'en-US',
    };
    const spike = (healingMin: number, workingTimeMin: number) =>
      mixingRules({ ...input, clocks: { healingMin, workingTimeMin, healingTypical: false, workingTimeTypical: true } }).find((rule) =>
        rule.startsWith('Spike'),
      );
    expect(spike(10.9, 20)).toContain('at the latest 10 min after it is placed. Never');
    // Usually 4 minutes after the water it is placed: 9 of 13 are left.
    expect(spike(15, 13)).toContain('at the latest 9 min after it is placed (typical). Never');
  });

  it('says where to start as the plan starts: at the far side from the exit, or on the deep side without one', () => {
    const startOf = (openings: Room['plan']['openings']) => {
      const rooms = whole.rooms.map((room) => ({ ...room, plan: { ...room.plan, openings } }));
      return /Start with lane 1, [^.]+/.exec(textOf(sheetOf(readJob({ ...whole, rooms }, NOW), ['sample-family'])))?.[0];
    };
    const [door] = whole.rooms.flatMap(({ plan }) => plan.openings);
    if (door === undefined) throw new Error('The sample has a door.');
    expect(startOf([{ ...door, isWayOut: true }])).toBe('Start with lane 1, farthest from the exit');
    expect(startOf([])).toBe('Start with lane 1, on the deep side');
  });

  // A lift under the last fills the deep places up to a plane of its own. Common practice, no source.
  it('gives a lift of the deep places its own top, and no rake over the high spots', () => {
    const odell = wholeJobsOf(sampleAt(NOW)).find((w) => w.job.id === 'sample-job-odell');
    if (odell === undefined) throw new Error('The sample has the job of the hall.');
    const hall = readJob(odell, NOW);
    const lifts = hall.rooms.find(({ room }) => room.id === 'sample-hall')?.estimate?.takeoff.lifts;
    expect([lifts?.count, lifts?.extended]).toEqual([2, false]);
    const low = textOf(sheetOf(hall, ['sample-hall']));
    // Two equal lifts: the first is as deep as its top is below the finish.
    const each = formatDepth(lifts?.eachMostM ?? Number.NaN, 'us', 'en-US');
    expect(low).toContain(
      `Fill the deep places only, at most ${each} deep, with the top ${each} below the finish. Let the edge run out. No rake over the high spots.`,
    );
    for (const wrong of ['Set the gauge rake over', 'nothing thinner']) expect(low).not.toContain(wrong);
    const single = textOf(sheetOf(reading, ['sample-family']));
    for (const right of ['Set the gauge rake over the highest spot at', 'Pour nothing thinner']) expect(single).toContain(right);
    expect(single).not.toContain('deep places only');
    // On the checklist as on the sheet.
    const gauge = (of: JobReading, id: string) =>
      of.rooms.find(({ room }) => room.id === id)?.preparation.lines.find(({ key }) => key === 'gauge')?.item?.what;
    expect(gauge(hall, 'sample-hall')).toBe('Set the tops of the height pins at the top of this lift, not at the finish');
    expect(gauge(reading, 'sample-family')).toContain('over the highest spot');
  });

  // A lift under the last ends at a plane of its own where it covers the floor too. Common practice, no source.
  it('gives a lower lift that covers all of a sunken floor its own top, and no rake, as the checklist does', () => {
    const odell = wholeJobsOf(sampleAt(NOW)).find((w) => w.job.id === 'sample-job-odell');
    if (odell === undefined) throw new Error('The sample has the job of the laundry.');
    const sunken = odell.job.rooms.map((room) => ({
      ...room,
      level: { ...room.level, leastThicknessM: room.level.leastThicknessM + 0.02 },
    }));
    const laundry = readJob({ ...odell, job: { ...odell.job, rooms: sunken } }, NOW);
    const read = laundry.rooms.find(({ room }) => room.id === 'sample-laundry');
    const lifts = read?.estimate?.takeoff.lifts;
    const shallowestM = read?.estimate?.takeoff.room.depths?.leastM ?? 0;
    expect(lifts?.count).toBe(2);
    expect(shallowestM).toBeGreaterThan(lifts?.eachMostM ?? Number.NaN);
    const sheet = textOf(sheetOf(laundry, ['sample-laundry']));
    const each = formatDepth(lifts?.eachMostM ?? Number.NaN, 'us', 'en-US');
    expect(sheet).toContain(`Set the top of this lift ${each} below the finish, at most ${each} deep.`);
    expect(sheet).toContain('Pour nothing thinner');
    for (const wrong of ['gauge rake over', 'deep places only']) expect(sheet).not.toContain(wrong);
    expect(read?.preparation.lines.find(({ key }) => key === 'gauge')?.item?.what).toContain('at the top of this lift');
  });

  it('names the room of the deep places beside one that is covered', () => {
    const { first, material, clocks } = pourOf(reading, ['sample-family']);
    const rules = mixingRules({
      ...{
        crew: first.crew,
        sheet: material.powder,
        leastM: 0.003,
        clocks,
        hasExit: true,
        overHeat: false,
        nothingStuckIn: false,
        aggregateKg: 0,
        units: 'metric',
      },
      lower: [{ roomId: 'den', room: 'Den', mostM: 0.02, belowFinishM: 0.04, isDeepOnly: true }],
      roomCount: 2,
    });
    expect(rules.filter((rule) => /lane 1|deep places|other rooms/.test(rule))).toEqual([
      'Start with lane 1, farthest from the exit.',
      'Den: fill the deep places only, at most 20 mm deep, with the top 40 mm below the finish. Let the edge run out. No rake over the high spots.',
      'In the other rooms, set the gauge rake over the highest spot at 3 mm or more.',
      'In the other rooms, pour nothing thinner than 3 mm. Feather to zero with patch, by hand.',
    ]);
  });

  it('says what is wrong when the lanes cannot be laid', () => {
    const rooms = whole.job.rooms.map((room) => ({ ...room, pourPlan: room.pourPlan && { ...room.pourPlan, laneWidthM: 0.001 } }));
    const sheet = pourDaySheet({
      reading: readJob({ ...whole, job: { ...whole.job, rooms } }, NOW),
      roomIds: ['sample-family'],
      madeAt: NOW,
      revision: 1,
    });
    expect(sheet).toMatchObject({ ok: false, message: expect.stringContaining('Lanes of that width') });
  });
});
