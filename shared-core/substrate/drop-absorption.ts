/** Whether a substrate is porous: the water drop test (ASTM F3191). */
import type { TestOf } from '../book/tests-of.ts';

/** A drop absorbed sooner than this means a porous floor. ASTM F3191, second-hand. */
export const POROUS_UNDER_SECONDS = 60;

export type Absorption = 'porous' | 'non-porous';

/** One drop: absorbed within a minute is porous, still visible at a minute is not. Null when it was watched for less than a minute. */
export function absorptionOf(drop: Pick<TestOf<'drop-absorption'>, 'seconds' | 'watchedSeconds'>): Absorption | null {
  if (drop.seconds !== null) return drop.seconds < POROUS_UNDER_SECONDS ? 'porous' : 'non-porous';
  return drop.watchedSeconds >= POROUS_UNDER_SECONDS ? 'non-porous' : null;
}

/** Several drops: one that is not absorbed makes the substrate non-porous for the primer. Null without a result. */
export function absorptionOfAll(drops: readonly Pick<TestOf<'drop-absorption'>, 'seconds' | 'watchedSeconds'>[]): Absorption | null {
  const results = drops.map(absorptionOf).filter((answer) => answer !== null);
  if (results.length === 0) return null;
  return results.includes('non-porous') ? 'non-porous' : 'porous';
}
