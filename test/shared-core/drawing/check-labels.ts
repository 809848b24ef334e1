/** What every drawing's lettering must keep: within the drawing, at least 15 px, clear of other lettering, of lines and of walls. */
import { expect } from 'vitest';
import { boxCorners, breakAtBoxes, doBoxesMeet, textBox, type TurnedBox } from '../../../shared-core/drawing/labels.ts';
import type { Drawing, Mark, PathMark, TextMark } from '../../../shared-core/drawing/marks.ts';
import { FALL } from '../../../shared-core/drawing/type-metrics.ts';

type Inked<M> = { readonly mark: M; readonly group: string };

/** Every mark with the name of its outermost group. */
const flat = (marks: readonly Mark[], group = ''): Inked<Mark>[] =>
  marks.flatMap((mark) => (mark.kind === 'group' ? flat(mark.marks, group === '' ? mark.name : group) : [{ mark, group }]));
export const textsOf = (drawing: Pick<Drawing, 'marks'>): Inked<TextMark>[] =>
  flat(drawing.marks).flatMap(({ mark, group }) => (mark.kind === 'text' ? [{ mark, group }] : []));
export const pathsOf = (drawing: Pick<Drawing, 'marks'>): Inked<PathMark>[] =>
  flat(drawing.marks).flatMap(({ mark, group }) => (mark.kind === 'path' ? [{ mark, group }] : []));

/** The letters without the space around them; figures have no descenders. */
const lettersOf = (t: TextMark): TurnedBox => {
  const box = textBox(t.x, t.y, t.text, { ...t, face: t, air: -1 });
  if (!/^\d+$/.test(t.text)) return box;
  const up = (FALL * t.sizePx) / 2;
  return { ...box, x: box.x + up * Math.sin(box.turn), y: box.y - up * Math.cos(box.turn), halfHeight: box.halfHeight - up };
};

const isCrossed = (box: TurnedBox, xy: readonly number[]): boolean => {
  const pieces = breakAtBoxes(xy, [box]);
  return pieces.length !== 1 || pieces[0]?.length !== xy.length || pieces[0].some((v, i) => Math.abs(v - (xy[i] ?? 0)) > 1e-6);
};
const closedXy = (ring: readonly number[]): number[] => [...ring, ring[0] ?? 0, ring[1] ?? 0];

/** Fails where a label leaves the drawing, or overlaps another label, a line, a solid shape or one of the walls. */
export function checkLabels(drawing: Drawing, walls: readonly (readonly number[])[] = []): void {
  const texts = textsOf(drawing).map(({ mark, group }) => ({ mark, group, box: lettersOf(mark) }));
  const lines = pathsOf(drawing).flatMap(({ mark, group }) =>
    mark.pen !== null || mark.fill === 'ink' ? mark.rings.map(({ xy, closed }) => ({ xy: closed ? closedXy(xy) : xy, group })) : [],
  );
  for (const [i, { mark, box, group }] of texts.entries()) {
    const corners = boxCorners(box);
    for (let c = 0; c < corners.length; c += 2) {
      expect(Math.min(corners[c] ?? 0, drawing.width - (corners[c] ?? 0)), `${mark.text} leaves the side`).toBeGreaterThanOrEqual(0);
      expect(
        Math.min(corners[c + 1] ?? 0, drawing.height - (corners[c + 1] ?? 0)),
        `${mark.text} leaves the top or foot`,
      ).toBeGreaterThanOrEqual(0);
    }
    expect(mark.sizePx, mark.text).toBeGreaterThanOrEqual(15);
    for (const other of texts.slice(0, i)) expect(doBoxesMeet(box, other.box), `${mark.text} over ${other.mark.text}`).toBe(false);
    for (const wall of walls) expect(isCrossed(box, closedXy(wall)), `${mark.text} (${group}) over the wall`).toBe(false);
    for (const line of lines) expect(isCrossed(box, line.xy), `${mark.text} (${group}) over a line of “${line.group}”`).toBe(false);
  }
}

/** Fails where one of the leaders that `isLeader` names crosses another, or runs along it less than 2 px away. */
export function checkLeaders(drawing: Drawing, isLeader: (leader: Inked<PathMark>) => boolean): void {
  const leaders = pathsOf(drawing)
    .filter(isLeader)
    .map(({ mark, group }) => ({ group, lines: mark.rings.map(({ xy }) => xy) }));
  for (const [i, { group, lines }] of leaders.entries())
    for (const other of leaders.slice(0, i))
      for (const [ax = 0, ay = 0, bx = 0, by = 0] of lines) {
        const box = {
          x: (ax + bx) / 2,
          y: (ay + by) / 2,
          halfWidth: Math.hypot(bx - ax, by - ay) / 2 - 0.5,
          halfHeight: 2,
          turn: Math.atan2(by - ay, bx - ax),
        };
        for (const line of other.lines) expect(isCrossed(box, line), `a leader of “${group}” over one of “${other.group}”`).toBe(false);
      }
}
