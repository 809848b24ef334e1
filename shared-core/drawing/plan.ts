/** A room's plan, used by assessment, estimate, prep and pour. Takes plain data; the caller supplies all words. */
import { boundsOf, isInside, type Box, type Rings } from './ring-clip.ts';
import { mapField, type FloorField } from './floor-field.ts';
import { groupMark, lineMark, textMark } from './ink.ts';
import {
  isFree,
  isInBox,
  isLeaderFree,
  largestEmpty,
  reserve,
  reserveLeader,
  reserveRings,
  startSheet,
  textBox,
  uprightBox,
  type LabelSheet,
} from './labels.ts';
import { type Lettering, placeBlock } from './lettering.ts';
import type { Drawing, Mark } from './marks.ts';
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
  tintMarks,
  type Contour,
} from './plan-floor.ts';
import { HATCH_PX, keyHeightPx, NARROW_KEY_PX, planKey } from './plan-key.ts';
import { WALL_PX, type PlanInput } from './plan-input.ts';
import { dimensionMarks, openingLabels, sectionLetters, spotMarks } from './plan-labels.ts';
import { areaMarks, cureMarks, floorMarkMarks, laneMarks, noteMarks, reservePaths } from './plan-layers.ts';
import {
  coverBoxes,
  fitPlan,
  holeMarks,
  offsetRing,
  openingsOnSheet,
  perimeterStrip,
  ringOnSheet,
  STRIP_PX,
  wallMarks,
  type PlanFit,
} from './plan-walls.ts';
import { regionReaching, roomiestPoint } from './region-reaching.ts';
import { cutNames, SANS_BOLD } from './type-metrics.ts';

/** A plan as marks, with the data a screen needs to convert a click into a point of the room. */
export interface PlanDrawing extends Drawing {
  /** Null when there is no outline yet. */
  readonly fit: PlanFit | null;
}

/** Where a drawing with this input would have its corner, and at what scale; null without an outline or such a corner. */
export function cornerOf(input: PlanInput): { readonly box: Box; readonly pxPerM: number } | null {
  const layout = layOut(input);
  if (layout?.keyBox == null || input.corner === undefined) return null;
  return { box: { ...layout.keyBox, height: input.corner.heightPx }, pxPerM: layout.fit.pxPerM };
}

/** Draws the plan of a room, fitted to its box. An outline of fewer than three corners gives an empty drawing. */
export function planDrawing(input: PlanInput): PlanDrawing {
  const { widthPx: width, heightPx: height } = input;
  const layout = layOut(input);
  if (!layout) return { width, height, marks: [], fit: null };
  const { fit, keyBox } = layout;
  const ring = ringOnSheet(fit, input.plan.outline);
  const holes = input.plan.holes.map((h) => ({ hole: h, ring: ringOnSheet(fit, h.corners) }));
  const room: Rings = [ring, ...holes.map((h) => h.ring)];
  const openings = openingsOnSheet(fit, input.plan);
  const sheet = startSheet({ x: 2, y: 2, width: width - 4, height: height - 4 });
  if (keyBox) reserve(sheet, uprightBox(keyBox));
  reserveRings(sheet, [...room, ...(input.pour?.isPourMode === true ? [] : [offsetRing(ring, WALL_PX)])]);
  if (input.hasPerimeterStrip === true) reserveRings(sheet, [offsetRing(ring, -STRIP_PX)]);
  for (const area of input.areas ?? []) reserveRings(sheet, [ringOnSheet(fit, area.corners)]);
  const floorMarks = floorMarkMarks(input.floorMarks ?? [], fit);
  for (const mark of floorMarks) reservePaths(sheet, mark);

  // Labels come first, because lines and dots keep clear of them.
  const outside: Mark[] = [];
  const names = nameMarks(input, room, sheet);
  const cut = sectionLetters(input, fit, openings, sheet);
  outside.push(...cut.marks);
  outside.push(...openingLabels(input, openings, sheet, [ring]));
  if (input.hasDimensions !== false) outside.push(...dimensionMarks(input, fit, ring, sheet));

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
    floor.push(groupMark('tint', '', tintMarks(depthField, contours, fit, room, { bands, everyM: input.contours.everyM })));
    floor.push(
      groupMark('stipple', 'New floor, denser dots where deeper', [
        floorDots(depthField, fit, room, { clear: sheet.taken, without: grind }, range.most),
      ]),
    );
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
        input.grindNote ?? 'grind first',
        grindMarks(
          grind,
          sheet.taken.filter((b) => isBoxIn(b, room)),
        ),
      ),
    );
  if (input.pour) floor.push(...laneMarks(input.pour, fit, room, sheet));
  floor.push(...floorMarks);
  const cutLine = cut.line ? sectionLine(cut.line, sheet.taken) : [];

  const walls: Mark[] = [
    ...holes.map(({ hole, ring: r }) => holeMarks(hole.id, hole.name === '' ? hole.kind : hole.name, r, 'stone')),
    ...wallMarks(ring, openings, {
      wallPx: WALL_PX,
      beyondPx: 22,
      hatchBeyond: input.hatchBeyond ?? (() => null),
      edges: input.shows !== 'cure' && input.shows !== 'read' && input.pour?.isPourMode !== true,
      isLine: input.pour?.isPourMode === true,
    }),
    ...(input.hasPerimeterStrip === true ? [perimeterStrip(ring, openings)] : []),
  ];
  const leader = grind.length > 0 && input.grindNote !== undefined ? leaderMarks('grind', input.grindNote, grind, room, sheet) : [];
  const hatched = grind.length > 0 && leader.length === 0 ? (input.grindNote ?? null) : null;
  const key = keyBox ? planKey(input, keyBox, fit, depthField ? fieldRange(depthField, fit, room).most : null, hatched) : [];
  return {
    width,
    height,
    marks: [...floor, ...walls, ...cutLine, ...spots, ...notes, ...names, ...outside, ...leader, ...key],
    fit,
  };
}

function visible(contours: readonly Contour[]): Contour[] {
  return contours.filter((c) => c.valueM > 1e-9);
}

/** Pour depth over the grid; null while floor or level is missing. */
function depthOf(input: PlanInput): FloorField | null {
  const { floor, newFloor } = input;
  if (!floor || newFloor === null || newFloor === undefined) return null;
  const cap = input.grindToM ?? Infinity;
  return typeof newFloor === 'number'
    ? mapField(floor, (h) => newFloor - Math.min(h, cap))
    : mapField(floor, (h, xM, yM) => newFloor(xM, yM) - Math.min(h, cap));
}

/** The area above the height to grind to. */
function ground(floor: FloorField, capM: number, fit: PlanFit, room: Rings): number[][] {
  const lines = linesOnSheet(floor, capM, fit, room);
  const capped = mapField(floor, (h) => h - capM);
  const range = fieldRange(capped, fit, room);
  if (range.most <= 0) return [];
  return regionReaching(lines, room, () => range.least >= 0);
}

/** Below this width the key is narrow, to fit beside an upright plan; wider drawings have it so where a wide one would cost more. */
const PHONE_PX = 480;
/** The least share of its area that a plan keeps for a wide key. */
const KEPT_SHARE = 0.75;

/** A plan turns upright only when that makes it larger by at least this factor. */
const TURNS_FROM = 1.15;

/** Scale and position of the plan; it gets smaller when its notch has no room for title and key. */
function layOut(input: PlanInput): { fit: PlanFit; keyBox: Box | null } | null {
  const dims = input.hasDimensions !== false;
  const m = {
    left: input.marginPx?.left ?? (dims ? 62 : WALL_PX + 3),
    top: input.marginPx?.top ?? (input.openingWords || dims ? 56 : WALL_PX + 3),
    right: input.marginPx?.right ?? (dims ? 62 : WALL_PX + 3),
    bottom: input.marginPx?.bottom ?? (dims ? 76 : WALL_PX + 3),
  };
  const whole: Box = { x: m.left, y: m.top, width: input.widthPx - m.left - m.right, height: input.heightPx - m.top - m.bottom };
  const wantsKey = (input.title !== null && input.title !== undefined) || input.hasKey === true || input.corner !== undefined;
  const levelFit = fitPlan(input.plan.outline, whole, wantsKey ? 'start' : 'middle');
  if (!levelFit) return null;
  const uprightFit = input.mayTurn === true ? fitPlan(input.plan.outline, whole, wantsKey ? 'start' : 'middle', true) : null;
  const fit = uprightFit !== null && uprightFit.pxPerM > TURNS_FROM * levelFit.pxPerM ? uprightFit : levelFit;
  if (!wantsKey) return { fit, keyBox: null };
  const sheet: Box = { x: 8, y: 8, width: input.widthPx - 16, height: input.heightPx - 16 };
  // The notch is usable up to a dimension's width from the walls.
  const clearPx = dims ? 52 : 24;
  const fitBeside = (widthPx: number): { fit: PlanFit; keyBox: Box; size: number } | undefined => {
    const needs = { width: widthPx, height: keyHeightPx(input, widthPx) };
    const abovePx = needs.height + Math.max(0, clearPx + sheet.y - m.top);
    const belowPx = needs.height + Math.max(0, clearPx + sheet.y - m.bottom);
    return [
      whole,
      { ...whole, width: whole.width - needs.width - 10 },
      { ...whole, height: whole.height - belowPx },
      { ...whole, y: whole.y + abovePx, height: whole.height - abovePx },
    ]
      .flatMap((box) => {
        const boxFit = fitPlan(input.plan.outline, box, 'start', fit.isUpright);
        if (!boxFit) return [];
        const ring = ringOnSheet(boxFit, input.plan.outline);
        const b = boundsOf([ring]);
        const cover = coverBoxes([ring], clearPx).map((o) => (dims ? { ...o, x: o.x - 12, width: o.width + 24 } : o));
        const empty = largestEmpty(sheet, cover, needs.width, needs.height);
        if (!empty) return [];
        // A key alone under the plan stands at the foot, so that dimensions have their room.
        const isUnder = empty.y >= b.y + b.height && input.corner === undefined && !input.title;
        const height = isUnder ? Math.min(empty.height, needs.height + HATCH_PX) : empty.height;
        const keyBox = { ...empty, y: empty.y + empty.height - height, height };
        return [{ fit: boxFit, keyBox, size: b.width * b.height }];
      })
      .sort((a, b) => b.size - a.size)[0];
  };
  const freeBox = boundsOf([ringOnSheet(fit, input.plan.outline)]);
  const wide =
    input.corner === undefined && input.widthPx < PHONE_PX
      ? undefined
      : fitBeside(input.corner?.widthPx ?? Math.min(330, input.widthPx * 0.5));
  const keepsSize = (wide?.size ?? 0) >= KEPT_SHARE * freeBox.width * freeBox.height;
  const narrow = keepsSize || input.corner !== undefined ? undefined : fitBeside(NARROW_KEY_PX);
  const best = (narrow?.size ?? 0) > (wide?.size ?? 0) ? narrow : wide;
  return best ? { fit: best.fit, keyBox: best.keyBox } : { fit, keyBox: null };
}

/** The name with its dates at the room's roomiest point, the name alone where that is too small, or beside the room where neither fits. */
function nameMarks(input: PlanInput, room: Rings, sheet: LabelSheet): Mark[] {
  const lines = input.names ?? [];
  const [name] = lines;
  if (name === undefined) return [];
  const place = roomiestPoint(room, (x, y) => isInside(x, y, room));
  const { width, height } = boundsOf(room);
  const cut = cutNames(name, [Math.max(width, height), Math.min(width, height), 2 * place.clear]).map((shown) => [
    shown,
    ...lines.slice(1),
  ]);
  const blocks = (lines.length > 1 ? [lines, ...cut, [name]] : [lines, ...cut]).flatMap((shown) =>
    [0, -90].map((turnDeg) => {
      const rad = (turnDeg * Math.PI) / 180;
      return shown.map((text, i): Lettering => {
        const offsetPx = 5 - ((shown.length - 1) * 20) / 2 + i * 20;
        const [x, y] = [place.x - Math.sin(rad) * offsetPx, place.y + Math.cos(rad) * offsetPx];
        return { x, y, text, anchor: 'middle', turnDeg, ...(i === 0 ? { face: SANS_BOLD } : {}) };
      });
    }),
  );
  return placeBlock(sheet, blocks, (box) => isBoxIn(box, room)) ?? leaderMarks('name', name, room, room, sheet);
}

/** A note outside the room, with a leader that ends in a dot on the area; nothing where no leader fits. */
function leaderMarks(id: string, note: string, area: Rings, room: Rings, sheet: LabelSheet): Mark[] {
  const spot = leaderSpot(area, sheet);
  const cover = coverBoxes(room, WALL_PX + 6).map((b) => uprightBox(b, -1));
  const open: LabelSheet = { ...sheet, taken: [...sheet.taken, ...cover] };
  const o = sheet.bounds;
  let best: { x: number; y: number; anchor: 'start' | 'end'; cost: number; elbow: number[] } | null = null;
  for (let y = o.y + 18; y < o.y + o.height - 6; y += 12) {
    for (const side of [1, -1]) {
      for (let dx = 14; dx < 260; dx += 30) {
        const x = spot.x + side * dx;
        const cost = Math.abs(y - spot.y) + dx;
        if (best !== null && cost >= best.cost) break;
        const anchor = side > 0 ? 'start' : 'end';
        const elbow = [spot.x, spot.y, spot.x, y - 5, x - side * 5, y - 5];
        if (isFree(open, textBox(x, y, note, { anchor, air: 4 })) && isLeaderFree(sheet, elbow)) best = { x, y, anchor, cost, elbow };
      }
    }
  }
  if (!best) return [];
  reserve(sheet, textBox(best.x, best.y, note, { anchor: best.anchor, air: 4 }));
  reserveLeader(sheet, best.elbow);
  return [
    groupMark(`note:${id}`, note, [
      lineMark(best.elbow, { pen: 'thin' }),
      { kind: 'stipple', xy: [spot.x, spot.y], sizePx: 6, ink: 'ink' },
      textMark(best.x, best.y, note, { anchor: best.anchor }),
    ]),
  ];
}

/** A point in the area clear of every label, preferring its top right, where the notes are. */
function leaderSpot(area: Rings, sheet: LabelSheet): { x: number; y: number } {
  const b = boundsOf(area);
  const free = roomiestPoint(
    area,
    (x, y) => x > b.x + b.width / 2 && y < b.y + b.height / 2 && isInside(x, y, area) && !sheet.taken.some((t) => isInBox(x, y, t, 5)),
    16,
  );
  return free.clear > 0 ? free : roomiestPoint(area, (x, y) => isInside(x, y, area), 14);
}
