import { execFileSync } from 'node:child_process';
import { mkdtempSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { inkDocument } from '../../../main/desk/ink/ink-document.ts';
import { type JobReading, readJob, type RoomReading } from '../../../shared-core/standing/read-job.ts';
import type { WholeJob } from '../../../shared-core/book/whole-job.ts';
import { capital } from '../../../shared-core/measure/first-letter.ts';
import { prepSheet } from '../../../shared-core/documents/prep-sheet.ts';
import { type Block, type DocumentTree, documentTreeSchema } from '../../../shared-core/documents/tree.ts';
import type { Mark } from '../../../shared-core/drawing/marks.ts';
import { lineAmount, lineText } from '../../../shared-core/prep/line-words.ts';
import { sampleAt } from '../../sample-at.ts';
import { wholeJobsOf } from '../../../shared-core/sample/whole-jobs.ts';
import { wordingFor } from '../../../shared-core/substrate/wording.ts';
import { test as floorTest } from '../substrate/a-floor.ts';
import { testFonts } from '../../main/desk/working-desk.ts';
import { removeFolder } from '../../../build/remove-folder.mjs';

const NOW = '2026-05-12T12:00:00.000Z';
const wholes = wholeJobsOf(sampleAt(NOW));
const wholeOf = (jobId: string): WholeJob => {
  const whole = wholes.find((w) => w.job.id === jobId);
  if (whole === undefined) throw new Error(`The sample has the job ${jobId}.`);
  return whole;
};
const roomOf = (reading: JobReading, roomId: string): RoomReading => {
  const roomReading = reading.rooms.find((r) => r.room.id === roomId);
  if (roomReading === undefined) throw new Error(`The job has the room ${roomId}.`);
  return roomReading;
};
const sheetOf = (whole: WholeJob, roomId: string): { tree: DocumentTree; roomReading: RoomReading } => {
  const reading = readJob(whole, NOW);
  const roomReading = roomOf(reading, roomId);
  return { tree: prepSheet({ reading, roomReading, madeAt: NOW, revision: 1 }), roomReading };
};
const all = (blocks: readonly Block[]): Block[] =>
  blocks.flatMap((b) => [b, ...(b.kind === 'columns' ? all(b.columns.flat()) : b.kind === 'together' ? all(b.blocks) : [])]);
const rowsOf = (tree: DocumentTree): string[][] =>
  all(tree.blocks).flatMap((b) =>
    b.kind === 'table' ? b.rows.map((row) => row.cells.map((cell) => cell.map((run) => run.text).join(''))) : [],
  );
const wordsOf = (tree: DocumentTree): string =>
  all(tree.blocks)
    .flatMap((b) =>
      b.kind === 'heading'
        ? [b.text]
        : b.kind === 'paragraph'
          ? [b.runs.map((r) => r.text).join('')]
          : b.kind === 'list'
            ? b.items.map((item) => item.map((r) => r.text).join(''))
            : [],
    )
    .join('\n');
const drawnWords = (marks: readonly Mark[]): string[] =>
  marks.flatMap((m) => (m.kind === 'text' ? [m.text] : m.kind === 'group' ? drawnWords(m.marks) : []));
const drawnNames = (marks: readonly Mark[]): string[] => marks.flatMap((m) => (m.kind === 'group' ? [m.name, ...drawnNames(m.marks)] : []));
const planOf = (tree: DocumentTree): readonly Mark[] => {
  const plan = all(tree.blocks).find((b) => b.kind === 'drawing');
  if (plan?.kind !== 'drawing') throw new Error('There is a plan.');
  return plan.drawing.marks;
};

const odell = wholeOf('sample-job-odell');
const rusk = wholeOf('sample-job-rusk');

describe('the prep sheet', () => {
  // Planks and subfloor over 2% apart: NWFA, from memory. It holds the flooring, which this crew does not install.
  it('has no hold that is for the installation of the flooring alone', () => {
    const readings = { ...floorTest.wood('flooring', [0.01]), takenAt: '2026-05-11T12:00:00.000Z' };
    const rooms = odell.rooms.map((room) => ({ ...room, tests: [...room.tests, readings] }));
    const { tree, roomReading } = sheetOf({ ...odell, rooms }, 'sample-hall');
    const apart = roomReading.assessment.findings.find(({ ruleId }) => ruleId === 'wood-apart');
    expect(apart?.verdict).toBe('hold');
    expect(wordsOf(tree)).not.toContain(apart?.text);
  });

  // The basement's one opening stops the pour at its full depth.
  it('explains the dam of a pour that stops at an opening', () => {
    const caption = (whole: WholeJob) =>
      all(sheetOf(whole, 'sample-basement').tree.blocks).flatMap((b) => (b.kind === 'drawing' ? [b.caption] : []))[0];
    expect(caption(rusk)).toContain('Heavy bar: dam.');
    const rooms = rusk.rooms.map((room) => ({
      ...room,
      plan: { ...room.plan, openings: room.plan.openings.map((one) => ({ ...one, edge: 'feather' as const })) },
    }));
    expect(caption({ ...rusk, rooms })).not.toContain('Heavy bar');
  });

  it('matches the schema of documents', () => {
    for (const [whole, roomId] of [
      [odell, 'sample-hall'],
      [rusk, 'sample-basement'],
      [rusk, 'sample-storage'],
    ] as const) {
      expect(documentTreeSchema.safeParse(sheetOf(whole, roomId).tree).error).toBeUndefined();
    }
  });

  it('lists every line of the checklist with its number, its quantity and its reason', () => {
    const { tree, roomReading } = sheetOf(odell, 'sample-hall');
    const wording = wordingFor(odell.business.units, odell.business.locale);
    const rows = rowsOf(tree);
    expect(rows.length).toBeGreaterThan(10);
    expect(rows.map((row) => row.slice(0, 3))).toEqual(
      roomReading.preparation.lines.flatMap((line, i) =>
        line.item === null
          ? []
          : [
              [
                `${i + 1}\u00a0\u00a0${line.item.what}${line.item.who === 'licensed-only' ? '. Licensed firm only.' : ''}`,
                capital(line.item.why),
                lineAmount(line.item, wording, odell.business.locale),
              ],
            ],
      ),
    );
  });

  it('draws what was found on the plan, with the number of its line', () => {
    const { tree, roomReading } = sheetOf(odell, 'sample-hall');
    const marks = planOf(tree);
    const names = drawnNames(marks);
    for (const mark of roomReading.room.marks) expect(names).toContain(`mark:${mark.id}`);
    expect(names.filter((name) => name.startsWith('area:grind'))).not.toEqual([]);
    const dam = roomReading.preparation.lines.findIndex((line) => line.key === 'dams') + 1;
    expect(drawnWords(marks).map((word) => word.trim())).toContain(String(dam));
  });

  it('names holds before the list, with the lines they stop', () => {
    const { tree, roomReading } = sheetOf(rusk, 'sample-basement');
    const kinds = all(tree.blocks).map((b) => (b.kind === 'heading' ? b.text : b.kind));
    expect(kinds.indexOf('Holds')).toBeGreaterThan(-1);
    expect(kinds.indexOf('Holds')).toBeLessThan(kinds.indexOf('table'));
    expect(wordsOf(tree)).toContain('29 CFR 1926.1101(k)(1)');
    const takesOut = roomReading.preparation.lines.findIndex((line) => line.key.startsWith('remove:'));
    expect(wordsOf(tree)).toMatch(new RegExp(`Blocks lines? [\\d, ]*\\b${takesOut + 1}\\b`));
    expect(rowsOf(tree)[takesOut]?.[4]).toBe('hold');
  });

  it('writes who signed on which day, and asks for a new signature where the line has changed', () => {
    const roomReading = roomOf(readJob(odell, NOW), 'sample-hall');
    const [first, second] = roomReading.preparation.lines;
    const item = first?.item ?? null;
    if (first === undefined || second === undefined || item === null) throw new Error('The hall has lines.');
    const wording = wordingFor(odell.business.units, odell.business.locale);
    const sign = (itemKey: string, signedText: string) => ({
      itemKey,
      signedText,
      doneAt: '2026-05-12T11:10:00.000Z',
      initials: 'BL',
      note: '',
      photoIds: [],
      withdrawnAt: null,
    });
    const signed: WholeJob = {
      ...odell,
      job: {
        ...odell.job,
        rooms: odell.job.rooms.map((r) =>
          r.roomId === 'sample-hall'
            ? { ...r, signed: [sign(first.key, lineText(item, wording, 'en-US')), sign(second.key, 'something else then')] }
            : r,
        ),
      },
    };
    const rows = rowsOf(sheetOf(signed, 'sample-hall').tree);
    expect(rows[0]?.[4]).toBe('BL, May 12');
    expect(rows[1]?.[4]).toBe('changed, sign again');
    expect(rows[2]?.[4]).toBe('');
  });

  it('does not print where the key is', () => {
    const house = {
      ...odell,
      property: {
        ...odell.property,
        access: [
          { letter: 'K', text: 'Key safe 4711 by the gate', point: null },
          { letter: 'W', text: 'Tap in the laundry', point: null },
        ],
      },
    };
    const words = wordsOf(sheetOf(house, 'sample-hall').tree);
    expect(words).toContain('Tap in the laundry.');
    expect(words).not.toContain('4711');
  });

  it('says what is missing for a room without readings', () => {
    const blank = { ...rusk, rooms: rusk.rooms.map((room) => ({ ...room, plan: { ...room.plan, outline: [], openings: [] } })) };
    expect(wordsOf(sheetOf(blank, 'sample-storage').tree)).toContain('The room is not drawn yet');
  });

  it('is a document with every line, its cautions and their sources, on both paper sizes', async () => {
    const { tree, roomReading } = sheetOf(odell, 'sample-hall');
    for (const paper of ['letter', 'a4'] as const) {
      const { pdf, pages } = await inkDocument({ ...tree, paper }, testFonts());
      const folder = mkdtempSync(join(tmpdir(), 'straightedge-prep-'));
      const path = join(folder, 'prep.pdf');
      writeFileSync(path, pdf);
      if (process.env['STRAIGHTEDGE_LOOK'] !== undefined) writeFileSync(process.env['STRAIGHTEDGE_LOOK'], pdf);
      const text = execFileSync('pdftotext', ['-layout', path, '-'], { encoding: 'utf8' }).replace(/\s+/g, ' ');
      removeFolder(folder);
      expect(pages).toBeLessThanOrEqual(3);
      expect(text).toContain('page 1 of');
      expect(text).toContain('29 CFR 1926.1153');
      for (const line of roomReading.preparation.lines) expect(text).toContain(line.item?.what.split(' ').slice(0, 2).join(' ') ?? '');
    }
  });
});
