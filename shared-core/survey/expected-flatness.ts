/**
 * Expected flatness of a floor after the pour: the gaps the chosen finish leaves plus those of a typical pour, and which
 * flooring limits they meet. This is an estimate; only a survey after the pour measures it.
 */
import { worstGap } from './flatness.ts';
import { PackedProfiles, type Profiles } from './profile-lines.ts';
import { type Plane, planeAtM } from './plane.ts';
import type { FloorRead } from './read-floor.ts';
import type { SettledLevel } from './settle-level.ts';
import { type FlatnessDemand, judge, rulesFor, type ToleranceVerdict } from './tolerances.ts';
import { real, whole } from './typed-reads.ts';

/**
 * Gap that self-leveling underlayment leaves under a straightedge when its wet edge is kept: 1/8 in. in 10 ft, in proportion
 * at other lengths (common practice, no source; the manufacturer's own figure takes precedence).
 */
export const POUR_LEAVES = { gapM: 0.003175, spanM: 3.048 } as const;

export type ExpectedFlatness = {
  readonly spanM: number;
  /**
   * Gap under a straightedge of `spanM` from the finish alone: zero where one plane covers everything, the present gaps
   * where it follows the floor.
   */
  readonly byPlanM: number;
  /** Additional gap from the pour. Where it follows the floor, only as much as the floor's gaps are narrower than the pour's own. */
  readonly leftM: number;
  readonly expectedM: number;
  /** Cause of the gap: a plane, following the floor, or high spots above the new floor. */
  readonly because: 'plane' | 'follows' | 'proud';
  /** The limits that apply to the flooring, with the expected gaps; empty without flooring. */
  readonly forFlooring: readonly ToleranceVerdict[];
};

/**
 * Expected flatness of a floor poured to a settled finish elevation.
 * @param groundM maximum grinding of high spots, meters; zero where the floor may not be ground
 * @param spanM length of the straightedge, meters
 */
export function expectedFlatness(
  floor: Pick<FloorRead, 'profiles'>,
  level: Pick<SettledLevel, 'mode' | 'plane' | 'shortM'>,
  groundM: number,
  spanM: number,
  demand: FlatnessDemand,
): ExpectedFlatness {
  const follows = level.mode === 'follow';
  const profiles = follows ? floor.profiles : level.shortM > 0 ? heightsAboveFinish(floor.profiles, level.plane, groundM) : null;
  const byPlan = (span: number): number => (profiles === null ? 0 : worstGap(profiles, span).gapM);
  const gapM = (span: number): number => {
    const ownM = (POUR_LEAVES.gapM * span) / POUR_LEAVES.spanM;
    return follows ? Math.max(byPlan(span), ownM) : byPlan(span) + ownM;
  };
  const [byPlanM, expectedM] = [byPlan(spanM), gapM(spanM)];
  return {
    spanM,
    byPlanM,
    leftM: expectedM - byPlanM,
    expectedM,
    because: follows ? 'follows' : byPlanM > 0 ? 'proud' : 'plane',
    forFlooring: rulesFor(demand).map((rule) => judge(rule, gapM)),
  };
}

/**
 * Heights above the plane of the new floor along every line, after the allowed grinding; the new floor is zero. A tilt
 * changes no gap.
 */
function heightsAboveFinish(profiles: Profiles, plane: Plane, groundM: number): Profiles {
  const out = new PackedProfiles();
  for (let k = 0; k < profiles.count; k += 1) {
    const direction = whole(profiles.direction, k);
    const c = Math.cos(real(profiles.angles, direction));
    const s = Math.sin(real(profiles.angles, direction));
    const v = real(profiles.offset, k);
    let lastU = 0;
    let last = 0;
    for (let i = whole(profiles.start, k); i < whole(profiles.start, k + 1); i += 1) {
      const u = real(profiles.along, i);
      const aboveM = real(profiles.height, i) - groundM - planeAtM(plane, u * c - v * s, u * s + v * c);
      // The point where the existing floor crosses the new one.
      if (last * aboveM < 0) out.push(lastU + ((u - lastU) * last) / (last - aboveM), 0);
      out.push(u, Math.max(0, aboveM));
      lastU = u;
      last = aboveM;
    }
    out.close(direction, v);
  }
  return out.finish(profiles.angles);
}
