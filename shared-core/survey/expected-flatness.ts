/**
 * How flat a floor is to be expected once it is poured: the gaps that the chosen level itself leaves, and what a pour leaves
 * besides. Which of the flooring's limits that meets. Expected is not measured: a second survey after the pour says what it is.
 */
import { worstGap } from './flatness.ts';
import { PackedProfiles, type Profiles } from './profile-lines.ts';
import { type Plane, planeAtM } from './plane.ts';
import type { FloorRead } from './read-floor.ts';
import type { SettledLevel } from './settle-level.ts';
import { type FlatnessDemand, judge, rulesFor, type ToleranceVerdict } from './tolerances.ts';
import { real, whole } from './typed-reads.ts';

/**
 * What a pour of self-leveling cement kept wet at its edges leaves under a straightedge: 1/8 in under 10 ft, under another
 * length in proportion (common practice, no source; a maker's own figure goes before it).
 */
export const POUR_LEAVES = { gapM: 0.003175, spanM: 3.048 } as const;

export type ExpectedFlatness = {
  readonly spanM: number;
  /** Under a straightedge of `spanM` by the level alone: nothing where one plane covers all; the gaps of today where it follows. */
  readonly byPlanM: number;
  /** What the pour leaves besides; nothing where it follows the floor, whose gaps are wider than its own. */
  readonly leftM: number;
  readonly expectedM: number;
  /** Where it comes from: one plane, the floor as it lies, or places that stand proud of the new floor. */
  readonly because: 'plane' | 'follows' | 'proud';
  /** The limits that speak for the flooring, with the gaps expected; empty without flooring. */
  readonly forFlooring: readonly ToleranceVerdict[];
};

/**
 * The flatness to be expected of a floor poured to a settled level.
 * @param groundM how much may be ground off high spots, meters; zero where the floor may not be ground
 * @param spanM length of the straightedge that is spoken of, meters
 */
export function expectedFlatness(
  floor: Pick<FloorRead, 'profiles'>,
  level: Pick<SettledLevel, 'mode' | 'plane' | 'shortM'>,
  groundM: number,
  spanM: number,
  demand: FlatnessDemand,
): ExpectedFlatness {
  const follows = level.mode === 'follow';
  const profiles = follows ? floor.profiles : level.shortM > 0 ? proud(floor.profiles, level.plane, groundM) : null;
  const byPlan = (span: number): number => (profiles === null ? 0 : worstGap(profiles, span).gapM);
  const left = (span: number): number => (follows ? 0 : (POUR_LEAVES.gapM * span) / POUR_LEAVES.spanM);
  const byPlanM = byPlan(spanM);
  return {
    spanM,
    byPlanM,
    leftM: left(spanM),
    expectedM: byPlanM + left(spanM),
    because: follows ? 'follows' : byPlanM > 0 ? 'proud' : 'plane',
    forFlooring: rulesFor(demand).map((rule) => judge(rule, (span) => byPlan(span) + left(span))),
  };
}

/** What stands over the plane of the new floor along every line, ground as far as allowed; the new floor is zero. A tilt changes no gap. */
function proud(profiles: Profiles, plane: Plane, groundM: number): Profiles {
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
      const over = real(profiles.height, i) - groundM - planeAtM(plane, u * c - v * s, u * s + v * c);
      // Where the floor comes through the new one.
      if (last * over < 0) out.push(lastU + ((u - lastU) * last) / (last - over), 0);
      out.push(u, Math.max(0, over));
      lastU = u;
      last = over;
    }
    out.close(direction, v);
  }
  return out.finish(profiles.angles);
}
