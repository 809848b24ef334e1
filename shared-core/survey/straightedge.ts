/**
 * The largest gap under a straightedge on a profile. The straightedge rests on two points no farther apart than its length;
 * the gap is measured between them. Exact for a piecewise linear profile: the best pair of contacts is two of its corners, a
 * corner and the far end of the straightedge, or both ends, for which the gap is quadratic in the straightedge's position
 * and its maximum is known.
 */
import { real } from './typed-reads.ts';

/** The worst gap along one profile: contacts a and b, the deepest point between them, distances along the profile, meters. */
export type GapAlong = { gapM: number; contactA: number; contactB: number; deepest: number };

/** Buffers of one search, reused for every profile. */
export type GapSearch = {
  along: Float64Array;
  height: Float64Array;
  count: number;
  level: Float64Array;
  stack: Int32Array;
  /** The widest gap of a range of positions, to test whether any of them can beat the best. */
  probe: GapAlong;
  /** The straightedge's length. */
  lengthM: number;
  /** A range of positions this short is searched event by event. */
  leafM: number;
  /** Where the straightedge lies now, written again for each position: an object each was most of what a search allocated. */
  readonly laid: Laid;
};

/** A straightedge on a profile: its ends `a` and `b`, and the profile pieces `p` and `q` they are on. */
type Laid = { p: number; a: number; q: number; b: number };

function lay({ laid }: GapSearch, p: number, a: number, q: number, b: number): void {
  laid.p = p;
  laid.a = a;
  laid.q = q;
  laid.b = b;
}

/** Allocates buffers for profiles of up to `most` corners. */
export function gapSearch(most: number): GapSearch {
  return {
    along: new Float64Array(most),
    height: new Float64Array(most),
    count: 0,
    level: new Float64Array(most),
    stack: new Int32Array(most + 2),
    probe: { gapM: 0, contactA: 0, contactB: 0, deepest: 0 },
    lengthM: 0,
    leafM: 0,
    laid: { p: 0, a: 0, q: 0, b: 0 },
  };
}

/** Copies one profile of many into the search's buffers. Short: a loop is faster than a view of each array. */
export function takeProfile(search: GapSearch, profiles: Record<'along' | 'height', Float64Array>, from: number, to: number): void {
  for (let i = from; i < to; i += 1) {
    search.along[i - from] = real(profiles.along, i);
    search.height[i - from] = real(profiles.height, i);
  }
  search.count = to - from;
}

/**
 * Searches the profile in `search` for a gap wider than `best.gapM` under a straightedge of `lengthM`, and writes it to
 * `best`. Returns whether it found one. Tilting the profile changes no gap, so its own slope is removed first.
 */
export function widenGap(search: GapSearch, lengthM: number, best: GapAlong): boolean {
  const { along, height, count, level } = search;
  if (count < 3) return false;
  const t0 = real(along, 0);
  const tEnd = real(along, count - 1);
  const fall = (real(height, count - 1) - real(height, 0)) / (tEnd - t0);
  let low = 0;
  let high = 0;
  for (let i = 0; i < count; i += 1) {
    const z = real(height, i) - real(height, 0) - fall * (real(along, i) - t0);
    level[i] = z;
    if (z < low) low = z;
    if (z > high) high = z;
  }
  if (high - low <= best.gapM) return false;
  if (tEnd - t0 <= lengthM) {
    lay(search, 0, t0, count - 1, tEnd);
    return hullGap(search, best);
  }
  const last = tEnd - lengthM;
  const cornerM = (tEnd - t0) / (count - 1);
  const leafM = Math.max(lengthM * LEAF_SHARE, LEAF_CORNERS * cornerM);
  search.lengthM = lengthM;
  search.leafM = leafM;
  const parts = Math.ceil((last - t0) / (leafM * ROOT_LEAVES));
  let isWider = false;
  for (let k = 0; k < parts; k += 1) {
    const from = t0 + ((last - t0) * k) / parts;
    const to = k + 1 === parts ? last : t0 + ((last - t0) * (k + 1)) / parts;
    if (searchPlaces(search, from, to, best)) isWider = true;
  }
  return isWider;
}

/** A range of positions this short is searched event by event: as a share of the straightedge, and in corners. */
const LEAF_SHARE = 0.1;
const LEAF_CORNERS = 1;
/** Number of such ranges ruled out at a time where none can contain a wider gap. */
const ROOT_LEAVES = 8;

/**
 * All positions of the straightedge's near end from `from` to `to`. A longer straightedge over the whole range shows a gap
 * at least as wide as any within it: if that gap does not beat the best, the range is skipped; otherwise it is halved,
 * starting with the half that contains the longer one's gap.
 */
function searchPlaces(search: GapSearch, from: number, to: number, best: GapAlong): boolean {
  const { lengthM, leafM, probe } = search;
  const p = pieceAt(search, from);
  probe.gapM = best.gapM;
  lay(search, p, from, pieceAt(search, to + lengthM), to + lengthM);
  if (!hullGap(search, probe)) return false;
  if (to - from <= leafM) {
    lay(search, p, from, pieceAt(search, from + lengthM), from + lengthM);
    return everyPlace(search, to, best);
  }
  const middle = (from + to) / 2;
  const isLater = (probe.contactA + probe.contactB - lengthM) / 2 > middle;
  const first = isLater ? searchPlaces(search, middle, to, best) : searchPlaces(search, from, middle, best);
  const second = isLater ? searchPlaces(search, from, middle, best) : searchPlaces(search, middle, to, best);
  return first || second;
}

/** The piece of the profile at a distance along it. */
function pieceAt({ along, count }: GapSearch, t: number): number {
  let low = 0;
  let high = count - 1;
  while (high - low > 1) {
    const middle = (low + high) >> 1;
    if (real(along, middle) <= t) low = middle;
    else high = middle;
  }
  return low;
}

/**
 * Checks where one end of the straightedge reaches a corner, and between, where both ends are inside their pieces, while its
 * near end runs from where it lies to `to`.
 */
function everyPlace(search: GapSearch, to: number, best: GapAlong): boolean {
  const { along, count, lengthM } = search;
  let isWider = false;
  // End a moves from position to position.
  let { p, a, q } = search.laid;
  for (;;) {
    lay(search, p, a, q, a + lengthM);
    if (hullGap(search, best)) isWider = true;
    if (a >= to) return isWider;
    const nextP = real(along, p + 1);
    const nextQ = real(along, q + 1) - lengthM;
    const next = Math.min(nextP, nextQ, to);
    if (next > a && bothEnds(search, next, best)) isWider = true;
    const stepsP = nextP <= next && p + 2 < count;
    const stepsQ = nextQ <= next && q + 2 < count;
    if (stepsP) p += 1;
    if (stepsQ) q += 1;
    // At the profile's end, rounding can leave the far end slightly short of it, so the search stops.
    if (!stepsP && !stepsQ && next < to) return isWider;
    a = Math.max(a, next);
  }
}

function heightOn(search: GapSearch, piece: number, t: number): number {
  const { along, level } = search;
  const ta = real(along, piece);
  const tb = real(along, piece + 1);
  return real(level, piece) + ((t - ta) / (tb - ta)) * (real(level, piece + 1) - real(level, piece));
}

/** The gap of the straightedge resting on the highest points of the floor under it. */
function hullGap(search: GapSearch, best: GapAlong): boolean {
  const { along, level, stack, count } = search;
  const { p, a: startT, q, b } = search.laid;
  const startZ = heightOn(search, p, startT);
  const endZ = q >= count - 1 ? real(level, count - 1) : heightOn(search, q, b);
  // Upper hull by a monotone chain; −1 is the straightedge's near end, −2 its far end.
  let size = 1;
  stack[0] = -1;
  for (let i = p + 1; i <= q + 1; i += 1) {
    const isEnd = i === q + 1;
    const t = isEnd ? b : real(along, i);
    const z = isEnd ? endZ : real(level, i);
    while (size >= 2) {
      const m = stack[size - 1] ?? -1;
      const l = stack[size - 2] ?? -1;
      const tm = m < 0 ? startT : real(along, m);
      const zm = m < 0 ? startZ : real(level, m);
      const tl = l < 0 ? startT : real(along, l);
      const zl = l < 0 ? startZ : real(level, l);
      if ((zm - zl) * (t - tl) > (z - zl) * (tm - tl)) break;
      size -= 1;
    }
    stack[size] = isEnd ? -2 : i;
    size += 1;
  }
  let isWider = false;
  for (let k = 0; k + 1 < size; k += 1) {
    const l = stack[k] ?? -1;
    const r = stack[k + 1] ?? -1;
    const tl = l === -1 ? startT : real(along, l);
    const zl = l === -1 ? startZ : real(level, l);
    const tr = r === -2 ? b : real(along, r);
    const zr = r === -2 ? endZ : real(level, r);
    const from = l === -1 ? p + 1 : l + 1;
    const to = r === -2 ? q : r - 1;
    if (from > to) continue;
    const slope = (zr - zl) / (tr - tl);
    for (let i = from; i <= to; i += 1) {
      const t = real(along, i);
      const gap = zl + (t - tl) * slope - real(level, i);
      if (t <= tl || t >= tr) continue;
      if (gap > best.gapM) {
        best.gapM = gap;
        best.contactA = tl;
        best.contactB = tr;
        best.deepest = t;
        isWider = true;
      }
    }
  }
  return isWider;
}

/**
 * Both ends of the straightedge inside their pieces while its near end runs from where it lies to `to`: the maximum of the quadratic, if
 * inside.
 */
function bothEnds(search: GapSearch, to: number, best: GapAlong): boolean {
  const { along, level, lengthM } = search;
  const { p, a: from, q } = search.laid;
  const sp = (real(level, p + 1) - real(level, p)) / (real(along, p + 1) - real(along, p));
  const sq = (real(level, q + 1) - real(level, q)) / (real(along, q + 1) - real(along, q));
  // Second derivative in a is 2 (sp − sq) / L: there is a maximum only where the floor rises toward the ends.
  const c2 = sp - sq;
  if (!(c2 < 0)) return false;
  const fp = real(level, p) + sp * (from - real(along, p));
  const fq = real(level, q) + sq * (from + lengthM - real(along, q));
  let isWider = false;
  for (let i = p + 1; i <= q; i += 1) {
    const x = real(along, i) - from;
    // With a = from + s: L·chord(x) = (fp + sp·s)(L + s − x) + (fq + sq·s)(x − s).
    const c1 = fp + sp * (lengthM - x) - fq + sq * x;
    const c0 = fp * (lengthM - x) + fq * x;
    const s = -c1 / (2 * c2);
    if (!(s > 0 && s < to - from)) continue;
    const gap = (c0 + s * (c1 + s * c2)) / lengthM - real(level, i);
    if (gap > best.gapM) {
      best.gapM = gap;
      best.contactA = from + s;
      best.contactB = from + s + lengthM;
      best.deepest = real(along, i);
      isWider = true;
    }
  }
  return isWider;
}
