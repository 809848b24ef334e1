/** Text on and around a plan: section letters, dimensions, openings, readings. */
import { boundsOf, distanceToEdge, isInside, ringArea, type Rings } from './ring-clip.ts';
import { groupMark, stippleMark, textMark } from './ink.ts';
import { isFree, placeFirst, reserve, textBox, uprightBox, type LabelSheet, type TurnedBox } from './labels.ts';
import { placeDimension } from './lettering.ts';
import type { Mark } from './marks.ts';
import { isBoxIn, spotCross } from './plan-floor.ts';
import { WALL_PX, type PlanInput } from './plan-input.ts';
import { coverBoxes, toSheet, type OpeningOnSheet, type PlanFit } from './plan-walls.ts';
import { SANS_BOLD } from './type-metrics.ts';

/** Letters at both ends of the section line, beyond the wall and beside the line. */
export function sectionLetters(
  input: PlanInput,
  fit: PlanFit,
  openings: readonly OpeningOnSheet[],
  sheet: LabelSheet,
): { marks: Mark[]; line: number[] | null } {
  const points = input.section?.points ?? [];
  const letter = input.section?.letter ?? 'A';
  if (points.length < 2) return { marks: [], line: null };
  const xy = points.flatMap((p) => toSheet(fit, p));
  const end = (x: number, y: number, fromX: number, fromY: number, text: string): Mark | null => {
    const d = Math.hypot(x - fromX, y - fromY) || 1;
    const ux = (x - fromX) / d;
    const uy = (y - fromY) / d;
    const gap = openings.find((o) => Math.hypot((o.x0 + o.x1) / 2 - x, (o.y0 + o.y1) / 2 - y) < 60);
    const beside = gap ? Math.hypot(gap.x1 - gap.x0, gap.y1 - gap.y0) / 2 + 14 : 0;
    // Beyond the wall beside the line, or inside the room where the drawing ends at its walls.
    const candidates = [
      ...[...(gap ? [beside, -beside] : []), 0, 16, -16, 30, -30].flatMap((aside) => [26, 32, 40].map((out) => [out, aside])),
      ...[14, -14].flatMap((aside) => [-12, -24, -40].map((out) => [out, aside])),
    ].map(([out = 0, aside = 0]) => {
      const cx = x + ux * out - uy * aside;
      const cy = y + uy * out + ux * aside + 5;
      return { x: cx, y: cy, box: textBox(cx, cy, text, { anchor: 'middle', face: SANS_BOLD }) };
    });
    const placed = placeFirst(sheet, candidates);
    return placed && textMark(placed.x, placed.y, text, { anchor: 'middle', face: SANS_BOLD });
  };
  const n = xy.length;
  const from = end(xy[0] ?? 0, xy[1] ?? 0, xy[2] ?? 0, xy[3] ?? 0, letter);
  const to = end(xy[n - 2] ?? 0, xy[n - 1] ?? 0, xy[n - 4] ?? 0, xy[n - 3] ?? 0, `${letter}′`);
  // A section line without both letters could not be identified, so it is left out.
  return from && to ? { marks: [from, to], line: xy } : { marks: [], line: null };
}

/** Overall width and height, then the walls those two do not give, as long as there is room outside. */
export function dimensionMarks(input: PlanInput, fit: PlanFit, ring: readonly number[], sheet: LabelSheet): Mark[] {
  const b = boundsOf([ring]);
  const marks: Mark[] = [];
  const cover = coverBoxes([ring], WALL_PX + 4).map((box) => uprightBox(box, -1));
  const open: LabelSheet = { ...sheet, taken: [...sheet.taken, ...cover] };
  const addDimension = (...span: readonly [number, number, number, number]): boolean => {
    const [x0, y0, x1, y1] = span;
    const placed = placeDimension(sheet, span, input.lengthText(Math.hypot(x1 - x0, y1 - y0) / fit.pxPerM), open);
    if (placed !== null) marks.push(placed);
    return placed !== null;
  };
  const beyond = [34, 40, 48, 56, 64];
  const x1 = b.x + b.width;
  const y1 = b.y + b.height;
  const addOnFirstFreeSide = (sides: readonly (() => boolean)[]): boolean => sides.some((side) => side());
  addOnFirstFreeSide(beyond.flatMap((o) => [() => addDimension(b.x - o, y1, b.x - o, b.y)]));
  addOnFirstFreeSide(beyond.flatMap((o) => [() => addDimension(b.x, y1 + o, x1, y1 + o), () => addDimension(b.x, b.y - o, x1, b.y - o)]));
  const labeled = [b.width, b.height];
  const n = ring.length / 2;
  const walls = Array.from({ length: n }, (_, i) => {
    const ax = ring[2 * i] ?? 0;
    const ay = ring[2 * i + 1] ?? 0;
    const bx = ring[(2 * i + 2) % ring.length] ?? 0;
    const by = ring[(2 * i + 3) % ring.length] ?? 0;
    return { ax, ay, bx, by, d: Math.hypot(bx - ax, by - ay) };
  }).sort((p, q) => q.d - p.d);
  const sign = ringArea(ring) > 0 ? 1 : -1;
  for (const w of walls.slice(0, 16)) {
    if (w.d < 44 || marks.length >= 10) continue;
    if (labeled.some((t) => Math.abs(t - w.d) < 0.5)) continue;
    const nx = (sign * (w.by - w.ay)) / w.d;
    const ny = (-sign * (w.bx - w.ax)) / w.d;
    if ([34, 42, 50, 60, 76, 100, 140].some((o) => addDimension(w.ax + nx * o, w.ay + ny * o, w.bx + nx * o, w.by + ny * o)))
      labeled.push(w.d);
  }
  return marks;
}

/** Room that a dimension takes beside a turned name, px. */
const DIMENSION_PX = 34;

/** Words at each opening, placed clear of walls and of each other. @param rings outlines of the rooms; the words stay outside them */
export function openingLabels(
  input: Pick<PlanInput, 'openingWords' | 'hatchBeyond' | 'pour' | 'hasDimensions'>,
  openings: readonly OpeningOnSheet[],
  sheet: LabelSheet,
  rings: Rings,
): Mark[] {
  const words = input.openingWords ?? (() => []);
  const sizePx = input.pour?.isPourMode === true ? (input.pour.letteringPx ?? 22) : 15;
  const stepPx = Math.round(sizePx * 1.2);
  const cover = rings.flatMap((ring) => coverBoxes([ring], WALL_PX)).map((b) => uprightBox(b, -1));
  for (const o of openings) {
    const out = WALL_PX + 22;
    const xs = [o.x0, o.x1, o.x0 + o.nx * out, o.x1 + o.nx * out];
    const ys = [o.y0, o.y1, o.y0 + o.ny * out, o.y1 + o.ny * out];
    if (input.hatchBeyond?.(o.opening)) {
      const box = {
        x: Math.min(...xs),
        y: Math.min(...ys),
        width: Math.max(...xs) - Math.min(...xs),
        height: Math.max(...ys) - Math.min(...ys),
      };
      reserve(sheet, uprightBox(box, -1));
    }
  }
  return openings.flatMap((o) => {
    const lines = words(o.opening);
    if (lines.length === 0) return [];
    const mx = (o.x0 + o.x1) / 2;
    const my = (o.y0 + o.y1) / 2;
    const reach = WALL_PX + (input.hatchBeyond?.(o.opening) ? 22 : 0);
    const half = Math.hypot(o.x1 - o.x0, o.y1 - o.y0) / 2;
    const candidates: { x: number; y: number; anchor: 'start' | 'middle' | 'end'; turnDeg: number; box: TurnedBox }[] = [];
    const propose = (x: number, y: number, anchor: 'start' | 'middle' | 'end'): void => {
      const boxes = lines.map((text, i) => textBox(x, y + i * stepPx, text, { anchor, sizePx, air: 3 }));
      const left = Math.min(...boxes.map((b) => b.x - b.halfWidth));
      const right = Math.max(...boxes.map((b) => b.x + b.halfWidth));
      const top = Math.min(...boxes.map((b) => b.y - b.halfHeight));
      const bottom = Math.max(...boxes.map((b) => b.y + b.halfHeight));
      candidates.push({ x, y, anchor, turnDeg: 0, box: uprightBox({ x: left, y: top, width: right - left, height: bottom - top }) });
    };
    /** The first line upward beside the wall, where the drawing ends before the words would, but not in place of a dimension. */
    const proposeTurned = (outPx: number): void => {
      const beyondX = mx + o.nx * (reach + outPx + (input.hasDimensions === false ? 0 : DIMENSION_PX));
      const isBeyond = beyondX < sheet.bounds.x || beyondX > sheet.bounds.x + sheet.bounds.width;
      if (input.pour?.isPourMode === true || isBeyond) return;
      const [text = ''] = lines;
      const turned = { anchor: 'middle' as const, turnDeg: -90, sizePx };
      const x = mx + o.nx * (reach + outPx) + sizePx / 3;
      candidates.push({ x, y: my, ...turned, box: textBox(x, my, text, { ...turned, air: 2 }) });
    };
    const blockHeight = (lines.length - 1) * stepPx;
    if (Math.abs(o.ny) > Math.abs(o.nx)) {
      const isBelow = o.ny > 0;
      for (const side of [half + 12, -half - 12]) propose(mx + side, isBelow ? my + 30 : my - 22 - blockHeight, side > 0 ? 'start' : 'end');
      for (const offset of [reach + 18, reach + 42, reach + 60])
        propose(mx, isBelow ? my + offset : my - offset - blockHeight + 8, 'middle');
      for (const side of [half + 12, -half - 12])
        for (const offset of [44, 62]) propose(mx + side, isBelow ? my + offset : my - offset - blockHeight, side > 0 ? 'start' : 'end');
    } else {
      const right = o.nx > 0;
      for (const offset of [reach + 9, reach + 40, reach + 60])
        for (const dy of [0, -half, half]) propose(mx + (right ? offset : -offset), my - blockHeight / 2 + 5 + dy, right ? 'start' : 'end');
      for (const dy of [half + 24, -half - 10 - blockHeight]) propose(mx + (right ? 20 : -20), my + dy, right ? 'start' : 'end');
      for (const outPx of [12, 16, 22]) proposeTurned(outPx);
    }
    const open: LabelSheet = { ...sheet, taken: [...sheet.taken, ...cover] };
    const outside = candidates.length;
    // In pour mode the drawing ends at its walls, but an exit must still be labeled.
    for (const offset of input.pour?.isPourMode === true ? [14, 34, 54] : [])
      propose(
        mx - o.nx * offset,
        my - o.ny * (offset + blockHeight / 2) + 5 - blockHeight / 2,
        o.nx > 0.5 ? 'end' : o.nx < -0.5 ? 'start' : 'middle',
      );
    const placed = candidates.find((c, i) =>
      i < outside ? isFree(open, c.box) : isFree(sheet, c.box) && rings.some((ring) => isBoxIn(c.box, [ring])),
    );
    if (!placed) return [];
    reserve(sheet, placed.box);
    const { x, y, anchor, turnDeg } = placed;
    return lines
      .slice(0, turnDeg === 0 ? lines.length : 1)
      .map((text, i) => textMark(x, y + i * stepPx, text, { anchor, turnDeg, sizePx }));
  });
}

/** Positions of a figure beside its cross. All figures of a plan use the same side. */
const SIDES = [
  { dx: 8, dy: 5, anchor: 'start' },
  { dx: -8, dy: 5, anchor: 'end' },
  { dx: 0, dy: -9, anchor: 'middle' },
  { dx: 0, dy: 21, anchor: 'middle' },
] as const;

/** With less floor per reading than this, in square pixels, there are too many readings to try every side. */
const PACKED_PX2 = 26 * 26;

/** Readings, each a cross with its figure, on the side where most figures fit; the others are left out. The plan of readings shows those as points. */
export function spotMarks(input: PlanInput, fit: PlanFit, room: Rings, sheet: LabelSheet): Mark[] {
  if (input.shows === 'lanes' || input.shows === 'cure') return [];
  for (const place of input.keepClear ?? []) {
    const [x, y] = toSheet(fit, place);
    reserve(sheet, uprightBox({ x: x - place.byPx, y: y - place.byPx, width: 2 * place.byPx, height: 2 * place.byPx }));
  }
  const spots = (input.spots ?? [])
    .filter((_, i) => input.isSparse !== true || i % 2 === 0)
    .map((spot) => ({ spot, position: toSheet(fit, spot) }))
    // A run is read from wall to wall: its ends are on the walls, whose lines they do not keep clear of.
    .map((one) => ({ ...one, isOnWall: distanceToEdge(...one.position, room) < 1 }))
    .filter(({ position: [x, y], isOnWall }) => isOnWall || isInside(x, y, room));
  const isClear = (of: LabelSheet, isOnWall: boolean, box: TurnedBox): boolean => isFree(isOnWall ? { ...of, lines: [] } : of, box);
  const isPacked = spots.length > 0 && Math.abs(ringArea(room[0] ?? [])) / spots.length < PACKED_PX2;
  const trials = (isPacked ? SIDES.slice(0, 1) : SIDES).map((side) => {
    const trial: LabelSheet = { ...sheet, taken: [...sheet.taken] };
    const isPlaced = spots.map(({ spot, position: [x, y], isOnWall }) => {
      const cross = uprightBox({ x: x - 4, y: y - 4, width: 8, height: 8 });
      const figure = textBox(x + side.dx, y + side.dy, spot.text, { anchor: side.anchor, sizePx: 17 });
      if (!isClear(trial, isOnWall, cross) || !isFree(trial, figure) || !isBoxIn(figure, room)) return false;
      reserve(trial, figure);
      reserve(trial, uprightBox({ x: x - 5, y: y - 5, width: 10, height: 10 }));
      return true;
    });
    return { side, isPlaced, boxes: trial.taken.slice(sheet.taken.length), count: isPlaced.filter(Boolean).length };
  });
  const [best] = trials.sort((a, b) => b.count - a.count);
  if (!best) return [];
  for (const box of best.boxes) reserve(sheet, box);
  const { side } = best;
  const marks: Mark[] = [];
  const points: number[] = [];
  spots.forEach(({ spot, position: [x, y], isOnWall }, i) => {
    if (best.isPlaced[i] === true)
      marks.push(
        groupMark(`reading:${spot.id}`, spot.label, [
          spotCross(x, y),
          textMark(x + side.dx, y + side.dy, spot.text, { anchor: side.anchor, sizePx: 17 }),
        ]),
      );
    else if (isClear(sheet, isOnWall, uprightBox({ x: x - 1.5, y: y - 1.5, width: 3, height: 3 }))) points.push(x, y);
  });
  if (input.shows === 'read' && points.length > 0) marks.push(groupMark('readings:others', '', [stippleMark(points, 'ink2', 2.5)]));
  return marks;
}
