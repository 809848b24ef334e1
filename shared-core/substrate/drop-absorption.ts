/** Whether a floor drinks: drops of water on it (the qualitative test of ASTM F3191). */
import type { TestOf } from './tests-of.ts';

/** A drop gone sooner than this marks a porous floor. ASTM F3191, from memory. */
export const POROUS_UNDER_SECONDS = 60;

export type Absorption = 'porous' | 'non-porous';

/**
 * What one drop says: gone before a minute is porous, still there at a minute is not. Null when the watch was
 * stopped before the minute with the drop still there.
 */
export function absorptionOf(drop: Pick<TestOf<'drop-absorption'>, 'seconds' | 'watchedSeconds'>): Absorption | null {
  if (drop.seconds !== null) return drop.seconds < POROUS_UNDER_SECONDS ? 'porous' : 'non-porous';
  return drop.watchedSeconds >= POROUS_UNDER_SECONDS ? 'non-porous' : null;
}

/** What several drops say together: one that stays is enough to prime for the closed floor. Null when none says anything. */
export function absorptionOfAll(drops: readonly Pick<TestOf<'drop-absorption'>, 'seconds' | 'watchedSeconds'>[]): Absorption | null {
  const said = drops.map(absorptionOf).filter((answer) => answer !== null);
  if (said.length === 0) return null;
  return said.includes('non-porous') ? 'non-porous' : 'porous';
}
