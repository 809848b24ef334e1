/**
 * How flat a floor is: the worst gap under a straightedge laid along lines in several directions over the room. Lines are at
 * most 0.3 m apart in eight directions or more, the first along the longest wall. Only the area with readings is judged,
 * because extrapolated heights show no gaps.
 */
import type { Point } from '../book/fields.ts';
import { layDirection, type Line, LINE_SPACING_M, type LineLayer, PackedProfiles, type Profiles } from './profile-lines.ts';
import { type GapAlong, gapSearch, takeProfile, widenGap } from './straightedge.ts';
import { real, whole } from './typed-reads.ts';

/** The worst gap under a straightedge of `spanM`: its contact points, its deepest point, and its direction on the plan. */
export type WorstGap = {
  readonly spanM: number;
  readonly gapM: number;
  /** Null when there is no gap: the floor is flat along every line. */
  readonly point: Point | null;
  readonly contacts: readonly [Point, Point] | null;
  /** Clockwise on the drawing from the x axis, 0 to 180; null with `at`. */
  readonly directionDeg: number | null;
  /** True when every line in the room is shorter than the straightedge, so that a shorter one was used. */
  readonly shorterThanSpan: boolean;
};

/**
 * Turns and shifts the worst gap until no line nearby shows a wider one, because evenly spaced lines can miss it. Each step
 * tries a smaller turn and shift than the one before.
 */
export function widestNearby(layer: LineLayer, worst: WorstGap): WorstGap {
  let best = worst;
  let turn = Math.PI / 32;
  let shiftM = LINE_SPACING_M / 3;
  const out = new PackedProfiles();
  let search = gapSearch(64);
  // The cost of a line grows with the number of creases in the surface.
  const rounds = Math.min(REFINING_ROUNDS, Math.ceil(REFINING_EFFORT / layer.spotCount));
  for (let round = 0; round < rounds; round += 1) {
    const { point, directionDeg } = best;
    if (point === null || directionDeg === null) return best;
    let isWider = false;
    for (const da of [-turn, 0, turn]) {
      for (const dv of [-shiftM, 0, shiftM]) {
        // The middle line is the one that showed the best gap; only a longer straightedge can show a wider one on it.
        if (round > 0 && da === 0 && dv === 0) continue;
        const angle = (directionDeg * Math.PI) / 180 + da;
        const offset = point.yM * Math.cos(angle) - point.xM * Math.sin(angle) + dv;
        out.clear();
        layDirection(layer, angle, 0, { angle, offset }, out);
        if (out.mostPoints > search.along.length) search = gapSearch(2 * out.mostPoints);
        const wider: GapAlong = { gapM: best.gapM + LEAST_GAIN_M, contactA: 0, contactB: 0, deepest: 0 };
        let found = false;
        for (let k = 0; k < out.uneven.length; k += 1) {
          if ((out.uneven[k] ?? 0) <= wider.gapM) continue;
          takeProfile(search, out, out.start[k] ?? 0, out.start[k + 1] ?? 0);
          if (widenGap(search, worst.spanM, wider)) found = true;
        }
        if (!found) continue;
        best = gapOn({ angle, offset }, wider, worst);
        isWider = true;
      }
    }
    if (!isWider) {
      turn /= 2;
      shiftM /= 2;
    }
  }
  return best;
}

/** A gap counts as wider from here, meters. */
const LEAST_GAIN_M = 1e-7;
/** Halvings and moves of the search nearby: enough to place a line to a millimeter. */
const REFINING_ROUNDS = 10;
const REFINING_EFFORT = 2000;

/**
 * The worst gap under a straightedge of `spanM` over all profiles. The search starts from a shorter straightedge's result
 * when given: a longer one finds no smaller gap, so flatter profiles are skipped.
 */
export function worstGap(profiles: Profiles, spanM: number, underShorter: WorstGap | null = null): WorstGap {
  const search = gapSearch(profiles.mostPoints);
  const best: GapAlong = { gapM: underShorter?.gapM ?? 0, contactA: 0, contactB: 0, deepest: 0 };
  let foundIn = -1;
  for (const k of profiles.order) {
    if (real(profiles.unevenM, k) <= best.gapM) break;
    const from = whole(profiles.start, k);
    const to = whole(profiles.start, k + 1);
    takeProfile(search, profiles, from, to);
    if (widenGap(search, spanM, best)) foundIn = k;
  }
  const shorterThanSpan = profiles.longestM < spanM;
  if (foundIn < 0 && underShorter) return { ...underShorter, spanM, shorterThanSpan };
  if (foundIn < 0) return { spanM, gapM: 0, point: null, contacts: null, directionDeg: null, shorterThanSpan };
  const line = { angle: real(profiles.angles, whole(profiles.direction, foundIn)), offset: real(profiles.offset, foundIn) };
  return gapOn(line, best, { spanM, shorterThanSpan });
}

/** The gap found along a line, by its places on the plan. */
function gapOn(
  { angle, offset }: Line,
  found: GapAlong,
  { spanM, shorterThanSpan }: Pick<WorstGap, 'spanM' | 'shorterThanSpan'>,
): WorstGap {
  const place = (u: number): Point => ({
    xM: u * Math.cos(angle) - offset * Math.sin(angle),
    yM: u * Math.sin(angle) + offset * Math.cos(angle),
  });
  const turned = ((angle * 180) / Math.PI) % 180;
  return {
    spanM,
    gapM: found.gapM,
    point: place(found.deepest),
    contacts: [place(found.contactA), place(found.contactB)],
    directionDeg: turned < 0 ? turned + 180 : turned,
    shorterThanSpan,
  };
}
