/**
 * The area with readings: the triangles between readings, without the thin ones along the edge. Readings along a wall are
 * never on one line to the millimeter; the hull then connects distant readings past those between, and the thin triangle
 * behind it would show a lip that does not exist.
 */
import type { Surface } from './surface.ts';
import { real, signed, whole } from './typed-reads.ts';

/** A triangle at the edge is thin when its depth is less than this share of its outer side (common practice). */
export const THIN_SHARE = 0.25;

/** Sides of the region as pairs of spot indices; the hull's own when removing thin triangles would leave nothing. */
export function readRegionSides(surface: Surface): Uint32Array {
  const { triangles, halfedges, triangleCount } = surface;
  const removed = new Uint8Array(triangleCount);
  const open: number[] = [];
  for (let edge = 0; edge < triangles.length; edge += 1) if (signed(halfedges, edge) < 0) open.push(edge);
  const hull = sidesOf(surface, open);
  const sides: number[] = [];
  let remaining = triangleCount;
  for (let edge = open.pop(); edge !== undefined; edge = open.pop()) {
    const t = Math.floor(edge / 3);
    if (removed[t]) continue;
    if (!isThin(surface, edge)) {
      sides.push(edge);
      continue;
    }
    removed[t] = 1;
    remaining -= 1;
    for (const other of [3 * t + ((edge + 1) % 3), 3 * t + ((edge + 2) % 3)]) {
      const twin = signed(halfedges, other);
      if (twin >= 0 && !removed[Math.floor(twin / 3)]) open.push(twin);
    }
  }
  // A side added early may have lost its triangle to a later cut.
  const remainingSides = sides.filter((edge) => !removed[Math.floor(edge / 3)]);
  return remaining === 0 ? hull : sidesOf(surface, remainingSides);
}

function sidesOf(surface: Surface, edges: readonly number[]): Uint32Array {
  return Uint32Array.from(edges.flatMap((edge) => [whole(surface.triangles, edge), whole(surface.triangles, nextOf(edge))]));
}

const nextOf = (edge: number): number => (edge % 3 === 2 ? edge - 2 : edge + 1);

function isThin(surface: Surface, edge: number): boolean {
  const { xM, yM, triangles } = surface;
  const a = whole(triangles, edge);
  const b = whole(triangles, nextOf(edge));
  const c = whole(triangles, nextOf(nextOf(edge)));
  const ex = real(xM, b) - real(xM, a);
  const ey = real(yM, b) - real(yM, a);
  const twice = Math.abs(ex * (real(yM, c) - real(yM, a)) - ey * (real(xM, c) - real(xM, a)));
  return twice < THIN_SHARE * (ex * ex + ey * ey);
}
