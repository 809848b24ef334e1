/** Short constructors for marks. */
import { boxRing, type Box } from './ring-clip.ts';
import { shapedFractions } from './drawn-fraction.ts';
import type { Dash, GroupMark, Hatch, HatchMark, Ink, Mark, PathMark, Pen, StippleMark, TextMark } from './marks.ts';
import { DOT_PX } from './stipple.ts';
import { SANS, textWidthPx, type Face } from './type-metrics.ts';

/** Stroke and fill of a path; defaults: thin, ink, no fill, solid. */
export interface Inking {
  readonly pen?: Pen | null;
  readonly ink?: Ink;
  readonly fill?: Ink | null;
  readonly dash?: Dash | null;
}

/** Several open lines or closed rings as one mark. */
export function pathMark(rings: readonly (readonly number[])[], closed: boolean, inking: Inking = {}): PathMark {
  return {
    kind: 'path',
    rings: rings.map((xy) => ({ xy: xy.map(tidy), closed })),
    pen: inking.pen === undefined ? 'thin' : inking.pen,
    ink: inking.ink ?? 'ink',
    fill: inking.fill ?? null,
    dash: inking.dash ?? null,
  };
}

/** One open line through x, y, x, y, … */
export function lineMark(xy: readonly number[], inking: Inking = {}): PathMark {
  return pathMark([xy], false, inking);
}

/** One closed ring. */
export function ringMark(xy: readonly number[], inking: Inking = {}): PathMark {
  return pathMark([xy], true, inking);
}

/** A rectangle. */
export function boxMark(box: Box, inking: Inking = {}): PathMark {
  return ringMark(boxRing(box), inking);
}

/** A circle as a ring of short chords, each within 0.05 units of the true curve. */
export function circleRing(x: number, y: number, r: number): number[] {
  const n = Math.max(12, Math.ceil(Math.PI / Math.acos(Math.max(0, 1 - 0.05 / Math.max(r, 0.1)))));
  const out: number[] = [];
  for (let k = 0; k < n; k += 1) out.push(x + r * Math.cos((2 * Math.PI * k) / n), y + r * Math.sin((2 * Math.PI * k) / n));
  return out;
}

/** A hatched area. */
export function hatchMark(rings: readonly (readonly number[])[], hatch: Hatch, ink: Ink = 'line'): HatchMark {
  return { kind: 'hatch', rings: rings.map((xy) => ({ xy: xy.map(tidy), closed: true })), hatch, ink };
}

/** Dots of new underlayment. */
export function stippleMark(xy: readonly number[], ink: Ink = 'dot', sizePx: number = DOT_PX): StippleMark {
  return { kind: 'stipple', xy: xy.map(tidy), sizePx, ink };
}

/** How a line of text is set; defaults: sans 15 px, ink, start-anchored, level, nothing cleared. */
export interface Setting {
  readonly face?: Face;
  readonly sizePx?: number;
  readonly ink?: Ink;
  readonly anchor?: TextMark['anchor'];
  readonly turnDeg?: number;
  readonly clear?: Ink | null;
}

/** A line of text on its baseline. */
export function textMark(x: number, y: number, text: string, setting: Setting = {}): TextMark {
  const face = setting.face ?? SANS;
  return {
    kind: 'text',
    x: tidy(x),
    y: tidy(y),
    text: shapedFractions(text).slice(0, 400),
    family: face.family,
    sizePx: setting.sizePx ?? 15,
    weight: face.weight,
    italic: face.italic,
    ink: setting.ink ?? 'ink',
    anchor: setting.anchor ?? 'start',
    turnDeg: setting.turnDeg ?? 0,
    clear: setting.clear ?? null,
  };
}

/** Runs of one line in different faces, one after another from the start. */
export function runsMarks(
  x: number,
  y: number,
  runs: readonly { readonly text: string; readonly face?: Face; readonly ink?: Ink }[],
  setting: Setting = {},
): TextMark[] {
  const size = setting.sizePx ?? 15;
  const widths = runs.map((r) => textWidthPx(r.text, size, r.face ?? setting.face ?? SANS));
  const total = widths.reduce((a, b) => a + b, 0);
  let runX = setting.anchor === 'end' ? x - total : setting.anchor === 'middle' ? x - total / 2 : x;
  return runs.map((run, i) => {
    const mark = textMark(runX, y, run.text, {
      ...setting,
      anchor: 'start',
      ...(run.face ? { face: run.face } : {}),
      ...(run.ink ? { ink: run.ink } : {}),
    });
    runX += widths[i] ?? 0;
    return mark;
  });
}

/** Marks that belong together; an empty label means decoration. */
export function groupMark(name: string, label: string, marks: Mark[]): GroupMark {
  return { kind: 'group', name, label, marks };
}

/** Rounds to 0.01 units, finer than any pen, to keep the output files small. */
function tidy(v: number): number {
  return Math.round(v * 100) / 100;
}
