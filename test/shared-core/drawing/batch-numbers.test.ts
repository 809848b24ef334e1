import { describe, expect, it } from 'vitest';
import { isInside } from '../../../shared-core/drawing/ring-clip.ts';
import type { Mark, TextMark } from '../../../shared-core/drawing/marks.ts';
import { planDrawing } from '../../../shared-core/drawing/plan.ts';
import { pourOnPlan } from '../../../shared-core/drawing/pour-plan.ts';
import { toSheet, type PlanFit } from '../../../shared-core/drawing/plan-walls.ts';
import type { PlanBatch } from '../../../shared-core/drawing/plan-layers.ts';
import type { Plan } from '../../../shared-core/book/plan-fields.ts';
import type { PourLayout } from '../../../shared-core/pour/layout.ts';
import { points } from '../../outlines.ts';

const texts = (marks: readonly Mark[]): TextMark[] =>
  marks.flatMap((m) => (m.kind === 'group' ? texts(m.marks) : m.kind === 'text' ? [m] : []));
const room = { outline: [], holes: [], openings: [] } as unknown as Plan;
const box = (x: number, y: number, width: number, height: number) => [
  { xM: x, yM: y },
  { xM: x + width, yM: y },
  { xM: x + width, yM: y + height },
  { xM: x, yM: y + height },
];
const draw = (batches: readonly Pick<PlanBatch, 'text' | 'corners'>[], isPourMode = false) =>
  planDrawing({
    plan: { ...room, outline: box(0, 0, 6, 4) },
    widthPx: 700,
    heightPx: 520,
    shows: 'lanes',
    lengthText: String,
    hasDimensions: false,
    marginPx: { left: 60, top: 60, right: 60, bottom: 60 },
    pour: {
      lanes: [],
      batches: batches.map((b, i) => ({ ...b, id: String(i), state: 'ahead' as const, gapPx: 5 })),
      wetEdges: [],
      isPourMode,
      letteringPx: 20,
    },
  });
/** The box of the figures: their height above the baseline, and their maximum width. */
const cornersOf = (mark: TextMark): [number, number][] => {
  const half = (mark.text.length * 0.5 * mark.sizePx) / 2;
  const high = 0.66 * mark.sizePx;
  return mark.turnDeg === 0
    ? [
        [mark.x - half, mark.y],
        [mark.x + half, mark.y],
        [mark.x - half, mark.y - high],
        [mark.x + half, mark.y - high],
      ]
    : [
        [mark.x, mark.y - half],
        [mark.x, mark.y + half],
        [mark.x - high, mark.y - half],
        [mark.x - high, mark.y + half],
      ];
};
const ringOn = (fit: PlanFit, corners: PlanBatch['corners']): number[] => corners.flatMap((p) => toSheet(fit, p));

describe('the number of a batch', () => {
  it('is within its stretch, also rotated or at the wide end of a narrow wedge', () => {
    const batches = [
      { text: '17', corners: box(0, 0, 0.28, 4) },
      { text: '18', corners: box(0.28, 0, 3, 0.26) },
      {
        text: '19',
        corners: points('3.4,1 6,1 6,2.1'),
      },
    ];
    const drawing = draw(batches);
    if (drawing.fit === null) throw new Error('The room is drawn.');
    for (const batch of batches) {
      const ring = ringOn(drawing.fit, batch.corners);
      const mark = texts(drawing.marks).find((t) => t.text === batch.text);
      if (mark === undefined) throw new Error(`${batch.text} is not on the plan.`);
      for (const [x, y] of cornersOf(mark)) expect(isInside(x, y, [ring]), batch.text).toBe(true);
    }
  });

  it('is beside the room on a leader where its stretch is a sliver, clear of the walls and other numbers', () => {
    const slivers = [0, 1, 2, 3].map((i) => ({ text: String(i + 20), corners: box(5.9, i * 0.9, 0.1, 0.9) }));
    const drawing = draw([{ text: '1', corners: box(0, 0, 5.9, 4) }, ...slivers]);
    if (drawing.fit === null) throw new Error('The room is drawn.');
    const [left = 0, top = 0, , , right = 0, bottom = 0] = ringOn(drawing.fit, box(0, 0, 6, 4));
    const all = texts(drawing.marks).filter((t) => /^\d+$/.test(t.text));
    expect(all.map((t) => t.text).sort()).toEqual(['1', '20', '21', '22', '23']);
    const boxes = all.map((t) => {
      const xs = cornersOf(t).map(([x]) => x);
      const ys = cornersOf(t).map(([, y]) => y);
      return { text: t.text, x0: Math.min(...xs), x1: Math.max(...xs), y0: Math.min(...ys), y1: Math.max(...ys) };
    });
    for (const b of boxes.filter((one) => one.text !== '1'))
      expect(b.x0 > right + 4 || b.x1 < left - 4 || b.y0 > bottom + 4 || b.y1 < top - 4, b.text).toBe(true);
    for (const a of boxes)
      for (const b of boxes)
        if (a.text < b.text) expect(a.x1 <= b.x0 || b.x1 <= a.x0 || a.y1 <= b.y0 || b.y1 <= a.y0, `${a.text} and ${b.text}`).toBe(true);
    // Each leader ends in the stretch it names.
    for (const sliver of slivers) {
      const group = drawing.marks.find((m) => m.kind === 'group' && m.name === `beside:${sliver.text}`);
      const line = group?.kind === 'group' ? group.marks.find((m) => m.kind === 'path') : undefined;
      const xy = line?.kind === 'path' ? (line.rings[0]?.xy ?? []) : [];
      expect(isInside(xy[0] ?? 0, xy[1] ?? 0, [ringOn(drawing.fit, sliver.corners)]), sliver.text).toBe(true);
    }
  });
});

describe('the numbers of a running pour', () => {
  /** Nine planned batches in three lanes of three. */
  const lanes = [1, 2, 3].map((number) => ({ number, roomId: 'room', pieces: [] }));
  const batches = [1, 2, 3, 4, 5, 6, 7, 8, 9].map((number) => {
    const lane = Math.ceil(number / 3);
    return { number, lane, roomId: 'room', pieces: [{ lane, areaM2: 1, floor: [{ outline: box(number, 0, 1, 1), holes: [] }] }] };
  });
  const layout = { lanes, batches, joins: [] } as unknown as PourLayout;
  const numbers = (progress: Parameters<typeof pourOnPlan>[2]) =>
    pourOnPlan(layout, 'room', progress, false).batches.map(({ text, state }) => (state === 'next' ? `next ${text}` : text));

  it('are those of the plan before it starts', () => expect(numbers(null)).toEqual(['1', '2', '3', '4', '5', '6', '7', '8', '9']));

  it('are those of the log where placed, then those the next batches will be logged with', () => {
    // Lane 2 took four batches where three were planned.
    const covered = new Map(Object.entries({ 1: 1, 2: 2, 3: 3, 4: 4, 5: 5, 6: 7 }).map(([planned, logged]) => [Number(planned), logged]));
    const progress = { placed: covered, next: 7, nextToLand: 8, lanesDone: new Set([1, 2]) };
    expect(numbers(progress)).toEqual(['1', '2', '3', '4', '5', '7', 'next 8', '9', '10']);
  });
});
