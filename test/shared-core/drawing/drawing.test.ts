import fc from 'fast-check';
import { openSync } from 'fontkit';
import { describe, expect, it } from 'vitest';
import { isInside } from '../../../shared-core/drawing/ring-clip.ts';
import { hatchLines } from '../../../shared-core/drawing/hatch.ts';
import { doBoxesMeet, textBox } from '../../../shared-core/drawing/labels.ts';
import { drawingSchema, hatchSchema, type Mark, type TextMark } from '../../../shared-core/drawing/marks.ts';
import { planDrawing } from '../../../shared-core/drawing/plan.ts';
import { sectionDrawing } from '../../../shared-core/drawing/section.ts';
import { gapForDepthPx, stippleDots } from '../../../shared-core/drawing/stipple.ts';
import { SANS_BOLD, textWidthPx } from '../../../shared-core/drawing/type-metrics.ts';
import { textsOf } from './check-labels.ts';
import { hall, hallInput } from './sample-room.ts';

const texts = (marks: readonly Mark[]): TextMark[] =>
  marks.flatMap((m) => (m.kind === 'group' ? texts(m.marks) : m.kind === 'text' ? [m] : []));

describe('text widths', () => {
  // Compared with the font files, read by fontkit.
  it('match the bundled fonts, without kerning and ligatures', () => {
    const face = openSync('node_modules/@expo-google-fonts/source-sans-3/400Regular/SourceSans3_400Regular.ttf');
    for (const text of ['13′ 8″', 'Grind first: ⅜″ off the top, 8 sq ft', 'Café — 20 °F']) {
      const alone = face.glyphsForString(text).reduce((sum, glyph) => sum + glyph.advanceWidth, 0);
      expect(textWidthPx(text, 1000)).toBeCloseTo(alone, 0);
    }
    // Shaped: figures around a slash become numerator and denominator.
    expect(textWidthPx('15⁄16', 1000)).toBeCloseTo(face.layout('15⁄16').advanceWidth, 0);
  });
});

describe('stipple', () => {
  const ring = [0, 0, 300, 0, 300, 200, 0, 200];
  const keys = (gap: number): Set<string> => {
    const xy = stippleDots({ rings: [ring], gapAt: () => gap });
    return new Set(xy.flatMap((x, i) => (i % 2 === 0 ? [`${String(x)},${String(xy[i + 1])}`] : [])));
  };
  it('adds or removes dots as the depth changes and moves none', () => {
    fc.assert(
      fc.property(fc.double({ min: 0.003, max: 0.05, noNaN: true }), fc.double({ min: 0.003, max: 0.05, noNaN: true }), (a, b) => {
        const shallow = keys(gapForDepthPx(Math.min(a, b)));
        const deep = keys(gapForDepthPx(Math.max(a, b)));
        expect([...shallow].every((k) => deep.has(k))).toBe(true);
      }),
      { numRuns: 20 },
    );
    // By area: (8 + ½)² to (4 + ½)², 3.57 times as many.
    expect(keys(4).size / keys(8).size).toBeCloseTo(3.57, 0);
  });
});

describe('hatches', () => {
  it('stay within the area and outside its holes', () => {
    const rings = [
      [0, 0, 200, 0, 200, 120, 90, 120, 90, 60, 0, 60],
      [110, 20, 160, 20, 160, 70, 110, 70],
    ];
    for (const hatch of hatchSchema.options.filter((h) => h !== 'framing')) {
      const lines = hatchLines({ rings: rings.map((xy) => ({ xy, closed: true })), hatch });
      expect(lines.lines.length, hatch).toBeGreaterThan(0);
      for (const line of lines.lines) {
        for (let i = 0; i + 3 < line.length; i += 2) {
          const x = ((line[i] ?? 0) + (line[i + 2] ?? 0)) / 2;
          const y = ((line[i + 1] ?? 0) + (line[i + 3] ?? 0)) / 2;
          expect(isInside(x, y, rings), hatch).toBe(true);
        }
      }
    }
  });
});

describe('the section', () => {
  const dotsOf = (marks: readonly Mark[]): number[] =>
    marks.flatMap((m) => (m.kind === 'group' ? dotsOf(m.marks) : m.kind === 'stipple' ? m.xy.filter((_, i) => i % 2 === 0) : []));
  const end = { words: '', hatch: null, heightM: null };
  const SECTION = {
    ...{ units: 'metric' as const, exaggeration: null, depths: [], places: [], floorWords: '', grindWords: '', lineWords: '' },
    ...{ start: { ...end, letter: 'A' }, end: { ...end, letter: 'A′' } },
  };

  it('draws the pour only on the floor, and what the section cuts between', () => {
    const pointOf = (alongM: number) => ({ alongM, floorM: 0, newFloorM: 0.02 });
    const points = [pointOf(0), pointOf(2), pointOf(3), pointOf(5)];
    const input = { ...SECTION, widthPx: 700, heightPx: 150, datumY: 50, x0: 100, x1: 600, points };
    const whole = dotsOf(sectionDrawing(input).marks);
    const parted = dotsOf(sectionDrawing({ ...input, gaps: [{ fromM: 2, toM: 3 }] }).marks);
    // A meter is 100 px here: the gap is from 300 to 400.
    const inGap = (x: number) => x > 301 && x < 399;
    expect(whole.some(inGap)).toBe(true);
    expect(parted.some(inGap)).toBe(false);
    expect(parted.some((x) => x < 300) && parted.some((x) => x > 400)).toBe(true);
  });

  it('has its letters beyond its ends, or within them where the drawing ends there, clear of the pointer', () => {
    const pointOf = (alongM: number) => ({ alongM, floorM: 0, newFloorM: 0.02 });
    const lettersAt = (widthPx: number, edgePx: number) => {
      const drawing = sectionDrawing({
        ...SECTION,
        ...{ widthPx, heightPx: 54, datumY: 27, x0: edgePx, x1: widthPx - edgePx, points: [pointOf(0), pointOf(5)] },
      });
      return textsOf(drawing).flatMap(({ mark }) =>
        mark.text.startsWith('A') ? [{ from: mark.x, to: mark.x + textWidthPx(mark.text, 15, SANS_BOLD) }] : [],
      );
    };
    // A phone's margins are 18 px, the pointer is 22 px wide.
    const [start, finish] = lettersAt(390, 18);
    expect(start?.from).toBeGreaterThanOrEqual(18 + 11);
    expect(finish?.to).toBeLessThanOrEqual(390 - 18);
    const [before, after] = lettersAt(900, 150);
    expect(before?.to).toBeLessThanOrEqual(150 - 11);
    expect(after?.from).toBeGreaterThanOrEqual(750);
  });

  it('is no taller above the line than the space there, where the new floor follows the old one up', () => {
    const rise = (hangM: number, ground: boolean) =>
      sectionDrawing({
        ...{ ...SECTION, widthPx: 1440, heightPx: 170, datumY: 60, x0: 164, x1: 1318, hangM },
        // 40 mm up over 6 m, with 6 mm over it.
        points: Array.from({ length: 13 }, (_, k) => ({
          alongM: k / 2,
          floorM: k / 300,
          newFloorM: k / 300 + 0.006,
          ...(ground ? { groundM: k / 300 - 0.05 } : {}),
        })),
      }).exaggeration;
    const pxPerM = (1318 - 164) / 6;
    // From its lowest end it has 22 px above the line, from its highest all that is below it.
    expect(0.04 * pxPerM * rise(0.006, false)).toBeLessThanOrEqual(22);
    expect(rise(0.046, false)).toBeGreaterThan(rise(0.006, false));
    // Material that is ground away also needs space.
    expect(0.096 * pxPerM * rise(0.046, true)).toBeLessThanOrEqual(170 - 60 - 17 - 24);
  });
});

describe('the plan', () => {
  it('has no overlapping text, whatever the room and its readings', () => {
    const room = fc.record({
      w: fc.double({ min: 0.6, max: 14, noNaN: true }),
      h: fc.double({ min: 0.6, max: 14, noNaN: true }),
      notch: fc.double({ min: 0, max: 0.7, noNaN: true }),
      level: fc.double({ min: -0.01, max: 0.03, noNaN: true }),
      spots: fc.array(fc.tuple(fc.double({ min: 0, max: 1, noNaN: true }), fc.double({ min: 0, max: 1, noNaN: true })), { maxLength: 60 }),
    });
    fc.assert(
      fc.property(room, ({ w, h, notch, level, spots }) => {
        const outline =
          notch < 0.1
            ? [
                [0, 0],
                [w, 0],
                [w, h],
                [0, h],
              ]
            : [
                [0, 0],
                [w * (1 - notch), 0],
                [w * (1 - notch), h * notch],
                [w, h * notch],
                [w, h],
                [0, h],
              ];
        const drawing = planDrawing({
          ...hallInput(level),
          plan: { outline: outline.map(([x = 0, y = 0]) => ({ xM: x, yM: y })), holes: [], openings: hall.openings.slice(0, 1) },
          section: null,
          spots: spots.map(([u, v], i) => ({ id: String(i), xM: u * w, yM: v * h, text: '1¹⁵⁄₁₆', label: '' })),
        });
        const boxes = texts(drawing.marks).map((t) => textBox(t.x, t.y, t.text, { ...t, face: t, air: -0.5 }));
        for (let i = 0; i < boxes.length; i += 1) {
          for (let j = 0; j < i; j += 1) {
            const a = boxes[i];
            const b = boxes[j];
            if (a && b && doBoxesMeet(a, b))
              throw new Error(`${texts(drawing.marks)[i]?.text ?? ''} over ${texts(drawing.marks)[j]?.text ?? ''}`);
          }
        }
      }),
      { numRuns: 40 },
    );
  });

  it('is a sound list of marks, and an empty one without an outline', () => {
    const { width, height, marks } = planDrawing(hallInput());
    expect(drawingSchema.safeParse({ width, height, marks }).success).toBe(true);
    expect(planDrawing({ ...hallInput(), plan: { outline: [], holes: [], openings: [] } }).marks).toEqual([]);
    // Without readings it has no dots, and its walls stand as they do with them.
    const bare = planDrawing({ ...hallInput(), floor: null, newFloor: null, spots: [] });
    const walls = (all: readonly Mark[]) => all.filter((mark) => mark.kind === 'path' && mark.pen === 'cut');
    expect(walls(bare.marks)).toEqual(walls(marks));
    expect(walls(bare.marks)).toHaveLength(3);
    const isDotted = (all: readonly Mark[]) => all.some((mark) => mark.kind === 'group' && mark.name === 'stipple');
    expect([isDotted(marks), isDotted(bare.marks)]).toEqual([true, false]);
  });
});
