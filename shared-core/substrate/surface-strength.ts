/** Tensile bond strength and pH of the substrate. */
import type { MaterialKind, PowderSheet } from '../book/material.ts';
import type { TestOf } from '../book/tests-of.ts';
import { PSI_PA } from '../measure/pressure.ts';

/** Minimum tensile bond of the substrate under flooring underlayment: 100 psi. Typical on data sheets, common practice. */
export const PULL_OFF_UNDERLAYMENT_PA = 100 * PSI_PA;
/** Minimum tensile bond under a wear topping or a moisture mitigation system: 200 psi. ASTM F3010, second-hand from a lab's page. */
export const PULL_OFF_TOPPING_PA = 200 * PSI_PA;
/** pH outside this can affect flooring adhesives. ASTM F710, second-hand; many manufacturers give 9 as the maximum. */
export const PH_WITHIN = { least: 7, most: 10 } as const;

/** Minimum tensile bond of a substrate, pascals: the data sheet's figure, or else by what is placed on it. */
export function pullOffLeastPa(
  product: { readonly kind: MaterialKind; readonly powder: Pick<PowderSheet, 'pullOffLeastPa'> } | null,
  hasMoistureSystem: boolean,
): number {
  const ownPa = product?.powder.pullOffLeastPa?.value ?? 0;
  const typicalPa = hasMoistureSystem || product?.kind === 'cement-topping' ? PULL_OFF_TOPPING_PA : PULL_OFF_UNDERLAYMENT_PA;
  if (ownPa === 0) return typicalPa;
  return hasMoistureSystem ? Math.max(ownPa, PULL_OFF_TOPPING_PA) : ownPa;
}

/** Whether a surface's pH is within the limits, inclusive. */
export function isPhWithin(ph: number): boolean {
  return ph >= PH_WITHIN.least && ph <= PH_WITHIN.most;
}

/** Result of a pull-off test: strong enough, weak, or none when the adhesive failed before the required strength. */
export function pullOffAnswer(pull: Pick<TestOf<'pull-off'>, 'stressPa' | 'failedIn'>, leastPa: number): 'strong' | 'weak' | 'not-proved' {
  if (pull.stressPa >= leastPa - 1e-6) return 'strong';
  return pull.failedIn === 'glue' ? 'not-proved' : 'weak';
}
