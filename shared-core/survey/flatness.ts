/**
 * How flat a floor is: the worst gap under a straightedge laid along lines in several directions over the room. Lines are at
 * most 0.3 m apart in eight directions or more, the first along the longest wall. Only the area with readings is judged,
 * because extrapolated heights show no gaps.
 */
import type { Point } from '../book/fields.ts';
import { layDirection, LINE_SPACING_M, PackedProfiles, type Profiles } from './profile-lines.ts';
import { readRegionSides } from './read-region.ts';
import type { RoomRings } from './room-rings.ts';
import { type GapAlong, gapSearch, widenGap } from './straightedge.ts';
import type { Surface } from './surface.ts';
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
export function widestNearby(surface: Surface, room: RoomRings, worst: WorstGap): WorstGap {
  if (worst.point === null || worst.directionDeg === null) return worst;
  const floor = { surface, room, region: readRegionSides(surface) };
  let best = worst;
  let turn = Math.PI / 32;
  let shiftM = LINE_SPACING_M / 3;
  // The cost of a line grows with the number of creases in the surface.
  const rounds = Math.min(REFINING_ROUNDS, Math.ceil(REFINING_EFFORT / surface.spotCount));
  for (let round = 0; round < rounds; round += 1) {
    const { point, directionDeg } = best;
    if (point === null || directionDeg === null) return best;
    let isWider = false;
    for (const da of [-turn, 0, turn]) {
      for (const dv of [-shiftM, 0, shiftM]) {
        const angle = (directionDeg * Math.PI) / 180 + da;
        const offset = point.yM * Math.cos(angle) - point.xM * Math.sin(angle) + dv;
        const out = new PackedProfiles();
        layDirection(floor, angle, 0, { angle, offset }, out);
        if (out.direction.length === 0) continue;
        const gap = worstGap(out.finish(Float64Array.of(angle)), worst.spanM);
        if (gap.gapM > best.gapM + 1e-7) {
          best = { ...gap, shorterThanSpan: worst.shorterThanSpan };
          isWider = true;
        }
      }
    }
    if (!isWider) {
      turn /= 2;
      shiftM /= 2;
    }
  }
  return best;
}

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
    search.along.set(profiles.along.subarray(from, to));
    search.height.set(profiles.height.subarray(from, to));
    search.count = to - from;
    if (widenGap(search, spanM, best)) foundIn = k;
  }
  const shorterThanSpan = profiles.longestM < spanM;
  if (foundIn < 0 && underShorter) return { ...underShorter, spanM, shorterThanSpan };
  if (foundIn < 0) return { spanM, gapM: 0, point: null, contacts: null, directionDeg: null, shorterThanSpan };
  const angle = real(profiles.angles, whole(profiles.direction, foundIn));
  const v = real(profiles.offset, foundIn);
  const place = (u: number): Point => ({
    xM: u * Math.cos(angle) - v * Math.sin(angle),
    yM: u * Math.sin(angle) + v * Math.cos(angle),
  });
  const turned = ((angle * 180) / Math.PI) % 180;
  return {
    spanM,
    gapM: best.gapM,
    point: place(best.deepest),
    contacts: [place(best.contactA), place(best.contactB)],
    directionDeg: turned < 0 ? turned + 180 : turned,
    shorterThanSpan,
  };
}
