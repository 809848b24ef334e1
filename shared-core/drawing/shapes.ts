/** Shapes that have one meaning in every drawing. */
import { type Box, boxRing } from './ring-clip.ts';
import { boxMark, circleRing, groupMark, hatchMark, lineMark, pathMark, ringMark, stippleMark, textMark } from './ink.ts';
import type { Ink, Mark, Pen } from './marks.ts';
import { dryingDots } from './stipple.ts';
import { textWidthPx } from './type-metrics.ts';

/** A shape for each state, always shown with its word. */
export type StateShape = 'waiting' | 'under-way' | 'done' | 'held';

/** The half-filled pointer, pointing down with its tip at x, y: a set value, or the current time. `size` is its width. */
export function pointer(x: number, y: number, size = 13, ink: Ink = 'ink'): Mark[] {
  const h = size * 0.72;
  return [
    ringMark([x, y, x - size / 2, y - h, x + size / 2, y - h], { ink, pen: 'thin', fill: 'paper' }),
    ringMark([x, y, x, y - h, x + size / 2, y - h], { fill: ink, ink, pen: 'witness' }),
  ];
}

/** A short slash across a level or upright line: the end of a measured length. */
export function slash(x: number, y: number, size = 9, pen: Pen = 'seen', ink: Ink = 'ink'): Mark {
  const r = size / 2;
  return lineMark([x - r, y + r, x + r, y - r], { pen, ink });
}

/** A line between two slashes that extends a little past both. */
export function slashedLine(
  x0: number,
  y: number,
  x1: number,
  { isTypical = false, over = 5 }: { isTypical?: boolean; over?: number } = {},
): Mark[] {
  return [
    lineMark([x0 - over, y, x1 + over, y], isTypical ? { pen: 'thin', dash: 'not-yet' } : { pen: 'thin', ink: 'line' }),
    slash(x0, y),
    slash(x1, y),
  ];
}

/** A range: minimum, maximum, and a pointer at the likely value. Under 24 px wide, only the pointer is drawn. */
export function rangeMark(leastX: number, likelyX: number, mostX: number, y: number): Mark[] {
  const likely = pointer(likelyX, y, 11);
  return mostX - leastX < 24 ? likely : [...slashedLine(leastX, y, mostX, { over: 4 }), ...likely];
}

/** A state's shape around a center. */
export function stateShape(state: StateShape, x: number, y: number, r = 7): Mark[] {
  if (state === 'held') return [boxMark({ x: x - r - 2, y: y - 3, width: 2 * r + 4, height: 6 }, { pen: null, fill: 'ink' })];
  const ring = circleRing(x, y, r);
  if (state === 'waiting') return [ringMark(ring, { pen: 'seen' })];
  if (state === 'done') return [ringMark(ring, { pen: 'seen', fill: 'ink' })];
  const half: number[] = [];
  for (let k = 0; k <= 16; k += 1) half.push(x + r * Math.cos((Math.PI * k) / 16), y + r * Math.sin((Math.PI * k) / 16));
  return [ringMark(half, { pen: null, fill: 'ink' }), ringMark(ring, { pen: 'seen' })];
}

/** A promised date: a stake with its tip at x, y. Open when on time, solid chalk when late; it never moves. */
export function peg(x: number, y: number, isLate: boolean): Mark {
  const ring = [x, y, x - 4, y - 5, x - 4, y - 17, x + 4, y - 17, x + 4, y - 5];
  return isLate ? ringMark(ring, { pen: 'thin', ink: 'chalk', fill: 'chalk' }) : ringMark(ring, { pen: 'seen', fill: 'paper' });
}

/** A break line across a bar that began earlier or continues: upright at x from y0 to y1. */
export function breakLine(x: number, y0: number, y1: number): Mark[] {
  const m = (y0 + y1) / 2;
  const h = (y1 - y0) / 4;
  const zig = [x, y0 - 3, x, m - h, x - 4, m - h / 3, x + 4, m + h / 3, x, m + h, x, y1 + 3];
  return [ringMark([...zig, x - 5, y1 + 3, x - 5, y0 - 3], { pen: null, fill: 'paper' }), lineMark(zig, { pen: 'thin' })];
}

/** A heavy bar across an opening, between two points: a dam. */
export function damBar(x0: number, y0: number, x1: number, y1: number, width = 5): Mark {
  const d = Math.hypot(x1 - x0, y1 - y0) || 1;
  const nx = (-(y1 - y0) / d) * (width / 2);
  const ny = ((x1 - x0) / d) * (width / 2);
  return ringMark([x0 + nx, y0 + ny, x1 + nx, y1 + ny, x1 - nx, y1 - ny, x0 - nx, y0 - ny], { pen: null, fill: 'ink' });
}

/** An edge on the drawing, and the unit vector that points out of it. */
type OpeningEdge = Record<'x0' | 'y0' | 'x1' | 'y1' | 'nx' | 'ny', number>;

/** Wedges toward `nx, ny` (a unit vector) along an opening: a feather edge. */
export function featherWedges({ x0, y0, x1, y1, nx, ny }: OpeningEdge, length = 10): Mark {
  const d = Math.hypot(x1 - x0, y1 - y0);
  const count = Math.max(2, Math.round(d / 12));
  const ux = (x1 - x0) / (d || 1);
  const uy = (y1 - y0) / (d || 1);
  const rings: number[][] = [];
  for (let k = 0; k < count; k += 1) {
    const distance = ((k + 0.5) * d) / count;
    const cx = x0 + ux * distance;
    const cy = y0 + uy * distance;
    rings.push([cx - ux * 3.6, cy - uy * 3.6, cx + ux * 3.6, cy + uy * 3.6, cx + nx * length, cy + ny * length]);
  }
  return pathMark(rings, true, { pen: null, fill: 'ink' });
}

/** A scale bar of four parts, its top left at x, y; the text is below its ends. */
export function scaleBar(x: number, y: number, widthPx: number, endLabel: string): Mark[] {
  const part = widthPx / 4;
  return [
    groupMark('scale', `The bar is ${endLabel} long`, [
      boxMark({ x, y, width: widthPx, height: 6 }, { pen: 'thin' }),
      boxMark({ x, y, width: part, height: 6 }, { pen: null, fill: 'ink' }),
      boxMark({ x: x + 2 * part, y, width: part, height: 6 }, { pen: null, fill: 'ink' }),
      textMark(x, y + 24, '0', { anchor: 'middle' }),
      textMark(x + widthPx, y + 24, endLabel, { anchor: 'middle' }),
    ]),
  ];
}

/** A letter or a figure in a square, the same on the keyboard and on the drawing. Center at x, y. */
export function letterBox(letter: string, x: number, y: number): Mark[] {
  return [
    boxMark({ x: x - 10, y: y - 10, width: 20, height: 20 }, { pen: 'thin', ink: 'ink2', fill: 'paper' }),
    textMark(x, y + 5, letter, { anchor: 'middle', sizePx: 15 }),
  ];
}

/** A measured length in any direction: witness line, a slash at each end, text in a gap at the middle, reading up or to the right. */
export function dimension(x0: number, y0: number, x1: number, y1: number, text: string): Mark[] {
  const d = Math.hypot(x1 - x0, y1 - y0) || 1;
  const ux = (x1 - x0) / d;
  const uy = (y1 - y0) / d;
  const words = textWidthPx(text, 15);
  const mx = (x0 + x1) / 2;
  const my = (y0 + y1) / 2;
  let turn = (Math.atan2(uy, ux) * 180) / Math.PI;
  if (turn > 90 - 1e-6) turn -= 180;
  if (turn <= -90 - 1e-6) turn += 180;
  // An upright length reads from the right, bottom to top.
  if (Math.abs(turn - 90) < 1e-6) turn = -90;
  const rad = (turn * Math.PI) / 180;
  const baseX = mx - Math.sin(rad) * 5;
  const baseY = my + Math.cos(rad) * 5;
  const gap = words / 2 + 7;
  const fits = d > words + 34;
  const line: number[][] = fits
    ? [
        [x0 - ux * 6, y0 - uy * 6, mx - ux * gap, my - uy * gap],
        [mx + ux * gap, my + uy * gap, x1 + ux * 6, y1 + uy * 6],
      ]
    : [[x0 - ux * 6, y0 - uy * 6, x1 + ux * 6, y1 + uy * 6]];
  const end = (x: number, y: number): number[] => {
    const c = Math.cos(-Math.PI / 4);
    const s = Math.sin(-Math.PI / 4);
    // Halfway between the line and its perpendicular, always leaning the same way on the drawing.
    const flip = Math.abs(uy) > Math.abs(ux) ? Math.sign(uy) : Math.sign(ux);
    const vx = (ux * c - uy * s) * 6 * flip;
    const vy = (ux * s + uy * c) * 6 * flip;
    return Math.abs(uy) > Math.abs(ux) ? [x - vy * 1, y + vx * 1 - 0, x + vy, y - vx] : [x - vx, y - vy, x + vx, y + vy];
  };
  const e0 = end(x0, y0);
  const e1 = end(x1, y1);
  const off = fits ? 0 : 14;
  return [
    pathMark(line, false, { pen: 'witness', ink: 'line' }),
    pathMark([e0, e1], false, { pen: 'seen' }),
    textMark(baseX + Math.sin(rad) * off, baseY - Math.cos(rad) * off, text, {
      anchor: 'middle',
      turnDeg: turn,
    }),
  ];
}

/** A bar of underlayment that dries from left to right. */
export function dryingBar(box: Box, options: { fromShare?: number; toShare?: number; ink?: Ink } = {}): Mark[] {
  return [
    boxMark(box, { pen: 'thin', ink: options.ink ?? 'ink', fill: 'paper' }),
    stippleMark(dryingDots(box, options.fromShare ?? 0, options.toShare ?? 1)),
  ];
}

/** A bar of hatch with its outline. */
export function hatchedBar(box: Box, hatch: 'prep' | 'grind' | 'wide'): Mark[] {
  return [boxMark(box, { pen: 'thin', fill: 'paper' }), hatchMark([boxRing(box)], hatch, hatch === 'prep' ? 'ink' : 'line')];
}

/** A dashed bar: not agreed yet. `crossFrom`/`crossTo` cross out the days of the pour in it. */
export function notAgreedBar(box: Box, crossFrom: number | null = null, crossTo: number | null = null): Mark[] {
  const marks: Mark[] = [boxMark(box, { pen: 'thin', dash: 'not-yet' })];
  if (crossFrom !== null && crossTo !== null) {
    const y1 = box.y + box.height;
    marks.push(
      pathMark(
        [
          [crossFrom, box.y, crossFrom, y1],
          [crossTo, box.y, crossTo, y1],
          [crossFrom, box.y, crossTo, y1],
          [crossFrom, y1, crossTo, box.y],
        ],
        false,
        { pen: 'witness', dash: 'not-yet' },
      ),
    );
  }
  return marks;
}
