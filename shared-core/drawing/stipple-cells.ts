/** The cells of the tile that dots repeat in, and the place of a dot within its cell. */

/** The list of dots repeats across the drawing with this period. */
export const TILE_PX = 320;
/** Average distance from a dot to its nearest neighbor, center to center, minus the gap, px. */
export const MEAN_OVER_GAP_PX = 0.5;
/** Ratio of this list's dots per area to those of a square grid with the same average nearest distance. */
export const SHARE = 0.79;

/** A fixed pseudorandom number from 0 to 1 for an integer, the same on every machine. */
export function spread(n: number): number {
  let h = Math.imul(n ^ 0x9e3779b9, 0x85ebca6b);
  h = Math.imul(h ^ (h >>> 13), 0xc2b2ae35);
  return ((h ^ (h >>> 16)) >>> 0) / 4294967296;
}

/** Across, px, of the dot of a cell. */
export const dotX = (cell: number): number => Math.fround((cell % TILE_PX) + spread(cell * 3 + 1));
/** Down, px, of the dot of a cell. */
export const dotY = (cell: number): number => Math.fround(Math.floor(cell / TILE_PX) + spread(cell * 3 + 2));
