/** In-slab relative humidity (ASTM F2170): probe depth, equilibration, whether the reading counts. */
import type { TestOf } from '../book/tests-of.ts';

/** Probe depth as a share of the slab's thickness, by the number of drying sides. ASTM F2170 clause 10, second-hand. */
export const PROBE_DEPTH_SHARE = { 1: 0.4, 2: 0.2 } as const;
/** Hours between sealing the hole and reading it. ASTM F2170, second-hand; older editions require 72. */
export const SETTLED_HOURS = 24;
/** Tolerance of the probe depth: 5 mm or a tenth of the depth, whichever is larger. Common practice, no source. */
export const DEPTH_SLACK = { leastM: 0.005, share: 0.1 } as const;

/** Depth of the probe below the surface, meters. */
export function probeDepthM(slabThicknessM: number, dryingSides: 1 | 2): number {
  return slabThicknessM * PROBE_DEPTH_SHARE[dryingSides];
}

/**
 * Why a humidity reading does not count, as a sentence; null when it does.
 * @param reading depths in meters
 * @param depthText formats a depth
 */
export function whyHumidityDoesNotCount(
  reading: Pick<TestOf<'slab-humidity'>, 'depthM' | 'slabThicknessM' | 'dryingSides' | 'settledHours'>,
  depthText: (depthM: number) => string,
): string | null {
  if (reading.slabThicknessM === null) return 'Enter the slab thickness. The probe depth depends on it.';
  const wantedM = probeDepthM(reading.slabThicknessM, reading.dryingSides);
  const slackM = Math.max(DEPTH_SLACK.leastM, DEPTH_SLACK.share * wantedM);
  if (Math.abs(reading.depthM - wantedM) > slackM + 1e-9) {
    return `The probe was at ${depthText(reading.depthM)}. This slab is measured at ${depthText(wantedM)}.`;
  }
  if (reading.settledHours < SETTLED_HOURS) {
    return `Equilibrated for ${reading.settledHours} h. ASTM F2170 needs ${SETTLED_HOURS} h.`;
  }
  return null;
}
