/**
 * The surface cut to the room: signed triangles that add up to the floor exactly, each with linear height. A cell that no
 * wall crosses is kept or dropped whole; the others are clipped to the walls and fanned into triangles. Fan triangles may
 * overlap with opposite signs where the room has alcoves: sums over them are exact, but they are not used for drawing.
 */
import { profilesAlong } from './profile.ts';
import { type RoomRings, isOnFloor } from './room-rings.ts';
import { type Surface, heightAt } from './surface.ts';
import { real, whole } from './typed-reads.ts';

export type Mosaic = {
  readonly count: number;
  /** Signed area of triangle k, square meters. */
  readonly areaM2: Float64Array;
  /** Corners as x, y, z, three per triangle, in meters. */
  readonly xyz: Float64Array;
  /** The surface cell of each triangle. */
  readonly cell: Uint32Array;
  /** Whether a wall crosses cell k (1), it is all floor (2), or none of it is floor (0). */
  readonly cellKind: Uint8Array;
  readonly areaTotalM2: number;
  readonly extrapolatedM2: number;
  /** Every point of the floor where height or depth can be highest or lowest: spots, corners, creases at walls. x, y, z. */
  readonly extremes: Float64Array;
  /** The floor along every wall, piece by piece in the order of the rings: x, y, z of its start and end. */
  readonly alongWalls: Float64Array;
};

/** Cuts a surface to a room. */
export function mosaicOf(surface: Surface, room: RoomRings): Mosaic {
  const cells = surface.cellStart.length - 1;
  const cellKind = touchedCells(surface, room);
  const xyz: number[] = [];
  const areas: number[] = [];
  const cellOf: number[] = [];
  let areaTotalM2 = 0;
  let extrapolatedM2 = 0;
  /** Adds the triangle of a clipped cell's first corner and its side from `i`. */
  const add = (cell: number, { x, y }: TaggedRing, i: number): void => {
    const [ax, ay] = [x[0] ?? 0, y[0] ?? 0];
    const [bx, by] = [x[i] ?? 0, y[i] ?? 0];
    const [cx, cy] = [x[i + 1] ?? 0, y[i + 1] ?? 0];
    const area = ((bx - ax) * (cy - ay) - (by - ay) * (cx - ax)) / 2;
    if (area === 0) return;
    xyz.push(ax, ay, heightInCellM(surface, cell, ax, ay), bx, by, heightInCellM(surface, cell, bx, by));
    xyz.push(cx, cy, heightInCellM(surface, cell, cx, cy));
    areas.push(area);
    cellOf.push(cell);
    areaTotalM2 += area;
    if (cell >= surface.triangleCount) extrapolatedM2 += area;
  };
  const work = new CellClipper(surface);
  for (let cell = 0; cell < cells; cell += 1) {
    const kind = cellKind[cell] ?? 0;
    if (kind === 0) continue;
    if (kind === 2) {
      const from = whole(surface.cellStart, cell);
      const [a, b, c] = [whole(surface.cellCorners, from), whole(surface.cellCorners, from + 1), whole(surface.cellCorners, from + 2)];
      const { xM, yM, zM } = surface;
      const area =
        ((real(xM, b) - real(xM, a)) * (real(yM, c) - real(yM, a)) - (real(yM, b) - real(yM, a)) * (real(xM, c) - real(xM, a))) / 2;
      xyz.push(real(xM, a), real(yM, a), real(zM, a), real(xM, b), real(yM, b), real(zM, b), real(xM, c), real(yM, c), real(zM, c));
      areas.push(area);
      cellOf.push(cell);
      areaTotalM2 += area;
      continue;
    }
    for (const ring of room.rings) {
      const piece = work.clip(cell, ring);
      for (let i = 1; i + 1 < piece.size; i += 1) add(cell, piece, i);
    }
  }
  return {
    count: areas.length,
    areaM2: Float64Array.from(areas),
    xyz: Float64Array.from(xyz),
    cell: Uint32Array.from(cellOf),
    cellKind,
    areaTotalM2,
    extrapolatedM2,
    extremes: extremePoints(surface, room),
    alongWalls: floorAlongWalls(surface, room),
  };
}

function floorAlongWalls(surface: Surface, room: RoomRings): Float64Array {
  const pieces: number[] = [];
  for (const ring of room.rings) {
    for (let i = 0; i < ring.length; i += 2) {
      const j = (i + 2) % ring.length;
      const from = { xM: real(ring, i), yM: real(ring, i + 1) };
      const to = { xM: real(ring, j), yM: real(ring, j + 1) };
      for (const profile of profilesAlong(surface, room, from, to)) {
        for (let k = 0; k + 1 < profile.length; k += 1) {
          const [a, b] = [profile[k], profile[k + 1]];
          if (a && b) pieces.push(a.xM, a.yM, a.zM, b.xM, b.yM, b.zM);
        }
      }
    }
  }
  return Float64Array.from(pieces);
}

/** Height over a cell, kept within the heights of its spots: in a thin triangle the slope alone would amplify rounding. */
export function heightInCellM(surface: Surface, cell: number, xM: number, yM: number): number {
  const p = surface.cellPlane;
  const z = real(p, 5 * cell + 2) + real(p, 5 * cell + 3) * (xM - real(p, 5 * cell)) + real(p, 5 * cell + 4) * (yM - real(p, 5 * cell + 1));
  const za = real(surface.zM, whole(surface.cellSpots, 3 * cell));
  const zb = real(surface.zM, whole(surface.cellSpots, 3 * cell + 1));
  const zc = real(surface.zM, whole(surface.cellSpots, 3 * cell + 2));
  return Math.min(Math.max(z, Math.min(za, zb, zc)), Math.max(za, zb, zc));
}

/** Tag of an edge made by a cell's own side; walls have tags from 0 up. */
export const CELL_SIDE = -1;

/** Clips a ring of walls to one cell after another, reusing its buffers. */
export class CellClipper {
  private front: TaggedRing = emptyRing();
  private back: TaggedRing = emptyRing();
  private readonly surface: Surface;

  constructor(surface: Surface) {
    this.surface = surface;
  }

  /** The part of the ring inside the cell; valid until the next call. */
  clip(cell: number, ring: Float64Array): TaggedRing {
    const { surface } = this;
    this.front.size = 0;
    for (let i = 0; i < ring.length; i += 2) pushCorner(this.front, real(ring, i), real(ring, i + 1), i / 2);
    const from = whole(surface.cellStart, cell);
    const to = whole(surface.cellStart, cell + 1);
    for (let k = from; k < to && this.front.size > 0; k += 1) {
      const a = whole(surface.cellCorners, k);
      const b = whole(surface.cellCorners, k + 1 < to ? k + 1 : from);
      // Always written from the lower index to the higher, so that two cells cut along the same line to the last digit.
      const low = Math.min(a, b);
      const high = Math.max(a, b);
      const dx = real(surface.xM, high) - real(surface.xM, low);
      const dy = real(surface.yM, high) - real(surface.yM, low);
      const turn = a < b ? 1 : -1;
      const c = dy * real(surface.xM, low) - dx * real(surface.yM, low);
      cutRing(this.front, { a: -dy * turn, b: dx * turn, c: c * turn }, this.back);
      const swap = this.front;
      this.front = this.back;
      this.back = swap;
    }
    return this.front;
  }
}

function touchedCells(surface: Surface, room: RoomRings): Uint8Array {
  const cells = surface.cellStart.length - 1;
  const kind = new Uint8Array(cells).fill(1, surface.triangleCount);
  const { xM, yM, triangles } = surface;
  for (let t = 0; t < surface.triangleCount; t += 1) {
    const a = whole(triangles, 3 * t);
    const b = whole(triangles, 3 * t + 1);
    const c = whole(triangles, 3 * t + 2);
    const touches = wallTouches(surface, room, a, b, c);
    const middleX = (real(xM, a) + real(xM, b) + real(xM, c)) / 3;
    kind[t] = touches ? 1 : isOnFloor(room, middleX, (real(yM, a) + real(yM, b) + real(yM, c)) / 3) ? 2 : 0;
  }
  return kind;
}

/** Whether a wall crosses the triangle of three spots. */
function wallTouches({ xM, yM }: Surface, room: RoomRings, a: number, b: number, c: number): boolean {
  const ax = real(xM, a);
  const ay = real(yM, a);
  const bx = real(xM, b);
  const by = real(yM, b);
  const cx = real(xM, c);
  const cy = real(yM, c);
  const left = Math.min(ax, bx, cx);
  const right = Math.max(ax, bx, cx);
  const top = Math.min(ay, by, cy);
  const bottom = Math.max(ay, by, cy);
  for (const ring of room.rings) {
    let px = real(ring, ring.length - 2);
    let py = real(ring, ring.length - 1);
    for (let i = 0; i < ring.length; i += 2) {
      const qx = real(ring, i);
      const qy = real(ring, i + 1);
      const isOutsideBox = (px < left && qx < left) || (px > right && qx > right) || (py < top && qy < top) || (py > bottom && qy > bottom);
      if (!isOutsideBox) {
        const da = (qx - px) * (ay - py) - (qy - py) * (ax - px);
        const db = (qx - px) * (by - py) - (qy - py) * (bx - px);
        const dc = (qx - px) * (cy - py) - (qy - py) * (cx - px);
        if (!((da > 0 && db > 0 && dc > 0) || (da < 0 && db < 0 && dc < 0))) return true;
      }
      px = qx;
      py = qy;
    }
  }
  return false;
}

function extremePoints(surface: Surface, room: RoomRings): Float64Array {
  const points: number[] = [];
  const { xM, yM, zM, creases } = surface;
  // Every reading in use counts, including one that rounding puts slightly outside a slanted wall.
  for (let i = 0; i < surface.spotCount; i += 1) points.push(real(xM, i), real(yM, i), real(zM, i));
  for (const ring of room.rings) {
    let px = real(ring, ring.length - 2);
    let py = real(ring, ring.length - 1);
    for (let i = 0; i < ring.length; i += 2) {
      const qx = real(ring, i);
      const qy = real(ring, i + 1);
      points.push(qx, qy, heightAt(surface, qx, qy).zM);
      const wx = qx - px;
      const wy = qy - py;
      for (let k = 0; k < creases.length; k += 2) {
        const a = whole(creases, k);
        const b = whole(creases, k + 1);
        const ax = real(xM, a);
        const ay = real(yM, a);
        const bx = real(xM, b);
        const by = real(yM, b);
        const da = wx * (ay - py) - wy * (ax - px);
        const db = wx * (by - py) - wy * (bx - px);
        if (da > 0 === db > 0 && da !== 0 && db !== 0) continue;
        const ex = bx - ax;
        const ey = by - ay;
        const dp = ex * (py - ay) - ey * (px - ax);
        const dq = ex * (qy - ay) - ey * (qx - ax);
        if (dp > 0 === dq > 0 && dp !== 0 && dq !== 0) continue;
        if (da === db) {
          // The crease is along the wall, so only its ends on the wall count.
          if (da !== 0) continue;
          for (const end of [a, b]) {
            const s = ((real(xM, end) - px) * wx + (real(yM, end) - py) * wy) / (wx * wx + wy * wy);
            if (s >= 0 && s <= 1) points.push(real(xM, end), real(yM, end), real(zM, end));
          }
          continue;
        }
        const s = da / (da - db);
        points.push(ax + s * ex, ay + s * ey, real(zM, a) + s * (real(zM, b) - real(zM, a)));
      }
      px = qx;
      py = qy;
    }
  }
  return Float64Array.from(points);
}

/** A ring being cut: corners, and for the edge that starts at each corner a tag for its origin. */
type TaggedRing = { x: number[]; y: number[]; tag: number[]; size: number };

/** An empty ring to cut into. */
function emptyRing(): TaggedRing {
  return { x: [], y: [], tag: [], size: 0 };
}

/** Adds a corner; `tag` belongs to the edge that leaves it. */
function pushCorner(ring: TaggedRing, x: number, y: number, tag: number): void {
  ring.x[ring.size] = x;
  ring.y[ring.size] = y;
  ring.tag[ring.size] = tag;
  ring.size += 1;
}

/**
 * Keeps the part of `ring` where a·x + b·y + c ≥ 0 and writes it to `into`; new edges along the line are sides of the cell (Sutherland and
 * Hodgman, "Reentrant polygon clipping", Communications of the ACM 17(1), 1974). A ring with alcoves may return with zero-width bridges
 * along the line; they enclose nothing, so every integral over the result is exact.
 */
function cutRing(ring: TaggedRing, { a, b, c }: { readonly a: number; readonly b: number; readonly c: number }, into: TaggedRing): void {
  into.size = 0;
  if (ring.size === 0) return;
  const { x, y, tag, size } = ring;
  let px = x[size - 1] ?? 0;
  let py = y[size - 1] ?? 0;
  let pTag = tag[size - 1] ?? 0;
  let pd = a * px + b * py + c;
  for (let i = 0; i < size; i += 1) {
    const qx = x[i] ?? 0;
    const qy = y[i] ?? 0;
    const qTag = tag[i] ?? 0;
    const qd = a * qx + b * qy + c;
    if (pd >= 0 !== qd >= 0) {
      const s = pd / (pd - qd);
      // The edge p→q keeps its tag when it enters; when it leaves, the next edge runs along the line.
      pushCorner(into, px + s * (qx - px), py + s * (qy - py), qd >= 0 ? pTag : CELL_SIDE);
    }
    if (qd >= 0) pushCorner(into, qx, qy, qTag);
    px = qx;
    py = qy;
    pTag = qTag;
    pd = qd;
  }
}
