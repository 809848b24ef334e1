import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { doBoxesMeet, isFree, reserve, startSheet, type TurnedBox } from '../../../shared-core/drawing/labels.ts';
import type { Mark, TextMark } from '../../../shared-core/drawing/marks.ts';
import { planDrawing } from '../../../shared-core/drawing/plan.ts';
import { heightAt, heightsAlong, surfaceOver } from '../../../shared-core/survey/surface.ts';
import { hall, hallInput } from './sample-room.ts';

const texts = (marks: readonly Mark[]): TextMark[] =>
  marks.flatMap((m) => (m.kind === 'group' ? texts(m.marks) : m.kind === 'text' ? [m] : []));
const points = (marks: readonly Mark[]): number =>
  marks.reduce((sum, m) => sum + (m.kind === 'group' ? points(m.marks) : m.kind === 'stipple' ? m.xy.length / 2 : 0), 0);
const within = (least: number, most: number) => fc.double({ min: least, max: most, noNaN: true });
/** To a tenth of a millimeter, two readings are apart or at the same place. */
const placed = (least: number, most: number) => within(least, most).map((m) => Math.round(m * 1e4) / 1e4);

describe('a drawing of thousands of readings', () => {
  it('finds the same free places as checking every box', () => {
    const box = fc.record({
      x: within(-40, 940),
      y: within(-40, 700),
      halfWidth: within(0.5, 120),
      halfHeight: within(0.5, 30),
      turn: fc.constantFrom(0, 0, -Math.PI / 2, 0.6),
    });
    fc.assert(
      fc.property(
        fc.array(box, { minLength: 60, maxLength: 140 }),
        fc.array(box, { minLength: 20, maxLength: 40 }),
        (reserved, queries) => {
          const sheet = startSheet({ x: -500, y: -500, width: 2000, height: 2000 });
          for (const one of reserved) reserve(sheet, one);
          const sees = (b: TurnedBox): boolean => !sheet.taken.some((other) => doBoxesMeet(other, b));
          for (const b of queries) {
            expect(isFree(sheet, b)).toBe(sees(b));
            // Boxes reserved after the first query also count.
            reserve(sheet, b);
            expect(isFree(sheet, b)).toBe(false);
          }
        },
      ),
      { numRuns: 40 },
    );
  });

  it('finds the same heights from the last place as from the start, within and beyond the readings', () => {
    fc.assert(
      fc.property(
        fc.array(fc.tuple(placed(0, 8), placed(0, 5), placed(-0.02, 0.02)), { minLength: 4, maxLength: 60 }),
        fc.array(fc.tuple(placed(-1, 9), placed(-1, 6)), { minLength: 10, maxLength: 30 }),
        (readings, queries) => {
          const surface = surfaceOver(
            readings.map(([xM, yM, zM]) => ({ xM, yM, zM, readings: [] })),
            10,
          );
          if (surface === null) return;
          const height = heightsAlong(surface);
          for (const [x, y] of queries) expect(height(x, y).zM).toBeCloseTo(heightAt(surface, x, y).zM, 6);
        },
      ),
      { numRuns: 40 },
    );
  });

  it('shows each reading once: a figure where there is space, else a point', () => {
    const spots = Array.from({ length: 2000 }, (_, i) => ({
      id: `r${i}`,
      xM: 0.2 + (i % 50) * 0.05,
      yM: 0.2 + Math.floor(i / 50) * 0.05,
      text: '1.5',
      label: `Reading ${i}`,
    }));
    const shown = (shows: 'read' | 'depth') => {
      const { marks } = planDrawing({ ...hallInput(), spots, shows });
      const named = marks.filter((m) => m.kind === 'group' && m.name.startsWith('reading:'));
      return { figures: texts(named), others: points(marks.filter((m) => m.kind === 'group' && m.name === 'readings:others')) };
    };
    const read = shown('read');
    expect(read.figures.length).toBeGreaterThan(10);
    expect(read.others).toBeGreaterThan(100);
    expect(read.figures.length + read.others).toBeLessThanOrEqual(2000);
    expect(shown('depth').others).toBe(0);
  });

  it('shows readings on the walls beside the openings, where a run begins and ends', () => {
    const { outline } = hall;
    const spots = outline.map((corner, i) => {
      const next = outline[(i + 1) % outline.length] ?? corner;
      return { id: `r${i}`, xM: 0.1 * corner.xM + 0.9 * next.xM, yM: 0.1 * corner.yM + 0.9 * next.yM, text: '1', label: `Reading ${i}` };
    });
    const { marks } = planDrawing({ ...hallInput(), spots, shows: 'read' });
    const figures = texts(marks.filter((m) => m.kind === 'group' && m.name.startsWith('reading:'))).length;
    const others = points(marks.filter((m) => m.kind === 'group' && m.name === 'readings:others'));
    expect(figures + others).toBe(outline.length);
    expect(figures).toBeGreaterThan(0);
  });
});
