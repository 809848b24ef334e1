/**
 * Predicts each reading from the others: leaves it out, joins its neighbors by their Delaunay triangles, and takes their
 * height at its place. The difference separates a slip from a real bump and shows how uncertain the floor between readings
 * is.
 */
import type { Surface } from './surface.ts';
import { real, signed, whole } from './typed-reads.ts';

/** Neighbors of every spot: those of spot i from start[i] to start[i + 1]. */
export type Neighbors = { readonly start: Uint32Array; readonly of: Uint32Array; readonly onHull: Uint8Array };

/** Neighbors of each spot in the mesh. */
export function neighborsOf(surface: Surface): Neighbors {
  const { triangles, halfedges, spotCount } = surface;
  const degree = new Uint32Array(spotCount + 1);
  const each = (visit: (a: number, b: number) => void): void => {
    for (let edge = 0; edge < triangles.length; edge += 1) {
      if (signed(halfedges, edge) >= edge) continue;
      visit(whole(triangles, edge), whole(triangles, edge % 3 === 2 ? edge - 2 : edge + 1));
    }
  };
  each((a, b) => {
    degree[a + 1] = whole(degree, a + 1) + 1;
    degree[b + 1] = whole(degree, b + 1) + 1;
  });
  for (let i = 0; i < spotCount; i += 1) degree[i + 1] = whole(degree, i + 1) + whole(degree, i);
  const next = degree.slice();
  const neighborIds = new Uint32Array(whole(degree, spotCount));
  const put = (a: number, b: number): void => {
    const slot = whole(next, a);
    neighborIds[slot] = b;
    next[a] = slot + 1;
  };
  each((a, b) => {
    put(a, b);
    put(b, a);
  });
  const onHull = new Uint8Array(spotCount);
  for (const i of surface.hull) onHull[i] = 1;
  return { start: degree, of: neighborIds, onHull };
}

/** Height predicted at spot i from the spots in `ring`, meters; and whether it was outside all of them. */
export type Prediction = { readonly zM: number; readonly beyond: boolean };

/**
 * The triangle of `ring` around spot i whose circumcircle contains none of the others is the one the whole mesh would have
 * there without i. Where none contains i, the nearest point of the segments between them gives the height.
 */
export function predict(surface: Surface, i: number, ring: readonly number[]): Prediction {
  const { xM, yM, zM } = surface;
  const px = real(xM, i);
  const py = real(yM, i);
  const size = ring.length;
  let best = Number.NaN;
  let bestRadius = Number.POSITIVE_INFINITY;
  for (let r = 0; r < size; r += 1) {
    const a = ring[r] ?? 0;
    const ax = real(xM, a) - px;
    const ay = real(yM, a) - py;
    for (let s = r + 1; s < size; s += 1) {
      const b = ring[s] ?? 0;
      const bx = real(xM, b) - px;
      const by = real(yM, b) - py;
      const ab = ax * by - ay * bx;
      for (let t = s + 1; t < size; t += 1) {
        const c = ring[t] ?? 0;
        const cx = real(xM, c) - px;
        const cy = real(yM, c) - py;
        const bc = bx * cy - by * cx;
        const ca = cx * ay - cy * ax;
        if (!((ab >= 0 && bc >= 0 && ca >= 0) || (ab <= 0 && bc <= 0 && ca <= 0))) continue;
        const twice = ab + bc + ca;
        if (Math.abs(twice) < 1e-12) continue;
        // Of the triangles around a point, the Delaunay one has the lowest lift: the paraboloid's hull over the point.
        const lift = (bc * (ax * ax + ay * ay) + ca * (bx * bx + by * by) + ab * (cx * cx + cy * cy)) / twice;
        if (lift >= bestRadius) continue;
        bestRadius = lift;
        best = (bc * real(zM, a) + ca * real(zM, b) + ab * real(zM, c)) / twice;
      }
    }
  }
  if (Number.isFinite(best)) return { zM: best, beyond: false };
  let nearest = Number.POSITIVE_INFINITY;
  for (let r = 0; r < size; r += 1) {
    const a = ring[r] ?? 0;
    for (let s = r; s < size; s += 1) {
      const b = ring[s] ?? 0;
      const ex = real(xM, b) - real(xM, a);
      const ey = real(yM, b) - real(yM, a);
      const length2 = ex * ex + ey * ey;
      const k = length2 === 0 ? 0 : Math.min(1, Math.max(0, ((px - real(xM, a)) * ex + (py - real(yM, a)) * ey) / length2));
      const far = (px - real(xM, a) - k * ex) ** 2 + (py - real(yM, a) - k * ey) ** 2;
      if (far < nearest - 1e-15) {
        nearest = far;
        best = (1 - k) * real(zM, a) + k * real(zM, b);
      }
    }
  }
  return { zM: best, beyond: true };
}

/** Reading minus prediction for every spot, meters. */
export type Departures = { readonly departureM: Float64Array; readonly beyond: Uint8Array };

/** Maximum neighbors used, the nearest first, where a spot has very many. */
const MOST_NEIGHBORS = 14;

/** Departures of all spots from their neighbors; those in `leaveOut` do not count as neighbors. */
export function departuresOf(surface: Surface, neighbors: Neighbors): Departures {
  const departureM = new Float64Array(surface.spotCount);
  const beyond = new Uint8Array(surface.spotCount);
  for (let i = 0; i < surface.spotCount; i += 1) {
    const prediction = predict(surface, i, ringAround(surface, neighbors, i, NONE_LEFT_OUT));
    departureM[i] = real(surface.zM, i) - prediction.zM;
    beyond[i] = prediction.beyond ? 1 : 0;
  }
  return { departureM, beyond };
}

const NONE_LEFT_OUT: ReadonlySet<number> = new Set();

/** The spots around i: its neighbors, and in place of one that is left out, that one's own neighbors. */
export function ringAround(surface: Surface, neighbors: Neighbors, i: number, leaveOut: ReadonlySet<number>): number[] {
  const ring: number[] = [];
  const add = (j: number): void => {
    if (j !== i && !leaveOut.has(j) && !ring.includes(j)) ring.push(j);
  };
  for (let k = whole(neighbors.start, i); k < whole(neighbors.start, i + 1); k += 1) {
    const j = whole(neighbors.of, k);
    if (!leaveOut.has(j)) add(j);
    else for (let m = whole(neighbors.start, j); m < whole(neighbors.start, j + 1); m += 1) add(whole(neighbors.of, m));
  }
  if (ring.length <= MOST_NEIGHBORS) return ring;
  const far = (j: number): number => (real(surface.xM, j) - real(surface.xM, i)) ** 2 + (real(surface.yM, j) - real(surface.yM, i)) ** 2;
  return ring.sort((a, b) => far(a) - far(b)).slice(0, MOST_NEIGHBORS);
}
