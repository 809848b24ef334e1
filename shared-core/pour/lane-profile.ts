/**
 * Cumulative volume along a lane, used to convert a batch's volume to the place where the batch ends.
 * Between two corners of the lane the width is linear, so the volume is exact where the depth is
 * uniform; with a varying depth the lane is sampled every 50 mm.
 */
import type { Point } from '../book/fields.ts';
import type { Region } from '../plan/region.ts';
import { alongM, cornersOf, pointAt, spansAcross, type Axes } from './axes.ts';

/** Depth of the pour, m: one value for the whole area, or a function of the place. */
export type Depth = number | ((point: Point) => number);

const READ_ALONG_M = 0.05;
const READ_ACROSS_M = 0.1;

/** Cells along a lane: the start of each, the volume before it, and the volume per meter with its slope. */
export type LaneProfile = {
  readonly fromM: number;
  readonly toM: number;
  readonly volumeM3: number;
  /** Depth at the shallowest place read, m; 0 where a place takes no material. */
  readonly leastDepthM: number;
  readonly startsM: readonly number[];
  readonly before: readonly number[];
  readonly perM: readonly number[];
  readonly slope: readonly number[];
};

/** The profile of a lane along its axes. Without floor the volume is zero. */
export function profileOf(regions: readonly Region[], axes: Axes, depth: Depth): LaneProfile {
  const corners = [...new Set(cornersOf(regions).map((p) => alongM(axes, p)))].sort((a, b) => a - b);
  const startsM: number[] = [];
  const before: number[] = [];
  const perM: number[] = [];
  const slope: number[] = [];
  let volumeM3 = 0;
  let leastDepthM = typeof depth === 'number' ? depth : Infinity;
  const read: Depth =
    typeof depth === 'number'
      ? depth
      : (point) => {
          const depthM = Math.max(0, depth(point));
          leastDepthM = Math.min(leastDepthM, depthM);
          return depthM;
        };
  for (let i = 0; i + 1 < corners.length; i++) {
    const from = corners[i] ?? 0;
    const to = corners[i + 1] ?? 0;
    if (to - from < 1e-9) continue;
    const parts = typeof depth === 'number' ? 1 : Math.max(1, Math.ceil((to - from) / READ_ALONG_M));
    const length = (to - from) / parts;
    for (let part = 0; part < parts; part++) {
      const start = from + part * length;
      const near = sliceM2(regions, axes, start + length / 4, read);
      const far = sliceM2(regions, axes, start + (3 * length) / 4, read);
      const first = Math.max(0, 1.5 * near - 0.5 * far);
      const last = Math.max(0, 1.5 * far - 0.5 * near);
      startsM.push(start);
      before.push(volumeM3);
      perM.push(first);
      slope.push((last - first) / length);
      volumeM3 += ((first + last) / 2) * length;
    }
  }
  if (corners.length === 0) leastDepthM = 0;
  return { fromM: corners[0] ?? 0, toM: corners.at(-1) ?? 0, volumeM3, leastDepthM, startsM, before, perM, slope };
}

function sliceM2(regions: readonly Region[], axes: Axes, u: number, depth: Depth): number {
  const spans = spansAcross(regions, axes, u);
  let area = 0;
  for (let i = 0; i + 1 < spans.length; i += 2) {
    const from = spans[i] ?? 0;
    const width = (spans[i + 1] ?? 0) - from;
    if (typeof depth === 'number') {
      area += width * depth;
      continue;
    }
    const reads = Math.max(1, Math.ceil(width / READ_ACROSS_M));
    for (let read = 0; read < reads; read++) {
      area += depth(pointAt(axes, u, from + ((read + 0.5) * width) / reads)) * (width / reads);
    }
  }
  return area;
}

/** Volume of the lane before `u`, m³. */
export function volumeBefore(profile: LaneProfile, u: number): number {
  if (u >= profile.toM) return profile.volumeM3;
  if (u <= profile.fromM) return 0;
  const cell = lastAtMost(profile.startsM, u);
  const s = u - (profile.startsM[cell] ?? 0);
  return (profile.before[cell] ?? 0) + (profile.perM[cell] ?? 0) * s + ((profile.slope[cell] ?? 0) * s * s) / 2;
}

/** The place along the lane that has this volume before it. */
export function placeOfVolume(profile: LaneProfile, volumeM3: number): number {
  if (volumeM3 <= 0) return profile.fromM;
  if (volumeM3 >= profile.volumeM3) return profile.toM;
  const cell = lastAtMost(profile.before, volumeM3);
  const more = volumeM3 - (profile.before[cell] ?? 0);
  const first = profile.perM[cell] ?? 0;
  const root = Math.sqrt(Math.max(0, first * first + 2 * (profile.slope[cell] ?? 0) * more));
  return (profile.startsM[cell] ?? 0) + (first + root > 0 ? (2 * more) / (first + root) : 0);
}

function lastAtMost(sorted: readonly number[], value: number): number {
  let low = 0;
  let high = sorted.length - 1;
  while (low < high) {
    const middle = (low + high + 1) >> 1;
    if ((sorted[middle] ?? 0) <= value) low = middle;
    else high = middle - 1;
  }
  return low;
}
