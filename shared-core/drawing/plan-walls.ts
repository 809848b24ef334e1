/** Walls of a room's plan: the outline to scale, a hatched band around it, openings cut out with their dam or feather edge. */
import type { Point } from '../book/fields.ts';
import type { Opening, Plan } from '../book/plan-fields.ts';
import { isDammed } from '../plan/dammed-openings.ts';
import { boundsOf, ringArea, type Box, type Rings } from './ring-clip.ts';
import { groupMark, hatchMark, lineMark, pathMark } from './ink.ts';
import type { Hatch, Mark } from './marks.ts';
import { damBar, featherWedges } from './shapes.ts';

/** Converts meters to drawing units and back: x = left + xM · scale. For a plan turned a quarter clockwise, x = left − yM · scale. */
export interface PlanFit {
  readonly leftPx: number;
  readonly topPx: number;
  readonly pxPerM: number;
  readonly isUpright?: boolean;
}

/** A point of the room on the drawing. */
export function toSheet(fit: PlanFit, p: Point): [number, number] {
  const [x, y] = fit.isUpright === true ? [-p.yM, p.xM] : [p.xM, p.yM];
  return [fit.leftPx + x * fit.pxPerM, fit.topPx + y * fit.pxPerM];
}

/** A point of the drawing in the room, for a click on the plan. */
export function toRoom(fit: PlanFit, x: number, y: number): Point {
  const [u, v] = [(x - fit.leftPx) / fit.pxPerM, (y - fit.topPx) / fit.pxPerM];
  return fit.isUpright === true ? { xM: v, yM: -u } : { xM: u, yM: v };
}

/** A ring of the room on the drawing. */
export function ringOnSheet(fit: PlanFit, points: readonly Point[]): number[] {
  return points.flatMap((p) => toSheet(fit, p));
}

/** The scale and offset that fit the outline into a box, centered by default; null for an outline without area. */
export function fitPlan(outline: readonly Point[], into: Box, align: 'middle' | 'start' = 'middle', isUpright = false): PlanFit | null {
  if (outline.length < 3 || into.width <= 0 || into.height <= 0) return null;
  const b = boundsOf([outline.flatMap((p) => (isUpright ? [-p.yM, p.xM] : [p.xM, p.yM]))]);
  if (!(b.width > 0 && b.height > 0)) return null;
  const pxPerM = Math.min(into.width / b.width, into.height / b.height);
  const spareX = align === 'middle' ? (into.width - b.width * pxPerM) / 2 : 0;
  const spareY = align === 'middle' ? (into.height - b.height * pxPerM) / 2 : 0;
  return { leftPx: into.x + spareX - b.x * pxPerM, topPx: into.y + spareY - b.y * pxPerM, pxPerM, ...(isUpright ? { isUpright } : {}) };
}

/** The ring offset outward by a distance (inward when negative), with mitered corners; very sharp corners are cut back. */
export function offsetRing(ring: readonly number[], by: number): number[] {
  const n = ring.length / 2;
  const sign = ringArea(ring) > 0 ? 1 : -1;
  const out: number[] = [];
  const corner = (i: number): [number, number] => {
    const k = (((i % n) + n) % n) * 2;
    return [ring[k] ?? 0, ring[k + 1] ?? 0];
  };
  for (let i = 0; i < n; i += 1) {
    const [px, py] = corner(i - 1);
    const [x, y] = corner(i);
    const [qx, qy] = corner(i + 1);
    const a = Math.hypot(x - px, y - py) || 1;
    const b = Math.hypot(qx - x, qy - y) || 1;
    // Outward normals of the two edges: to the left of a clockwise walk on the drawing.
    const n1x = (sign * (y - py)) / a;
    const n1y = (-sign * (x - px)) / a;
    const n2x = (sign * (qy - y)) / b;
    const n2y = (-sign * (qx - x)) / b;
    const sx = n1x + n2x;
    const sy = n1y + n2y;
    const l2 = sx * sx + sy * sy;
    const reach = l2 < 0.3 ? by : (2 * by) / l2;
    out.push(x + sx * reach, y + sy * reach);
  }
  return out;
}

/** An opening on the drawing. */
export interface OpeningOnSheet {
  readonly opening: Opening;
  /** Its two ends on the inner wall face. */
  readonly x0: number;
  readonly y0: number;
  readonly x1: number;
  readonly y1: number;
  /** Unit vector pointing out of the room. */
  readonly nx: number;
  readonly ny: number;
}

/** Openings on existing walls, trimmed to the ends of the wall. */
export function openingsOnSheet(fit: PlanFit, plan: Pick<Plan, 'outline' | 'openings'>): OpeningOnSheet[] {
  const ring = ringOnSheet(fit, plan.outline);
  const sign = ringArea(ring) > 0 ? 1 : -1;
  const n = plan.outline.length;
  return plan.openings.flatMap((opening) => {
    if (opening.wall >= n) return [];
    const i = opening.wall * 2;
    const j = ((opening.wall + 1) % n) * 2;
    const ax = ring[i] ?? 0;
    const ay = ring[i + 1] ?? 0;
    const dx = (ring[j] ?? 0) - ax;
    const dy = (ring[j + 1] ?? 0) - ay;
    const d = Math.hypot(dx, dy);
    if (d === 0) return [];
    const from = Math.min(d, opening.fromM * fit.pxPerM) / d;
    const to = Math.min(d, (opening.fromM + opening.widthM) * fit.pxPerM) / d;
    if (to <= from) return [];
    return [
      { opening, x0: ax + dx * from, y0: ay + dy * from, x1: ax + dx * to, y1: ay + dy * to, nx: (sign * dy) / d, ny: (-sign * dx) / d },
    ];
  });
}

function band(o: OpeningOnSheet, from: number, to: number): number[] {
  return [
    o.x0 + o.nx * from,
    o.y0 + o.ny * from,
    o.x1 + o.nx * from,
    o.y1 + o.ny * from,
    o.x1 + o.nx * to,
    o.y1 + o.ny * to,
    o.x0 + o.nx * to,
    o.y0 + o.ny * to,
  ];
}

/** Hatch of the floor beyond an opening; null to draw none. */
export type OpeningHatch = (opening: Opening) => Hatch | null;

/** Walls with their openings, as a hatched band or as one line. */
export function wallMarks(
  ring: readonly number[],
  openings: readonly OpeningOnSheet[],
  options: {
    readonly wallPx: number;
    readonly beyondPx: number;
    readonly hatchBeyond: OpeningHatch;
    readonly edges: boolean;
    /** Pour mode: one heavy line without hatch. */
    readonly isLine?: boolean;
  },
): Mark[] {
  const outer = offsetRing(ring, options.wallPx);
  if (options.isLine === true) {
    return [
      ...facePieces(ring, openings, 0).map((xy) => lineMark(xy, { pen: 'pour' })),
      ...openings.map((o) =>
        groupMark(`opening:${o.opening.id}`, o.opening.name, [lineMark([o.x0, o.y0, o.x1, o.y1], { pen: 'seen', dash: 'not-yet' })]),
      ),
    ];
  }
  const marks: Mark[] = [
    hatchMark([outer, ring, ...openings.map((o) => band(o, 0, options.wallPx))], 'wall'),
    ...facePieces(outer, openings, options.wallPx).map((xy) => lineMark(xy, { pen: 'witness' })),
    ...facePieces(ring, openings, 0).map((xy) => lineMark(xy, { pen: 'cut' })),
  ];
  for (const o of openings) {
    const parts: Mark[] = [];
    const hatch = options.hatchBeyond(o.opening);
    if (hatch && options.beyondPx > 0)
      parts.push(hatchMark([band(o, o.opening.edge === 'feather' ? options.wallPx : 6, options.wallPx + options.beyondPx)], hatch));
    parts.push(
      pathMark(
        [
          [o.x0, o.y0, o.x0 + o.nx * options.wallPx, o.y0 + o.ny * options.wallPx],
          [o.x1, o.y1, o.x1 + o.nx * options.wallPx, o.y1 + o.ny * options.wallPx],
        ],
        false,
        { pen: 'seen' },
      ),
    );
    if (options.edges && isDammed(o.opening))
      parts.push(damBar(o.x0 + o.nx * 2.5, o.y0 + o.ny * 2.5, o.x1 + o.nx * 2.5, o.y1 + o.ny * 2.5, 5.5));
    if (options.edges && !isDammed(o.opening))
      parts.push(lineMark([o.x0, o.y0, o.x1, o.y1], { pen: 'thin' }), featherWedges(o, options.wallPx - 3));
    if (!options.edges) parts.push(lineMark([o.x0, o.y0, o.x1, o.y1], { pen: 'thin', dash: 'not-yet' }));
    const word = { dam: 'dam', feather: 'feathered', stop: 'stop' }[o.opening.edge];
    marks.push(groupMark(`opening:${o.opening.id}`, `${o.opening.name}: ${word}`, parts));
  }
  return marks;
}

/** The ring's line with the openings left out. */
function facePieces(ring: readonly number[], openings: readonly OpeningOnSheet[], out: number): number[][] {
  const n = ring.length / 2;
  const pieces: number[][] = [];
  let current: number[] | null = null;
  for (let i = 0; i < n; i += 1) {
    const ax = ring[2 * i] ?? 0;
    const ay = ring[2 * i + 1] ?? 0;
    const bx = ring[(2 * i + 2) % ring.length] ?? 0;
    const by = ring[(2 * i + 3) % ring.length] ?? 0;
    const d2 = (bx - ax) ** 2 + (by - ay) ** 2 || 1;
    const share = (x: number, y: number): number => ((x - ax) * (bx - ax) + (y - ay) * (by - ay)) / d2;
    const gaps = openings
      .filter((o) => o.opening.wall === i)
      .map((o) => [share(o.x0 + o.nx * out, o.y0 + o.ny * out), share(o.x1 + o.nx * out, o.y1 + o.ny * out)] as const)
      .sort((p, q) => p[0] - q[0]);
    let t = 0;
    const add = (from: number, to: number): void => {
      if (to - from < 1e-9) return;
      if (current === null) {
        current = [ax + (bx - ax) * from, ay + (by - ay) * from];
        pieces.push(current);
      }
      current.push(ax + (bx - ax) * to, ay + (by - ay) * to);
    };
    for (const [g0, g1] of gaps) {
      add(t, Math.max(t, g0));
      current = null;
      t = Math.max(t, g1);
    }
    add(t, 1);
  }
  const first = pieces[0];
  const last = pieces[pieces.length - 1];
  // A walk that begins in the middle of a wall without a gap must be closed, so that its first corner is mitered too.
  // oxlint-disable-next-line typescript/no-unnecessary-condition -- changed within the calls above
  if (first && last && current !== null) {
    if (pieces.length === 1) first.push(first[2] ?? 0, first[3] ?? 0);
    else if (Math.hypot((first[0] ?? 0) - (last[last.length - 2] ?? 0), (first[1] ?? 0) - (last[last.length - 1] ?? 0)) < 1e-6) {
      pieces[0] = [...last, ...first.slice(2)];
      pieces.pop();
    }
  }
  return pieces;
}

/** How many bands cover a room with a slanted wall. */
const BANDS = 24;

/** Upright boxes that cover the rings in bands, so that titles and notes avoid them. */
export function coverBoxes(rings: Rings, margin: number): Box[] {
  const outer = rings[0];
  if (!outer) return [];
  const b = boundsOf([outer]);
  const ys = new Set<number>([b.y, b.y + b.height]);
  for (let i = 1; i < outer.length; i += 2) ys.add(outer[i] ?? 0);
  if (!isUpright(outer)) for (let k = 1; k < BANDS; k += 1) ys.add(b.y + (b.height * k) / BANDS);
  const sorted = [...ys].sort((p, q) => p - q);
  const boxes: Box[] = [];
  for (let k = 0; k + 1 < sorted.length; k += 1) {
    const y0 = sorted[k] ?? 0;
    const y1 = sorted[k + 1] ?? 0;
    if (y1 - y0 < 1e-6) continue;
    // Spans of the outline in the band: crossings at its middle, widened by those at both its edges.
    const spans = [y0 + 1e-6, (y0 + y1) / 2, y1 - 1e-6].flatMap((y) => spansAt(outer, y));
    for (const [x0, x1] of merged(spans))
      boxes.push({ x: x0 - margin, y: y0 - margin, width: x1 - x0 + 2 * margin, height: y1 - y0 + 2 * margin });
  }
  return boxes;
}

function isUpright(ring: readonly number[]): boolean {
  for (let i = 0; i < ring.length; i += 2) {
    const dx = Math.abs((ring[(i + 2) % ring.length] ?? 0) - (ring[i] ?? 0));
    const dy = Math.abs((ring[(i + 3) % ring.length] ?? 0) - (ring[i + 1] ?? 0));
    if (dx > 0.01 && dy > 0.01) return false;
  }
  return true;
}

function spansAt(ring: readonly number[], y: number): [number, number][] {
  const cuts: number[] = [];
  const n = ring.length;
  for (let i = 0, j = n - 2; i < n; j = i, i += 2) {
    const yi = ring[i + 1] ?? 0;
    const yj = ring[j + 1] ?? 0;
    if (yi > y !== yj > y) cuts.push((ring[j] ?? 0) + ((y - yj) / (yi - yj)) * ((ring[i] ?? 0) - (ring[j] ?? 0)));
  }
  cuts.sort((p, q) => p - q);
  const out: [number, number][] = [];
  for (let c = 0; c + 1 < cuts.length; c += 2) out.push([cuts[c] ?? 0, cuts[c + 1] ?? 0]);
  return out;
}

function merged(spans: [number, number][]): [number, number][] {
  const out: [number, number][] = [];
  for (const [a, b] of [...spans].sort((p, q) => p[0] - q[0])) {
    const last = out[out.length - 1];
    if (last && a <= last[1]) last[1] = Math.max(last[1], b);
    else out.push([a, b]);
  }
  return out;
}

/** Distance from the wall to the isolation strip, px. */
export const STRIP_PX = 5;

/** Perimeter isolation strip along the inner face of the walls, dashed, left out at openings. */
export function perimeterStrip(ring: readonly number[], openings: readonly OpeningOnSheet[]): Mark {
  const inner = offsetRing(ring, -STRIP_PX);
  return pathMark(facePieces(inner, openings, -STRIP_PX), false, { pen: 'thin', dash: 'not-yet' });
}

/** A cutout of the floor: heavy outline, hatched by its kind. */
export function holeMarks(id: string, label: string, ring: readonly number[], hatch: Hatch): Mark {
  return groupMark(`hole:${id}`, label, [hatchMark([ring], hatch), pathMark([ring], true, { pen: 'cut' })]);
}
