/** Scales simulated minutes to a given volume. */
import type { PourPlan } from '../book/job.ts';

/** Volumes this close count as equal, since lanes are sampled along their length. */
const SAME_FILL = 0.02;

/**
 * Likely minutes to pour a volume by a simulated plan; null before a simulation. The simulation may have covered one lift of
 * several, or more rooms, so minutes are proportional to volume.
 * @param volumeM3 the volume to pour; null while unknown
 */
export function likelyMinutes(plan: Pick<PourPlan, 'likelyMinutes' | 'likelyVolumeM3'>, volumeM3: number | null): number | null {
  const simulated = plan.likelyMinutes ?? null;
  if (simulated === null || volumeM3 === null) return simulated;
  const share = volumeM3 / (plan.likelyVolumeM3 ?? volumeM3);
  return Math.abs(share - 1) <= SAME_FILL ? simulated : Math.round(simulated * share);
}
