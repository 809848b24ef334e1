/** Lines of equal height over the floor, from the same triangles as the volume. */
import type { Point } from '../book/fields.ts';
import type { Mosaic } from './mosaic.ts';
import type { Plane } from './plane.ts';
import { type RoomRings, stretchesOnFloor } from './room-rings.ts';
import type { Surface } from './surface.ts';
import { real, whole } from './typed-reads.ts';

/** One line: its points in order with the higher floor on the left, and closed when it returns to its start. */
export type ContourLine = { readonly points: readonly Point[]; readonly closed: boolean };

/** Unjoined pieces of a line: x1, y1, x2, y2 each. */
export type LinePieces = number[];

/**
 * Pieces of the line where the floor, measured from the plane's slope, is at `heightM`, cut at the walls. A tiny offset is
 * added to the height so that a reading exactly at that height is clearly on one side.
 */
export function piecesAt(
  surface: Surface,
  room: RoomRings,
  mosaic: Mosaic,
  slope: Pick<Plane, 'slopeX' | 'slopeY'>,
  heightM: number,
): LinePieces {
  const levelM = heightM + 1e-9;
  const { xM, yM, zM, cellStart, cellCorners } = surface;
  const w = (i: number): number => real(zM, i) - slope.slopeX * real(xM, i) - slope.slopeY * real(yM, i);
  const pieces: LinePieces = [];
  for (let cell = 0; cell + 1 < cellStart.length; cell += 1) {
    const kind = mosaic.cellKind[cell];
    if (kind === 0) continue;
    const from = whole(cellStart, cell);
    const to = whole(cellStart, cell + 1);
    let px = Number.NaN;
    let py = Number.NaN;
    let qx = Number.NaN;
    let qy = Number.NaN;
    for (let k = from; k < to; k += 1) {
      const a = whole(cellCorners, k);
      const b = whole(cellCorners, k + 1 < to ? k + 1 : from);
      const wa = w(a);
      const wb = w(b);
      if (wa > levelM === wb > levelM) continue;
      // Interpolates from the lower index to the higher so that both cells compute the same point.
      const [i, j, wi, wj] = a < b ? [a, b, wa, wb] : [b, a, wb, wa];
      const s = (levelM - wi) / (wj - wi);
      const x = real(xM, i) + s * (real(xM, j) - real(xM, i));
      const y = real(yM, i) + s * (real(yM, j) - real(yM, i));
      if (wa > levelM) {
        px = x;
        py = y;
      } else {
        qx = x;
        qy = y;
      }
    }
    if (!Number.isFinite(px) || !Number.isFinite(qx)) continue;
    if (kind === 2) {
      pieces.push(px, py, qx, qy);
      continue;
    }
    const length = Math.hypot(qx - px, qy - py);
    const stretches = stretchesOnFloor(room, { xM: px, yM: py }, { xM: qx, yM: qy });
    for (let k = 0; k + 1 < stretches.length; k += 2) {
      const s0 = (stretches[k] ?? 0) / length;
      const s1 = (stretches[k + 1] ?? 0) / length;
      const x0 = s0 <= 0 ? px : px + s0 * (qx - px);
      const y0 = s0 <= 0 ? py : py + s0 * (qy - py);
      pieces.push(x0, y0, s1 >= 1 ? qx : px + s1 * (qx - px), s1 >= 1 ? qy : py + s1 * (qy - py));
    }
  }
  return pieces;
}

const JOIN_M = 1e-6;
/**
 * Ends are looked up in cells a few times wider than the join distance, so that most ends need one cell and none more than
 * four.
 */
const CELL_M = 4 * JOIN_M;
/** Cells in each direction that fit in a key: over 130 m from the drawing's origin. */
const CELLS = 2 ** 26;

/** Joins pieces end to start into lines. Ends closer than a micrometer count as one point. */
export function joinPieces(pieces: LinePieces): ContourLine[] {
  const count = pieces.length / 4;
  const starts = new Map<number, number[]>();
  const cellOf = (v: number): number => Math.floor(v / CELL_M);
  const keyOf = (cx: number, cy: number): number => cx * CELLS + cy;
  for (let i = 0; i < count; i += 1) {
    const key = keyOf(cellOf(pieces[4 * i] ?? 0), cellOf(pieces[4 * i + 1] ?? 0));
    const list = starts.get(key);
    if (list) list.push(i);
    else starts.set(key, [i]);
  }
  const used = new Uint8Array(count);
  const nextFrom = (x: number, y: number): number => {
    let best = -1;
    let nearest = JOIN_M;
    const [fromX, toX, fromY, toY] = [cellOf(x - JOIN_M), cellOf(x + JOIN_M), cellOf(y - JOIN_M), cellOf(y + JOIN_M)];
    for (let cx = fromX; cx <= toX; cx += 1) {
      for (let cy = fromY; cy <= toY; cy += 1) {
        const list = starts.get(keyOf(cx, cy));
        if (list === undefined) continue;
        for (const i of list) {
          if (used[i]) continue;
          const far = Math.hypot((pieces[4 * i] ?? 0) - x, (pieces[4 * i + 1] ?? 0) - y);
          if (far <= nearest) {
            nearest = far;
            best = i;
          }
        }
      }
    }
    return best;
  };
  const hasBefore = new Uint8Array(count);
  for (let i = 0; i < count; i += 1) {
    const next = nextFrom(pieces[4 * i + 2] ?? 0, pieces[4 * i + 3] ?? 0);
    if (next >= 0 && next !== i) hasBefore[next] = 1;
  }
  const lines: ContourLine[] = [];
  const follow = (first: number): void => {
    const points: Point[] = [{ xM: pieces[4 * first] ?? 0, yM: pieces[4 * first + 1] ?? 0 }];
    let current = first;
    while (current >= 0) {
      used[current] = 1;
      const end = { xM: pieces[4 * current + 2] ?? 0, yM: pieces[4 * current + 3] ?? 0 };
      points.push(end);
      current = nextFrom(end.xM, end.yM);
    }
    const start = points[0];
    const end = points[points.length - 1];
    const closed =
      start !== undefined && end !== undefined && points.length > 3 && Math.hypot(start.xM - end.xM, start.yM - end.yM) <= JOIN_M;
    if (closed) points.pop();
    lines.push({ points, closed });
  };
  // Lines that begin at a wall come first, then the remaining closed rings.
  for (let i = 0; i < count; i += 1) if (!used[i] && !hasBefore[i]) follow(i);
  for (let i = 0; i < count; i += 1) if (!used[i]) follow(i);
  return lines;
}

/** Readable contour intervals, meters: 1, 2, 5, 10, 20, 50 mm. */
export const METRIC_STEPS_M: readonly number[] = [0.001, 0.002, 0.005, 0.01, 0.02, 0.05, 0.1];
/** Readable contour intervals in inches: 1/16, 1/8, 1/4, 1/2, 1, 2. */
export const INCH_STEPS_M: readonly number[] = [1 / 16, 1 / 8, 1 / 4, 1 / 2, 1, 2, 4].map((inches) => inches * 0.0254);

/** The interval that gives about eight contours over a range of heights. */
export function contourStepM(rangeM: number, units: 'us' | 'metric'): number {
  const steps = units === 'us' ? INCH_STEPS_M : METRIC_STEPS_M;
  return steps.find((step) => rangeM / step <= 9) ?? steps[steps.length - 1] ?? 0.1;
}
