/** Numbered notes of a plan stand where they are true: in their area, at their spot, or at their opening. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Point } from '../../../shared-core/book/fields.ts';
import { planDrawing, type PlanDrawing } from '../../../shared-core/drawing/plan.ts';
import type { PlanInput } from '../../../shared-core/drawing/plan-input.ts';
import { ringOnSheet } from '../../../shared-core/drawing/plan-walls.ts';
import { textWidthPx } from '../../../shared-core/drawing/type-metrics.ts';
import { opening } from '../plan/rooms.ts';
import { checkLabels, textsOf } from './check-labels.ts';
import { lengthText } from './sample-room.ts';

const share = (min: number, max: number) => fc.double({ min, max, noNaN: true });
const polygon = (corners: readonly (readonly [number, number])[]): Point[] => corners.map(([xM, yM]) => ({ xM, yM }));

describe('a numbered note', () => {
  const hall = polygon([
    [0, 0],
    [2, 0],
    [2, 2.4],
    [6.2, 2.4],
    [6.2, 4.2],
    [0, 4.2],
  ]);
  const inRing = (u: number, v: number): Point => ({ xM: u, yM: v });
  const areaOf = (x: number, y: number, w: number, h: number): Point[] => [
    inRing(x, y),
    inRing(x + w, y),
    inRing(x + w, y + h),
    inRing(x, y + h),
  ];
  /** The box of a note's words on the drawing, and the drawing. */
  const notesOf = (
    notes: PlanInput['notes'] = [],
    size: readonly [number, number] = [354, 390],
  ): { drawing: PlanDrawing; at: (id: string) => { x: number; y: number; text: string }[] } => {
    const drawing = planDrawing({
      plan: { outline: hall, holes: [], openings: [] },
      widthPx: size[0],
      heightPx: size[1],
      shows: 'prep',
      lengthText,
      notes,
    });
    const at = (id: string) =>
      textsOf(drawing).flatMap(({ group, mark }) => (group === `note:${id}` ? [{ x: mark.x, y: mark.y, text: mark.text.trim() }] : []));
    return { drawing, at };
  };

  it('of an area is inside it, without its words where they do not fit, or left out', () => {
    fc.assert(
      fc.property(share(0.1, 4.5), share(2.5, 3.8), share(0.1, 3), share(0.1, 1.7), (x, y, wide, high) => {
        const [w, h] = [Math.min(wide, 6.1 - x), Math.min(high, 4.1 - y)];
        const within = areaOf(x, y, w, h);
        const { drawing } = notesOf([{ id: 'a', figure: '7', text: 'sand', point: inRing(x + w / 2, y + h / 2), within }]);
        if (drawing.fit === null) throw new Error('The hall is drawn.');
        const ring = ringOnSheet(drawing.fit, within);
        const [x0 = 0, y0 = 0, x1 = 0, , , y1 = 0] = ring;
        for (const { group, mark } of textsOf(drawing)) {
          if (group !== 'note:a') continue;
          expect(mark.x).toBeGreaterThanOrEqual(x0);
          expect(mark.x + textWidthPx(mark.text.trim(), 15, mark)).toBeLessThanOrEqual(x1 + 0.01);
          expect(mark.y - 10).toBeGreaterThanOrEqual(y0);
          expect(mark.y).toBeLessThanOrEqual(y1);
        }
      }),
      { numRuns: 60 },
    );
    // By hand: the hall is 6.2 m in 230 px, 37 px a meter. "7 sand" is 45 px and a line 23 px, so 2 by 1 m holds it, 1 by 1 m only the figure.
    const words = (w: number, h: number) =>
      notesOf([{ id: 'a', figure: '7', text: 'sand', point: inRing(3 + w / 2, 3 + h / 2), within: areaOf(3, 3, w, h) }])
        .at('a')
        .map(({ text }) => text);
    expect(words(2, 1)).toEqual(['7', 'sand']);
    expect(words(1, 1)).toEqual(['7']);
    expect(words(0.3, 0.3)).toEqual([]);
    // The middle of the large area is in the small one, which has a note of its own.
    const { at } = notesOf([
      { id: 'large', figure: '7', text: 'sand', point: inRing(3, 3.3), within: areaOf(0.1, 2.5, 6, 1.6) },
      { id: 'small', figure: '6', text: '', point: inRing(3, 3.3), within: areaOf(2, 2.7, 2, 1.2) },
    ]);
    const [sand] = at('large');
    const [loose] = at('small');
    expect(Math.abs((sand?.x ?? 0) - (loose?.x ?? 0))).toBeGreaterThan(37);
  });

  it('of a spot is in the room; one at an opening may stand outside, and neither is nearer to another', () => {
    const point = inRing(3, 4.2);
    const spots = [0.3, 0.9, 1.5, 2.1].map((x, i) => ({ id: `s${i}`, figure: String(i + 1), text: 'crack', point: inRing(x, 4.1) }));
    const { drawing, at } = notesOf([...spots, { id: 'door', figure: '11', text: 'feather', point, isAtOpening: true }]);
    const { fit } = drawing;
    if (fit === null) throw new Error('The hall is drawn.');
    const feetOf = (p: Point): number => fit.leftPx + p.xM * fit.pxPerM;
    expect(at('door').map(({ text }) => text)).toEqual(['11', 'feather']);
    for (const { id, point: spot } of spots)
      for (const { x, y } of at(id).slice(0, 1)) {
        expect(y).toBeLessThan(fit.topPx + 4.2 * fit.pxPerM);
        const middle =
          x +
          textWidthPx(
            at(id)
              .map(({ text }) => text)
              .join(' '),
            15,
          ) /
            2;
        for (const other of spots) expect(Math.abs(middle - feetOf(spot))).toBeLessThanOrEqual(Math.abs(middle - feetOf(other.point)) + 3);
      }
  });

  it('has the side of its opening first: a name at the side of a narrow drawing stands along the wall', () => {
    const drawing = planDrawing({
      plan: { outline: hall, holes: [], openings: [opening({ id: 'dining', wall: 3, fromM: 0.4, widthM: 0.9, name: 'dining room' })] },
      widthPx: 354,
      heightPx: 390,
      shows: 'prep',
      lengthText,
      openingWords: (o) => [o.name],
    });
    if (drawing.fit === null) throw new Error('The hall is drawn.');
    checkLabels(drawing, [ringOnSheet(drawing.fit, hall)]);
    expect(textsOf(drawing).find(({ mark }) => mark.text === 'dining room')?.mark.turnDeg).toBe(-90);
  });
});
