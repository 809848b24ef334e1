/**
 * The floor's heights measured from a plane's slope, so that a ramp is handled like a level finish. Sorted once, it gives
 * the volume and the area below any height from a few triangles and two running sums.
 */
import type { Point } from '../book/fields.ts';
import type { Mosaic } from './mosaic.ts';
import type { Plane } from './plane.ts';
import { meanPositive, sharePositive } from './positive-part.ts';
import { real } from './typed-reads.ts';

/** Volume of the space between the floor and a height above it, and the floor's area below that height. */
export type Below = { readonly volumeM3: number; readonly areaM2: number };

export type Relief = {
  readonly areaM2: number;
  /** ∫ w over the floor, where w is the height measured from the plane's slope. */
  readonly momentM3: number;
  readonly lowestM: number;
  readonly highestM: number;
  /** Heights of flat patches: the cost of grinding jumps there. */
  readonly plateausM: readonly number[];
  readonly below: (heightM: number) => Below;
};

/** Heights of a mosaic from the slope of a plane; the plane's own height is left out. */
export function reliefFrom(mosaic: Mosaic, plane: Pick<Plane, 'slopeX' | 'slopeY'>): Relief {
  const { count, xyz, areaM2: area } = mosaic;
  const w = new Float64Array(3 * count);
  const most = new Float64Array(count);
  const least = new Float64Array(count);
  let widest = 0;
  for (let k = 0; k < count; k += 1) {
    for (let c = 0; c < 3; c += 1) {
      const p = 9 * k + 3 * c;
      w[3 * k + c] = real(xyz, p + 2) - plane.slopeX * real(xyz, p) - plane.slopeY * real(xyz, p + 1);
    }
    const w1 = real(w, 3 * k);
    const w2 = real(w, 3 * k + 1);
    const w3 = real(w, 3 * k + 2);
    most[k] = Math.max(w1, w2, w3);
    least[k] = Math.min(w1, w2, w3);
    widest = Math.max(widest, real(most, k) - real(least, k));
  }
  const order = sortedBy(most);
  const sortedMost = new Float64Array(count);
  const areaUpTo = new Float64Array(count + 1);
  const momentUpTo = new Float64Array(count + 1);
  const plateaus = new Set<number>();
  for (let i = 0; i < count; i += 1) {
    const k = order[i] ?? 0;
    sortedMost[i] = real(most, k);
    const mean = (real(w, 3 * k) + real(w, 3 * k + 1) + real(w, 3 * k + 2)) / 3;
    areaUpTo[i + 1] = real(areaUpTo, i) + real(area, k);
    momentUpTo[i + 1] = real(momentUpTo, i) + real(area, k) * mean;
    if (real(most, k) - real(least, k) < 1e-12) plateaus.add(real(most, k));
  }
  const below = (heightM: number): Below => {
    const from = firstAbove(sortedMost, heightM);
    const to = firstAbove(sortedMost, heightM + widest);
    let areaM2 = real(areaUpTo, from);
    let volumeM3 = heightM * areaM2 - real(momentUpTo, from);
    for (let i = from; i < to; i += 1) {
      const k = order[i] ?? 0;
      if (real(least, k) >= heightM) continue;
      const d1 = heightM - real(w, 3 * k);
      const d2 = heightM - real(w, 3 * k + 1);
      const d3 = heightM - real(w, 3 * k + 2);
      volumeM3 += real(area, k) * meanPositive(d1, d2, d3);
      areaM2 += real(area, k) * sharePositive(d1, d2, d3);
    }
    return { volumeM3, areaM2 };
  };
  const { lowestM, highestM } = extremesOf(mosaic, plane);
  return {
    areaM2: mosaic.areaTotalM2,
    momentM3: real(momentUpTo, count),
    plateausM: [...plateaus],
    below,
    lowestM,
    highestM,
  };
}

/** The lowest and the highest of a mosaic's heights from the slope of a plane, meters, and where the lowest is. */
export function extremesOf(
  mosaic: Mosaic,
  plane: Pick<Plane, 'slopeX' | 'slopeY'>,
): Pick<Relief, 'lowestM' | 'highestM'> & { readonly lowestAt: Point } {
  let lowestM = Number.POSITIVE_INFINITY;
  let highestM = Number.NEGATIVE_INFINITY;
  let lowestAt = { xM: 0, yM: 0 };
  const { extremes } = mosaic;
  for (let i = 0; i < extremes.length; i += 3) {
    const xM = real(extremes, i);
    const yM = real(extremes, i + 1);
    const height = real(extremes, i + 2) - plane.slopeX * xM - plane.slopeY * yM;
    if (height < lowestM) {
      lowestM = height;
      lowestAt = { xM, yM };
    }
    highestM = Math.max(highestM, height);
  }
  return { highestM, lowestM, lowestAt };
}

function sortedBy(keys: Float64Array): Uint32Array {
  return Uint32Array.from(keys, (_, i) => i).sort((a, b) => real(keys, a) - real(keys, b));
}

function firstAbove(sorted: Float64Array, value: number): number {
  let low = 0;
  let high = sorted.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if (real(sorted, middle) <= value) low = middle + 1;
    else high = middle;
  }
  return low;
}
