/** Strength and alkalinity of the surface that is poured on. */
import type { TestOf } from './tests-of.ts';
import { PSI_PA } from '../measure/pressure.ts';

/** Least pull-off strength of the floor beneath: 200 psi (1.4 N/mm²), by ASTM C1583. Common practice, figure from memory. */
export const PULL_OFF_LEAST_PA = 200 * PSI_PA;
/** Alkalinity outside this is known to affect coverings and adhesives. ASTM F710, the upper figure from memory. */
export const PH_WITHIN = { least: 7, most: 10 } as const;

/** Whether a surface's pH lies within the limits; the limits themselves are within. */
export function isPhWithin(ph: number): boolean {
  return ph >= PH_WITHIN.least && ph <= PH_WITHIN.most;
}

/** What a pull says: strong enough, weak, or nothing, when the glue let go before the floor was proved. */
export function pullOffAnswer(pull: Pick<TestOf<'pull-off'>, 'stressPa' | 'failedIn'>): 'strong' | 'weak' | 'not-proved' {
  if (pull.stressPa >= PULL_OFF_LEAST_PA) return 'strong';
  return pull.failedIn === 'glue' ? 'not-proved' : 'weak';
}
