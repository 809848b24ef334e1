/**
 * Only new underlayment is stippled. One fixed ranked list of dots, evenly spread at every length of the list: a depth shows the
 * first n of them, so that a new finish elevation adds or removes dots but moves none.
 */
import { boundsOf, type Box, boxRing, isInside, type Rings } from './ring-clip.ts';
import { dotX, dotY, MEAN_OVER_GAP_PX, SHARE, TILE_PX } from './stipple-cells.ts';
import { stippleOrder } from './stipple-order.ts';

/** Diameter of a dot, px. */
export const DOT_PX = 1.5;

const INCH_M = 0.0254;

/** Gap between dots for a depth of underlayment: deeper is denser. Infinity (no dots) for a depth of zero or less. */
export function gapForDepthPx(depthM: number): number {
  if (!(depthM > 0)) return Infinity;
  const inches = depthM / INCH_M;
  return 2.35 + 5.7 * 0.8 ** (inches / 0.125) + (inches < 3 / 16 ? 1 : 0);
}

/** Gap between dots while drying: 2.5 px at the pour (share 0) to 10 px at the likely date (share 1). */
export function gapForDryingPx(share: number): number {
  return 2.5 + 7.5 * Math.min(1, Math.max(0, share));
}

interface RankedDots {
  readonly xy: Float64Array;
  /** Number of dots in the list. */
  readonly count: number;
}

let ranked: RankedDots | null = null;

/** The dots of the list, at their places in the tile. */
function rankedDots(): RankedDots {
  const order = stippleOrder();
  const xy = new Float64Array(order.length * 2);
  for (const [n, cell] of order.entries()) {
    xy[n * 2] = dotX(cell);
    xy[n * 2 + 1] = dotY(cell);
  }
  return { xy, count: order.length };
}

function dots(): RankedDots {
  ranked ??= rankedDots();
  return ranked;
}

/** How many of the list's dots in one period give this gap. */
export function dotsForGap(gapPx: number): number {
  if (!Number.isFinite(gapPx)) return 0;
  return Math.min(dots().count, (TILE_PX * TILE_PX * SHARE) / (gapPx + MEAN_OVER_GAP_PX) ** 2);
}

/** The input for one stippled area. */
export interface StippleArea {
  readonly rings: Rings;
  /** Gap between dots at a place on the drawing; Infinity for no dots. */
  readonly gapAt: (x: number, y: number) => number;
  /** Minimum gap anywhere in the area, if known: dots with a higher rank are skipped. */
  readonly leastGapPx?: number;
  /** True where dots must keep clear, such as behind a label. */
  readonly isKeptClear?: (x: number, y: number) => boolean;
}

/** Dot centers of an area: x, y, x, y, … Whether a dot shows depends only on its rank, not on where the area ends. */
export function stippleDots(area: StippleArea): number[] {
  const box = boundsOf(area.rings);
  const list = dots();
  const upright = isUprightBox(area.rings);
  const out: number[] = [];
  const edge = DOT_PX / 2;
  const count = area.leastGapPx === undefined ? list.count : Math.ceil(dotsForGap(area.leastGapPx));
  const i0 = Math.floor(box.x / TILE_PX);
  const i1 = Math.floor((box.x + box.width) / TILE_PX);
  const j0 = Math.floor(box.y / TILE_PX);
  const j1 = Math.floor((box.y + box.height) / TILE_PX);
  for (let j = j0; j <= j1; j += 1) {
    for (let i = i0; i <= i1; i += 1) {
      for (let n = 0; n < count; n += 1) {
        const x = (list.xy[n * 2] ?? 0) + i * TILE_PX;
        const y = (list.xy[n * 2 + 1] ?? 0) + j * TILE_PX;
        if (x < box.x + edge || x > box.x + box.width - edge || y < box.y + edge || y > box.y + box.height - edge) continue;
        const gap = area.gapAt(x, y);
        if (!(n < dotsForGap(gap))) continue;
        if (!upright && !isInside(x, y, area.rings)) continue;
        if (area.isKeptClear?.(x, y) === true) continue;
        out.push(x, y);
      }
    }
  }
  return out;
}

function isUprightBox(rings: Rings): boolean {
  const ring = rings[0];
  if (rings.length !== 1 || ring?.length !== 8) return false;
  const xs = new Set([ring[0], ring[2], ring[4], ring[6]]);
  const ys = new Set([ring[1], ring[3], ring[5], ring[7]]);
  return xs.size === 2 && ys.size === 2;
}

/** A bar of drying underlayment: dots get sparser along it from the pour (`fromShare` 0) to the likely date (`toShare` 1). */
export function dryingDots(box: Box, fromShare: number, toShare: number): number[] {
  const share = (x: number): number => fromShare + ((toShare - fromShare) * (x - box.x)) / Math.max(1, box.width);
  return stippleDots({
    rings: [boxRing(box)],
    gapAt: (x) => gapForDryingPx(share(x)),
    leastGapPx: gapForDryingPx(Math.min(fromShare, toShare)),
  });
}
