/**
 * Cuts a ring by a straight line and keeps the part to its left (Sutherland and Hodgman, "Reentrant polygon clipping",
 * Communications of the ACM 17(1), 1974). A ring with alcoves may return with zero-width bridges along the line; they
 * enclose nothing, so every integral over the result is exact.
 */

/** A ring being cut: corners, and for the edge that starts at each corner a tag for its origin. */
export type TaggedRing = { x: number[]; y: number[]; tag: number[]; size: number };

/** An empty ring to cut into. */
export function emptyRing(): TaggedRing {
  return { x: [], y: [], tag: [], size: 0 };
}

/** Adds a corner; `tag` belongs to the edge that leaves it. */
export function pushCorner(ring: TaggedRing, x: number, y: number, tag: number): void {
  ring.x[ring.size] = x;
  ring.y[ring.size] = y;
  ring.tag[ring.size] = tag;
  ring.size += 1;
}

/**
 * Keeps the part of `ring` where a·x + b·y + c ≥ 0 and writes it to `into`; new edges along the line get `cutTag`.
 */
export function cutRing(
  ring: TaggedRing,
  { a, b, c }: { readonly a: number; readonly b: number; readonly c: number },
  cutTag: number,
  into: TaggedRing,
): void {
  into.size = 0;
  if (ring.size === 0) return;
  const { x, y, tag, size } = ring;
  let px = x[size - 1] ?? 0;
  let py = y[size - 1] ?? 0;
  let pTag = tag[size - 1] ?? 0;
  let pd = a * px + b * py + c;
  for (let i = 0; i < size; i += 1) {
    const qx = x[i] ?? 0;
    const qy = y[i] ?? 0;
    const qTag = tag[i] ?? 0;
    const qd = a * qx + b * qy + c;
    if (pd >= 0 !== qd >= 0) {
      const s = pd / (pd - qd);
      // The edge p→q keeps its tag when it enters; when it leaves, the next edge runs along the line.
      pushCorner(into, px + s * (qx - px), py + s * (qy - py), qd >= 0 ? pTag : cutTag);
    }
    if (qd >= 0) pushCorner(into, qx, qy, qTag);
    px = qx;
    py = qy;
    pTag = qTag;
    pd = qd;
  }
}
