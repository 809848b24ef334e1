/** Marks as short lines of text, one a mark, for tests that compare positions with ones worked out by hand. */
import type { Mark } from '../../../shared-core/drawing/marks.ts';

const rounded = (v: number): number => Math.round(v * 10) / 10 + 0;
const pairs = (xy: readonly number[]): string =>
  xy.flatMap((x, i) => (i % 2 === 0 ? [`${rounded(x)},${rounded(xy[i + 1] ?? Number.NaN)}`] : [])).join(' ');

/** `line 0,40 400,40`, `ring …`, `filled …`, `dashed …`, `hatch grind …`, `text 20,25 middle 7 am`; dots by how many, groups by their marks. */
export function markWords(marks: readonly Mark[]): string[] {
  return marks.flatMap((mark) => {
    if (mark.kind === 'group') return markWords(mark.marks);
    if (mark.kind === 'text') return [`text ${rounded(mark.x)},${rounded(mark.y)} ${mark.anchor} ${mark.text}`];
    if (mark.kind === 'hatch') return [`hatch ${mark.hatch} ${mark.rings.map((r) => pairs(r.xy)).join(' / ')}`];
    if (mark.kind === 'stipple') return [`dots ${mark.xy.length / 2}`];
    const kind =
      mark.fill !== null && mark.fill !== 'paper'
        ? 'filled'
        : mark.dash !== null
          ? mark.dash
          : mark.rings[0]?.closed === true
            ? 'ring'
            : 'line';
    return [`${kind} ${mark.rings.map((r) => pairs(r.xy)).join(' / ')}`];
  });
}
