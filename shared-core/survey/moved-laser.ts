/** A straight step of one height across the readings: the mark of a laser that was set up again between two of them. */
import type { Opening, Plan, Reading } from '../book/plan-fields.ts';
import { placedOpenings } from '../plan/openings.ts';
import { distanceM } from '../plan/point.ts';
import type { Spot } from './heights.ts';
import { fittedPlane, planeAtM } from './plane.ts';

/** The spots on either side of a step, in the order they were read. */
export type Step = {
  /** How much the later side is above the earlier, meters. */
  readonly stepM: number;
  readonly earlier: readonly Spot[];
  readonly later: readonly Spot[];
};

/** Directions tried, and the spots needed. Common practice, no source. */
const DIRECTIONS = 24;
const FEWEST_SPOTS = 20;
const FEWEST_ON_A_SIDE = 4;
/**
 * A step smaller than this, or than this multiple of what is left beside a plane with the step, can be the floor's own: a swell
 * read a few feet apart looks like one. Common practice, no source.
 */
const LEAST_STEP_M = 0.005;
const LEAST_RATIO = 7;

type Cut = { readonly isBeyond: (spot: Spot) => boolean; readonly stepM: number; readonly squares: number };

/**
 * The plane of all spots with a step at a straight cut that leaves the least squares, of all cuts along all directions. The
 * plane is taken out first, of the heights and of the side (the theorem of Frisch, Waugh and Lovell), so that each cut needs sums alone.
 */
function bestCut(spots: readonly Spot[]): Cut | null {
  const count = spots.length;
  const plane = fittedPlane({
    xM: Float64Array.from(spots, ({ xM }) => xM),
    yM: Float64Array.from(spots, ({ yM }) => yM),
    zM: Float64Array.from(spots, ({ zM }) => zM),
    spotCount: count,
  });
  const total = (of: (spot: Spot) => number): number => spots.reduce((sum, spot) => sum + of(spot), 0);
  const [mx, my] = [total(({ xM }) => xM) / count, total(({ yM }) => yM) / count];
  const leftM = (spot: Spot): number => spot.zM - planeAtM(plane, spot.xM, spot.yM);
  const xx = total(({ xM }) => (xM - mx) ** 2);
  const xy = total(({ xM, yM }) => (xM - mx) * (yM - my));
  const yy = total(({ yM }) => (yM - my) ** 2);
  const det = xx * yy - xy * xy;
  const squaresBefore = total((spot) => leftM(spot) ** 2);
  let best: Cut | null = null;
  for (let d = 0; d < DIRECTIONS; d += 1) {
    const [cos, sin] = [Math.cos((d * Math.PI) / DIRECTIONS), Math.sin((d * Math.PI) / DIRECTIONS)];
    const alongM = ({ xM, yM }: Spot): number => xM * cos + yM * sin;
    const sorted = spots.map((spot) => ({ spot, atM: alongM(spot) })).sort((a, b) => b.atM - a.atM);
    let [sx, sy, sz] = [0, 0, 0];
    for (const [i, { spot, atM }] of sorted.entries()) {
      sx += spot.xM - mx;
      sy += spot.yM - my;
      sz += leftM(spot);
      const beyond = i + 1;
      const nextM = sorted[beyond]?.atM ?? atM;
      if (beyond < FEWEST_ON_A_SIDE || count - beyond < FEWEST_ON_A_SIDE || atM - nextM < 1e-6) continue;
      const sideSquares = beyond - beyond ** 2 / count - (yy * sx * sx - 2 * xy * sx * sy + xx * sy * sy) / det;
      const stepM = sz / sideSquares;
      const squares = squaresBefore - stepM * sz;
      const cutM = (atM + nextM) / 2;
      if (best === null || squares < best.squares) best = { isBeyond: (one) => alongM(one) > cutM, stepM, squares };
    }
  }
  return best;
}

/**
 * The step that divides the spots; null where they need none.
 * @param orderOf the place of a spot in the order the readings were taken
 */
export function straightStep(spots: readonly Spot[], orderOf: (spot: Spot) => number): Step | null {
  if (spots.length < FEWEST_SPOTS) return null;
  const cut = bestCut(spots);
  if (cut === null) return null;
  const { stepM, isBeyond } = cut;
  const scatterM = Math.sqrt(Math.max(0, cut.squares) / (spots.length - 4));
  if (Math.abs(stepM) < Math.max(LEAST_STEP_M, LEAST_RATIO * scatterM)) return null;
  const [near, beyond] = [spots.filter((spot) => !isBeyond(spot)), spots.filter(isBeyond)];
  const mean = (of: readonly Spot[]): number => of.reduce((sum, spot) => sum + orderOf(spot), 0) / of.length;
  return mean(beyond) >= mean(near) ? { stepM, earlier: near, later: beyond } : { stepM: -stepM, earlier: beyond, later: near };
}

/** The two spots nearest each other across a step. */
export function acrossStep({ earlier, later }: Step): readonly Spot[] {
  let nearest: readonly Spot[] = [];
  let nearestM = Number.POSITIVE_INFINITY;
  for (const a of earlier)
    for (const b of later) {
      const farM = Math.hypot(a.xM - b.xM, a.yM - b.yM);
      if (farM >= nearestM) continue;
      nearestM = farM;
      nearest = [a, b];
    }
  return nearest;
}

/**
 * The openings with a floor beyond that was measured, and whether the reading nearest to each is of the later setup: the floor beyond
 * was then likely read from it too. Nothing records it, so the person is asked.
 * @param laterIds the readings of the later setup
 */
export function openingsBySetup(
  plan: Pick<Plan, 'outline' | 'openings'>,
  readings: readonly Reading[],
  laterIds: readonly string[],
): { readonly opening: Opening; readonly isLater: boolean }[] {
  return placedOpenings(plan).flatMap(({ opening, middle }) => {
    if (opening.adjoiningM === null) return [];
    const [nearest] = readings.toSorted((a, b) => distanceM(a, middle) - distanceM(b, middle));
    return [{ opening, isLater: nearest !== undefined && laterIds.includes(nearest.id) }];
  });
}
