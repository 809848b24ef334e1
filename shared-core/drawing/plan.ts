/** A room's plan: the centre of assessment, estimate, prep and pour. Takes plain data; what the words say is the caller's. */
import type { Point } from '../book/fields.ts';
import type { Opening, Plan, Mark as FloorMark } from '../book/plan-fields.ts';
import { boundsOf, clipPolyline, isInside, type Box, type Rings } from './clip.ts';
import { mapField, type FloorField } from './floor-field.ts';
import { groupMark, textMark } from './ink.ts';
import { isFree, isInBox, largestEmpty, placeFirst, reserve, startSheet, textBox, uprightBox, type LabelSheet } from './labels.ts';
import type { Drawing, Hatch, Mark } from './marks.ts';
import {
  bandCount,
  contourMarks,
  contoursOf,
  fieldRange,
  floorDots,
  grindMarks,
  isBoxIn,
  linesOnSheet,
  sectionLine,
  spotCross,
  tintMarks,
  type Contour,
  type ContourSteps,
} from './plan-floor.ts';
import { keyHeightPx, planKey } from './plan-key.ts';
import { areaMarks, cureMarks, floorMarkMarks, noteMarks, stripMarks, type PlanArea, type PlanNote, type PlanPour } from './plan-layers.ts';
import {
  coverBoxes,
  fitPlan,
  holeMarks,
  openingsOnSheet,
  perimeterStrip,
  ringOnSheet,
  toSheet,
  wallMarks,
  type OpeningHatch,
  type OpeningOnSheet,
  type PlanFit,
} from './plan-walls.ts';
import { regionReaching, roomiestPoint } from './region.ts';
import { dimension } from './shapes.ts';
import { SANS_BOLD } from './type-metrics.ts';

/** What the plan shows. */
export type PlanShows = 'depth' | 'height' | 'read' | 'prep' | 'strips' | 'cure';

/** A reading as it is to be written; the text is the caller's, without its unit. `name` is its handle. */
export interface PlanSpot {
  readonly id: string;
  readonly xM: number;
  readonly yM: number;
  readonly text: string;
  /** Read aloud: "reading 4: seven eighths deep". */
  readonly label: string;
}

/** Everything a plan may show. Lengths in metres, the box in sheet units. Parts left out are not drawn. */
export interface PlanInput {
  readonly plan: Pick<Plan, 'outline' | 'holes' | 'openings'>;
  readonly widthPx: number;
  readonly heightPx: number;
  readonly shows: PlanShows;
  /** Writes a measured length with its unit: 13′ 8″. */
  readonly lengthText: (lengthM: number) => string;
  readonly spots?: readonly PlanSpot[];
  /** Show every other spot only, for small screens. */
  readonly isSparse?: boolean;
  /** The floor's heights softened for display (`floorField`); null while there are too few readings. */
  readonly floor?: FloorField | null;
  /** Height of the new floor, one for all or by place; null while none is chosen. */
  readonly newFloor?: number | ((xM: number, yM: number) => number) | null;
  /** Higher floor is ground down to this height first; null for no grinding. */
  readonly grindToM?: number | null;
  readonly contours?: ContourSteps;
  /** The note at the leader from the ground area: "Grind first: ⅜″ off the top, 8 sq ft". */
  readonly grindNote?: string;
  /** Where the section is cut, and its letter. */
  readonly section?: { readonly points: readonly Point[]; readonly letter: string } | null;
  /** Lines of words at an opening. */
  readonly openingWords?: (opening: Opening) => readonly string[];
  readonly hatchBeyond?: OpeningHatch;
  readonly hatchHole?: (kind: string) => Hatch;
  /** Prep: parts of the floor with their hatch, marks found on it, notes with their number. */
  readonly areas?: readonly PlanArea[];
  readonly floorMarks?: readonly FloorMark[];
  readonly notes?: readonly PlanNote[];
  readonly hasPerimeterStrip?: boolean;
  /** Strips and batches. */
  readonly pour?: PlanPour;
  /** Name and dates in the middle of the room; the first line bold. */
  readonly names?: readonly string[];
  /** Clear distance of the dots of a floor already poured; null for none. */
  readonly pouredGapPx?: number | null;
  readonly hasDimensions?: boolean;
  /** Title and key in the largest empty corner. */
  readonly title?: { readonly text: string; readonly caption: string } | null;
  readonly hasKey?: boolean;
  /** The length of the scale bar and what stands at its end. */
  readonly scale?: { readonly lengthM: number; readonly text: string } | null;
  /** Space left free round the plan; wide enough for dimensions unless they are off. */
  readonly marginPx?: Partial<Record<'left' | 'top' | 'right' | 'bottom', number>>;
}

/** A plan as marks, with what the screen needs to point back into the room. */
export interface PlanDrawing extends Drawing {
  /** Null when there is no outline yet. */
  readonly fit: PlanFit | null;
  /** The corner left for the screen's own controls under title and key; null when nothing of use is free. */
  readonly freeBox: Box | null;
}

const WALL_PX = 13;

/** The plan of a room fitted to its box. An outline of fewer than three corners gives an empty drawing. */
export function planDrawing(input: PlanInput): PlanDrawing {
  const { widthPx: width, heightPx: height } = input;
  const layout = layOut(input);
  if (!layout) return { width, height, marks: [], fit: null, freeBox: null };
  const { fit, keyBox } = layout;
  const ring = ringOnSheet(fit, input.plan.outline);
  const holes = input.plan.holes.map((h) => ({ hole: h, ring: ringOnSheet(fit, h.corners) }));
  const room: Rings = [ring, ...holes.map((h) => h.ring)];
  const openings = openingsOnSheet(fit, input.plan);
  const sheet = startSheet({ x: 2, y: 2, width: width - 4, height: height - 4 });
  if (keyBox) reserve(sheet, uprightBox(keyBox));

  // Labels first.
  const outside: Mark[] = [];
  const names = nameMarks(input, room, sheet);
  const cut = sectionLetters(input, fit, openings, sheet);
  outside.push(...cut.marks);
  outside.push(...openingLabels(input, openings, sheet, ring));
  if (input.hasDimensions !== false) outside.push(...dimensionMarks(input, ring, sheet));

  const depthField = depthOf(input);
  const cap = input.grindToM ?? null;
  const grind =
    input.floor && cap !== null && (input.shows === 'depth' || input.shows === 'prep') ? ground(input.floor, cap, fit, room) : [];
  const notes = noteMarks(input.notes ?? [], fit, room, sheet);
  const floor: Mark[] = [];
  const spots = spotMarks(input, fit, room, sheet);

  if (input.areas) floor.push(...areaMarks(input.areas, fit));
  if (input.shows === 'depth' && depthField && input.contours) {
    const range = fieldRange(depthField, fit, room);
    const contours = contoursOf(depthField, input.contours, fit, room, { least: Math.max(0, range.least), most: range.most });
    const bands = bandCount(range.most, input.contours.everyM);
    const lines = contourMarks(visible(contours), input.contours, sheet, room, grind);
    floor.push(groupMark('tint', '', tintMarks(depthField, contours, fit, room, bands, input.contours.everyM)));
    floor.push(groupMark('stipple', 'New cement, denser where deeper', [floorDots(depthField, fit, room, sheet.taken, grind, range.most)]));
    floor.push(groupMark('contours', '', lines));
  } else if (input.shows === 'height' && input.floor && input.contours) {
    const range = fieldRange(input.floor, fit, room);
    floor.push(
      groupMark('contours', '', contourMarks(contoursOf(input.floor, input.contours, fit, room, range), input.contours, sheet, room, [])),
    );
  } else if (input.shows === 'cure' && input.pouredGapPx !== undefined && input.pouredGapPx !== null) {
    floor.push(cureMarks(room, input.pouredGapPx, sheet.taken));
  }
  if (grind.length > 0)
    floor.push(
      groupMark(
        'grind',
        input.grindNote ?? 'to be ground first',
        grindMarks(
          grind,
          sheet.taken.filter((b) => isBoxIn(b, room)),
        ),
      ),
    );
  if (input.pour) floor.push(...stripMarks(input.pour, fit, room, sheet));
  floor.push(...floorMarkMarks(input.floorMarks ?? [], fit));
  const cutLine = cut.line ? sectionLine(cut.line, sheet.taken) : [];

  const walls: Mark[] = [
    ...holes.map(({ hole, ring: r }) =>
      holeMarks(hole.id, hole.name === '' ? hole.kind : hole.name, r, input.hatchHole?.(hole.kind) ?? 'stone'),
    ),
    ...wallMarks(ring, openings, {
      wallPx: WALL_PX,
      beyondPx: 22,
      hatchBeyond: input.hatchBeyond ?? (() => null),
      edges: input.shows !== 'cure' && input.shows !== 'read',
    }),
    ...(input.hasPerimeterStrip === true ? [perimeterStrip(ring, openings)] : []),
  ];
  const leader = grind.length > 0 && input.grindNote !== undefined ? leaderMarks(input.grindNote, grind, room, sheet) : [];
  const key = keyBox ? planKey(input, keyBox, fit, depthField ? fieldRange(depthField, fit, room).most : null) : [];
  return {
    width,
    height,
    marks: [...floor, ...walls, ...cutLine, ...spots, ...notes, ...names, ...outside, ...leader, ...key],
    fit,
    freeBox: keyBox
      ? { x: keyBox.x, y: keyBox.y + keyHeightPx(input), width: keyBox.width, height: Math.max(0, keyBox.height - keyHeightPx(input)) }
      : null,
  };
}

function visible(contours: readonly Contour[]): Contour[] {
  return contours.filter((c) => c.valueM > 1e-9);
}

/** Depth of fill over the grid; null while floor or level is missing. */
function depthOf(input: PlanInput): FloorField | null {
  const { floor, newFloor } = input;
  if (!floor || newFloor === null || newFloor === undefined) return null;
  const cap = input.grindToM ?? Infinity;
  return typeof newFloor === 'number'
    ? mapField(floor, (h) => newFloor - Math.min(h, cap))
    : mapField(floor, (h, xM, yM) => newFloor(xM, yM) - Math.min(h, cap));
}

/** The area above the height it is ground to. */
function ground(floor: FloorField, capM: number, fit: PlanFit, room: Rings): number[][] {
  const lines = linesOnSheet(floor, capM, fit, room);
  const at = mapField(floor, (h) => h - capM);
  const range = fieldRange(at, fit, room);
  if (range.most <= 0) return [];
  return regionReaching(lines, room, () => range.least >= 0);
}

/** Scale and place; the plan gives way to title and key where its own notch has no room for them. */
function layOut(input: PlanInput): { fit: PlanFit; keyBox: Box | null } | null {
  const dims = input.hasDimensions !== false;
  const m = {
    left: input.marginPx?.left ?? (dims ? 62 : WALL_PX + 3),
    top: input.marginPx?.top ?? (input.openingWords || dims ? 56 : WALL_PX + 3),
    right: input.marginPx?.right ?? (dims ? 62 : WALL_PX + 3),
    bottom: input.marginPx?.bottom ?? (dims ? 76 : WALL_PX + 3),
  };
  const whole: Box = { x: m.left, y: m.top, width: input.widthPx - m.left - m.right, height: input.heightPx - m.top - m.bottom };
  const wantsKey = (input.title !== null && input.title !== undefined) || input.hasKey === true;
  const fit = fitPlan(input.plan.outline, whole, wantsKey ? 'start' : 'middle');
  if (!fit) return null;
  if (!wantsKey) return { fit, keyBox: null };
  const needs = { width: Math.min(330, input.widthPx * 0.5), height: keyHeightPx(input) };
  const sheet: Box = { x: 8, y: 8, width: input.widthPx - 16, height: input.heightPx - 16 };
  const tries = [
    whole,
    { ...whole, width: whole.width - needs.width - 10 },
    { ...whole, y: whole.y + needs.height, height: whole.height - needs.height },
  ].flatMap((box) => {
    const tried = fitPlan(input.plan.outline, box, 'start');
    if (!tried) return [];
    const ring = ringOnSheet(tried, input.plan.outline);
    const b = boundsOf([ring]);
    // The notch may be used up to a dimension's breadth from the walls.
    const cover = coverBoxes([ring], dims ? 52 : 24).map((o) => (dims ? { ...o, x: o.x - 12, width: o.width + 24 } : o));
    const empty = largestEmpty(sheet, cover, needs.width, needs.height);
    return empty ? [{ fit: tried, keyBox: empty, size: b.width * b.height }] : [];
  });
  const best = tries.sort((a, b) => b.size - a.size)[0];
  return best ? { fit: best.fit, keyBox: best.keyBox } : { fit, keyBox: null };
}

function nameMarks(input: PlanInput, room: Rings, sheet: LabelSheet): Mark[] {
  const lines = input.names ?? [];
  if (lines.length === 0) return [];
  const place = roomiestPoint(room, (x, y) => isInside(x, y, room));
  const b = boundsOf(room);
  const turn = b.height > b.width * 2.2 && place.clear < 60 ? -90 : 0;
  const rad = (turn * Math.PI) / 180;
  return lines.flatMap((text, i) => {
    const off = 5 - ((lines.length - 1) * 20) / 2 + i * 20;
    const x = place.x - Math.sin(rad) * off;
    const y = place.y + Math.cos(rad) * off;
    const face = i === 0 ? { face: SANS_BOLD } : {};
    const box = textBox(x, y, text, { anchor: 'middle', turnDeg: turn, air: 4, ...face });
    reserve(sheet, box);
    return [textMark(x, y, text, { anchor: 'middle', turnDeg: turn, ...face })];
  });
}

/** The letters at both ends of the section line stand beyond the wall, beside the line. */
function sectionLetters(
  input: PlanInput,
  fit: PlanFit,
  openings: readonly OpeningOnSheet[],
  sheet: LabelSheet,
): { marks: Mark[]; line: number[] | null } {
  const points = input.section?.points ?? [];
  const letter = input.section?.letter ?? 'A';
  if (points.length < 2) return { marks: [], line: null };
  const xy = points.flatMap((p) => toSheet(fit, p));
  const marks: Mark[] = [];
  const end = (x: number, y: number, fromX: number, fromY: number, text: string): void => {
    const d = Math.hypot(x - fromX, y - fromY) || 1;
    const ux = (x - fromX) / d;
    const uy = (y - fromY) / d;
    const gap = openings.find((o) => Math.hypot((o.x0 + o.x1) / 2 - x, (o.y0 + o.y1) / 2 - y) < 60);
    const beside = gap ? Math.hypot(gap.x1 - gap.x0, gap.y1 - gap.y0) / 2 + 14 : 0;
    const candidates = [...(gap ? [beside, -beside] : []), 0, 16, -16, 30, -30].flatMap((aside) =>
      [26, 32, 40].map((out) => {
        const cx = x + ux * out - uy * aside;
        const cy = y + uy * out + ux * aside + 5;
        return { x: cx, y: cy, box: textBox(cx, cy, text, { anchor: 'middle', face: SANS_BOLD }) };
      }),
    );
    const placed = placeFirst(sheet, candidates);
    if (placed) marks.push(textMark(placed.x, placed.y, text, { anchor: 'middle', face: SANS_BOLD }));
  };
  const n = xy.length;
  end(xy[0] ?? 0, xy[1] ?? 0, xy[2] ?? 0, xy[3] ?? 0, letter);
  end(xy[n - 2] ?? 0, xy[n - 1] ?? 0, xy[n - 4] ?? 0, xy[n - 3] ?? 0, `${letter}′`);
  return { marks, line: xy };
}

/** Overall width and height, then the walls that those two don't tell, while there is room outside. */
function dimensionMarks(input: PlanInput, ring: readonly number[], sheet: LabelSheet): Mark[] {
  const b = boundsOf([ring]);
  const scale = b.width / Math.max(1e-9, boundsOf([input.plan.outline.flatMap((p) => [p.xM, p.yM])]).width);
  const marks: Mark[] = [];
  const cover = coverBoxes([ring], WALL_PX + 4).map((box) => uprightBox(box, -1));
  const tried = (x0: number, y0: number, x1: number, y1: number): boolean => {
    const d = Math.hypot(x1 - x0, y1 - y0);
    const box = { x: (x0 + x1) / 2, y: (y0 + y1) / 2, halfWidth: d / 2 + 6, halfHeight: 10, turn: Math.atan2(y1 - y0, x1 - x0) };
    if (!isFree({ ...sheet, taken: [...sheet.taken, ...cover] }, box)) return false;
    reserve(sheet, box);
    marks.push(groupMark('dimension', '', dimension(x0, y0, x1, y1, input.lengthText(d / scale))));
    return true;
  };
  const beyond = [34, 40, 48, 56, 64];
  const x1 = b.x + b.width;
  const y1 = b.y + b.height;
  const ways = (sides: readonly (() => boolean)[]): boolean => sides.some((side) => side());
  ways(beyond.flatMap((o) => [() => tried(b.x - o, y1, b.x - o, b.y)]));
  ways(beyond.flatMap((o) => [() => tried(b.x, y1 + o, x1, y1 + o), () => tried(b.x, b.y - o, x1, b.y - o)]));
  const told = [b.width, b.height];
  const n = ring.length / 2;
  const walls = Array.from({ length: n }, (_, i) => {
    const ax = ring[2 * i] ?? 0;
    const ay = ring[2 * i + 1] ?? 0;
    const bx = ring[(2 * i + 2) % ring.length] ?? 0;
    const by = ring[(2 * i + 3) % ring.length] ?? 0;
    return { ax, ay, bx, by, d: Math.hypot(bx - ax, by - ay) };
  }).sort((p, q) => q.d - p.d);
  const sign = signOf(ring);
  for (const w of walls.slice(0, 16)) {
    if (w.d < 44 || marks.length >= 10) continue;
    if (told.some((t) => Math.abs(t - w.d) < 0.5)) continue;
    const nx = (sign * (w.by - w.ay)) / w.d;
    const ny = (-sign * (w.bx - w.ax)) / w.d;
    if ([34, 42, 50, 60, 76, 100, 140].some((o) => tried(w.ax + nx * o, w.ay + ny * o, w.bx + nx * o, w.by + ny * o))) told.push(w.d);
  }
  return marks;
}

function signOf(ring: readonly number[]): number {
  let sum = 0;
  for (let i = 0; i < ring.length; i += 2) {
    sum += (ring[i] ?? 0) * (ring[(i + 3) % ring.length] ?? 0) - (ring[(i + 2) % ring.length] ?? 0) * (ring[i + 1] ?? 0);
  }
  return sum > 0 ? 1 : -1;
}

function openingLabels(input: PlanInput, openings: readonly OpeningOnSheet[], sheet: LabelSheet, ring: readonly number[]): Mark[] {
  const words = input.openingWords ?? (() => []);
  const cover = coverBoxes([ring], WALL_PX).map((b) => uprightBox(b, -1));
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
    const candidates: { x: number; y: number; anchor: 'start' | 'middle' | 'end'; box: ReturnType<typeof uprightBox> }[] = [];
    const propose = (x: number, y: number, anchor: 'start' | 'middle' | 'end'): void => {
      const boxes = lines.map((text, i) => textBox(x, y + i * 18, text, { anchor, air: 3 }));
      const left = Math.min(...boxes.map((b) => b.x - b.halfWidth));
      const right = Math.max(...boxes.map((b) => b.x + b.halfWidth));
      const top = Math.min(...boxes.map((b) => b.y - b.halfHeight));
      const bottom = Math.max(...boxes.map((b) => b.y + b.halfHeight));
      candidates.push({ x, y, anchor, box: uprightBox({ x: left, y: top, width: right - left, height: bottom - top }) });
    };
    const tall = (lines.length - 1) * 18;
    if (Math.abs(o.ny) > Math.abs(o.nx)) {
      const down = o.ny > 0;
      for (const side of [half + 12, -half - 12]) propose(mx + side, down ? my + 30 : my - 22 - tall, side > 0 ? 'start' : 'end');
      for (const far of [reach + 18, reach + 42, reach + 60]) propose(mx, down ? my + far : my - far - tall + 8, 'middle');
      for (const side of [half + 12, -half - 12])
        for (const far of [44, 62]) propose(mx + side, down ? my + far : my - far - tall, side > 0 ? 'start' : 'end');
    } else {
      const right = o.nx > 0;
      for (const far of [reach + 9, reach + 40, reach + 60])
        for (const dy of [0, -half, half]) propose(mx + (right ? far : -far), my - tall / 2 + 5 + dy, right ? 'start' : 'end');
      for (const dy of [half + 24, -half - 10 - tall]) propose(mx + (right ? 20 : -20), my + dy, right ? 'start' : 'end');
    }
    const open: LabelSheet = { bounds: sheet.bounds, taken: [...sheet.taken, ...cover] };
    const placed = candidates.find((c) => isFree(open, c.box));
    if (!placed) return [];
    reserve(sheet, placed.box);
    return lines.map((text, i) => textMark(placed.x, placed.y + i * 18, text, { anchor: placed.anchor }));
  });
}

function spotMarks(input: PlanInput, fit: PlanFit, room: Rings, sheet: LabelSheet): Mark[] {
  if (input.shows === 'strips' || input.shows === 'cure') return [];
  const spots = (input.spots ?? [])
    .filter((_, i) => input.isSparse !== true || i % 2 === 0)
    .map((spot) => ({ spot, at: toSheet(fit, spot) }));
  const onSheet = spots.filter(({ at: [x, y] }) => isInside(x, y, room));
  // Every cross stands before any figure, so that no figure covers a cross. Crosses packed closer than their size show once.
  const shown = onSheet.filter(({ at: [x, y] }) => {
    const box = uprightBox({ x: x - 5, y: y - 5, width: 10, height: 10 });
    if (!isFree(sheet, box)) return false;
    reserve(sheet, box);
    return true;
  });
  return shown.map(({ spot, at: [x, y] }) => {
    const marks: Mark[] = [spotCross(x, y)];
    const candidates = [
      { x: x + 8, y: y + 5, anchor: 'start' as const },
      { x: x - 8, y: y + 5, anchor: 'end' as const },
      { x: x + 7, y: y - 7, anchor: 'start' as const },
      { x: x - 7, y: y - 7, anchor: 'end' as const },
      { x: x + 7, y: y + 18, anchor: 'start' as const },
      { x: x - 7, y: y + 18, anchor: 'end' as const },
      { x, y: y - 9, anchor: 'middle' as const },
      { x, y: y + 20, anchor: 'middle' as const },
    ]
      .map((c) => ({ ...c, box: textBox(c.x, c.y, spot.text, { anchor: c.anchor, sizePx: 17, air: 1 }) }))
      .filter((c) => isBoxIn(c.box, room));
    const placed = placeFirst(sheet, candidates);
    if (placed) marks.push(textMark(placed.x, placed.y, spot.text, { anchor: placed.anchor, sizePx: 17 }));
    return groupMark(`reading:${spot.id}`, spot.label, marks);
  });
}

/** A note out in the free sheet, its leader ending in a dot on the area. */
function leaderMarks(note: string, area: Rings, room: Rings, sheet: LabelSheet): Mark[] {
  const spot = leaderSpot(area, sheet);
  const cover = coverBoxes(room, WALL_PX + 6).map((b) => uprightBox(b, -1));
  const open: LabelSheet = { bounds: sheet.bounds, taken: [...sheet.taken, ...cover] };
  const o = sheet.bounds;
  let best: { x: number; y: number; anchor: 'start' | 'end'; cost: number } | null = null;
  for (let y = o.y + 18; y < o.y + o.height - 6; y += 12) {
    for (const side of [1, -1]) {
      for (let dx = 14; dx < 260; dx += 30) {
        const x = spot.x + side * dx;
        const plain = Math.abs(y - spot.y) + dx;
        if (best !== null && plain >= best.cost) break;
        const anchor = side > 0 ? 'start' : 'end';
        if (!isFree(open, textBox(x, y, note, { anchor, air: 4 }))) continue;
        const elbow = [spot.x, spot.y, spot.x, y - 5, x - side * 5, y - 5];
        const cost = plain + sheet.taken.filter((t) => hitsBox(elbow, t)).length * 150;
        if (best === null || cost < best.cost) best = { x, y, anchor, cost };
        break;
      }
    }
  }
  if (!best) return [];
  const side = best.anchor === 'start' ? 1 : -1;
  reserve(sheet, textBox(best.x, best.y, note, { anchor: best.anchor, air: 4 }));
  return [
    groupMark('note:grind', note, [
      {
        kind: 'path',
        rings: [{ xy: [spot.x, spot.y, spot.x, best.y - 5, best.x - side * 5, best.y - 5], closed: false }],
        pen: 'thin',
        ink: 'ink',
        fill: null,
        dash: null,
      },
      { kind: 'stipple', xy: [spot.x, spot.y], sizePx: 6, ink: 'ink' },
      textMark(best.x, best.y, note, { anchor: best.anchor }),
    ]),
  ];
}

/** A place in the area clear of every label, toward its top right where the notes are. */
function leaderSpot(area: Rings, sheet: LabelSheet): { x: number; y: number } {
  const b = boundsOf(area);
  const free = roomiestPoint(
    area,
    (x, y) => x > b.x + b.width / 2 && y < b.y + b.height / 2 && isInside(x, y, area) && !sheet.taken.some((t) => isInBox(x, y, t, 5)),
    16,
  );
  return free.clear > 0 ? free : roomiestPoint(area, (x, y) => isInside(x, y, area), 14);
}

function hitsBox(xy: readonly number[], b: { x: number; y: number; halfWidth: number; halfHeight: number; turn: number }): boolean {
  const c = Math.cos(b.turn);
  const s = Math.sin(b.turn);
  const w = b.halfWidth;
  const h = b.halfHeight;
  const ring = [
    [-w, -h],
    [w, -h],
    [w, h],
    [-w, h],
  ].flatMap(([i = 0, j = 0]) => [b.x + i * c - j * s, b.y + i * s + j * c]);
  return clipPolyline(xy, [ring]).length > 0;
}
