/** No note of Today's ribbon overlaps a bar or leaves the drawing, at any width and for any dates. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Mark } from '../../../shared-core/drawing/marks.ts';
import { ribbonHeightPx, todayRibbon, type RibbonRoom } from '../../../shared-core/drawing/ribbon.ts';
import { SANS, SANS_BOLD, textWidthPx } from '../../../shared-core/drawing/type-metrics.ts';

type Span = { readonly left: number; readonly right: number; readonly top: number; readonly bottom: number };

const days = fc.option(
  fc
    .tuple(fc.double({ min: -20, max: 45, noNaN: true }), fc.double({ min: 0.2, max: 30, noNaN: true }))
    .map(([from, length]) => ({ from, to: from + length })),
);
const room: fc.Arbitrary<RibbonRoom> = fc.record({
  id: fc.uuid(),
  name: fc.constantFrom('Hall', 'Family room', 'Lower back entry'),
  state: fc.constant('under-way' as const),
  letter: fc.constantFrom('A', null),
  isAgreed: fc.boolean(),
  prep: days,
  pour: days,
  drying: days,
  ready: days,
  held: days,
  note: fc.constantFrom('', 'quote', 'on hold: depth over wood', 'foot traffic today, 4 pm, glued wood May 28'),
  isNoteLate: fc.boolean(),
  label: fc.constant('a room'),
});

/** Marks of the rooms, in any group. */
const flat = (marks: readonly Mark[]): Mark[] => marks.flatMap((mark) => (mark.kind === 'group' ? flat(mark.marks) : [mark]));

/** The heavy bars: filled or framed, and at least as long as high. */
function bars(marks: readonly Mark[]): Span[] {
  return marks.flatMap((mark) => {
    if (mark.kind !== 'path' || (mark.fill !== 'ink' && mark.pen === 'witness')) return [];
    return mark.rings.flatMap(({ xy, closed }) => {
      if (!closed) return [];
      const xs = xy.filter((_, i) => i % 2 === 0);
      const ys = xy.filter((_, i) => i % 2 === 1);
      const box = { left: Math.min(...xs), right: Math.max(...xs), top: Math.min(...ys), bottom: Math.max(...ys) };
      return box.right - box.left > 24 && box.bottom - box.top <= 18 ? [box] : [];
    });
  });
}

describe('the ribbon', () => {
  for (const isNarrow of [false, true])
    it(`keeps every note clear of every bar and on the drawing, ${isNarrow ? 'narrow' : 'wide'}`, () => {
      fc.assert(
        fc.property(
          fc.array(room, { minLength: 1, maxLength: 4 }),
          fc.integer(isNarrow ? { min: 320, max: 799 } : { min: 900, max: 2000 }),
          (rooms, widthPx) => {
            const input = {
              widthPx,
              fromDay: '2026-05-11',
              days: isNarrow ? 14 : 42,
              today: 1.3,
              locale: 'en-US',
              x0: isNarrow ? 18 : 392,
              x1: widthPx - (isNarrow ? 18 : 36),
              datumY: 40,
              isNarrow,
              jobs: [{ id: 'job', name: 'Lindqvist', place: '8 Cooper’s Wharf', rooms }],
            };
            const drawing = todayRibbon(input);
            expect(drawing.height).toBe(ribbonHeightPx(input));
            const marks = flat(drawing.marks.filter((mark) => mark.kind === 'group' && mark.name.startsWith('job:')));
            const heavy = bars(marks);
            for (const mark of marks) {
              if (mark.kind !== 'text' || mark.clear !== 'paper') continue;
              const width = textWidthPx(mark.text, 15, mark.weight === 700 || mark.weight === 600 ? SANS_BOLD : SANS);
              expect(mark.x + width, mark.text).toBeLessThanOrEqual(widthPx);
              for (const bar of heavy) {
                const isBeside = mark.x + width <= bar.left + 1 || mark.x >= bar.right - 1;
                const isAbove = mark.y <= bar.top + 1 || mark.y - 11 >= bar.bottom - 1;
                expect(isBeside || isAbove, `“${mark.text}” over a bar`).toBe(true);
              }
            }
          },
        ),
        { numRuns: 300 },
      );
    });
});
