/** Hatches by general drafting convention, as lines cut to the area, not a pattern fill, so that PDF and screen match. */
import { boundsOf, type Box, clipPolyline, isInside, lineFamily, type Rings } from './ring-clip.ts';
import type { Hatch, HatchMark } from './marks.ts';

/** A hatch ready to draw: polylines x, y, x, y, … of one width, and round grains. */
export interface HatchLines {
  readonly lines: readonly (readonly number[])[];
  readonly widthPx: number;
  /** Centers x, y, x, y, …; only concrete has grains. */
  readonly grains: readonly number[];
  readonly grainPx: number;
}

interface Motif {
  readonly width: number;
  readonly height: number;
  readonly lines: readonly (readonly number[])[];
  readonly grains?: readonly number[];
}

/** A cubic curve as a short polyline, without its first point. */
function curve(p: readonly [number, number, number, number, number, number, number, number], steps: number): number[] {
  const out: number[] = [];
  for (let k = 1; k <= steps; k += 1) {
    const t = k / steps;
    const a = (1 - t) ** 3;
    const b = 3 * (1 - t) ** 2 * t;
    const c = 3 * (1 - t) * t * t;
    const d = t ** 3;
    out.push(a * p[0] + b * p[2] + c * p[4] + d * p[6], a * p[1] + b * p[3] + c * p[5] + d * p[7]);
  }
  return out;
}

/** A rounded stone around a center, slightly rotated. */
function pebble(x: number, y: number, rx: number, ry: number, lean: number): number[] {
  const out: number[] = [];
  for (let k = 0; k <= 14; k += 1) {
    const t = (k / 14) * 2 * Math.PI;
    const px = rx * Math.cos(t);
    const py = ry * Math.sin(t) * (1 + 0.12 * Math.cos(t));
    out.push(x + px * Math.cos(lean) - py * Math.sin(lean), y + px * Math.sin(lean) + py * Math.cos(lean));
  }
  return out;
}

/** A wavy line of wood grain across a tile 120 wide. */
function grain(y: number, waves: readonly (readonly [number, number, number, number, number, number])[]): number[] {
  const out = [0, y];
  for (const w of waves) {
    const x0 = out[out.length - 2] ?? 0;
    const y0 = out[out.length - 1] ?? 0;
    out.push(...curve([x0, y0, ...w], 6));
  }
  return out;
}

const MOTIFS: Partial<Record<Hatch, Motif>> = {
  boards: {
    width: 64,
    height: 14,
    lines: [
      [18, 0.5, 18, 7.5],
      [50, 7.5, 50, 14.5],
    ],
  },
  stone: {
    width: 30,
    height: 18,
    lines: [
      [8, 0.5, 8, 9.5],
      [23, 9.5, 23, 18.5],
      [3, 15, 7, 12],
      [14, 6, 18, 3],
      [25, 5, 28, 3],
    ],
  },
  grain: {
    width: 120,
    height: 22,
    lines: [
      grain(4, [
        [20, 2, 34, 7, 56, 5],
        [78, 3, 96, 3, 120, 4],
      ]),
      grain(11, [
        [14, 12, 26, 8, 44, 10],
        [62, 12, 70, 16, 88, 13],
        [98, 11.3, 110, 10, 120, 11],
      ]),
      grain(18, [
        [24, 20, 40, 15, 62, 17],
        [84, 19, 100, 20, 120, 18],
      ]),
    ],
  },
  gravel: {
    width: 46,
    height: 24,
    lines: [
      pebble(8.5, 6, 4.6, 3, 0.1),
      pebble(24, 6.4, 4.3, 2.8, -0.15),
      pebble(38.5, 7.6, 4.7, 3.3, 0.2),
      pebble(14.5, 17.6, 4.7, 2.9, -0.1),
      pebble(30, 18.6, 4.5, 3, 0.15),
      pebble(43, 19, 2.4, 1.9, 0.3),
    ],
  },
  earth: {
    width: 48,
    height: 30,
    lines: [
      [2, 14, 14, 2],
      [7, 14, 19, 2],
      [12, 14, 24, 2],
      [28, 28, 40, 16],
      [33, 28, 45, 16],
      [38, 28, 47, 19],
    ],
  },
  concrete: {
    width: 84,
    height: 56,
    lines: [
      [8, 14, 15, 12, 12, 19, 8, 14],
      [40, 8, 45, 13, 38, 15, 40, 8],
      [66, 22, 73, 23, 69, 29, 66, 22],
      [22, 38, 29, 35, 29, 42, 22, 38],
      [54, 42, 60, 39, 62, 45, 54, 42],
      [76, 48, 81, 50, 76, 54, 76, 48],
      [34, 24, 38, 28, 33, 29, 34, 24],
    ],
    // biome-ignore format: a table of places
    grains: [4,4, 20,8, 29,14, 52,5, 60,13, 74,9, 80,17, 6,26, 15,30, 26,28, 46,26, 62,33, 80,34, 8,44, 16,50, 36,36, 42,48, 68,40, 30,52, 58,52],
  },
};

const UP = -Math.PI / 4;
const DOWN = Math.PI / 4;

/** False where the whole line is beside the box. */
function meetsBox(xy: readonly number[], box: Box): boolean {
  const { x, y, width, height } = boundsOf([xy]);
  return x <= box.x + box.width && x + width >= box.x && y <= box.y + box.height && y + height >= box.y;
}

function tiled(motif: Motif, rings: Rings): { lines: number[][]; grains: number[] } {
  const box = boundsOf(rings);
  const lines: number[][] = [];
  const grains: number[] = [];
  const i1 = Math.floor((box.x + box.width) / motif.width);
  const j1 = Math.floor((box.y + box.height) / motif.height);
  for (let j = Math.floor(box.y / motif.height) - 1; j <= j1; j += 1) {
    for (let i = Math.floor(box.x / motif.width) - 1; i <= i1; i += 1) {
      const ox = i * motif.width;
      const oy = j * motif.height;
      for (const line of motif.lines) {
        const moved = line.map((v, k) => v + (k % 2 === 0 ? ox : oy));
        if (meetsBox(moved, box)) lines.push(...clipPolyline(moved, rings));
      }
      const dots = motif.grains ?? [];
      for (let k = 0; k + 1 < dots.length; k += 2) {
        const x = (dots[k] ?? 0) + ox;
        const y = (dots[k + 1] ?? 0) + oy;
        if (isInside(x, y, rings)) grains.push(x, y);
      }
    }
  }
  return { lines, grains };
}

/** Joists in section: each four-cornered ring gets a cross. */
function crosses(rings: Rings): number[][] {
  return rings.flatMap((r) => {
    const corner = (i: number): number[] => [r[2 * i] ?? 0, r[2 * i + 1] ?? 0];
    return r.length === 8
      ? [
          [...corner(0), ...corner(2)],
          [...corner(1), ...corner(3)],
        ]
      : lineFamily([r], UP, 8);
  });
}

/** The lines of a hatch over an area. Lines are spaced from the drawing's origin, so that adjacent areas match. */
export function hatchLines(mark: Pick<HatchMark, 'rings' | 'hatch'>): HatchLines {
  const rings = mark.rings.map((r) => r.xy).filter((xy) => xy.length >= 6);
  const plain = (lines: number[][], widthPx = 0.7): HatchLines => ({ lines, widthPx, grains: [], grainPx: 1.5 });
  const withMotif = (extra: number[][]): HatchLines => {
    const motif = MOTIFS[mark.hatch];
    if (!motif) return plain(extra);
    const lines = tiled(motif, rings);
    return { lines: [...extra, ...lines.lines], widthPx: 0.7, grains: lines.grains, grainPx: 1.5 };
  };
  switch (mark.hatch) {
    case 'cut':
      return plain(lineFamily(rings, UP, 7));
    case 'wall':
      return plain(lineFamily(rings, UP, 4.2));
    case 'prep':
      return plain(lineFamily(rings, UP, 5.5), 1);
    case 'wide':
      return plain(lineFamily(rings, UP, 14));
    case 'grind':
      return plain([...lineFamily(rings, UP, 6), ...lineFamily(rings, DOWN, 6)]);
    case 'panel':
      return plain(lineFamily(rings, 0, 4, 1));
    case 'tile':
      return plain([...lineFamily(rings, 0, 13, 0.5), ...lineFamily(rings, Math.PI / 2, 13, 0.5)]);
    case 'boards':
      return withMotif(lineFamily(rings, 0, 7, 0.5));
    case 'stone':
      return withMotif(lineFamily(rings, 0, 9, 0.5));
    case 'framing':
      return plain(crosses(rings), 1);
    default:
      return withMotif([]);
  }
}
