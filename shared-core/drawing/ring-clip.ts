/** Clips lines to areas. Areas are rings of x, y, x, y, …, even-odd: a ring within a ring is a hole. Exact for straight edges. */

/** Rings of an area, each closed without repeating its first corner. */
export type Rings = readonly (readonly number[])[];

/** An upright rectangle in drawing units. */
export interface Box {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}

function coordinate(xy: readonly number[], i: number): number {
  return xy[i] ?? 0;
}

/** The smallest upright rectangle around the rings; an empty one at 0, 0 when there are none. */
export function boundsOf(rings: Rings): Box {
  let x0 = Infinity;
  let y0 = Infinity;
  let x1 = -Infinity;
  let y1 = -Infinity;
  for (const ring of rings) {
    for (let i = 0; i + 1 < ring.length; i += 2) {
      x0 = Math.min(x0, coordinate(ring, i));
      x1 = Math.max(x1, coordinate(ring, i));
      y0 = Math.min(y0, coordinate(ring, i + 1));
      y1 = Math.max(y1, coordinate(ring, i + 1));
    }
  }
  return x1 < x0 ? { x: 0, y: 0, width: 0, height: 0 } : { x: x0, y: y0, width: x1 - x0, height: y1 - y0 };
}

/** The signed area of a ring, positive when it turns clockwise on the drawing (y down). */
export function ringArea(ring: readonly number[]): number {
  let sum = 0;
  const n = ring.length;
  for (let i = 0; i < n; i += 2) {
    sum += coordinate(ring, i) * coordinate(ring, (i + 3) % n) - coordinate(ring, (i + 2) % n) * coordinate(ring, i + 1);
  }
  return sum / 2;
}

/** True when the point is inside the area. */
export function isInside(x: number, y: number, rings: Rings): boolean {
  let inside = false;
  for (const ring of rings) {
    const n = ring.length;
    for (let i = 0, j = n - 2; i < n; j = i, i += 2) {
      const yi = coordinate(ring, i + 1);
      const yj = coordinate(ring, j + 1);
      if (yi > y !== yj > y && x < ((coordinate(ring, j) - coordinate(ring, i)) * (y - yi)) / (yj - yi) + coordinate(ring, i))
        inside = !inside;
    }
  }
  return inside;
}

/** A place on an edge of the rings: the ring's index, the edge's number plus the position along it from 0 to 1, and how far off it is. */
export interface EdgePlace {
  readonly ring: number;
  readonly along: number;
  readonly offPx: number;
}

/** The place on an edge of the rings that is nearest to a point. */
export function nearestOnEdge(x: number, y: number, rings: Rings): EdgePlace {
  let [ring, along, offPx] = [0, 0, Infinity];
  for (const [r, xy] of rings.entries()) {
    const n = xy.length;
    for (let i = 0; i < n; i += 2) {
      const ax = coordinate(xy, i);
      const ay = coordinate(xy, i + 1);
      const dx = coordinate(xy, (i + 2) % n) - ax;
      const dy = coordinate(xy, (i + 3) % n) - ay;
      const length2 = dx * dx + dy * dy;
      const t = length2 === 0 ? 0 : Math.max(0, Math.min(1, ((x - ax) * dx + (y - ay) * dy) / length2));
      const off = Math.hypot(x - ax - t * dx, y - ay - t * dy);
      if (off < offPx) [ring, along, offPx] = [r, i / 2 + t, off];
    }
  }
  return { ring, along, offPx };
}

/** The shortest distance from a point to any edge of the rings. */
export const distanceToEdge = (x: number, y: number, rings: Rings): number => nearestOnEdge(x, y, rings).offPx;

/** Where a segment crosses edges of the rings, as fractions of its length, in order. */
function crossings(ax: number, ay: number, bx: number, by: number, rings: Rings): number[] {
  const dx = bx - ax;
  const dy = by - ay;
  const fractions: number[] = [];
  for (const ring of rings) {
    const n = ring.length;
    for (let i = 0, j = n - 2; i < n; j = i, i += 2) {
      // The side of each corner against the segment's line; half-open, so that a corner on the line counts once.
      const sj = dx * (coordinate(ring, j + 1) - ay) - dy * (coordinate(ring, j) - ax);
      const si = dx * (coordinate(ring, i + 1) - ay) - dy * (coordinate(ring, i) - ax);
      if (sj > 0 === si > 0) continue;
      const u = sj / (sj - si);
      const px = coordinate(ring, j) + u * (coordinate(ring, i) - coordinate(ring, j));
      const py = coordinate(ring, j + 1) + u * (coordinate(ring, i + 1) - coordinate(ring, j + 1));
      const t = Math.abs(dx) > Math.abs(dy) ? (px - ax) / dx : (py - ay) / dy;
      if (t > 0 && t < 1) fractions.push(t);
    }
  }
  return fractions.sort((p, q) => p - q);
}

/** The parts of an open polyline inside the area (or outside it), as polylines. */
export function clipPolyline(xy: readonly number[], rings: Rings, side: 'inside' | 'outside' = 'inside'): number[][] {
  const out: number[][] = [];
  let current: number[] | null = null;
  for (let i = 0; i + 3 < xy.length; i += 2) {
    const ax = coordinate(xy, i);
    const ay = coordinate(xy, i + 1);
    const bx = coordinate(xy, i + 2);
    const by = coordinate(xy, i + 3);
    if (ax === bx && ay === by) continue;
    const stops = [0, ...crossings(ax, ay, bx, by, rings), 1];
    for (let k = 0; k + 1 < stops.length; k += 1) {
      const t0 = stops[k] ?? 0;
      const t1 = stops[k + 1] ?? 1;
      if (t1 - t0 < 1e-12) continue;
      const tm = (t0 + t1) / 2;
      const x0 = ax + (bx - ax) * t0;
      const y0 = ay + (by - ay) * t0;
      const x1 = ax + (bx - ax) * t1;
      const y1 = ay + (by - ay) * t1;
      if (isInside(ax + (bx - ax) * tm, ay + (by - ay) * tm, rings) === (side === 'inside')) {
        if (current === null) {
          current = [x0, y0];
          out.push(current);
        }
        current.push(x1, y1);
      } else current = null;
    }
  }
  return out;
}

/**
 * Parallel lines across the area, cut to it. `angle` in radians, clockwise on the drawing from x.
 * Line offsets are multiples of the spacing from the drawing's origin plus `phase`, so that adjacent areas match.
 */
export function lineFamily(rings: Rings, angle: number, spacing: number, phase = 0): number[][] {
  const cos = Math.cos(angle);
  const sin = Math.sin(angle);
  // Rotated so that the lines are level: u along a line, v across the lines.
  const turned = rings.map((ring) => {
    const out: number[] = [];
    for (let i = 0; i + 1 < ring.length; i += 2) {
      const x = coordinate(ring, i);
      const y = coordinate(ring, i + 1);
      out.push(x * cos + y * sin, y * cos - x * sin);
    }
    return out;
  });
  const box = boundsOf(turned);
  const lines: number[][] = [];
  const first = Math.ceil((box.y - phase) / spacing);
  const last = Math.floor((box.y + box.height - phase) / spacing);
  for (let k = first; k <= last; k += 1) {
    const v = k * spacing + phase;
    const cuts: number[] = [];
    for (const ring of turned) {
      const n = ring.length;
      for (let i = 0, j = n - 2; i < n; j = i, i += 2) {
        const vi = coordinate(ring, i + 1);
        const vj = coordinate(ring, j + 1);
        if (vi > v === vj > v) continue;
        cuts.push(coordinate(ring, j) + ((v - vj) / (vi - vj)) * (coordinate(ring, i) - coordinate(ring, j)));
      }
    }
    cuts.sort((p, q) => p - q);
    for (let c = 0; c + 1 < cuts.length; c += 2) {
      const u0 = coordinate(cuts, c);
      const u1 = coordinate(cuts, c + 1);
      if (u1 - u0 > 1e-9) lines.push([u0 * cos - v * sin, u0 * sin + v * cos, u1 * cos - v * sin, u1 * sin + v * cos]);
    }
  }
  return lines;
}

/** The corners of a line or a ring in the other order. */
export function reversed(xy: readonly number[]): number[] {
  const out: number[] = [];
  for (let i = xy.length - 2; i >= 0; i -= 2) out.push(coordinate(xy, i), coordinate(xy, i + 1));
  return out;
}

/** A ring as a line that ends where it begins. */
export const closedLine = (ring: readonly number[]): number[] => [...ring, coordinate(ring, 0), coordinate(ring, 1)];

/** A rectangle as a ring. */
export function boxRing(box: Box): number[] {
  return [box.x, box.y, box.x + box.width, box.y, box.x + box.width, box.y + box.height, box.x, box.y + box.height];
}
