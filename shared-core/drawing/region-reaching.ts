/** The part of a room where a field reaches a value: closed rings from the field's lines and the room's edge between them. */
import {
  boundsOf,
  clipPolyline,
  closedLine,
  distanceToEdge,
  type EdgePlace,
  nearestOnEdge,
  reversed,
  ringArea,
  type Rings,
} from './ring-clip.ts';
import type { FieldLine } from './floor-field.ts';

/** Rings turned so that the area is to the right of the walk on the drawing: outer rings clockwise, holes counterclockwise. The first is the outer ring. */
export function orientRings(rings: Rings): number[][] {
  return rings.map((ring, i) => (ringArea(ring) > 0 === (i === 0) ? [...ring] : reversed(ring)));
}

interface Piece {
  readonly xy: number[];
  readonly startAt: EdgePlace;
  readonly endAt: EdgePlace;
  used: boolean;
}
/** Lines cut to the room: closed ones entirely inside, open pieces from edge to edge. */
export function cutToRoom(lines: readonly FieldLine[], room: Rings): FieldLine[] {
  const out: FieldLine[] = [];
  for (const line of lines) {
    const xy = line.closed ? closedLine(line.xy) : line.xy;
    const pieces = clipPolyline(xy, room);
    const first = pieces[0];
    const last = pieces[pieces.length - 1];
    if (!first || !last) continue;
    const isEqual = (a: number | undefined, b: number | undefined): boolean => Math.abs((a ?? 0) - (b ?? 1)) < 1e-9;
    const isJoined = line.closed && isEqual(first[0], last[last.length - 2]) && isEqual(first[1], last[last.length - 1]);
    if (isJoined && pieces.length === 1) {
      out.push({ xy: first.slice(0, -2), closed: true });
      continue;
    }
    if (isJoined) {
      // The walk began inside the room, so its first and last pieces are one.
      pieces[0] = [...last, ...first.slice(2)];
      pieces.pop();
    }
    for (const piece of pieces) out.push({ xy: piece, closed: false });
  }
  return out;
}

/**
 * Rings of the part of the room where the value is reached.
 * @param lines the field's lines at that value cut to the room, greater side to the right on the drawing
 * @param isReached whether the value is reached at a place; asked only on edges that no line meets
 */
export function regionReaching(lines: readonly FieldLine[], room: Rings, isReached: (x: number, y: number) => boolean): number[][] {
  const edges = orientRings(room);
  const out: number[][] = [];
  const pieces: Piece[] = [];
  for (const line of lines) {
    const xy = [...line.xy];
    if (line.closed) out.push(xy);
    else {
      pieces.push({
        xy,
        startAt: nearestOnEdge(xy[0] ?? 0, xy[1] ?? 0, edges),
        endAt: nearestOnEdge(xy[xy.length - 2] ?? 0, xy[xy.length - 1] ?? 0, edges),
        used: false,
      });
    }
  }
  edges.forEach((ring, r) => {
    if (pieces.some((p) => p.startAt.ring === r || p.endAt.ring === r)) return;
    if (isReached(((ring[0] ?? 0) + (ring[2] ?? 0)) / 2, ((ring[1] ?? 0) + (ring[3] ?? 0)) / 2)) out.push(ring);
  });
  for (const first of pieces) {
    if (first.used) continue;
    const ring: number[] = [];
    let piece: Piece | undefined = first;
    // oxlint-disable-next-line typescript/no-unnecessary-condition -- changed within the calls above
    while (piece && !piece.used) {
      piece.used = true;
      ring.push(...piece.xy);
      const from: EdgePlace = piece.endAt;
      const edge = edges[from.ring] ?? [];
      const n = edge.length / 2;
      // Continue along the edge to the nearest start of a line.
      let nearest: Piece | undefined;
      let nearestGap = Infinity;
      for (const other of pieces) {
        if (other.startAt.ring !== from.ring) continue;
        const gap = (other.startAt.along - from.along + n) % n;
        if (gap < nearestGap && (!other.used || other === first)) {
          nearestGap = gap;
          nearest = other;
        }
      }
      if (!nearest) break;
      for (let i = Math.floor(from.along) + 1; i - from.along <= nearestGap; i += 1) {
        const k = (i % n) * 2;
        ring.push(edge[k] ?? 0, edge[k + 1] ?? 0);
      }
      piece = nearest;
    }
    if (ring.length >= 6) out.push(ring);
  }
  return out;
}

/** The point of an area farthest from its edges, to within 1/40 of its size. */
export function roomiestPoint(
  rings: Rings,
  isInside: (x: number, y: number) => boolean,
  steps = 28,
): { x: number; y: number; clear: number } {
  const box = boundsOf(rings.slice(0, 1));
  const [middleX, middleY] = [box.x + box.width / 2, box.y + box.height / 2];
  let best = { x: middleX, y: middleY, clear: 0 };
  for (let j = 0; j <= steps; j += 1) {
    for (let i = 0; i <= steps; i += 1) {
      const x = box.x + (box.width * i) / steps;
      const y = box.y + (box.height * j) / steps;
      if (!isInside(x, y)) continue;
      // The distance to the center breaks ties, so that the result is always the same.
      const clear = distanceToEdge(x, y, rings) - 1e-4 * Math.hypot(x - middleX, y - middleY);
      if (clear > best.clear) best = { x, y, clear };
    }
  }
  return best;
}
