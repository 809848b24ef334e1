/** The floor of a plan: depth tint, stipple, contours with their labels, and areas to be ground. */
import { closedLine, isInside, type Rings } from './ring-clip.ts';
import { fieldAt, fieldLines, type FieldLine, type FloorField } from './floor-field.ts';
import { hatchMark, lineMark, pathMark, stippleMark, textMark } from './ink.ts';
import { boxCorners, breakAtBoxes, isFree, type LabelSheet, reachOf, reserve, textBox, type TurnedBox } from './labels.ts';
import type { Ink, Mark } from './marks.ts';
import { toRoom, toSheet, type PlanFit } from './plan-walls.ts';
import { cutToRoom, regionReaching } from './region-reaching.ts';
import { gapForDepthPx, stippleDots } from './stipple.ts';

const TINTS: readonly Ink[] = ['d0', 'd1', 'd2', 'd3', 'd4', 'd5', 'd6', 'd7'];

/** Contours at multiples of `everyM`, heavier at multiples of `heavyEveryM`; `text` formats the value written on the line. */
export interface ContourSteps {
  readonly everyM: number;
  readonly heavyEveryM: number;
  readonly text: (valueM: number) => string;
}

/** The tint of a band, counted from zero depth: evenly spread, at most eight tints. */
export function tintOfBand(band: number, bands: number): Ink {
  const i = bands <= TINTS.length ? band : Math.floor((band * TINTS.length) / bands);
  return TINTS[Math.max(0, Math.min(TINTS.length - 1, i))] ?? 'd7';
}

/** Number of bands that a maximum depth needs. */
export function bandCount(deepestM: number, everyM: number): number {
  return Math.max(1, Math.ceil(deepestM / everyM - 1e-6));
}

/** Minimum and maximum of a field over the grid corners inside the room. */
export function fieldRange(field: FloorField, fit: PlanFit, room: Rings): { least: number; most: number } {
  let least = Infinity;
  let most = -Infinity;
  for (let j = 0; j < field.rows; j += 1) {
    for (let i = 0; i < field.columns; i += 1) {
      const [x, y] = toSheet(fit, { xM: field.x0M + i * field.stepM, yM: field.y0M + j * field.stepM });
      const v = field.heights[j * field.columns + i] ?? 0;
      if ((v < least || v > most) && isInside(x, y, room)) {
        least = Math.min(least, v);
        most = Math.max(most, v);
      }
    }
  }
  return most < least ? { least: 0, most: 0 } : { least, most };
}

/** A field's lines at a value on the drawing, cut to the room. */
export function linesOnSheet(field: FloorField, value: number, fit: PlanFit, room: Rings): FieldLine[] {
  const lines = fieldLines(field, value).map((line) => ({
    closed: line.closed,
    xy: Array.from({ length: line.xy.length / 2 }, (_, k) => toSheet(fit, { xM: line.xy[2 * k] ?? 0, yM: line.xy[2 * k + 1] ?? 0 })).flat(),
  }));
  return cutToRoom(lines, room);
}

function valueAt(field: FloorField, fit: PlanFit): (x: number, y: number) => number {
  return (x, y) => {
    const p = toRoom(fit, x, y);
    return fieldAt(field, p.xM, p.yM);
  };
}

/** Contours are computed once and used for tint, lines and labels. */
export interface Contour {
  readonly valueM: number;
  readonly lines: readonly FieldLine[];
}

/** Contours of a field from its minimum to its maximum value, at most sixty. */
export function contoursOf(
  field: FloorField,
  steps: ContourSteps,
  fit: PlanFit,
  room: Rings,
  range: { least: number; most: number },
): Contour[] {
  let every = steps.everyM;
  while ((range.most - range.least) / every > 60) every *= 2;
  const out: Contour[] = [];
  for (let k = Math.floor(range.least / every) + 1; k * every < range.most; k += 1) {
    const lines = linesOnSheet(field, k * every, fit, room);
    if (lines.length > 0) out.push({ valueM: k * every, lines });
  }
  return out;
}

/** Tint of the depth, shallow to deep: one set of rings per band, drawn over the one before. */
export function tintMarks(
  field: FloorField,
  contours: readonly Contour[],
  fit: PlanFit,
  room: Rings,
  { bands, everyM }: { readonly bands: number; readonly everyM: number },
): Mark[] {
  const depth = valueAt(field, fit);
  const marks: Mark[] = [pathMark(room, true, { pen: null, fill: tintOfBand(0, bands) })];
  for (const c of contours) {
    const band = Math.round(c.valueM / everyM);
    if (band < 1) continue;
    const rings = regionReaching(c.lines, room, (x, y) => depth(x, y) >= c.valueM);
    if (rings.length > 0) marks.push(pathMark(rings, true, { pen: null, fill: tintOfBand(band, bands) }));
  }
  // A floor deeper everywhere than its first contours has no lines at those values, so its shallowest band is the base tint.
  return marks;
}

/** Dots over the floor that keep clear of boxes and of areas without new underlayment. */
export function floorDots(
  field: FloorField,
  fit: PlanFit,
  room: Rings,
  { clear, without }: { readonly clear: readonly TurnedBox[]; readonly without: Rings },
  deepestM: number,
): Mark {
  const depth = valueAt(field, fit);
  const table = gapTable();
  const isKeptClear = clearMask(clear);
  return stippleMark(
    stippleDots({
      rings: room,
      leastGapPx: gapForDepthPx(deepestM),
      gapAt: (x, y) => table(depth(x, y)),
      isKeptClear: (x, y) => isKeptClear(x, y) || (without.length > 0 && isInside(x, y, without)),
    }),
  );
}

let gaps: Float64Array | null = null;

/** Gaps tabulated by half millimeters and interpolated, since the formula's power is slow for every dot. */
function gapTable(): (depthM: number) => number {
  const table = (gaps ??= Float64Array.from({ length: 401 }, (_, i) => gapForDepthPx(i * 0.0005)));
  return (depthM) => {
    if (!(depthM > 0)) return Infinity;
    const u = Math.min(399.999, depthM / 0.0005);
    const i = Math.floor(u);
    // The formula jumps at 3/16 in. and has no gap at zero depth: do not interpolate there.
    if (i === 0 || i === 9) return gapForDepthPx(depthM);
    return (table[i] ?? 0) * (1 - (u - i)) + (table[i + 1] ?? 0) * (u - i);
  };
}

/** A test for points in any of the boxes, through a coarse grid. */
function clearMask(boxes: readonly TurnedBox[]): (x: number, y: number) => boolean {
  const cell = 24;
  const map = new Map<number, TurnedBox[]>();
  const key = (i: number, j: number): number => (i + 2000) * 8000 + (j + 2000);
  for (const b of boxes) {
    const [ex, ey] = reachOf(b);
    for (let i = Math.floor((b.x - ex - 2) / cell); i <= Math.floor((b.x + ex + 2) / cell); i += 1) {
      for (let j = Math.floor((b.y - ey - 2) / cell); j <= Math.floor((b.y + ey + 2) / cell); j += 1) {
        const k = key(i, j);
        const list = map.get(k);
        if (list) list.push(b);
        else map.set(k, [b]);
      }
    }
  }
  const trig = new Map(boxes.map((b) => [b, [Math.cos(b.turn), Math.sin(b.turn)] as const]));
  return (x, y) => {
    const list = map.get(key(Math.floor(x / cell), Math.floor(y / cell)));
    if (!list) return false;
    for (const b of list) {
      const [c, s] = trig.get(b) ?? [1, 0];
      const dx = x - b.x;
      const dy = y - b.y;
      if (Math.abs(dx * c + dy * s) <= b.halfWidth + 1 && Math.abs(dy * c - dx * s) <= b.halfHeight + 1) return true;
    }
    return false;
  };
}

/** Minimum length of a contour, and of its pieces between labels, px: a shorter one would look like a stray arc. */
const LEAST_LINE_PX = 30;
const LEAST_PIECE_PX = 12;

/** Contours with their values: labels reserve their places first, then every line breaks at every box. */
export function contourMarks(contours: readonly Contour[], steps: ContourSteps, sheet: LabelSheet, room: Rings, without: Rings): Mark[] {
  const texts: Mark[] = [];
  const longestFirst = contours
    .flatMap((c) => c.lines.map((line) => ({ c, line, length: lengthOf(line.xy) })))
    .sort((p, q) => q.length - p.length);
  for (const { c, line, length } of longestFirst) {
    if (length < 46) continue;
    const labelCount = length > 700 ? 2 : 1;
    let count = 0;
    for (const share of labelCount === 2 ? [0.25, 0.75, 0.33, 0.66, 0.15, 0.85] : [0.5, 0.38, 0.62, 0.26, 0.74, 0.15, 0.85]) {
      if (count >= labelCount) break;
      const place = along(line.xy, length * share);
      const text = steps.text(c.valueM);
      let turn = (place.turn * 180) / Math.PI;
      if (turn > 90) turn -= 180;
      if (turn <= -90) turn += 180;
      const rad = (turn * Math.PI) / 180;
      const x = place.x - Math.sin(rad) * 5;
      const y = place.y + Math.cos(rad) * 5;
      const box = textBox(x, y, text, { anchor: 'middle', turnDeg: turn, air: 3 });
      if (!isFree(sheet, box) || !isBoxIn(box, room)) continue;
      if (without.length > 0 && isInside(place.x, place.y, without)) continue;
      reserve(sheet, box);
      texts.push(textMark(x, y, text, { anchor: 'middle', turnDeg: turn }));
      count += 1;
    }
  }
  const lines: Mark[] = contours.map((c) => {
    const isHeavy = Math.abs(c.valueM / steps.heavyEveryM - Math.round(c.valueM / steps.heavyEveryM)) < 1e-6 && Math.abs(c.valueM) > 1e-9;
    const pieces = c.lines
      .map((line) => (line.closed ? closedLine(line.xy) : line.xy))
      .filter((xy) => lengthOf(xy) >= LEAST_LINE_PX)
      .flatMap((xy) => breakAtBoxes(xy, sheet.taken))
      .filter((xy) => lengthOf(xy) >= LEAST_PIECE_PX);
    return pathMark(pieces, false, { pen: isHeavy ? 'seen' : 'witness' });
  });
  return [...lines, ...texts];
}

/** True when every corner and the center of the box are inside the rings. */
export function isBoxIn(box: TurnedBox, room: Rings): boolean {
  return isRingWithin(boxCorners(box), room) && isInside(box.x, box.y, room);
}

function lengthOf(xy: readonly number[]): number {
  let sum = 0;
  for (let i = 0; i + 3 < xy.length; i += 2) sum += Math.hypot((xy[i + 2] ?? 0) - (xy[i] ?? 0), (xy[i + 3] ?? 0) - (xy[i + 1] ?? 0));
  return sum;
}

/** The point at a distance along a line, and the direction there, averaged over a label's length. */
function along(xy: readonly number[], distance: number): { x: number; y: number; turn: number } {
  const point = (d: number): [number, number] => {
    let remaining = Math.max(0, d);
    for (let i = 0; i + 3 < xy.length; i += 2) {
      const dx = (xy[i + 2] ?? 0) - (xy[i] ?? 0);
      const dy = (xy[i + 3] ?? 0) - (xy[i + 1] ?? 0);
      const l = Math.hypot(dx, dy);
      if (remaining <= l && l > 0) return [(xy[i] ?? 0) + (dx * remaining) / l, (xy[i + 1] ?? 0) + (dy * remaining) / l];
      remaining -= l;
    }
    return [xy[xy.length - 2] ?? 0, xy[xy.length - 1] ?? 0];
  };
  const [x, y] = point(distance);
  const [ax, ay] = point(distance - 9);
  const [bx, by] = point(distance + 9);
  return { x: (x + (ax + bx) / 2) / 2, y: (y + (ay + by) / 2) / 2, turn: Math.atan2(by - ay, bx - ax) };
}

/** An area to be ground first: cross-hatched inside a dashed line; both keep clear of labels. */
export function grindMarks(rings: Rings, clear: readonly TurnedBox[]): Mark[] {
  const holes = clear.map((b) => boxCorners(b)).filter((h) => isRingWithin(h, rings));
  return [
    hatchMark([...rings, ...holes], 'grind'),
    pathMark(
      rings.flatMap((ring) => breakAtBoxes(closedLine(ring), clear)),
      false,
      { pen: 'thin', dash: 'ground-off' },
    ),
  ];
}

function isRingWithin(corners: readonly number[], rings: Rings): boolean {
  for (let i = 0; i < corners.length; i += 2) if (!isInside(corners[i] ?? 0, corners[i + 1] ?? 0, rings)) return false;
  return true;
}

/** The cross of a spot height. */
export function spotCross(x: number, y: number): Mark {
  return pathMark(
    [
      [x - 4.5, y, x + 4.5, y],
      [x, y - 4.5, x, y + 4.5],
    ],
    false,
    { pen: 'thin' },
  );
}

/** The cut line of a section along a polyline: dash and dot. */
export function sectionLine(xy: readonly number[], boxes: readonly TurnedBox[]): Mark[] {
  return breakAtBoxes(xy, boxes).map((piece) => lineMark(piece, { pen: 'thin', dash: 'cut' }));
}
