/** Positions of the shapes, worked out by hand from their descriptions. */
import { describe, expect, it } from 'vitest';
import { boxMark, circleRing, runsMarks, textMark } from '../../../shared-core/drawing/ink.ts';
import type { Mark } from '../../../shared-core/drawing/marks.ts';
import {
  breakLine,
  damBar,
  dimension,
  featherWedges,
  letterBox,
  notAgreedBar,
  peg,
  pointer,
  rangeMark,
  scaleBar,
  slash,
  slashedLine,
  stateShape,
} from '../../../shared-core/drawing/shapes.ts';
import { SANS_BOLD, textWidthPx } from '../../../shared-core/drawing/type-metrics.ts';
import { markWords } from './mark-words.ts';

const only = (mark: Mark): string[] => markWords([mark]);

describe('shapes', () => {
  it('a pointer stands on its tip, its right half filled', () => {
    expect(markWords(pointer(100, 50, 20))).toEqual(['ring 100,50 90,35.6 110,35.6', 'filled 100,50 100,35.6 110,35.6']);
  });

  it('a slash rises to the right at 45 degrees through its point', () => {
    expect(only(slash(100, 50, 10))).toEqual(['line 95,55 105,45']);
  });

  it('a measured length ends in two slashes, its line a little past both', () => {
    expect(markWords(slashedLine(10, 20, 90))).toEqual(['line 5,20 95,20', 'line 5.5,24.5 14.5,15.5', 'line 85.5,24.5 94.5,15.5']);
    expect(markWords(slashedLine(10, 20, 90, { isTypical: true, over: 4 }))[0]).toBe('not-yet 6,20 94,20');
  });

  it('a range under 24 px is its pointer alone', () => {
    expect(markWords(rangeMark(10, 20, 33.9, 40))).toEqual(markWords(pointer(20, 40, 11)));
    const wide = markWords(rangeMark(10, 20, 34, 40));
    expect(wide[0]).toBe('line 6,40 38,40');
    expect(wide).toHaveLength(5);
  });

  it('states are an empty ring, a ring with its lower half filled, a full disk and a bar', () => {
    const shape = (state: Parameters<typeof stateShape>[0]) => stateShape(state, 50, 60, 6);
    expect(markWords(shape('held'))).toEqual(['filled 42,57 58,57 58,63 42,63']);
    expect(shape('waiting')).toMatchObject([{ fill: null }]);
    expect(shape('done')).toMatchObject([{ fill: 'ink' }]);
    const [half, ring] = shape('under-way');
    if (half?.kind !== 'path' || ring?.kind !== 'path') throw new Error('a half and a ring');
    expect([half.fill, ring.fill]).toEqual(['ink', null]);
    const xy = half.rings[0]?.xy ?? [];
    // y grows downward.
    xy.forEach((v, i) => i % 2 === 1 && expect(v).toBeGreaterThanOrEqual(60));
    expect([xy[0], xy[1], xy[16], xy[17], xy[32], xy[33]]).toEqual([56, 60, 50, 66, 44, 60]);
  });

  it('a circle’s points lie on it, and its chords within a twentieth of a pixel', () => {
    for (const r of [0.05, 6, 300]) {
      const xy = circleRing(10, 20, r);
      for (let i = 0; i < xy.length; i += 2) expect(Math.hypot((xy[i] ?? 0) - 10, (xy[i + 1] ?? 0) - 20)).toBeCloseTo(r, 9);
      // The sagitta of a chord over the angle 2π/n is r(1 − cos(π/n)).
      expect(r * (1 - Math.cos((2 * Math.PI) / xy.length))).toBeLessThanOrEqual(0.05);
    }
    expect(circleRing(0, 0, 300).length / 2).toBe(173);
  });

  it('a peg stands on its point and fills when late', () => {
    expect(only(peg(30, 80, false))).toEqual(['ring 30,80 26,75 26,63 34,63 34,75']);
    expect(only(peg(30, 80, true))).toEqual(['filled 30,80 26,75 26,63 34,63 34,75']);
  });

  it('a break line zigzags once at mid-height', () => {
    expect(markWords(breakLine(50, 0, 24))[1]).toBe('line 50,-3 50,6 46,10 54,14 50,18 50,27');
    expect(markWords(breakLine(50, 0, 24))[0]).toBe('ring 50,-3 50,6 46,10 54,14 50,18 50,27 45,27 45,-3');
  });

  it('a dam is a bar of its width along an opening, whichever way that runs', () => {
    expect(only(damBar(10, 20, 50, 20, 4))).toEqual(['filled 10,22 50,22 50,18 10,18']);
    // Along (3, 4) of length 5, half a width of 2.5 across is (−2, 1.5).
    expect(only(damBar(0, 0, 30, 40, 5))).toEqual(['filled -2,1.5 28,41.5 32,38.5 2,-1.5']);
  });

  it('a feather edge is a row of wedges, one for each 12 px, pointing out', () => {
    expect(only(featherWedges({ x0: 0, y0: 0, x1: 36, y1: 0, nx: 0, ny: -1 }))).toEqual([
      'filled 2.4,0 9.6,0 6,-10 / 14.4,0 21.6,0 18,-10 / 26.4,0 33.6,0 30,-10',
    ]);
    expect(only(featherWedges({ x0: 5, y0: 10, x1: 5, y1: 20, nx: 1, ny: 0 }, 6))).toEqual([
      'filled 5,8.9 5,16.1 11,12.5 / 5,13.9 5,21.1 11,17.5',
    ]);
  });

  it('a scale bar has four parts, the first and third filled', () => {
    expect(markWords(scaleBar(10, 20, 80, '5 ft'))).toEqual([
      'ring 10,20 90,20 90,26 10,26',
      'filled 10,20 30,20 30,26 10,26',
      'filled 50,20 70,20 70,26 50,26',
      'text 10,44 middle 0',
      'text 90,44 middle 5 ft',
    ]);
  });

  it('a letter stands in the middle of its square', () => {
    expect(markWords(letterBox('B', 50, 40))).toEqual(['ring 40,30 60,30 60,50 40,50', 'text 50,45 middle B']);
  });

  it('a bar not agreed is dashed, the days of its pour crossed out', () => {
    const box = { x: 0, y: 0, width: 40, height: 10 };
    expect(markWords(notAgreedBar(box))).toEqual(['not-yet 0,0 40,0 40,10 0,10']);
    expect(markWords(notAgreedBar(box, 12, 30))[1]).toBe('not-yet 12,0 12,10 / 30,0 30,10 / 12,0 30,10 / 12,10 30,0');
    expect(markWords(notAgreedBar(box, 12))).toHaveLength(1);
  });
});

describe('a dimension', () => {
  const parts = (x0: number, y0: number, x1: number, y1: number) => {
    const [line, ends, text] = dimension(x0, y0, x1, y1, '10 ft');
    if (line?.kind !== 'path' || ends?.kind !== 'path' || text?.kind !== 'text') throw new Error('line, ends and text');
    return { line: line.rings.map((r) => r.xy), ends: ends.rings.map((r) => r.xy), text };
  };
  const half = textWidthPx('10 ft', 15) / 2;

  it('goes 6 px past both ends, with its length in a gap at the middle', () => {
    const { line, ends, text } = parts(0, 100, 200, 100);
    expect(line[0]?.[0]).toBe(-6);
    expect(line[1]?.[2]).toBe(206);
    expect(line[0]?.[2]).toBeCloseTo(100 - half - 7, 1);
    expect(line[1]?.[0]).toBeCloseTo(100 + half + 7, 1);
    expect(text).toMatchObject({ x: 100, y: 105, turnDeg: 0, anchor: 'middle' });
    // The ends lean at 45 degrees, 6 px each way.
    expect(ends).toEqual([
      [-4.24, 104.24, 4.24, 95.76],
      [195.76, 104.24, 204.24, 95.76],
    ]);
  });

  it('reads up along an upright length, whichever end comes first', () => {
    for (const [y0, y1] of [
      [0, 200],
      [200, 0],
    ] as const) {
      const { line, text, ends } = parts(50, y0, 50, y1);
      expect(text).toMatchObject({ x: 55, y: 100, turnDeg: -90 });
      expect(line.flat().filter((_, i) => i % 2 === 0)).toEqual([50, 50, 50, 50]);
      for (const [x = 0, y = 0, u = 0, v = 0] of ends) {
        expect((x + u) / 2).toBeCloseTo(50, 6);
        expect(Math.abs(u - x)).toBeCloseTo(Math.abs(v - y), 6);
      }
    }
  });

  it('reads to the right along a length drawn from right to left', () => {
    expect(parts(200, 0, 0, 0).text).toMatchObject({ x: 100, y: 5, turnDeg: 0 });
    const slope = parts(100, 100, 0, 0).text;
    expect(slope.turnDeg).toBeCloseTo(45, 9);
    // 5 px below the line, square to it.
    expect([slope.x, slope.y]).toEqual([46.46, 53.54]);
  });

  it('stands beside a line too short for it', () => {
    const { line, text } = parts(0, 100, half * 2 + 34, 100);
    expect(line).toHaveLength(1);
    expect(text.y).toBe(91);
    expect(parts(0, 100, half * 2 + 34.1, 100).line).toHaveLength(2);
  });
});

describe('ink', () => {
  it('sets runs one after another from the start, the middle or the end', () => {
    const runs = [{ text: 'Hall', face: SANS_BOLD }, { text: ' open' }];
    const wide = [textWidthPx('Hall', 15, SANS_BOLD), textWidthPx(' open', 15)] as const;
    const total = wide[0] + wide[1];
    const xs = (anchor: 'start' | 'middle' | 'end') => runsMarks(100, 10, runs, { anchor }).map((m) => m.x);
    for (const [anchor, start] of [
      ['start', 100],
      ['middle', 100 - total / 2],
      ['end', 100 - total],
    ] as const) {
      expect(xs(anchor)[0]).toBeCloseTo(start, 1);
      expect(xs(anchor)[1]).toBeCloseTo(start + wide[0], 1);
    }
    expect(runsMarks(0, 0, runs).map((m) => m.weight)).toEqual([600, 400]);
  });

  it('keeps positions to a hundredth and text to 400 characters', () => {
    expect(boxMark({ x: 0.126, y: 0, width: 1, height: 1 }).rings[0]?.xy[0]).toBe(0.13);
    expect(textMark(0, 0, 'x'.repeat(500)).text).toHaveLength(400);
  });
});
