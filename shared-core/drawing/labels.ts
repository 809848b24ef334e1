/** Label placement: boxes are reserved by rank, and a label without a free place is left out, so that labels never overlap. */
import { boundsOf, type Box, closedLine } from './ring-clip.ts';
import { FALL, RISE, SANS, textWidthPx, type Face } from './type-metrics.ts';

/** A rectangle that may be turned: center, half width, half height, radians clockwise on the drawing. */
export interface TurnedBox {
  readonly x: number;
  readonly y: number;
  readonly halfWidth: number;
  readonly halfHeight: number;
  readonly turn: number;
}

/** The reserved places of a drawing. */
export interface LabelSheet {
  readonly bounds: Box;
  readonly taken: TurnedBox[];
  /** Lines that labels must not cover: walls, cracks, leaders. */
  readonly lines: (readonly number[])[];
  /** The subset of those lines that other leaders must not cross. */
  readonly leaders: (readonly number[])[];
}

/** An empty drawing area; labels stay within `bounds`. */
export function startSheet(bounds: Box): LabelSheet {
  return { bounds, taken: [], lines: [], leaders: [] };
}

/** Keeps labels off the lines of closed rings. */
export function reserveRings(sheet: LabelSheet, rings: readonly (readonly number[])[]): void {
  sheet.lines.push(...rings.map(closedLine));
}

/** Reserves a leader: no label may cover it and no other leader may cross it. */
export function reserveLeader(sheet: LabelSheet, xy: readonly number[]): void {
  sheet.lines.push(xy);
  sheet.leaders.push(xy);
}

/** True when a leader crosses no label's box and no other leader, and runs at least `clearPx` beside the others. */
export function isLeaderFree(sheet: LabelSheet, xy: readonly number[], clearPx = 0): boolean {
  return !sheet.taken.some((box) => isOver(xy, box)) && isApart(sheet, xy, clearPx);
}

/** True when a line crosses no leader, and runs at least `clearPx` beside each. */
export function isApart(sheet: LabelSheet, xy: readonly number[], clearPx: number): boolean {
  if (sheet.leaders.some((other) => doLinesCross(xy, other))) return false;
  if (clearPx === 0) return true;
  const [ax = 0, ay = 0, bx = 0, by = 0] = xy;
  const [dx, dy] = [bx - ax, by - ay];
  const beside = { x: ax + dx / 2, y: ay + dy / 2, halfWidth: Math.hypot(dx, dy) / 2, halfHeight: clearPx, turn: Math.atan2(dy, dx) };
  return !sheet.leaders.some((other) => isOver(other, beside));
}

/** True when part of the polyline is inside the box. */
function isOver(xy: readonly number[], box: TurnedBox): boolean {
  const reach = box.halfWidth + box.halfHeight;
  for (let i = 0; i + 3 < xy.length; i += 2) {
    const ax = xy[i] ?? 0;
    const ay = xy[i + 1] ?? 0;
    const dx = (xy[i + 2] ?? 0) - ax;
    const dy = (xy[i + 3] ?? 0) - ay;
    if (Math.abs(ax + dx / 2 - box.x) > reach + Math.abs(dx / 2) || Math.abs(ay + dy / 2 - box.y) > reach + Math.abs(dy / 2)) continue;
    if (segmentInBox(ax, ay, dx, dy, box)) return true;
  }
  return false;
}

function doLinesCross(a: readonly number[], b: readonly number[]): boolean {
  const side = (x: number, y: number, line: readonly number[], i: number): number => {
    const [px = 0, py = 0, qx = 0, qy = 0] = line.slice(i, i + 4);
    return Math.sign((qx - px) * (y - py) - (qy - py) * (x - px));
  };
  for (let i = 0; i + 3 < a.length; i += 2) {
    const [ax = 0, ay = 0, bx = 0, by = 0] = a.slice(i, i + 4);
    for (let j = 0; j + 3 < b.length; j += 2) {
      const [cx = 0, cy = 0, dx = 0, dy = 0] = b.slice(j, j + 4);
      if (side(cx, cy, a, i) !== side(dx, dy, a, i) && side(ax, ay, b, j) !== side(bx, by, b, j)) return true;
    }
  }
  return false;
}

/** An upright box as a turned one, grown by `margin` on every side. */
export function uprightBox(box: Box, margin = 0): TurnedBox {
  return {
    x: box.x + box.width / 2,
    y: box.y + box.height / 2,
    halfWidth: box.width / 2 + margin,
    halfHeight: box.height / 2 + margin,
    turn: 0,
  };
}

/** The box of a line of text set at x, y like a text mark, with a little air. */
export function textBox(
  x: number,
  y: number,
  text: string,
  options: {
    readonly sizePx?: number;
    readonly face?: Face;
    readonly anchor?: 'start' | 'middle' | 'end';
    readonly turnDeg?: number;
    readonly air?: number;
  } = {},
): TurnedBox {
  const size = options.sizePx ?? 15;
  const width = textWidthPx(text, size, options.face ?? SANS);
  const turn = ((options.turnDeg ?? 0) * Math.PI) / 180;
  const air = options.air ?? 2;
  const along = options.anchor === 'middle' ? 0 : options.anchor === 'end' ? -width / 2 : width / 2;
  const across = (-(RISE - FALL) * size) / 2;
  return {
    x: x + along * Math.cos(turn) - across * Math.sin(turn),
    y: y + along * Math.sin(turn) + across * Math.cos(turn),
    halfWidth: width / 2 + air,
    halfHeight: ((RISE + FALL) * size) / 2 + air,
    turn,
  };
}

/** The corners of a turned box: x, y, x, y, … */
export function boxCorners(b: TurnedBox): number[] {
  const alongX = b.halfWidth * Math.cos(b.turn);
  const alongY = b.halfWidth * Math.sin(b.turn);
  const downX = -b.halfHeight * Math.sin(b.turn);
  const downY = b.halfHeight * Math.cos(b.turn);
  return [
    b.x - alongX - downX,
    b.y - alongY - downY,
    b.x + alongX - downX,
    b.y + alongY - downY,
    b.x + alongX + downX,
    b.y + alongY + downY,
    b.x - alongX + downX,
    b.y - alongY + downY,
  ];
}

/** True when two boxes overlap: no axis of either separates them. */
export function doBoxesMeet(a: TurnedBox, b: TurnedBox): boolean {
  const dx = b.x - a.x;
  const dy = b.y - a.y;
  const maxReach = a.halfWidth + a.halfHeight + b.halfWidth + b.halfHeight;
  if (dx > maxReach || dx < -maxReach || dy > maxReach || dy < -maxReach) return false;
  if (a.turn === 0 && b.turn === 0) {
    return Math.abs(dx) < a.halfWidth + b.halfWidth - 1e-9 && Math.abs(dy) < a.halfHeight + b.halfHeight - 1e-9;
  }
  return !isParted(a, b, dx, dy) && !isParted(b, a, dx, dy);
}

/** True when one of the first box's own axes separates the two. */
function isParted(a: TurnedBox, b: TurnedBox, dx: number, dy: number): boolean {
  const c = Math.cos(a.turn);
  const s = Math.sin(a.turn);
  const cd = Math.abs(Math.cos(b.turn - a.turn));
  const sd = Math.abs(Math.sin(b.turn - a.turn));
  if (Math.abs(dx * c + dy * s) >= a.halfWidth + b.halfWidth * cd + b.halfHeight * sd - 1e-9) return true;
  return Math.abs(dy * c - dx * s) >= a.halfHeight + b.halfWidth * sd + b.halfHeight * cd - 1e-9;
}

/** True when a point is inside the box. */
export function isInBox(x: number, y: number, b: TurnedBox, margin = 0): boolean {
  const dx = x - b.x;
  const dy = y - b.y;
  const c = Math.cos(b.turn);
  const s = Math.sin(b.turn);
  return Math.abs(dx * c + dy * s) <= b.halfWidth + margin && Math.abs(dy * c - dx * s) <= b.halfHeight + margin;
}

/** How far a turned box reaches from its center, across and down. */
export function reachOf(box: TurnedBox): readonly [number, number] {
  const c = Math.abs(Math.cos(box.turn));
  const s = Math.abs(Math.sin(box.turn));
  return [box.halfWidth * c + box.halfHeight * s, box.halfWidth * s + box.halfHeight * c];
}

/** True when the box is free, within the bounds and off the reserved lines. */
export function isFree(sheet: LabelSheet, box: TurnedBox): boolean {
  const [ex, ey] = reachOf(box);
  const o = sheet.bounds;
  if (box.x - ex < o.x || box.x + ex > o.x + o.width || box.y - ey < o.y || box.y + ey > o.y + o.height) return false;
  if (sheet.lines.some((line) => isOver(line, box))) return false;
  if (sheet.taken.length <= FEW) {
    for (const taken of sheet.taken) if (doBoxesMeet(taken, box)) return false;
    return true;
  }
  const { cells } = indexOf(sheet.taken);
  for (let column = cellOf(box.x - ex); column <= cellOf(box.x + ex); column += 1)
    for (let row = cellOf(box.y - ey); row <= cellOf(box.y + ey); row += 1)
      for (const taken of cells.get(keyOf(column, row)) ?? []) if (doBoxesMeet(taken, box)) return false;
  return true;
}

/** Up to this many boxes are checked one by one, without an index. */
const FEW = 48;
const CELL_PX = 48;
/** Cells per column of the index; more than any drawing has. */
const ROWS = 65_536;

interface BoxIndex {
  /** The boxes that overlap each cell. */
  readonly cells: Map<number, TurnedBox[]>;
  /** How many boxes of the list are indexed. */
  count: number;
}
/** Boxes indexed by the cells they overlap, for drawings with thousands of readings. Lists only grow, so the index can be extended. */
const indexes = new WeakMap<readonly TurnedBox[], BoxIndex>();

const cellOf = (v: number): number => Math.floor(v / CELL_PX);
const keyOf = (column: number, row: number): number => column * ROWS + row;

function indexOf(taken: readonly TurnedBox[]): BoxIndex {
  let index = indexes.get(taken);
  if (index === undefined || index.count > taken.length) {
    index = { cells: new Map(), count: 0 };
    indexes.set(taken, index);
  }
  for (; index.count < taken.length; index.count += 1) {
    const box = taken[index.count];
    if (box === undefined) continue;
    const [ex, ey] = reachOf(box);
    for (let column = cellOf(box.x - ex); column <= cellOf(box.x + ex); column += 1)
      for (let row = cellOf(box.y - ey); row <= cellOf(box.y + ey); row += 1) {
        const key = keyOf(column, row);
        const cellBoxes = index.cells.get(key);
        if (cellBoxes === undefined) index.cells.set(key, [box]);
        else cellBoxes.push(box);
      }
  }
  return index;
}

/** Reserves a box without a check, for what cannot move. */
export function reserve(sheet: LabelSheet, box: TurnedBox): void {
  sheet.taken.push(box);
}

/** Reserves the first candidate that is free; null when none is. */
export function placeFirst<T extends { readonly box: TurnedBox }>(
  sheet: LabelSheet,
  candidates: readonly T[],
  fits: (box: TurnedBox) => boolean = () => true,
): T | null {
  for (const c of candidates) {
    if (isFree(sheet, c.box) && fits(c.box)) {
      sheet.taken.push(c.box);
      return c;
    }
  }
  return null;
}

/** The parts of a polyline outside every box. */
export function breakAtBoxes(xy: readonly number[], boxes: readonly TurnedBox[]): number[][] {
  if (xy.length < 4) return [];
  const span = uprightBox(boundsOf([xy]), 1);
  const nearBoxes = boxes.filter((b) => doBoxesMeet(b, span));
  if (nearBoxes.length === 0) return [[...xy]];
  const out: number[][] = [];
  let current: number[] | null = null;
  for (let i = 0; i + 3 < xy.length; i += 2) {
    const ax = xy[i] ?? 0;
    const ay = xy[i + 1] ?? 0;
    const dx = (xy[i + 2] ?? 0) - ax;
    const dy = (xy[i + 3] ?? 0) - ay;
    // Parts of the segment inside a box, as spans of its length.
    const hiddenSpans: [number, number][] = [];
    for (const b of nearBoxes) {
      const reach = b.halfWidth + b.halfHeight;
      if (Math.abs(ax + dx / 2 - b.x) > reach + Math.abs(dx / 2) || Math.abs(ay + dy / 2 - b.y) > reach + Math.abs(dy / 2)) continue;
      const spanInBox = segmentInBox(ax, ay, dx, dy, b);
      if (spanInBox) hiddenSpans.push(spanInBox);
    }
    hiddenSpans.sort((p, q) => p[0] - q[0]);
    let t = 0;
    const addPart = (from: number, to: number): void => {
      if (to - from < 1e-9) return;
      if (current === null || from > 0) {
        current = [ax + dx * from, ay + dy * from];
        out.push(current);
      }
      current.push(ax + dx * to, ay + dy * to);
      if (to < 1) current = null;
    };
    for (const [h0, h1] of hiddenSpans) {
      if (h0 > t) addPart(t, h0);
      else current = null;
      t = Math.max(t, h1);
    }
    if (t < 1) addPart(t, 1);
    else current = null;
  }
  return out;
}

function segmentInBox(ax: number, ay: number, dx: number, dy: number, b: TurnedBox): [number, number] | null {
  const c = Math.cos(b.turn);
  const s = Math.sin(b.turn);
  const px = (ax - b.x) * c + (ay - b.y) * s;
  const py = (ay - b.y) * c - (ax - b.x) * s;
  const vx = dx * c + dy * s;
  const vy = dy * c - dx * s;
  let t0 = 0;
  let t1 = 1;
  for (const [p, v, h] of [
    [px, vx, b.halfWidth],
    [py, vy, b.halfHeight],
  ] as const) {
    if (Math.abs(v) < 1e-12) {
      if (Math.abs(p) > h) return null;
      continue;
    }
    const u0 = (-h - p) / v;
    const u1 = (h - p) / v;
    t0 = Math.max(t0, Math.min(u0, u1));
    t1 = Math.min(t1, Math.max(u0, u1));
  }
  return t1 > t0 ? [t0, t1] : null;
}

/** The largest upright empty rectangle within `bounds` that overlaps none of the boxes; null when none is as large as required. */
export function largestEmpty(bounds: Box, obstacles: readonly Box[], leastWidth: number, leastHeight: number): Box | null {
  const xs = [...new Set([bounds.x, bounds.x + bounds.width, ...obstacles.flatMap((o) => [o.x, o.x + o.width])])]
    .filter((x) => x >= bounds.x && x <= bounds.x + bounds.width)
    .sort((a, b) => a - b);
  const ys = [...new Set([bounds.y, bounds.y + bounds.height, ...obstacles.flatMap((o) => [o.y, o.y + o.height])])]
    .filter((y) => y >= bounds.y && y <= bounds.y + bounds.height)
    .sort((a, b) => a - b);
  let largest: Box | null = null;
  let bestArea = 0;
  for (const x0 of xs) {
    for (const x1 of xs) {
      if (x1 - x0 < leastWidth) continue;
      const column = obstacles.filter((o) => o.x < x1 - 1e-9 && o.x + o.width > x0 + 1e-9);
      for (const y0 of ys) {
        let floor = bounds.y + bounds.height;
        let isOpen = true;
        for (const o of column) {
          if (o.y + o.height <= y0 + 1e-9) continue;
          if (o.y < y0 + 1e-9) {
            isOpen = false;
            break;
          }
          floor = Math.min(floor, o.y);
        }
        if (!isOpen) continue;
        const height = floor - y0;
        if (height < leastHeight) continue;
        if ((x1 - x0) * height > bestArea + 1e-6) {
          bestArea = (x1 - x0) * height;
          largest = { x: x0, y: y0, width: x1 - x0, height };
        }
      }
    }
  }
  return largest;
}
