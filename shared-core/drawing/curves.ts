/** Small line charts with their own axis: grinding against filling, and the chance of running short by number of bags. */
import { lineMark } from './ink.ts';
import { reserve, startSheet, textBox } from './labels.ts';
import { placeText } from './lettering.ts';
import type { Dash, Drawing, Mark, Pen } from './marks.ts';
import { pointer, slash } from './shapes.ts';
import { SANS, SANS_BOLD, textWidthPx } from './type-metrics.ts';

/** One curve: points in any units, the pen, and the words at its end. */
export interface Curve {
  readonly points: readonly { readonly x: number; readonly y: number }[];
  readonly pen: Pen;
  readonly dash: Dash | null;
  readonly words: string;
  readonly isStrong: boolean;
}

/** A small chart's data. The caller supplies axis labels; at most nine are shown. */
export interface CurvesInput {
  readonly widthPx: number;
  readonly heightPx: number;
  readonly curves: readonly Curve[];
  readonly xLabels: readonly { readonly x: number; readonly text: string }[];
  /** Where the current choice is on the first curve. */
  readonly pointerAtX: number | null;
  /** Minimum of the y axis; null for the minimum of the values. */
  readonly fromY: number | null;
}

/** Draws the chart: no frame, one axis, and words at the ends of the curves, spaced apart. */
export function curvesDrawing(input: CurvesInput): Drawing {
  const all = input.curves.flatMap((c) => c.points);
  const blank = { width: input.widthPx, height: input.heightPx, marks: [] };
  if (all.length < 2) return blank;
  const xs = all.map((p) => p.x);
  const ys = all.map((p) => p.y);
  const x0 = Math.min(...xs);
  const x1 = Math.max(...xs);
  const y0 = input.fromY ?? Math.min(...ys);
  const y1 = Math.max(...ys);
  if (!(x1 > x0)) return blank;
  const words = Math.max(0, ...input.curves.map((c) => textWidthPx(c.words, 15, c.isStrong ? SANS_BOLD : SANS)));
  const left = 8;
  const right = input.widthPx - words - 14;
  const top = 20;
  const base = input.heightPx - 28;
  const sx = (x: number): number => left + ((x - x0) / (x1 - x0)) * (right - left);
  const sy = (y: number): number => base - 6 - ((y - y0) / Math.max(1e-12, y1 - y0)) * (base - top - 6);
  const marks: Mark[] = [lineMark([left, base, right, base], { pen: 'thin' })];
  const sheet = startSheet({ x: 0, y: 0, width: input.widthPx, height: input.heightPx });
  for (const l of input.xLabels) {
    if (l.x < x0 - 1e-9 || l.x > x1 + 1e-9) continue;
    const x = sx(l.x);
    marks.push(lineMark([x, base, x, base + 5], { pen: 'thin' }));
    const label = placeText(sheet, [{ x: Math.max(x, textWidthPx(l.text, 15) / 2 + 3), y: base + 22, text: l.text, anchor: 'middle' }]);
    if (label === null) continue;
    reserve(sheet, textBox(x, base + 22, l.text, { anchor: 'middle', air: 10 }));
    marks.push(label);
  }
  for (const c of input.curves) {
    marks.push(
      lineMark(
        c.points.flatMap((p) => [sx(p.x), sy(p.y)]),
        { pen: c.pen, dash: c.dash },
      ),
    );
    const first = c.points[0];
    if (first && c.isStrong) marks.push(slash(sx(first.x), sy(first.y), 8));
  }
  // Space the words apart where curves end close together.
  const ends = input.curves
    .flatMap((c) => {
      const endPoint = c.points[c.points.length - 1];
      return endPoint && c.words !== '' ? [{ c, y: sy(endPoint.y) + 5 }] : [];
    })
    .sort((a, b) => a.y - b.y);
  const shifts = Array.from({ length: 40 }, (_, k) => (k % 2 === 0 ? -k : k + 1) * 2);
  for (const e of ends) {
    const face = e.c.isStrong ? SANS_BOLD : SANS;
    const placed = placeText(
      sheet,
      shifts.map((shift) => ({ x: right + 10, y: e.y + shift, text: e.c.words, face })),
    );
    if (placed !== null) marks.push(placed);
  }
  const firstCurve = input.curves[0];
  if (input.pointerAtX !== null && firstCurve) {
    const x = sx(Math.max(x0, Math.min(x1, input.pointerAtX)));
    const y = sy(valueOf(firstCurve.points, input.pointerAtX));
    marks.push(lineMark([x, y, x, base], { pen: 'witness', ink: 'line' }), ...pointer(x, y - 1, 14));
  }
  return { width: input.widthPx, height: input.heightPx, marks };
}

function valueOf(points: readonly { readonly x: number; readonly y: number }[], x: number): number {
  for (let i = 1; i < points.length; i += 1) {
    const a = points[i - 1];
    const b = points[i];
    if (a && b && x <= b.x) return a.y + (b.x === a.x ? 0 : ((Math.max(x, a.x) - a.x) / (b.x - a.x)) * (b.y - a.y));
  }
  return points[points.length - 1]?.y ?? 0;
}
