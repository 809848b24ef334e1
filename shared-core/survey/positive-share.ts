/** How much each corner of a triangle carries where a linear function over it is positive: the pull of a reading on a volume. */

/** The positive part's share of the area, and its center in barycentric coordinates of the triangle. */
export type PositiveShare = { share: number; u1: number; u2: number; u3: number };

const CORNERS = [
  [1, 0, 0],
  [0, 1, 0],
  [0, 0, 1],
] as const;

/** Cuts the triangle where d = 0 and gives the center of what is left above; all zero when nothing is. */
export function positiveShare(d1: number, d2: number, d3: number): PositiveShare {
  if (d1 >= 0 && d2 >= 0 && d3 >= 0) return { share: 1, u1: 1 / 3, u2: 1 / 3, u3: 1 / 3 };
  const d = [d1, d2, d3];
  const ring: (readonly [number, number, number])[] = [];
  for (let i = 0; i < 3; i += 1) {
    const j = (i + 1) % 3;
    const di = d[i] ?? 0;
    const dj = d[j] ?? 0;
    const a = CORNERS[i] ?? CORNERS[0];
    const b = CORNERS[j] ?? CORNERS[0];
    if (di > 0) ring.push(a);
    if (di > 0 !== dj > 0 && di !== dj) {
      const s = di / (di - dj);
      ring.push([a[0] + s * (b[0] - a[0]), a[1] + s * (b[1] - a[1]), a[2] + s * (b[2] - a[2])]);
    }
  }
  const out: PositiveShare = { share: 0, u1: 0, u2: 0, u3: 0 };
  const first = ring[0];
  if (!first) return out;
  for (let i = 1; i + 1 < ring.length; i += 1) {
    const p = ring[i] ?? first;
    const q = ring[i + 1] ?? first;
    const part = (p[0] - first[0]) * (q[1] - first[1]) - (p[1] - first[1]) * (q[0] - first[0]);
    out.share += part;
    out.u1 += (part * (first[0] + p[0] + q[0])) / 3;
    out.u2 += (part * (first[1] + p[1] + q[1])) / 3;
    out.u3 += (part * (first[2] + p[2] + q[2])) / 3;
  }
  if (out.share > 0) {
    out.u1 /= out.share;
    out.u2 /= out.share;
    out.u3 /= out.share;
  }
  return out;
}
