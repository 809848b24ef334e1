/** Drawings as text, for files that a person approves: every mark in full, or one line that changes when any mark does. */
import type { Drawing, Mark } from '../../../shared-core/drawing/marks.ts';

/** Longer lines and outlines are told by their extent and length. */
const SHORT_POINTS = 12;
/** Tenths of a unit, and never minus zero. */
const r = (v: number): number => Math.round(v * 10) / 10 + 0;

type Sums = { points: number; x: number; y: number };
const sumsOf = (xy: readonly number[]): Sums => ({
  points: xy.length / 2,
  x: xy.reduce((sum, v, i) => (i % 2 === 0 ? sum + v : sum), 0),
  y: xy.reduce((sum, v, i) => (i % 2 === 1 ? sum + v : sum), 0),
});
const pairs = (xy: readonly number[]): string =>
  xy.flatMap((x, i) => (i % 2 === 0 ? [`${r(x)},${r(xy[i + 1] ?? Number.NaN)}`] : [])).join(' ');
const around = (xy: readonly number[]): string => {
  const { points, x, y } = sumsOf(xy);
  return points === 0 ? '0 points' : `${points} points around ${r(x / points)},${r(y / points)}`;
};
function pathOf(xy: readonly number[]): string {
  if (xy.length <= 2 * SHORT_POINTS) return pairs(xy);
  let length = 0;
  for (let i = 2; i < xy.length; i += 2) length += Math.hypot((xy[i] ?? 0) - (xy[i - 2] ?? 0), (xy[i + 1] ?? 0) - (xy[i - 1] ?? 0));
  return `${pairs(xy.slice(0, 2))} to ${pairs(xy.slice(-2))}, ${around(xy)}, ${r(length)} long`;
}

function linesOf(mark: Mark): string[] {
  switch (mark.kind) {
    case 'group':
      return [
        `${mark.name}: ${mark.label === '' ? '(decoration)' : mark.label}`,
        ...mark.marks.flatMap(linesOf).map((line) => `  ${line}`),
      ];
    case 'text': {
      const { family, sizePx, weight, italic, ink, anchor, turnDeg, clear } = mark;
      const turned = turnDeg === 0 ? '' : ` turned ${r(turnDeg)}`;
      return [
        `text ${r(mark.x)},${r(mark.y)} ${anchor} ${family} ${sizePx} ${weight}${italic ? ' italic' : ''} ${ink}/${clear ?? 'none'}${turned}: ${mark.text}`,
      ];
    }
    case 'hatch':
      return [`hatch ${mark.hatch} ${mark.ink}: ${mark.rings.map(({ xy }) => pathOf(xy)).join(' / ')}`];
    case 'stipple':
      return [`dots ${mark.sizePx} ${mark.ink}: ${around(mark.xy)}`];
    case 'path': {
      const shape = mark.rings.every(({ closed }) => closed) ? 'ring' : 'line';
      const rings =
        mark.rings.length > SHORT_POINTS
          ? [`${mark.rings.length} of them`, pathOf(mark.rings.flatMap(({ xy }) => xy))]
          : mark.rings.map(({ xy }) => pathOf(xy));
      return [
        `${shape} ${mark.pen ?? 'no pen'} ${mark.ink}/${mark.fill ?? 'none'}${mark.dash === null ? '' : ` ${mark.dash}`}: ${rings.join(' / ')}`,
      ];
    }
  }
}

/** Every mark on a line of its own. */
export const drawingDump = ({ width, height, marks }: Drawing): string =>
  [`${r(width)} × ${r(height)}`, ...marks.flatMap(linesOf), ''].join('\n');

const flatMarks = (marks: readonly Mark[]): Exclude<Mark, { kind: 'group' }>[] =>
  marks.flatMap((mark) => (mark.kind === 'group' ? flatMarks(mark.marks) : [mark]));

/** A drawing in one line: how many marks of each kind, the center of all their points, and its texts. */
export function drawingDigest({ width, height, marks }: Drawing): string {
  const flat = flatMarks(marks);
  const kinds = (['path', 'hatch', 'stipple', 'text'] as const).map((kind) => {
    const ofKind = flat.filter((mark) => mark.kind === kind);
    const xy = ofKind.flatMap((mark) =>
      mark.kind === 'text' ? [mark.x, mark.y] : mark.kind === 'stipple' ? mark.xy : mark.rings.flatMap((ring) => ring.xy),
    );
    return `${ofKind.length} ${kind}: ${around(xy)}`;
  });
  const looks = flat.flatMap((mark) =>
    mark.kind === 'path' ? [`${mark.pen ?? ''}${mark.ink}${mark.fill ?? ''}${mark.dash ?? ''}`] : mark.kind === 'hatch' ? [mark.hatch] : [],
  );
  const texts = flat.flatMap((mark) => (mark.kind === 'text' ? [mark.text] : []));
  return `${r(width)} × ${r(height)}; ${kinds.join('; ')}; ${new Set(looks).size} looks; ${texts.join(' · ')}`;
}
