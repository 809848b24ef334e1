/** Contours by their geometry: whole, smooth and without stray arcs. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { distanceToEdge } from '../../../shared-core/drawing/ring-clip.ts';
import { fieldLines, floorField } from '../../../shared-core/drawing/floor-field.ts';
import { isInBox, textBox } from '../../../shared-core/drawing/labels.ts';
import type { Mark, TextMark } from '../../../shared-core/drawing/marks.ts';
import { planDrawing } from '../../../shared-core/drawing/plan.ts';
import type { PlanSpot } from '../../../shared-core/drawing/plan-input.ts';
import { ringOnSheet } from '../../../shared-core/drawing/plan-walls.ts';
import { IN, lengthText } from './sample-room.ts';
import { points } from '../../outlines.ts';

const textsOf = (marks: readonly Mark[]): TextMark[] =>
  marks.flatMap((m) => (m.kind === 'group' ? textsOf(m.marks) : m.kind === 'text' ? [m] : []));
const lengthOf = (xy: readonly number[]): number => {
  let sum = 0;
  for (let i = 0; i + 3 < xy.length; i += 2) sum += Math.hypot((xy[i + 2] ?? 0) - (xy[i] ?? 0), (xy[i + 3] ?? 0) - (xy[i + 1] ?? 0));
  return sum;
};
const share = (min: number, max: number) => fc.double({ min, max, noNaN: true });

const floors = fc.record({
  w: share(2, 9),
  h: share(2, 9),
  notch: share(0.2, 0.6),
  bumps: fc.array(fc.tuple(share(0, 1), share(0, 1), share(-0.03, 0.03), share(0.4, 2)), { minLength: 1, maxLength: 5 }),
  spots: fc.array(fc.tuple(share(0.03, 0.97), share(0.03, 0.97)), { maxLength: 30 }),
});

describe('contours', () => {
  it('close or end at the wall or a label, without stray arcs', () => {
    fc.assert(
      fc.property(floors, ({ w, h, notch, bumps, spots }) => {
        const outline = [
          [0, 0],
          [w * notch, 0],
          [w * notch, h * notch],
          [w, h * notch],
          [w, h],
          [0, h],
        ].map(([xM = 0, yM = 0]) => ({ xM, yM }));
        const heightAt = (x: number, y: number): number =>
          bumps.reduce((sum, [u, v, high, wide]) => sum + high * Math.exp(-(((x - u * w) / wide) ** 2) - ((y - v * h) / wide) ** 2), 0);
        const drawing = planDrawing({
          plan: { outline, holes: [], openings: [] },
          widthPx: 700,
          heightPx: 520,
          shows: 'depth',
          lengthText,
          floor: floorField(outline, heightAt, 0, 2500),
          newFloor: 0.03,
          spots: spots.map(([u, v], i): PlanSpot => ({ id: String(i), xM: u * w, yM: v * h, text: '1 3⁄16', label: '' })),
          contours: { everyM: 0.25 * IN, heavyEveryM: IN, text: (m) => String(Math.round((m / IN) * 4) / 4) },
        });
        if (drawing.fit === null) throw new Error('The room is drawn.');
        const ring = ringOnSheet(drawing.fit, outline);
        const labels = textsOf(drawing.marks).map((t) => textBox(t.x, t.y, t.text, { ...t, face: t, air: 4.5 }));
        const crosses = drawing.marks.flatMap((m) =>
          m.kind === 'group' && m.name.startsWith('reading:')
            ? m.marks.flatMap((x) => (x.kind === 'path' ? [x.rings[0]?.xy ?? []] : []))
            : [],
        );
        const isAtEnd = (x: number, y: number): boolean =>
          distanceToEdge(x, y, [ring]) < 0.5 ||
          labels.some((box) => isInBox(x, y, box)) ||
          crosses.some(([x0 = 0, cy = 0]) => Math.abs(x - x0 - 4.5) < 6 && Math.abs(y - cy) < 6);
        const group = drawing.marks.find((m) => m.kind === 'group' && m.name === 'contours');
        const pieces = group?.kind === 'group' ? group.marks.flatMap((m) => (m.kind === 'path' ? m.rings.map((r) => r.xy) : [])) : [];
        for (const xy of pieces) {
          const [x0 = 0, y0 = 0] = xy;
          const [x1 = 0, y1 = 0] = xy.slice(-2);
          const isClosed = Math.hypot(x1 - x0, y1 - y0) < 0.02;
          expect(isClosed || (isAtEnd(x0, y0) && isAtEnd(x1, y1)), `a contour from ${x0}, ${y0} ends at ${x1}, ${y1}`).toBe(true);
          expect(lengthOf(xy)).toBeGreaterThanOrEqual(12 - 0.1);
        }
      }),
      { numRuns: 80 },
    );
  });

  it('are smooth around the creases between readings', () => {
    // A pyramid: the triangles between nine readings a meter apart. Its own contours are squares, each corner a turn of 90 degrees.
    const outline = points('0,0 2,0 2,2 0,2');
    const pyramid = (x: number, y: number): number => 0.02 * Math.max(0, 1 - Math.max(Math.abs(x - 1), Math.abs(y - 1)));
    const sharpest = (spacingM: number): number => {
      const field = floorField(outline, pyramid, spacingM);
      if (field === null) throw new Error('The room has a floor.');
      const [line] = fieldLines(field, 0.01).toSorted((a, b) => b.xy.length - a.xy.length);
      const xy = line?.xy ?? [];
      // Over five points at a time, as the eye sees a corner: steps from cell to cell are shorter than a pen is wide.
      const turn = (i: number): number => {
        const vertexAt = (k: number): [number, number] => {
          const j = (2 * (i + k) + xy.length) % xy.length;
          return [xy[j] ?? 0, xy[j + 1] ?? 0];
        };
        const [[ax, ay], [bx, by], [cx, cy]] = [vertexAt(-2), vertexAt(0), vertexAt(2)];
        const between = Math.abs(Math.atan2(cy - by, cx - bx) - Math.atan2(by - ay, bx - ax));
        return (Math.min(between, 2 * Math.PI - between) * 180) / Math.PI;
      };
      return Math.max(...Array.from({ length: xy.length / 2 }, (_, i) => turn(i)));
    };
    expect(sharpest(0)).toBeGreaterThan(45);
    expect(sharpest(1)).toBeLessThan(30);
    // What peaks lose by softening is put back to within a sixth: the label on the peak still agrees with its contours.
    const soft = floorField(outline, pyramid, 1);
    expect(Math.max(...(soft?.heights ?? []))).toBeGreaterThan(0.02 * (5 / 6));
  });
});
