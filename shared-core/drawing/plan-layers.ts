/** Prep, pour and cure layers of the plan: floor areas, floor marks, numbered notes, lanes and batches. */
import type { Point } from '../book/fields.ts';
import type { Mark as FloorMark } from '../book/plan-fields.ts';
import { numberBeside, placeWithin } from './batch-numbers.ts';
import { boundsOf, closedLine, isInside, ringArea, type Rings } from './ring-clip.ts';
import { circleRing, groupMark, hatchMark, lineMark, pathMark, ringMark, runsMarks, stippleMark, textMark, type Inking } from './ink.ts';
import { boxCorners, breakAtBoxes, isFree, isInBox, reserve, reserveRings, textBox, type LabelSheet, type TurnedBox } from './labels.ts';
import type { Hatch, Mark } from './marks.ts';
import { isBoxIn } from './plan-floor.ts';
import { ringOnSheet, toSheet, type PlanFit } from './plan-walls.ts';
import { roomiestPoint } from './region-reaching.ts';
import {
  figureMarks,
  laneNumbers,
  placeWatched,
  watchMarks,
  wayMarks,
  type EdgeFigure,
  type JoinWatched,
  type LaneWay,
} from './pour-edges.ts';
import { damBar } from './shapes.ts';
import { stippleDots } from './stipple.ts';
import { SANS_BOLD, textWidthPx } from './type-metrics.ts';

/** An area of the floor with its hatch; `dashed` for an area to be removed, `edge` is thin by default. */
export interface PlanArea {
  readonly id: string;
  readonly label: string;
  readonly corners: readonly Point[];
  readonly hatch: Hatch | null;
  readonly isDashed: boolean;
}

/** A note on the plan near a place: its words and a bold figure, which is the line's number on the sign-off list. */
export interface PlanNote {
  readonly id: string;
  readonly figure: string;
  readonly text: string;
  readonly point: Point;
  /** The area it is about: it stands inside, or is left out. */
  readonly within?: readonly Point[];
  /** At an opening it has its place first, and may stand outside the room. */
  readonly isAtOpening?: boolean;
}

/** A batch's piece of floor. */
export interface PlanBatch {
  readonly id: string;
  readonly text: string;
  readonly corners: readonly Point[];
  readonly state: 'placed' | 'next' | 'ahead' | 'suspect' | 'taken-out';
  /** Gap between the dots of a placed batch: wide when old, narrow when fresh. */
  readonly gapPx: number;
}

/** The pour on the plan. */
export interface PlanPour {
  readonly lanes: readonly { readonly id: string; readonly corners: readonly Point[]; readonly text: string }[];
  readonly batches: readonly PlanBatch[];
  /** Wet edges, as polylines. */
  readonly wetEdges: readonly (readonly Point[])[];
  /** Dammed joints across the room. */
  readonly joints?: readonly { readonly id: string; readonly from: Point; readonly to: Point }[];
  /** The fill direction of each lane, the age of each edge when the next batch meets it, and joins to watch; undefined for none. */
  readonly ways?: readonly LaneWay[];
  readonly figures?: readonly EdgeFigure[];
  readonly watched?: readonly JoinWatched[];
  /** Draw with pour mode's pens. */
  readonly isPourMode: boolean;
  /** Font size of the numbers; null for the default. */
  readonly letteringPx?: number;
}

/** Reserves a mark's lines and outlines, so that no label covers them. */
export function reservePaths(sheet: LabelSheet, mark: Mark): void {
  if (mark.kind === 'group') for (const inner of mark.marks) reservePaths(sheet, inner);
  if (mark.kind === 'path')
    for (const { xy, closed } of mark.rings) {
      if (closed) reserveRings(sheet, [xy]);
      else sheet.lines.push(xy);
    }
}

/** Floor areas, hatched. */
export function areaMarks(areas: readonly PlanArea[], fit: PlanFit): Mark[] {
  return areas.map((area) => {
    const ring = ringOnSheet(fit, area.corners);
    const marks: Mark[] = area.hatch ? [hatchMark([ring], area.hatch)] : [];
    marks.push(ringMark(ring, area.isDashed ? { pen: 'thin', dash: 'ground-off' } : { pen: 'witness' }));
    return groupMark(`area:${area.id}`, area.label, marks);
  });
}

/** Cracks, joints, gaps, hollow spots and other floor marks. */
export function floorMarkMarks(marks: readonly FloorMark[], fit: PlanFit): Mark[] {
  return marks.map((m) => {
    const xy = m.points.flatMap((p) => toSheet(fit, p));
    const label = m.note === '' ? m.kind : `${m.kind}: ${m.note}`;
    const drawn: Mark[] = [];
    if (m.shape === 'spot') {
      const [x = 0, y = 0] = xy;
      if (m.kind === 'pipe' || m.kind === 'drain')
        drawn.push(
          ringMark(circleRing(x, y, 6), { pen: 'seen', fill: 'paper' }),
          ringMark(circleRing(x, y, 2), { pen: null, fill: 'ink' }),
        );
      else drawn.push(hatchMark([circleRing(x, y, 9)], 'grind'), ringMark(circleRing(x, y, 9), { pen: 'thin', dash: 'not-yet' }));
    } else if (m.shape === 'area' && xy.length >= 6) {
      if (m.kind === 'contaminated' || m.kind === 'loose') drawn.push(hatchMark([xy], 'grind'));
      drawn.push(ringMark(xy, { pen: m.kind === 'hollow' ? 'seen' : 'thin', dash: m.kind === 'hollow' ? 'not-yet' : 'ground-off' }));
    } else if (m.kind === 'crack') drawn.push(lineMark(cracked(xy), { pen: 'seen' }));
    else if (m.kind === 'gap') drawn.push(lineMark(xy, { pen: 'cut' }));
    else if (m.kind === 'joint') drawn.push(lineMark(xy, { pen: 'seen', dash: m.moves === 'moving' ? 'not-yet' : null }));
    else drawn.push(lineMark(xy, { pen: 'thin', dash: 'dots' }));
    return groupMark(`mark:${m.id}`, label, drawn);
  });
}

/** A crack: short legs that zigzag around the line, always the same way. */
function cracked(xy: readonly number[]): number[] {
  const legEnds: number[] = [xy[0] ?? 0, xy[1] ?? 0];
  for (let i = 0; i + 3 < xy.length; i += 2) {
    const ax = xy[i] ?? 0;
    const ay = xy[i + 1] ?? 0;
    const dx = (xy[i + 2] ?? 0) - ax;
    const dy = (xy[i + 3] ?? 0) - ay;
    const d = Math.hypot(dx, dy);
    const legs = Math.max(1, Math.round(d / 9));
    for (let k = 1; k < legs; k += 1) {
      const t = (k + 0.22 * Math.sin(k * 12.9898 + i)) / legs;
      const off = 2.6 * Math.sin(k * 78.233 + i * 3.1) + (k % 2 === 0 ? 1.2 : -1.2);
      legEnds.push(ax + dx * t - (dy / d) * off, ay + dy * t + (dx / d) * off);
    }
    legEnds.push(ax + dx, ay + dy);
  }
  return legEnds;
}

/** Steps across an area between the places tried for its note. */
const IN_AREA = 32;

/** The most between a note and its point, px. */
const REACH_PX = 28;

/** Left ends and baselines for a note, the nearest first: in its area or around its point. */
function placesOf(note: PlanNote, [x, y]: readonly [number, number], width: number, fit: PlanFit): { x: number; y: number }[] {
  if (note.within !== undefined) {
    const b = boundsOf([ringOnSheet(fit, note.within)]);
    const steps = (lengthPx: number): number[] => Array.from({ length: IN_AREA }, (_, k) => (lengthPx * k) / IN_AREA);
    return steps(b.height)
      .flatMap((dy) => steps(b.width).map((dx) => ({ x: b.x + dx, y: b.y + dy })))
      .sort((p, q) => Math.hypot(p.x + width / 2 - x, p.y - 5 - y) - Math.hypot(q.x + width / 2 - x, q.y - 5 - y));
  }
  return [0, 1, 2].flatMap((step) =>
    [
      // Beyond the wall, on the line of the opening's name.
      ...(note.isAtOpening === true
        ? [-10 - width, -width / 2, 10].flatMap((dx) => [
            [dx, 30],
            [dx, -22],
          ])
        : []),
      [10, 5],
      [-10 - width, 5],
      [-width / 2, -10],
      [-width / 2, 22],
      [10, -10],
      [10, 22],
      [-10 - width, -10],
      [-10 - width, 22],
    ].map(([dx = 0, dy = 0]) => ({ x: x + dx + Math.sign(dx) * step * 14, y: y + dy + Math.sign(dy - 5) * step * 12 })),
  );
}

/**
 * Numbered notes where they are true: in their area, or nearer to their own point than to that of another note, and outside the room
 * only at an opening. Those at openings come first. Without room for its words a note is its figure, and without room for that it
 * appears only in the list.
 */
export function noteMarks(notes: readonly PlanNote[], fit: PlanFit, room: Rings, sheet: LabelSheet): Mark[] {
  const points = notes.map((n) => toSheet(fit, n.point));
  return notes
    .toSorted((a, b) => Number(b.isAtOpening ?? false) - Number(a.isAtOpening ?? false))
    .flatMap((note) => {
      const point = toSheet(fit, note.point);
      const area = note.within === undefined ? room : [ringOnSheet(fit, note.within)];
      // A smaller area inside this one has a note of its own.
      const inside = notes
        .flatMap((other) => (note.within === undefined || other === note || !other.within ? [] : [ringOnSheet(fit, other.within)]))
        .filter((ring) => Math.abs(ringArea(ring)) < Math.abs(ringArea(area[0] ?? [])));
      const isTrue = (box: TurnedBox): boolean => {
        if (inside.some((ring) => isInside(box.x, box.y, [ring]))) return false;
        const offPx = ([x, y]: readonly [number, number]): number =>
          Math.hypot(Math.max(0, Math.abs(x - box.x) - box.halfWidth), Math.max(0, Math.abs(y - box.y) - box.halfHeight));
        const mostPx = Math.min(REACH_PX, ...points.map((other) => offPx(other) + 0.5));
        if (note.within === undefined && offPx(point) > mostPx) return false;
        if (isBoxIn(box, room) && isBoxIn(box, area)) return true;
        const corners = boxCorners(box);
        return note.isAtOpening === true && corners.every((_, i) => i % 2 === 1 || !isInside(corners[i] ?? 0, corners[i + 1] ?? 0, room));
      };
      for (const text of new Set([note.text, ''])) {
        const words = text === '' ? note.figure : `${note.figure} ${text}`;
        const width = textWidthPx(words, 15, SANS_BOLD);
        const boxAt = (at: { x: number; y: number }): TurnedBox =>
          textBox(at.x, at.y, words, { face: SANS_BOLD, air: text === '' ? 0 : 2 });
        const place = placesOf(note, point, width, fit).find((at) => isTrue(boxAt(at)) && isFree(sheet, boxAt(at)));
        if (place === undefined) continue;
        reserve(sheet, boxAt(place));
        const figure = { text: text === '' ? words : `${note.figure} `, face: SANS_BOLD };
        const parts = runsMarks(place.x, place.y, text === '' ? [figure] : [figure, { text }], { clear: 'paper' });
        return [groupMark(`note:${note.id}`, words, parts)];
      }
      return [];
    });
}

/** Lanes in their order, batches by state, and wet edges with teeth. */
export function laneMarks(pour: PlanPour, fit: PlanFit, room: Rings, sheet: LabelSheet): Mark[] {
  const marks: Mark[] = [];
  const size = pour.letteringPx ?? (pour.isPourMode ? 22 : 15);
  const lanes = pour.lanes.map((s) => ({ ...s, ring: ringOnSheet(fit, s.corners) }));
  const batches = pour.batches.map((b) => ({ ...b, ring: ringOnSheet(fit, b.corners) }));
  const texts: Mark[] = [];
  const teeth = pour.wetEdges.map((edge) =>
    toothed(
      edge.flatMap((p) => toSheet(fit, p)),
      pour.isPourMode ? 7 : 4,
    ),
  );
  const dams = (pour.joints ?? []).map((joint) => {
    const [x0, y0] = toSheet(fit, joint.from);
    const [x1, y1] = toSheet(fit, joint.to);
    return groupMark(`joint:${joint.id}`, 'dammed joint', [damBar(x0, y0, x1, y1)]);
  });
  sheet.lines.push(...teeth);
  for (const dam of dams) reservePaths(sheet, dam);
  const takenBefore = sheet.taken.length;
  const ways = wayMarks(pour.ways ?? [], fit, sheet);
  const letters = placeWatched(pour.watched ?? [], fit, sheet);
  const figures = figureMarks(pour.figures ?? [], fit, room, sheet);
  const rings = lanes.map(({ ring }) => ring);
  const laneTexts = laneNumbers(pour.ways ?? [], fit, rings, sheet);
  const watched = watchMarks(letters, sheet);
  // The age of an edge is written in a gap of the edge, as a dimension's length is. Lines give way to arrows and lane numbers too.
  const onEdges = sheet.taken.slice(takenBefore);
  const outline = (ring: readonly number[], inking: Inking): Mark =>
    onEdges.length === 0 ? ringMark(ring, inking) : pathMark(breakAtBoxes(closedLine(ring), onEdges), false, inking);
  const besideRoom: (() => Mark[])[] = [];
  const number = (ring: readonly number[], text: string, isStrong: boolean, isFaint: boolean): TurnedBox | null => {
    if (text === '') return null;
    const look = { anchor: 'middle' as const, ink: isStrong ? ('chalk' as const) : isFaint ? ('ink2' as const) : ('ink' as const) };
    const face = isStrong ? { face: SANS_BOLD } : {};
    // The next batch's number is as large as its stretch of floor allows.
    for (const sizePx of isStrong ? [size * 1.9, size * 1.4, size, 15] : [size, 15]) {
      const setting = { ...look, ...face, sizePx };
      const placed = placeWithin(ring, text, setting, room, sheet);
      if (placed === null) continue;
      const air = sizePx > size ? (pour.isPourMode ? 8 : 3) : 1;
      const box = { ...placed.box, halfWidth: placed.box.halfWidth + air, halfHeight: placed.box.halfHeight + air };
      reserve(sheet, box);
      texts.push(textMark(placed.x, placed.y, text, { ...setting, turnDeg: placed.turnDeg }));
      return box;
    }
    besideRoom.push(() => numberBeside(ring, text, { ...look, ...face, sizePx: size, ink: isStrong ? 'chalk' : 'ink' }, room, sheet));
    return null;
  };
  const laneName = (ring: readonly number[], text: string): void => {
    if (text === '') return;
    const roomiest = roomiestPoint([ring], (x, y) => isInside(x, y, [ring]) && isInside(x, y, room), 16);
    const bounds = boundsOf([ring]);
    const turnDeg = textWidthPx(text, size) > bounds.width - 6 && bounds.height > bounds.width ? -90 : 0;
    const setting = { anchor: 'middle' as const, sizePx: size, turnDeg };
    const x = roomiest.x + (turnDeg === 0 ? 0 : size * 0.34);
    const y = roomiest.y + (turnDeg === 0 ? size * 0.34 : 0);
    const box = textBox(x, y, text, { ...setting, air: pour.isPourMode ? 4 : 3 });
    if (!isFree(sheet, box) || !isBoxIn(box, [ring])) return;
    reserve(sheet, box);
    texts.push(textMark(x, y, text, { ...setting, ink: 'ink2' }));
  };
  for (const b of batches) {
    const box = number(b.ring, b.text, b.state === 'next', b.state === 'ahead');
    if (b.state === 'suspect' || b.state === 'taken-out') marks.push(hatchMark([b.ring], 'grind'));
    if (b.state === 'placed' || b.state === 'suspect') {
      const dots = stippleDots({
        rings: [b.ring],
        gapAt: () => b.gapPx,
        isKeptClear: (x, y) => (box !== null && isInBox(x, y, box)) || !isInside(x, y, room),
      });
      marks.push(
        groupMark(`batch:${b.id}`, `batch ${b.text}, placed`, [
          ringMark(b.ring, { pen: null, fill: 'd1' }),
          stippleMark(dots, 'dot', pour.isPourMode ? 2 : 1.5),
          outline(b.ring, { pen: 'witness', ink: 'line' }),
        ]),
      );
    } else if (b.state === 'next') {
      // A hole that extends beyond the batch would itself be hatched, because areas are even-odd.
      const holes = box && isBoxIn(box, [b.ring]) ? [boxCorners(box)] : [];
      marks.push(
        groupMark(`next-batch:${b.id}`, `batch ${b.text}, next`, [
          hatchMark([b.ring, ...holes], 'wide', 'chalk'),
          outline(b.ring, { pen: pour.isPourMode ? 'pour' : 'cut', ink: 'chalk' }),
        ]),
      );
    } else
      marks.push(
        groupMark(
          `batch:${b.id}`,
          `batch ${b.text}`,
          pour.isPourMode ? [] : [outline(b.ring, { pen: 'witness', ink: 'line', dash: 'not-yet' })],
        ),
      );
  }
  for (const s of lanes) {
    const isOpen = !batches.some((b) => isInside(...middle(b.ring), [s.ring]));
    if (isOpen && pour.ways === undefined) laneName(s.ring, s.text);
    marks.push(groupMark(`lane:${s.id}`, s.text, [outline(s.ring, { pen: 'thin', ink: 'line', dash: isOpen ? 'not-yet' : null })]));
  }
  marks.push(...dams);
  // The next batch is drawn over its neighbors' lines.
  marks.sort((p, q) => rank(p) - rank(q));
  if (teeth.length > 0)
    marks.push(groupMark('wet-edge', 'the wet edge', [pathMark(teeth, false, { pen: pour.isPourMode ? 'pour' : 'cut' })]));
  // Numbers beside the room come last, after every number that fits inside has its place.
  const numbersOutside = besideRoom.flatMap((place) => place());
  return [...marks, ...ways, ...laneTexts, ...texts, ...numbersOutside, ...figures, ...watched];
}

function rank(mark: Mark): number {
  if (mark.kind !== 'group') return 0;
  return mark.name.startsWith('joint') ? 4 : mark.label.endsWith(', next') ? 3 : mark.name.startsWith('lane') ? 2 : 1;
}

function middle(ring: readonly number[]): [number, number] {
  const b = boundsOf([ring]);
  return [b.x + b.width / 2, b.y + b.height / 2];
}

/** A line with teeth, for a wet edge. */
export function toothed(xy: readonly number[], tooth: number): number[] {
  const out: number[] = [xy[0] ?? 0, xy[1] ?? 0];
  for (let i = 0; i + 3 < xy.length; i += 2) {
    const ax = xy[i] ?? 0;
    const ay = xy[i + 1] ?? 0;
    const dx = (xy[i + 2] ?? 0) - ax;
    const dy = (xy[i + 3] ?? 0) - ay;
    const d = Math.hypot(dx, dy);
    if (d === 0) continue;
    const legs = Math.max(2, 2 * Math.round(d / (tooth * 2)));
    for (let k = 1; k <= legs; k += 1) {
      const off = k === legs ? 0 : k % 2 === 1 ? tooth * 0.55 : -tooth * 0.55;
      out.push(ax + (dx * k) / legs - (dy / d) * off, ay + (dy * k) / legs + (dx / d) * off);
    }
  }
  return out;
}

/** A floor already poured: evenly spaced dots that keep clear of names. */
export function cureMarks(room: Rings, gapPx: number, clear: readonly TurnedBox[]): Mark {
  return groupMark('stipple', 'poured', [
    stippleMark(stippleDots({ rings: room, gapAt: () => gapPx, isKeptClear: (x, y) => clear.some((b) => isInBox(x, y, b, 2)) })),
  ]);
}
