/** Lines across a room in several directions, with the height of the floor along each. */
import { readRegionSides } from './read-region.ts';
import { longestWallAngle, type RoomRings } from './room-rings.ts';
import type { Surface } from './surface.ts';
import { real, whole } from './typed-reads.ts';

/** Maximum distance between lines, meters (common practice: about a foot). */
export const LINE_SPACING_M = 0.3;
/** Number of straightedge directions (common practice). */
export const LINE_DIRECTIONS = 8;

/** Profiles along all lines, packed: profile k runs from start[k] to start[k + 1]. */
export type Profiles = {
  readonly start: Uint32Array;
  readonly along: Float64Array;
  readonly height: Float64Array;
  readonly direction: Uint32Array;
  readonly offset: Float64Array;
  readonly count: number;
  /**
   * Profiles sorted by unevenness, the most uneven first, so that the search finds the worst gap early and skips the rest.
   */
  readonly order: Uint32Array;
  /** High to low of each profile with its own slope removed: no gap in it is wider. */
  readonly unevenM: Float64Array;
  readonly longestM: number;
  readonly mostPoints: number;
  readonly angles: Float64Array;
  readonly lineCount: number;
};

/**
 * Lays lines over a room and samples the floor along them: evenly, and through every pair of the spots in `through`, because
 * a straightedge shows the largest gaps where it rests on high readings or spans a low one.
 */
export function profilesOver(
  surface: Surface,
  room: RoomRings,
  options: { spacingM?: number; directions?: number; through?: readonly number[] } = {},
): Profiles {
  const spacing = options.spacingM ?? LINE_SPACING_M;
  const directions = Math.max(LINE_DIRECTIONS, options.directions ?? LINE_DIRECTIONS);
  const base = longestWallAngle(room);
  const angles = Array.from({ length: directions }, (_, k) => base + (k * Math.PI) / directions);
  const out = new PackedProfiles();
  const region = readRegionSides(surface);
  angles.forEach((angle, k) => layDirection({ surface, room, region }, angle, k, spacing, out));
  const through = options.through ?? [];
  through.forEach((a, i) => {
    for (const b of through.slice(0, i)) {
      const line = lineThrough(surface, a, b);
      angles.push(line.angle);
      layDirection({ surface, room, region }, line.angle, angles.length - 1, line, out);
    }
  });
  return out.finish(Float64Array.from(angles));
}

/** A line by its direction and its distance from the origin, as `Profiles` indexes it. */
type Line = { readonly angle: number; readonly offset: number };

function lineThrough({ xM, yM }: Surface, a: number, b: number): Line {
  const angle = Math.atan2(real(yM, b) - real(yM, a), real(xM, b) - real(xM, a));
  return { angle, offset: real(yM, a) * Math.cos(angle) - real(xM, a) * Math.sin(angle) };
}

/** Profiles under construction: points pushed one by one, each profile closed with its direction and offset. */
export class PackedProfiles {
  along = new Float64Array(4096);
  height = new Float64Array(4096);
  size = 0;
  readonly start: number[] = [0];
  readonly direction: number[] = [];
  readonly offset: number[] = [];
  readonly uneven: number[] = [];
  longestM = 0;
  mostPoints = 0;
  lineCount = 0;

  push(along: number, height: number): void {
    if (this.size === this.along.length) {
      const along2 = new Float64Array(this.size * 2);
      along2.set(this.along);
      this.along = along2;
      const height2 = new Float64Array(this.size * 2);
      height2.set(this.height);
      this.height = height2;
    }
    this.along[this.size] = along;
    this.height[this.size] = height;
    this.size += 1;
  }

  close(direction: number, offset: number): void {
    const from = this.start[this.start.length - 1] ?? 0;
    this.longestM = Math.max(this.longestM, real(this.along, this.size - 1) - real(this.along, from));
    this.mostPoints = Math.max(this.mostPoints, this.size - from);
    this.uneven.push(this.unevenFrom(from));
    this.start.push(this.size);
    this.direction.push(direction);
    this.offset.push(offset);
  }

  private unevenFrom(from: number): number {
    const last = this.size - 1;
    const t0 = real(this.along, from);
    const z0 = real(this.height, from);
    const fall = (real(this.height, last) - z0) / (real(this.along, last) - t0);
    let low = 0;
    let high = 0;
    for (let i = from; i <= last; i += 1) {
      const z = real(this.height, i) - z0 - fall * (real(this.along, i) - t0);
      if (z < low) low = z;
      if (z > high) high = z;
    }
    return high - low;
  }

  finish(angles: Float64Array): Profiles {
    const unevenM = Float64Array.from(this.uneven);
    return {
      order: Uint32Array.from(unevenM, (_, i) => i).sort((a, b) => real(unevenM, b) - real(unevenM, a)),
      unevenM,
      start: Uint32Array.from(this.start),
      along: this.along.slice(0, this.size),
      height: this.height.slice(0, this.size),
      direction: Uint32Array.from(this.direction),
      offset: Float64Array.from(this.offset),
      count: this.direction.length,
      longestM: this.longestM,
      mostPoints: this.mostPoints,
      angles,
      lineCount: this.lineCount,
    };
  }
}

/** Crossings of every line with a set of segments: sorted by distance along the line, with heights, one list per line. */
type Crossings = { start: Uint32Array; u: Float64Array; z: Float64Array };

function crossingsOf(
  { ends, count: segments }: { readonly ends: (segment: number, which: 0 | 1) => number; readonly count: number },
  { u, v, z }: { readonly u: Float64Array; readonly v: Float64Array; readonly z: Float64Array | null },
  { first, spacing, lines }: { readonly first: number; readonly spacing: number; readonly lines: number },
): Crossings {
  const start = new Uint32Array(lines + 1);
  // A line belongs to a segment when low ≤ line < high, so that a corner on a line is counted once.
  const lowLine = new Int32Array(segments);
  const highLine = new Int32Array(segments);
  for (let k = 0; k < segments; k += 1) {
    const va = real(v, ends(k, 0));
    const vb = real(v, ends(k, 1));
    let low = Math.ceil((Math.min(va, vb) - first) / spacing);
    let high = Math.ceil((Math.max(va, vb) - first) / spacing);
    if (low < 0) low = 0;
    if (high > lines) high = lines;
    lowLine[k] = low;
    highLine[k] = high;
    for (let line = low; line < high; line += 1) start[line + 1] = whole(start, line + 1) + 1;
  }
  for (let line = 0; line < lines; line += 1) start[line + 1] = whole(start, line + 1) + whole(start, line);
  const next = start.slice();
  const total = whole(start, lines);
  const positions = new Float64Array(total);
  const height = new Float64Array(z ? total : 0);
  for (let k = 0; k < segments; k += 1) {
    const low = lowLine[k] ?? 0;
    const high = highLine[k] ?? 0;
    if (low >= high) continue;
    const a = ends(k, 0);
    const b = ends(k, 1);
    const va = real(v, a);
    const vb = real(v, b);
    for (let line = low; line < high; line += 1) {
      // Clamped to the segment: for one nearly parallel to the line, rounding alone would put it far off.
      const s = Math.min(1, Math.max(0, (first + line * spacing - va) / (vb - va)));
      const slot = whole(next, line);
      next[line] = slot + 1;
      positions[slot] = real(u, a) + s * (real(u, b) - real(u, a));
      if (z) height[slot] = real(z, a) + s * (real(z, b) - real(z, a));
    }
  }
  for (let line = 0; line < lines; line += 1) {
    if (z) sortPairs(positions, height, whole(start, line), whole(start, line + 1) - 1);
    else positions.subarray(whole(start, line), whole(start, line + 1)).sort();
  }
  return { start, u: positions, z: height };
}

type Floor = { readonly surface: Surface; readonly room: RoomRings; readonly region: Uint32Array };

/** Lays lines in one direction: either evenly spaced, or a single line. */
export function layDirection(
  { surface, room, region }: Floor,
  angle: number,
  direction: number,
  spacing: number | Line,
  out: PackedProfiles,
): void {
  const cos = Math.cos(angle);
  const sin = Math.sin(angle);
  const points = surface.xM.length;
  const u = new Float64Array(points);
  const v = new Float64Array(points);
  for (let i = 0; i < points; i += 1) {
    u[i] = real(surface.xM, i) * cos + real(surface.yM, i) * sin;
    v[i] = real(surface.yM, i) * cos - real(surface.xM, i) * sin;
  }
  const wallU: number[] = [];
  const wallV: number[] = [];
  const wallEnds: number[] = [];
  for (const ring of room.rings) {
    const base = wallU.length;
    const corners = ring.length / 2;
    for (let i = 0; i < ring.length; i += 2) {
      wallU.push(real(ring, i) * cos + real(ring, i + 1) * sin);
      wallV.push(real(ring, i + 1) * cos - real(ring, i) * sin);
      wallEnds.push(base + i / 2, base + ((i / 2 + 1) % corners));
    }
  }
  const lowV = Math.min(...wallV);
  const highV = Math.max(...wallV);
  const lines = typeof spacing === 'number' ? Math.max(1, Math.ceil((highV - lowV) / spacing - 1e-9)) : 1;
  // Evenly spaced, half a space in from either side; never more than `spacing` apart.
  const step = (highV - lowV) / lines;
  const first = typeof spacing === 'number' ? lowV + step / 2 : spacing.offset;
  const { creases } = surface;
  const floor = crossingsOf(
    { ends: (k, which) => whole(creases, 2 * k + which), count: creases.length / 2 },
    { u, v, z: surface.zM },
    { first, spacing: step, lines },
  );
  const walls = crossingsOf(
    { ends: (k, which) => wallEnds[2 * k + which] ?? 0, count: wallEnds.length / 2 },
    { u: Float64Array.from(wallU), v: Float64Array.from(wallV), z: null },
    { first, spacing: step, lines },
  );
  const wasRead = crossingsOf(
    { ends: (k, which) => whole(region, 2 * k + which), count: region.length / 2 },
    { u, v, z: null },
    { first, spacing: step, lines },
  );
  for (let line = 0; line < lines; line += 1) {
    out.lineCount += 1;
    const stretches = inBoth(walls, wasRead, line);
    const floorEnd = whole(floor.start, line + 1);
    let i = whole(floor.start, line);
    for (let w = 0; w + 1 < stretches.length; w += 2) {
      const from = stretches[w] ?? 0;
      const to = stretches[w + 1] ?? 0;
      if (to - from < 1e-6) continue;
      while (i < floorEnd && real(floor.u, i) <= from) i += 1;
      out.push(from, between(floor, i - 1, i, line, from));
      let last = from;
      while (i < floorEnd && real(floor.u, i) < to) {
        const position = real(floor.u, i);
        if (position - last > 1e-9 && to - position > 1e-9) {
          out.push(position, real(floor.z, i));
          last = position;
        }
        i += 1;
      }
      out.push(to, between(floor, i - 1, i, line, to));
      out.close(direction, first + line * step);
    }
  }
}

/** Where a line is inside both of two regions, given as pairs of crossings: start, end, start, end, … */
function inBoth(first: Crossings, second: Crossings, line: number): number[] {
  const stretches: number[] = [];
  const firstEnd = whole(first.start, line + 1);
  const secondEnd = whole(second.start, line + 1);
  let i = whole(first.start, line);
  let j = whole(second.start, line);
  while (i + 1 < firstEnd && j + 1 < secondEnd) {
    const from = Math.max(real(first.u, i), real(second.u, j));
    const to = Math.min(real(first.u, i + 1), real(second.u, j + 1));
    if (to > from) stretches.push(from, to);
    if (real(first.u, i + 1) < real(second.u, j + 1)) i += 2;
    else j += 2;
  }
  return stretches;
}

function between(floor: Crossings, before: number, after: number, line: number, position: number): number {
  const hasBefore = before >= whole(floor.start, line);
  const hasAfter = after < whole(floor.start, line + 1);
  // Beyond the outermost crease the height is constant along the line within its wedge.
  if (!hasBefore) return hasAfter ? real(floor.z, after) : 0;
  if (!hasAfter) return real(floor.z, before);
  const ua = real(floor.u, before);
  const ub = real(floor.u, after);
  if (ub - ua < 1e-12) return real(floor.z, before);
  return real(floor.z, before) + ((position - ua) / (ub - ua)) * (real(floor.z, after) - real(floor.z, before));
}

function sortPairs(keys: Float64Array, values: Float64Array, from: number, to: number): void {
  let low = from;
  let high = to;
  while (high - low > 24) {
    const pivot = real(keys, (low + high) >> 1);
    let i = low;
    let j = high;
    while (i <= j) {
      while (real(keys, i) < pivot) i += 1;
      while (real(keys, j) > pivot) j -= 1;
      if (i <= j) {
        const k = real(keys, i);
        keys[i] = real(keys, j);
        keys[j] = k;
        const z = real(values, i);
        values[i] = real(values, j);
        values[j] = z;
        i += 1;
        j -= 1;
      }
    }
    if (j - low < high - i) {
      sortPairs(keys, values, low, j);
      low = i;
    } else {
      sortPairs(keys, values, i, high);
      high = j;
    }
  }
  for (let i = low + 1; i <= high; i += 1) {
    const k = real(keys, i);
    const z = real(values, i);
    let j = i - 1;
    while (j >= low && real(keys, j) > k) {
      keys[j + 1] = real(keys, j);
      values[j + 1] = real(values, j);
      j -= 1;
    }
    keys[j + 1] = k;
    values[j + 1] = z;
  }
}
