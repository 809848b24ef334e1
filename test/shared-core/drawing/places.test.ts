/** Where arrows and figures stand, worked out by hand on a drawing of 100 px to the meter. */
import { describe, expect, it } from 'vitest';
import { flatnessMarks } from '../../../shared-core/drawing/flatness-map.ts';
import { floorField } from '../../../shared-core/drawing/floor-field.ts';
import { isApart, startSheet, type TurnedBox } from '../../../shared-core/drawing/labels.ts';
import type { Mark } from '../../../shared-core/drawing/marks.ts';
import { fitPlan } from '../../../shared-core/drawing/plan-walls.ts';
import { laneNumbers, laneWays, wayMarks } from '../../../shared-core/drawing/pour-edges.ts';
import type { PourLayout } from '../../../shared-core/pour/layout.ts';
import { xy } from '../../outlines.ts';

const points = (text: string) => xy(text).map(([xM, yM]) => ({ xM, yM }));
const rounded = (values: readonly number[]): number[] => values.map((v) => Math.round(v * 10) / 10 + 0);
const pathsOf = (marks: readonly Mark[]): number[][] =>
  marks.flatMap((mark) =>
    mark.kind === 'group' ? pathsOf(mark.marks) : mark.kind === 'path' ? mark.rings.map((ring) => rounded(ring.xy)) : [],
  );

describe('the arrow of a lane', () => {
  // Two meters along (0.6, 0.8), half a meter wide along (−0.8, 0.6).
  const lane = (forward: boolean) => ({
    number: 4,
    roomId: 'a',
    forward,
    axes: { ux: 0.6, uy: 0.8 },
    pieces: [{ outline: points('0,0 1.2,1.6 0.8,1.9 -0.4,0.3'), holes: [] }],
  });
  const waysOf = (forward: boolean, roomId = 'a') => laneWays({ lanes: [lane(forward)] } as unknown as PourLayout, roomId);

  it('begins in the middle of the end that is filled first', () => {
    const [way] = waysOf(true);
    expect(way?.id).toBe('4');
    expect(rounded([(way?.from.xM ?? 0) * 100, (way?.from.yM ?? 0) * 100])).toEqual([-20, 15]);
    expect(way?.toward).toEqual({ x: 0.6, y: 0.8 });
    const [back] = waysOf(false);
    expect(rounded([(back?.from.xM ?? 0) * 100, (back?.from.yM ?? 0) * 100])).toEqual([100, 175]);
    expect(back?.toward).toEqual({ x: -0.6, y: -0.8 });
    expect(waysOf(true, 'b')).toEqual([]);
  });

  it('runs 15 px from 5 px past the start, with a head 6 px long and as wide', () => {
    const fit = fitPlan(points('0,0 6,0 6,4 0,4'), { x: 0, y: 0, width: 600, height: 400 });
    if (fit === null) throw new Error('The room fits.');
    const sheet = startSheet({ x: 0, y: 0, width: 600, height: 400 });
    const marks = wayMarks([{ id: '1', from: { xM: 1, yM: 1 }, toward: { x: 0.6, y: 0.8 } }], fit, sheet);
    expect(pathsOf(marks)).toEqual([
      [103, 104, 109, 112],
      [112, 116, 106, 113, 110.8, 109.4],
    ]);
    // Figures stay off it: its box lies along the arrow.
    expect(sheet.taken.at(-1)).toMatchObject({ x: 107.5, y: 110, halfWidth: 9.5, halfHeight: 5 });
  });

  it('has its number before its arrow, further where that place is taken, and none in a lane that is too narrow', () => {
    const fit = fitPlan(points('0,0 6,0 6,4 0,4'), { x: 0, y: 0, width: 600, height: 400 });
    if (fit === null) throw new Error('The room fits.');
    const numberIn = (lane: readonly number[], before: readonly TurnedBox[] = []): number[] => {
      const sheet = startSheet({ x: 0, y: 0, width: 600, height: 400 });
      sheet.taken.push(...before);
      const marks = laneNumbers([{ id: '1', from: { xM: 1, yM: 1 }, toward: { x: 1, y: 0 } }], fit, [lane], sheet);
      return rounded(marks.flatMap((mark) => (mark.kind === 'text' ? [mark.x, mark.y] : [])));
    };
    const wide = [100, 70, 300, 70, 300, 130, 100, 130];
    // The arrow ends 20 px past the start at 100, 100; letters 15 px high stand 5.1 px under their middle.
    expect(numberIn(wide)).toEqual([134, 105.1]);
    expect(numberIn(wide, [{ x: 130, y: 100, halfWidth: 8, halfHeight: 8, turn: 0 }])).toEqual([150, 105.1]);
    expect(numberIn([100, 94, 300, 94, 300, 106, 100, 106])).toEqual([]);
  });
});

describe('the figure at a straightedge', () => {
  const outline = points('0,0 1,0 1,1 0,1');
  const field = floorField(outline, () => 0);
  const offsetOf = (at: readonly [number, number], ends: string): number[] | null => {
    const [from, to] = points(ends);
    if (field === null || from === undefined || to === undefined) throw new Error('The room has a floor and the straightedge two ends.');
    const place = { xM: at[0], yM: at[1] };
    const marks = flatnessMarks(
      {
        plan: { outline, holes: [] },
        deviation: { field, highM: 0, lowM: 0 },
        steps: { everyM: 0.003, heavyEveryM: 0.006, text: String },
        straightedge: { ends: [from, to], at: place, words: '12 mm' },
      },
      { x: 0, y: 0, width: 100, height: 100 },
    );
    const text = marks.find((mark) => mark.kind === 'text');
    return text === undefined ? null : rounded([text.x - 100 * at[0], text.y - 100 * at[1]]);
  };

  it.each([
    ['over its place', [0.5, 0.5], '0.1,0.5 0.9,0.5', [0, -12]],
    ['under it at the upper wall', [0.5, 0.12], '0.1,0.12 0.9,0.12', [0, 21]],
    ['over it to the right', [0.1, 0.5], '0.1,0.5 0.9,0.5', [20, -12]],
    ['over it to the left', [0.9, 0.5], '0.1,0.5 0.9,0.5', [-20, -12]],
    ['under it in the upper left corner', [0.1, 0.12], '0.1,0.12 0.9,0.12', [20, 21]],
    ['under it in the upper right corner', [0.9, 0.12], '0.1,0.12 0.9,0.12', [-20, 21]],
  ] as const)('stands %s', (_, at, ends, offset) => {
    expect(offsetOf(at, ends)).toEqual(offset);
  });

  it('stands beside a straightedge that runs along a wall, clear of the ring', () => {
    // Half of the words and the ring: “12 mm” in bold 15 px is 38 to 46 px wide.
    const [right = 0, base] = offsetOf([0.1, 0.5], '0.1,0.1 0.1,0.9') ?? [];
    expect(right).toBeGreaterThan(19 + 7);
    expect(right).toBeLessThan(23 + 11);
    expect(base).toBe(5);
    expect(offsetOf([0.9, 0.5], '0.9,0.1 0.9,0.9')).toEqual([-right, 5]);
  });
});

describe('a leader', () => {
  const apart = (text: string, clearPx = 0): boolean => {
    const sheet = startSheet({ x: 0, y: 0, width: 100, height: 100 });
    sheet.leaders.push([10, 50, 50, 50]);
    return isApart(sheet, xy(text).flat(), clearPx);
  };

  it('is apart from another that it would only cross if either were longer', () => {
    expect(apart('30,20 30,80')).toBe(false);
    expect(apart('30,20 30,40')).toBe(true);
    expect(apart('70,20 70,80')).toBe(true);
    expect(apart('20,60 80,60')).toBe(true);
  });

  it('keeps its distance', () => {
    expect(apart('20,60 80,60', 8)).toBe(true);
    expect(apart('20,60 80,60', 12)).toBe(false);
    expect(apart('60,50 80,50', 8)).toBe(true);
  });
});
