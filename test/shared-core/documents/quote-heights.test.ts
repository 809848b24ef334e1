/** Changes of height on the quote. Expected heights are calculated by hand beside each floor; common practice, no source. */
import { describe, expect, it } from 'vitest';
import type { LevelChoice } from '../../../shared-core/book/job.ts';
import type { Fixture, Layer } from '../../../shared-core/book/layer.ts';
import type { Hole, Opening, Plan } from '../../../shared-core/book/plan-fields.ts';
import type { Frozen } from '../../../shared-core/book/quote.ts';
import { heightBlocks } from '../../../shared-core/documents/quote-heights.ts';
import { flat } from './tree-text.ts';
import { estimateRoom } from '../../../shared-core/price/estimate-room.ts';
import { sampleAt } from '../../sample-at.ts';
import { wholeJobsOf } from '../../../shared-core/sample/whole-jobs.ts';
import { opening } from '../plan/rooms.ts';

const NOW = '2026-05-12T15:00:00.000Z';
const INCH_M = 0.0254;
const whole = wholeJobsOf(sampleAt(NOW)).find(({ job }) => job.number === '26-031');
const [room] = whole?.rooms ?? [];
const jobRoom = whole?.job.rooms.find(({ roomId }) => roomId === room?.id);
if (whole === undefined || room === undefined || jobRoom === undefined) throw new Error('the sample has no such room');

const LEVEL: LevelChoice = { ...jobRoom.level, mode: 'level', levelM: null, leastThicknessM: INCH_M / 4, grindMostM: 0 };
const point = (xM: number, yM: number) => ({ xM, yM });
const door = (id: string, name: string, wall: number): Opening => ({
  ...opening({ id, name, wall, fromM: 1, widthM: 1 }),
});
const stair: Hole = { id: 'stair', kind: 'stair', name: '', corners: [point(1.5, 1), point(2, 1), point(2, 1.5), point(1.5, 1.5)] };

type Given = {
  readonly level?: Partial<LevelChoice>;
  readonly flooringIn?: number | null;
  readonly openings?: Opening[];
  readonly holes?: Hole[];
  readonly fixtures?: Fixture[];
  readonly layers?: Layer[];
  /** Readings at x from 0 to this, m. */
  readonly readTo?: number;
};

/** A room 4 m by 3 m, sloping evenly from the wall at x = 0 to 1/2 in. lower at x = 4. */
function heightsOf({ level = {}, flooringIn = 3 / 8, openings = [], holes = [], fixtures = [], layers = [], readTo = 4 }: Given) {
  if (whole === undefined || room === undefined || jobRoom === undefined) throw new Error('the sample has no such room');
  const plan: Plan = {
    ...{
      outline: [point(0, 0), point(4, 0), point(4, 3), point(0, 3)],
      holes,
      openings,
      placedAt: { xM: 0, yM: 0, turnDeg: 0 },
      diagonals: [],
    },
  };
  const readings = [0, 1, 2, 3, 4]
    .filter((xM) => xM <= readTo)
    .flatMap((xM) =>
      [0, 1, 2, 3].map((yM) => ({ id: `${xM}-${yM}`, xM, yM, valueM: (-xM / 4) * (INCH_M / 2), note: null, confirmed: false })),
    );
  const floor = {
    ...{ ...room, name: 'Den', plan, layers, marks: [], survey: { ...room.survey, method: 'height' as const, readings } },
    circumstances: { ...room.circumstances, radiantHeat: 'none' as const, fixtures },
  };
  const own = { ...jobRoom, level: { ...LEVEL, ...level }, flooringThicknessM: flooringIn === null ? null : flooringIn * INCH_M };
  const frozen: Frozen = {
    ...{ version: 1, business: whole.business, customer: whole.customer, property: whole.property, materials: [...whole.materials] },
    ...{ rooms: [floor], job: { ...whole.job, rooms: [own] } },
  };
  const days = { day: '2026-05-12', resultsDay: '2026-05-12' };
  const context = {
    business: whole.business,
    property: whole.property,
    job: frozen.job,
    rooms: [floor],
    materials: whole.materials,
    ...days,
  };
  const estimate = estimateRoom(floor, own, { level: own.level, materialId: own.materialId }, context);
  expect(estimate.survey.state).toBe('surveyed');
  const blocks = flat(heightBlocks(frozen, [estimate], 'Heights that change'));
  const words = (runs: readonly { text: string }[]): string => runs.map(({ text }) => text).join('');
  const rows = blocks.flatMap((block) => (block.kind === 'table' ? block.rows.map(({ cells }) => cells.map(words)) : []));
  const note = blocks.flatMap((block) => (block.kind === 'paragraph' ? [words(block.runs)] : [])).join(' ');
  return { blocks, rows, note, higher: rows.map(([place, higher]) => [place, higher]) };
}
// Walls run from corner to corner: wall 1 is x = 4, the low side; wall 3 is x = 0, the high side.
const DOORS = [door('high', 'to the hall', 3), door('low', '', 1)];

describe('changes of height', () => {
  it('level: 1/4 in. above the highest place, 1/2 in. more above the lowest, and 3/8 in. of flooring on both', () => {
    const { higher, note } = heightsOf({ openings: DOORS, holes: [stair], fixtures: ['toilet', 'dishwasher'] });
    expect(higher).toEqual([
      // 1/4 + 3/8 and 1/4 + 1/2 + 3/8
      ['Den: To the hall', '⅝″ higher'],
      ['Den: Doorway', '1⅛″ higher'],
      ['Den: Stair', '⅝″ to 1⅛″ higher'],
      ['Den: Dishwasher', '⅝″ to 1⅛″ higher'],
      ['Den: Toilet', '⅝″ to 1⅛″ higher'],
    ]);
    expect(note).toContain('They include the new flooring: Den ⅜″.');
  });

  it('following the floor: the same thickness everywhere, with flooring of unknown thickness on top', () => {
    const { higher, note } = heightsOf({
      level: { mode: 'follow', followThicknessM: INCH_M / 4, textureM: INCH_M / 8 },
      flooringIn: null,
      openings: DOORS,
      fixtures: ['toilet'],
    });
    // 1/4 in.; texture takes material but does not raise the floor.
    expect(higher.map(([, inches]) => inches)).toEqual(['¼″ higher', '¼″ higher', '¼″ higher']);
    expect(note).toContain('Add the thickness of the new flooring in: Den.');
    expect(note).not.toContain('They include');
  });

  it('with 1/8 in ground off the high side the whole finish is 1/8 in lower', () => {
    const { higher } = heightsOf({ level: { grindMostM: INCH_M / 8 }, openings: DOORS, fixtures: ['range'] });
    expect(higher).toEqual([
      // 5/8 - 1/8 and 1 1/8 - 1/8
      ['Den: To the hall', '½″ higher'],
      ['Den: Doorway', '1″ higher'],
      ['Den: Range', '½″ to 1″ higher'],
    ]);
  });

  it('says lower where more is ground off than is poured', () => {
    const level = { leastThicknessM: INCH_M / 8, grindMostM: INCH_M / 4 };
    const { higher } = heightsOf({ level, flooringIn: null, openings: DOORS, fixtures: ['range'] });
    expect(higher).toEqual([
      // The finish is 1/8 - 1/4 in. above the high side, and 1/2 in. more above the low side.
      ['Den: To the hall', '⅛″ lower'],
      ['Den: Doorway', '⅜″ higher'],
      ['Den: Range', '⅛″ lower to ⅜″ higher'],
    ]);
  });

  it('says that a doorway’s height is estimated where readings stop short of it', () => {
    const note = 'At doorways beyond our readings they are estimated.';
    expect(heightsOf({ openings: DOORS }).note).not.toContain(note);
    // Readings on the high half only.
    const short = heightsOf({ openings: DOORS, readTo: 2 });
    expect(short.note).toContain(note);
  });

  it('counts new plywood that is laid over the floor after it was read', () => {
    const plywood = (laid: 'before-readings' | 'after-readings'): Layer => ({
      ...{ id: 'layer-ply', material: 'plywood', thicknessM: INCH_M / 2, yearInstalled: 2026, sound: 'sound', fate: 'keep' },
      ...{ laid, area: null, note: '' },
    });
    const { higher, note } = heightsOf({ openings: DOORS, layers: [plywood('after-readings')] });
    // The floor as it was, and 1/2 in.
    expect(higher.map(([, inches]) => inches)).toEqual(['1⅛″ higher', '1⅝″ higher']);
    expect(note).toContain('Heights are compared with the floor before the new plywood, after any old flooring is out.');
    expect(note).toContain('They include the new plywood: Den ½″.');
    // Plywood that was there when the floor was read is the floor.
    const read = heightsOf({ openings: DOORS, layers: [plywood('before-readings')] });
    expect(read.higher.map(([, inches]) => inches)).toEqual(['⅝″ higher', '1⅛″ higher']);
    expect(read.note).not.toContain('new plywood');
    // Heat on top is within the depth of the pour. The floor it lies on is no higher.
    const heated = heightsOf({ openings: DOORS, layers: [{ ...plywood('after-readings'), material: 'radiant-heating' }] });
    expect(heated).toEqual(read);
    expect(heated.note).not.toContain('new radiant');
  });

  // Common practice, no source: a door is undercut where the floor under it comes higher.
  it('cuts no door where the floor is not raised, and waits for flooring that is not counted', () => {
    const works = (levelIn: number, flooringIn: number | null) =>
      heightsOf({
        openings: DOORS,
        flooringIn,
        level: { mode: 'follow', followThicknessM: levelIn * INCH_M, leastThicknessM: 0 },
      }).rows.map(([, , work]) => work);
    expect(works(0.02, null)).toEqual(Array(2).fill('Check the door once the flooring is chosen.'));
    expect(works(0.02, 0)).toEqual(Array(2).fill('Check the gap under the door. Add a transition to the adjoining floor.'));
    for (const flooringIn of [null, 3 / 8]) for (const work of works(0.25, flooringIn)) expect(work).toMatch(/^Undercut the door/);
    expect(works(0.02, 3 / 8)[0]).toMatch(/^Undercut the door/);
    // No door loses more than the rail at its foot.
    for (const work of works(0.75, 3 / 4)) expect(work).toMatch(/^Undercut the door/);
    for (const work of works(1, 3 / 4)) expect(work).toMatch(/^Raise the door and its frame, or replace them/);
  });

  // 2010 ADA Standards 303.2 to 303.4: up to 1/4 in. as it is, up to 1/2 in. beveled, ramped above; for homes common practice.
  it('asks at a doorway for what the rule on its step asks for: nothing, a transition, or a reducer or ramp', () => {
    // The finished floor is at 1/4 + 3/8 in.
    const work = (beyondIn: number | null, flooringIn: number | null = 3 / 8) => {
      const adjoiningM = beyondIn === null ? null : beyondIn * INCH_M;
      const openings = [{ ...door('high', 'to the hall', 3), kind: 'open-side' as const, adjoiningM }];
      return heightsOf({ openings, flooringIn }).rows[0]?.[2];
    };
    const reducer = 'Add a threshold reducer to the adjoining floor, or a ramp where local code asks for one.';
    expect([3 / 8, 7 / 8].map((beyondIn) => work(beyondIn))).toEqual(Array(2).fill('The step to the adjoining floor needs no transition.'));
    expect([1 / 8, 1 + 1 / 8].map((beyondIn) => work(beyondIn))).toEqual(Array(2).fill('Add a transition to the adjoining floor.'));
    expect([0, -0.75, 1.25].map((beyondIn) => work(beyondIn))).toEqual(Array(3).fill(reducer));
    expect(work(-1)).toBe('Build a ramp to the adjoining floor, or a step that local code allows.');
    // A floor that is not measured, and flooring that is not counted: 1/4 in. now, and 1 1/4 in. now.
    expect(work(-1, null)).toBe(reducer);
    expect([work(null), work(0, null)]).toEqual(Array(2).fill('Add a transition to the adjoining floor.'));
  });

  it('says in every row what to do and who does it', () => {
    const { rows } = heightsOf({ openings: DOORS, holes: [stair], fixtures: ['toilet', 'floor-outlet'] });
    for (const row of rows) for (const cell of row) expect(cell).not.toBe('');
    expect(rows.find(([place]) => place === 'Den: Toilet')?.[3]).toBe('Your plumber');
    expect(rows.find(([place]) => place === 'Den: Floor outlets')?.[3]).toBe('Your licensed electrician');
  });

  it('prints nothing when no recorded height changes', () => {
    expect(heightsOf({}).blocks).toEqual([]);
  });
});
