/** Minutes that were simulated once, for as much as is asked about now. */
import type { PourPlan } from '../book/job.ts';

/** Lanes are read every so often along their length: volumes this near to one another are one and the same fill. */
const SAME_FILL = 0.02;

/**
 * The likely minutes of pouring a volume by a plan that was simulated; null before. What was simulated may have been one lift of
 * several, or more rooms than are asked about: minutes go by the volume.
 * @param volumeM3 asked about; null while it is not known
 */
export function likelyMinutes(plan: Pick<PourPlan, 'likelyMinutes' | 'likelyVolumeM3'>, volumeM3: number | null): number | null {
  const simulated = plan.likelyMinutes ?? null;
  if (simulated === null || volumeM3 === null) return simulated;
  const share = volumeM3 / (plan.likelyVolumeM3 ?? volumeM3);
  return Math.abs(share - 1) <= SAME_FILL ? simulated : Math.round(simulated * share);
}
