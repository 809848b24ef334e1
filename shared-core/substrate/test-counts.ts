/** How many tests a floor of a given size needs. */
import { SQUARE_FOOT_M2 } from '../measure/area.ts';

const THOUSAND_FT2_M2 = 1000 * SQUARE_FOOT_M2;
/** Tolerance for the rounding of an area converted from square feet. */
const ROUNDING = 1e-9;

/** Slab moisture tests: three in the first 1,000 sq ft, one for each additional 1,000 sq ft or part of it. ASTM F1869 and F2170, second-hand. */
export function slabTestCount(areaM2: number): number {
  return 3 + Math.max(0, Math.ceil(areaM2 / THOUSAND_FT2_M2 - 1 - ROUNDING));
}

/** Minimum wood readings in a room of any size. Common practice, no source. */
export const WOOD_READINGS_LEAST = 3;

/** Moisture readings of a wood subfloor: 20 in 1,000 sq ft (NWFA, second-hand), and never fewer than three. */
export function woodReadingCount(areaM2: number): number {
  return Math.max(WOOD_READINGS_LEAST, Math.ceil((20 * areaM2) / THOUSAND_FT2_M2 - ROUNDING));
}

/** Drops, scratches or pulls: three spots. Common practice, no source; ASTM F3191 requires several. */
export const SURFACE_TEST_PLACES = 3;
