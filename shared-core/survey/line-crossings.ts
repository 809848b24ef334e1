/** Where the lines of one direction cross the creases and walls of a floor. */
import { real, signed, whole } from './typed-reads.ts';

/** Points by their distance along a direction and across it, with heights. */
export type TurnedPoints = { readonly u: Float64Array; readonly v: Float64Array; readonly z: Float64Array };

/** Lines of one direction, across it at `first`, `first + spacing`, and so on. */
export type Lines = { readonly first: number; readonly spacing: number; readonly lines: number };

/**
 * Crossings of every line with a set of segments: sorted by distance along the line, with heights, from start[line] to
 * start[line + 1]. One object is reused for every direction: allocating its arrays took a third of a survey's time.
 */
export class Crossings {
  start = new Uint32Array(2);
  u = new Float64Array(64);
  z = new Float64Array(64);
  private next = new Uint32Array(1);
  /** A line belongs to a segment when low ≤ line < high, so that a corner on a line is counted once. */
  private readonly low: Int32Array;
  private readonly high: Int32Array;
  private readonly ends: Uint32Array;

  constructor(ends: Uint32Array) {
    this.ends = ends;
    this.low = new Int32Array(ends.length / 2);
    this.high = new Int32Array(ends.length / 2);
  }

  cross(points: TurnedPoints, lines: Lines): void {
    if (lines.lines === 1) {
      this.crossOne(points, lines.first);
      return;
    }
    this.count(points.v, lines);
    const { start, next, low, high } = this;
    for (let k = 0; k < low.length; k += 1) if (signed(low, k) < signed(high, k)) this.place(points, k, lines);
    for (let line = 0; line < lines.lines; line += 1) sortPairs(this.u, this.z, whole(start, line), whole(next, line) - 1);
  }

  /** Finds the lines of every segment and where each line's crossings start. */
  private count(v: Float64Array, { first, spacing, lines }: Lines): void {
    const { low, high, ends } = this;
    if (this.start.length < lines + 1) {
      this.start = new Uint32Array(lines + 1);
      this.next = new Uint32Array(lines);
    }
    const { start, next } = this;
    start.fill(0);
    for (let k = 0; k < low.length; k += 1) {
      const va = v[ends[2 * k] ?? 0] ?? Number.NaN;
      const vb = v[ends[2 * k + 1] ?? 0] ?? Number.NaN;
      const from = Math.max(0, Math.ceil((Math.min(va, vb) - first) / spacing));
      const to = Math.min(lines, Math.ceil((Math.max(va, vb) - first) / spacing));
      low[k] = from;
      high[k] = to;
      for (let line = from; line < to; line += 1) start[line + 1] = whole(start, line + 1) + 1;
    }
    for (let line = 0; line < lines; line += 1) {
      next[line] = whole(start, line);
      start[line + 1] = whole(start, line + 1) + whole(start, line);
    }
    this.reserve(whole(start, lines));
  }

  private reserve(total: number): void {
    if (this.u.length >= total) return;
    this.u = new Float64Array(2 * total);
    this.z = new Float64Array(2 * total);
  }

  /** Crossings with a single line in one pass: hundreds are laid to place the widest gap. */
  private crossOne({ u, v, z }: TurnedPoints, offset: number): void {
    const { ends } = this;
    this.reserve(ends.length / 2);
    let size = 0;
    for (let k = 0; k < ends.length; k += 2) {
      const a = ends[k] ?? 0;
      const b = ends[k + 1] ?? 0;
      const va = v[a] ?? Number.NaN;
      const vb = v[b] ?? Number.NaN;
      if (va > offset === vb > offset) continue;
      const s = Math.min(1, Math.max(0, (offset - va) / (vb - va)));
      this.u[size] = real(u, a) + s * (real(u, b) - real(u, a));
      this.z[size] = real(z, a) + s * (real(z, b) - real(z, a));
      size += 1;
    }
    sortPairs(this.u, this.z, 0, size - 1);
    this.start[1] = size;
  }

  private place({ u, v, z }: TurnedPoints, segment: number, { first, spacing }: Lines): void {
    const a = whole(this.ends, 2 * segment);
    const b = whole(this.ends, 2 * segment + 1);
    const va = real(v, a);
    const vb = real(v, b);
    const to = signed(this.high, segment);
    for (let line = signed(this.low, segment); line < to; line += 1) {
      // Clamped to the segment: for one nearly parallel to the line, rounding alone would put it far off.
      const s = Math.min(1, Math.max(0, (first + line * spacing - va) / (vb - va)));
      const slot = whole(this.next, line);
      this.next[line] = slot + 1;
      this.u[slot] = real(u, a) + s * (real(u, b) - real(u, a));
      this.z[slot] = real(z, a) + s * (real(z, b) - real(z, a));
    }
  }
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
