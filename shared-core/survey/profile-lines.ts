/** Lines across a room in several directions, with the height of the floor along each. */
import { Crossings, type Lines, type TurnedPoints } from './line-crossings.ts';
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
  /** Profiles sorted by unevenness, the most uneven first, so that the search finds the worst gap early and skips the rest. */
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
  const layer = lineLayer(surface, room);
  angles.forEach((angle, k) => layDirection(layer, angle, k, spacing, out));
  const through = options.through ?? [];
  through.forEach((a, i) => {
    for (const b of through.slice(0, i)) {
      const line = lineThrough(surface, a, b);
      angles.push(line.angle);
      layDirection(layer, line.angle, angles.length - 1, line, out);
    }
  });
  return out.finish(Float64Array.from(angles));
}

/** A line by its direction and its distance from the origin, as `Profiles` indexes it. */
export type Line = { readonly angle: number; readonly offset: number };

function lineThrough({ xM, yM }: Surface, a: number, b: number): Line {
  const angle = Math.atan2(real(yM, b) - real(yM, a), real(xM, b) - real(xM, a));
  return { angle, offset: real(yM, a) * Math.cos(angle) - real(xM, a) * Math.sin(angle) };
}

/** Profiles under construction: points pushed one by one, each profile closed with its direction and offset. */
export class PackedProfiles {
  along = new Float64Array(256);
  height = new Float64Array(256);
  size = 0;
  readonly start: number[] = [0];
  readonly direction: number[] = [];
  readonly offset: number[] = [];
  readonly uneven: number[] = [];
  longestM = 0;
  mostPoints = 0;
  lineCount = 0;

  /** Empties the profiles to be laid again in the same arrays. */
  clear(): void {
    this.size = 0;
    this.start.length = 1;
    this.direction.length = 0;
    this.offset.length = 0;
    this.uneven.length = 0;
    this.longestM = 0;
    this.mostPoints = 0;
    this.lineCount = 0;
  }

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

/** Points to be turned to any direction, in arrays that are reused. */
type Turnable = TurnedPoints & { readonly x: Float64Array; readonly y: Float64Array };

const turnable = (x: Float64Array, y: Float64Array, z: Float64Array): Turnable => ({
  x,
  y,
  z,
  u: new Float64Array(x.length),
  v: new Float64Array(x.length),
});

function turn({ x, y, u, v }: Turnable, cos: number, sin: number): void {
  for (let i = 0; i < x.length; i += 1) {
    const px = x[i] ?? Number.NaN;
    const py = y[i] ?? Number.NaN;
    u[i] = px * cos + py * sin;
    v[i] = py * cos - px * sin;
  }
}

/** A floor ready to have lines laid over it in any direction. */
export type LineLayer = {
  readonly spotCount: number;
  readonly points: Turnable;
  readonly corners: Turnable;
  readonly floor: Crossings;
  readonly walls: Crossings;
  readonly wasRead: Crossings;
};

/** Prepares a floor for lines in any direction. */
export function lineLayer(surface: Surface, room: RoomRings): LineLayer {
  const count = room.rings.reduce((sum, ring) => sum + ring.length / 2, 0);
  const corners = turnable(new Float64Array(count), new Float64Array(count), new Float64Array(count));
  const ends = new Uint32Array(2 * count);
  let corner = 0;
  for (const ring of room.rings) {
    const first = corner;
    for (let i = 0; i < ring.length; i += 2) {
      corners.x[corner] = real(ring, i);
      corners.y[corner] = real(ring, i + 1);
      ends[2 * corner] = corner;
      ends[2 * corner + 1] = i + 2 < ring.length ? corner + 1 : first;
      corner += 1;
    }
  }
  return {
    spotCount: surface.spotCount,
    points: turnable(surface.xM, surface.yM, surface.zM),
    corners,
    floor: new Crossings(surface.creases),
    walls: new Crossings(ends),
    wasRead: new Crossings(readRegionSides(surface)),
  };
}

/** Lays lines in one direction: either evenly spaced, or a single line. */
export function layDirection(layer: LineLayer, angle: number, direction: number, spacing: number | Line, out: PackedProfiles): void {
  const { points, corners, floor, walls, wasRead } = layer;
  const cos = Math.cos(angle);
  const sin = Math.sin(angle);
  turn(points, cos, sin);
  turn(corners, cos, sin);
  const laid = typeof spacing === 'number' ? evenLines(corners.v, spacing) : { first: spacing.offset, spacing: 0, lines: 1 };
  floor.cross(points, laid);
  walls.cross(corners, laid);
  wasRead.cross(points, laid);
  for (let line = 0; line < laid.lines; line += 1) {
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
      out.close(direction, laid.first + line * laid.spacing);
    }
  }
}

/** Evenly spaced lines over the walls, half a space in from either side; never more than `spacingM` apart. */
function evenLines(acrossWalls: Float64Array, spacingM: number): Lines {
  const low = Math.min(...acrossWalls);
  const high = Math.max(...acrossWalls);
  const lines = Math.max(1, Math.ceil((high - low) / spacingM - 1e-9));
  const spacing = (high - low) / lines;
  return { first: low + spacing / 2, spacing, lines };
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
