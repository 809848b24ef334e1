/**
 * The floor between and beyond the readings: linear over the Delaunay triangles of the readings and, outside their hull, the
 * height of the nearest point of the hull. That extension is piecewise linear too: a strip on every hull edge (height varies
 * along the edge only) and a wedge on every hull corner (constant height), so one exact method covers all.
 */
import Delaunator from 'delaunator';
import type { Spot } from './heights.ts';
import { real, signed, whole } from './typed-reads.ts';

/** Convex cells that cover the plane around the room; the first `triangleCount` are between readings, the rest beyond. */
export type Surface = {
  /** Points: the spots first, then the far ends of the rays from the hull. Heights in meters. */
  readonly xM: Float64Array;
  readonly yM: Float64Array;
  readonly zM: Float64Array;
  readonly spotCount: number;
  readonly triangleCount: number;
  readonly triangles: Uint32Array;
  readonly halfedges: Int32Array;
  /** Hull as spot indices, with the readings on its left. */
  readonly hull: Uint32Array;
  /** Every crease once, as pairs of point indices: triangle sides and the rays beyond the hull. */
  readonly creases: Uint32Array;
  /** Corner indices of cell k from cellStart[k] to cellStart[k + 1], with the cell on their left. */
  readonly cellStart: Uint32Array;
  readonly cellCorners: Uint32Array;
  /** Height over cell k: z0 + gx·(x − x0) + gy·(y − y0), five numbers per cell. */
  readonly cellPlane: Float64Array;
  /** The three spots that determine the cell's height, as indices; repeated where a cell depends on fewer. */
  readonly cellSpots: Uint32Array;
};

const FEWEST_SIDES_STEP = Math.PI / 4;

/** A surface under construction: its points and cells. */
type Making = Record<'xs' | 'ys' | 'zs' | 'creases' | 'starts' | 'corners' | 'planes' | 'hung', number[]>;

/** The surface over spots, reaching at least `reachM` beyond their hull; null when they don't span an area. */
export function surfaceOver(spots: readonly Spot[], reachM: number): Surface | null {
  const count = spots.length;
  if (count < 3) return null;
  const coordinates = new Float64Array(count * 2);
  spots.forEach((spot, i) => {
    coordinates[2 * i] = spot.xM;
    coordinates[2 * i + 1] = spot.yM;
  });
  const mesh = new Delaunator(coordinates);
  const triangleCount = mesh.triangles.length / 3;
  if (triangleCount === 0) return null;
  const making: Making = {
    xs: spots.map((spot) => spot.xM),
    ys: spots.map((spot) => spot.yM),
    zs: spots.map((spot) => spot.zM),
    creases: [],
    starts: [0],
    corners: [],
    planes: [],
    hung: [],
  };
  addTriangles(making, mesh);
  const hull = leftHanded(mesh.hull, making.xs, making.ys);
  addReach(making, hull, reachM);
  return {
    xM: Float64Array.from(making.xs),
    yM: Float64Array.from(making.ys),
    zM: Float64Array.from(making.zs),
    spotCount: count,
    triangleCount,
    triangles: mesh.triangles,
    halfedges: mesh.halfedges,
    hull,
    creases: Uint32Array.from(making.creases),
    cellStart: Uint32Array.from(making.starts),
    cellCorners: Uint32Array.from(making.corners),
    cellPlane: Float64Array.from(making.planes),
    cellSpots: Uint32Array.from(making.hung),
  };
}

/** Between the spots: one plane per triangle. */
function addTriangles({ xs, ys, zs, creases, starts, corners, planes, hung }: Making, mesh: Delaunator<Float64Array>): void {
  for (let t = 0; t < mesh.triangles.length / 3; t += 1) {
    const a = whole(mesh.triangles, 3 * t);
    const b = whole(mesh.triangles, 3 * t + 1);
    const c = whole(mesh.triangles, 3 * t + 2);
    for (let side = 0; side < 3; side += 1) {
      const edge = 3 * t + side;
      const other = signed(mesh.halfedges, edge);
      if (other < edge) creases.push(whole(mesh.triangles, edge), whole(mesh.triangles, 3 * t + ((side + 1) % 3)));
    }
    const ux = (xs[b] ?? 0) - (xs[a] ?? 0);
    const uy = (ys[b] ?? 0) - (ys[a] ?? 0);
    const vx = (xs[c] ?? 0) - (xs[a] ?? 0);
    const vy = (ys[c] ?? 0) - (ys[a] ?? 0);
    const du = (zs[b] ?? 0) - (zs[a] ?? 0);
    const dv = (zs[c] ?? 0) - (zs[a] ?? 0);
    const twice = ux * vy - uy * vx;
    const flat = twice === 0;
    planes.push(xs[a] ?? 0, ys[a] ?? 0, zs[a] ?? 0, flat ? 0 : (du * vy - dv * uy) / twice, flat ? 0 : (dv * ux - du * vx) / twice);
    if (twice >= 0) corners.push(a, b, c);
    else corners.push(a, c, b);
    starts.push(corners.length);
    hung.push(a, b, c);
  }
}

/** Beyond the hull: along every side a strip with the side's heights, around every corner a fan with the corner's height. */
function addReach(making: Making, hull: Uint32Array, reachM: number): void {
  const { xs, ys, zs, creases, starts, corners, planes, hung } = making;
  const size = hull.length;
  const outward: { nx: number; ny: number; length: number }[] = [];
  for (let k = 0; k < size; k += 1) {
    const a = whole(hull, k);
    const b = whole(hull, (k + 1) % size);
    const ex = (xs[b] ?? 0) - (xs[a] ?? 0);
    const ey = (ys[b] ?? 0) - (ys[a] ?? 0);
    const length = Math.hypot(ex, ey);
    outward.push({ nx: ey / length, ny: -ex / length, length });
  }
  const rayStart: number[] = [];
  const rayEnd: number[] = [];
  for (let k = 0; k < size; k += 1) {
    const side = outward[k] ?? { nx: 0, ny: 0, length: 0 };
    const a = whole(hull, k);
    const b = whole(hull, (k + 1) % size);
    rayStart[k] = addPoint(making, (xs[a] ?? 0) + reachM * side.nx, (ys[a] ?? 0) + reachM * side.ny, zs[a] ?? 0);
    rayEnd[k] = addPoint(making, (xs[b] ?? 0) + reachM * side.nx, (ys[b] ?? 0) + reachM * side.ny, zs[b] ?? 0);
    // The far end is a crease too, so that a line leaving there gets the strip's height.
    creases.push(a, rayStart[k] ?? 0, b, rayEnd[k] ?? 0, rayStart[k] ?? 0, rayEnd[k] ?? 0);
    const slope = ((zs[b] ?? 0) - (zs[a] ?? 0)) / side.length;
    // Along the edge the unit vector is (−ny, nx).
    planes.push(xs[a] ?? 0, ys[a] ?? 0, zs[a] ?? 0, -side.ny * slope, side.nx * slope);
    corners.push(a, rayStart[k] ?? 0, rayEnd[k] ?? 0, b);
    starts.push(corners.length);
    hung.push(a, b, b);
  }
  for (let k = 0; k < size; k += 1) {
    const last = (k + size - 1) % size;
    const [before, after] = [outward[last], outward[k]];
    if (before && after) addFan(making, { v: whole(hull, k), before, after, from: rayEnd[last] ?? 0, to: rayStart[k] ?? 0, reachM });
  }
}

type Outward = { readonly nx: number; readonly ny: number };

/** Cells around corner `v` of the hull, from the end of one side's strip to the start of the next. */
function addFan(
  making: Making,
  { v, before, after, from: start, to: stop, reachM }: Record<'v' | 'from' | 'to' | 'reachM', number> & Record<'before' | 'after', Outward>,
): void {
  const { xs, ys, zs, starts, corners, planes, hung } = making;
  const turn = Math.atan2(before.nx * after.ny - before.ny * after.nx, before.nx * after.nx + before.ny * after.ny);
  if (!(turn > 1e-12)) return;
  const [x, y, z] = [xs[v] ?? 0, ys[v] ?? 0, zs[v] ?? 0];
  const steps = Math.ceil(turn / FEWEST_SIDES_STEP);
  const first = Math.atan2(before.ny, before.nx);
  const half = turn / steps / 2;
  let from = start;
  for (let step = 0; step < steps; step += 1) {
    const middle = first + (2 * step + 1) * half;
    const far = reachM / Math.cos(half);
    const tip = addPoint(making, x + far * Math.cos(middle), y + far * Math.sin(middle), z);
    const end = first + (2 * step + 2) * half;
    const to = step === steps - 1 ? stop : addPoint(making, x + reachM * Math.cos(end), y + reachM * Math.sin(end), z);
    corners.push(v, from, tip, to);
    starts.push(corners.length);
    planes.push(x, y, z, 0, 0);
    hung.push(v, v, v);
    from = to;
  }
}

function addPoint({ xs, ys, zs }: Making, x: number, y: number, z: number): number {
  xs.push(x);
  ys.push(y);
  zs.push(z);
  return xs.length - 1;
}

function leftHanded(hull: Uint32Array, xs: readonly number[], ys: readonly number[]): Uint32Array {
  let twice = 0;
  for (let k = 0; k < hull.length; k += 1) {
    const a = whole(hull, k);
    const b = whole(hull, (k + 1) % hull.length);
    twice += (xs[a] ?? 0) * (ys[b] ?? 0) - (xs[b] ?? 0) * (ys[a] ?? 0);
  }
  return twice >= 0 ? hull : hull.slice().reverse();
}

/** A height and whether it is extrapolated. */
export type HeightAt = { readonly zM: number; readonly extrapolated: boolean };

/** Heights of many places in a row, each searched from the place before. */
export function heightsAlong(surface: Surface): (xM: number, yM: number) => HeightAt {
  let last = 0;
  return (xM, yM) => {
    const t = triangleAt(surface, xM, yM, last);
    if (t >= 0) last = t;
    return heightIn(surface, t, xM, yM);
  };
}

/** The height of the surface anywhere: within the hull by its triangle, outside by the nearest point of the hull. */
export function heightAt(surface: Surface, xM: number, yM: number): HeightAt {
  return heightIn(surface, triangleAt(surface, xM, yM), xM, yM);
}

function heightIn(surface: Surface, t: number, xM: number, yM: number): HeightAt {
  if (t >= 0) return { zM: heightInTriangleM(surface, t, xM, yM), extrapolated: false };
  const { from, to, share, squaredM2 } = nearestOnHull(surface, xM, yM);
  return { zM: (1 - share) * real(surface.zM, from) + share * real(surface.zM, to), extrapolated: squaredM2 > 1e-18 };
}

/** The point of the hull nearest to a place: between two spots, by its share of the way, and its squared distance. */
export function nearestOnHull(surface: Surface, xM: number, yM: number): { from: number; to: number; share: number; squaredM2: number } {
  const { hull } = surface;
  const nearest = { from: 0, to: 0, share: 0, squaredM2: Number.POSITIVE_INFINITY };
  for (let k = 0; k < hull.length; k += 1) {
    const a = whole(hull, k);
    const b = whole(hull, (k + 1) % hull.length);
    const ax = real(surface.xM, a);
    const ay = real(surface.yM, a);
    const ex = real(surface.xM, b) - ax;
    const ey = real(surface.yM, b) - ay;
    const share = Math.min(1, Math.max(0, ((xM - ax) * ex + (yM - ay) * ey) / (ex * ex + ey * ey)));
    const squaredM2 = (xM - ax - share * ex) ** 2 + (yM - ay - share * ey) ** 2;
    if (squaredM2 < nearest.squaredM2) {
      nearest.from = a;
      nearest.to = b;
      nearest.share = share;
      nearest.squaredM2 = squaredM2;
    }
  }
  return nearest;
}

function heightInTriangleM(surface: Surface, t: number, xM: number, yM: number): number {
  const a = whole(surface.triangles, 3 * t);
  const b = whole(surface.triangles, 3 * t + 1);
  const c = whole(surface.triangles, 3 * t + 2);
  const wa = cross(surface, b, c, xM, yM);
  const wb = cross(surface, c, a, xM, yM);
  const wc = cross(surface, a, b, xM, yM);
  const sum = wa + wb + wc;
  if (sum === 0) return real(surface.zM, a);
  return (wa * real(surface.zM, a) + wb * real(surface.zM, b) + wc * real(surface.zM, c)) / sum;
}

function cross(surface: Surface, a: number, b: number, xM: number, yM: number): number {
  const ax = real(surface.xM, a);
  const ay = real(surface.yM, a);
  return (real(surface.xM, b) - ax) * (yM - ay) - (real(surface.yM, b) - ay) * (xM - ax);
}

/**
 * True when every point of the hull is on one side of the place, left, right, above, or below, so that no triangle reaches
 * it.
 */
function isBeyondHull({ hull, xM: xs, yM: ys }: Surface, xM: number, yM: number): boolean {
  let left = true;
  let right = true;
  let above = true;
  let below = true;
  for (let k = 0; k < hull.length && (left || right || above || below); k += 1) {
    const i = whole(hull, k);
    left &&= real(xs, i) < xM;
    right &&= real(xs, i) > xM;
    above &&= real(ys, i) < yM;
    below &&= real(ys, i) > yM;
  }
  return left || right || above || below;
}

/** The triangle that contains a point, found by walking across the mesh; −1 outside the hull. */
export function triangleAt(surface: Surface, xM: number, yM: number, startAt = 0): number {
  const { triangles, halfedges } = surface;
  let t = startAt;
  for (let steps = 0; steps < 4 * Math.sqrt(surface.triangleCount) + 64; steps += 1) {
    const a = whole(triangles, 3 * t);
    const b = whole(triangles, 3 * t + 1);
    const c = whole(triangles, 3 * t + 2);
    const turn = cross(surface, a, b, real(surface.xM, c), real(surface.yM, c)) >= 0 ? 1 : -1;
    const ab = turn * cross(surface, a, b, xM, yM);
    const bc = turn * cross(surface, b, c, xM, yM);
    const ca = turn * cross(surface, c, a, xM, yM);
    if (ab >= 0 && bc >= 0 && ca >= 0) return t;
    const side = ab <= bc && ab <= ca ? 0 : bc <= ca ? 1 : 2;
    const next = signed(halfedges, 3 * t + side);
    if (next < 0) break;
    t = Math.floor(next / 3);
  }
  if (isBeyondHull(surface, xM, yM)) return -1;
  // The walk left the hull or circled a thin triangle, so every triangle is checked once.
  for (let k = 0; k < surface.triangleCount; k += 1) {
    const a = whole(triangles, 3 * k);
    const b = whole(triangles, 3 * k + 1);
    const c = whole(triangles, 3 * k + 2);
    const ab = cross(surface, a, b, xM, yM);
    const bc = cross(surface, b, c, xM, yM);
    const ca = cross(surface, c, a, xM, yM);
    if ((ab >= 0 && bc >= 0 && ca >= 0) || (ab <= 0 && bc <= 0 && ca <= 0)) return k;
  }
  return -1;
}
