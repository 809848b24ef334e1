import { describe, expect, it } from 'vitest';
import { crewTimeline, placementBands } from '../../../shared-core/drawing/crew-timeline.ts';
import { drawingSchema, type Mark } from '../../../shared-core/drawing/marks.ts';

const texts = (marks: readonly Mark[]): string[] =>
  marks.flatMap((m) => (m.kind === 'text' ? [m.text] : m.kind === 'group' ? texts(m.marks) : []));
const group = (marks: readonly Mark[], name: string): Mark[] =>
  marks.flatMap((m) => (m.kind === 'group' && m.name === name ? m.marks : []));

describe('the crew’s timeline', () => {
  const drawing = crewTimeline({
    widthPx: 500,
    finishMin: 10,
    bars: [
      { actor: 'mixer', index: 0, doing: 'mix', batch: 1, fromMin: 0, toMin: 3 },
      { actor: 'mixer', index: 1, doing: 'mix', batch: 2, fromMin: 1, toMin: 4 },
      { actor: 'mixer', index: 1, doing: 'hold', batch: 2, fromMin: 4, toMin: 6 },
      { actor: 'spreader', index: 0, doing: 'spread', batch: 1, fromMin: 4, toMin: 5 },
    ],
  });

  it('has a row for each who works, numbered where there are several', () => {
    expect(texts(drawing.marks)).toEqual(expect.arrayContaining(['mixing 1', 'mixing 2', 'spreading']));
    expect(drawingSchema.safeParse(drawing).error).toBeUndefined();
  });

  it('has its rows in the order of the numbers, whoever works first', () => {
    const bars = [2, 0, 1].map((index, i) => ({ actor: 'cart', index, doing: 'carry', batch: i + 1, fromMin: i, toMin: i + 2 }) as const);
    const rows = texts(crewTimeline({ widthPx: 500, finishMin: 10, bars }).marks).filter((text) => /\d$/.test(text) && /[a-z] /.test(text));
    expect(rows.map((text) => text.at(-1))).toEqual(['1', '2', '3']);
  });

  it('draws waiting empty and work hatched, each with its length', () => {
    const row = group(drawing.marks, 'row:mixer-1');
    const dashed = row.filter((m) => m.kind === 'path' && m.dash === 'not-yet');
    const solid = row.filter((m) => m.kind === 'path' && m.dash === null);
    expect([dashed.length, solid.length]).toEqual([1, 1]);
    const breadth = (m: Mark | undefined): number => {
      if (m?.kind !== 'path') return Number.NaN;
      const xs = (m.rings[0]?.xy ?? []).filter((_, i) => i % 2 === 0);
      return Math.max(...xs) - Math.min(...xs);
    };
    expect(breadth(solid[0]) / breadth(dashed[0])).toBeCloseTo(3 / 2, 1);
  });
});

describe('the placing times of all runs', () => {
  it('are a band from early to late with the median between', () => {
    const drawing = placementBands({
      widthPx: 500,
      heightPx: 200,
      placedMin: [
        { p10: 4, p50: 5, p90: 7 },
        { p10: 9, p50: 11, p90: 20 },
      ],
    });
    expect(drawingSchema.safeParse(drawing).error).toBeUndefined();
    const line = drawing.marks.find((m) => m.kind === 'path' && m.pen === 'cut');
    const ring = group(drawing.marks, 'band').find((m) => m.kind === 'path');
    if (line?.kind !== 'path' || ring?.kind !== 'path') throw new Error('Band and line are drawn.');
    const xs = (xy: readonly number[]): number[] => xy.filter((_, i) => i % 2 === 0);
    const [first = 0, second = 0] = xs(line.rings[0]?.xy ?? []);
    const band = xs(ring.rings[0]?.xy ?? []);
    expect(first).toBeGreaterThan(band[0] ?? Infinity);
    expect(second).toBeLessThan(Math.max(...band));
    expect(texts(drawing.marks)).toEqual(expect.arrayContaining(['batch 1', 'batch 2', '0 min']));
  });

  it('work for a pour of a single batch', () => {
    const one = placementBands({ widthPx: 400, heightPx: 120, placedMin: [{ p10: 4, p50: 5, p90: 7 }] });
    expect(texts(one.marks)).toContain('batch 1');
  });
});
