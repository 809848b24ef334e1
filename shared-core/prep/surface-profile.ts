/** The concrete surface profile that abrading is for, in the words of a prep line. */
import type { FloorFacts } from '../substrate/floor-facts.ts';

/** A concrete surface profile where the data sheet gives none. Typical: CSP 2 to 3, toppings 3 to 5, ASTM F3010 systems 3. */
const TYPICAL_PROFILE = {
  underlayment: { least: 2, most: 3 },
  topping: { least: 3, most: 5 },
  moistureSystem: { least: 3, most: 3 },
} as const;

/** The profile wanted: the data sheet's, else the typical one for what goes on it. */
function wantedProfile(facts: FloorFacts): { readonly least: number; readonly most: number; readonly typical: boolean } {
  const own = facts.product?.powder.profileCsp?.value ?? null;
  if (facts.hasMoistureSystem) return { ...TYPICAL_PROFILE.moistureSystem, typical: true };
  if (own !== null) return { ...own, typical: facts.product?.powder.profileCsp?.source !== 'bag' };
  return { ...TYPICAL_PROFILE[facts.product?.kind === 'cement-topping' ? 'topping' : 'underlayment'], typical: true };
}

/** How a part of the surface is abraded: to a profile, by sanding, or dull; null where it is not, or is removed. */
export type Abrasion = 'profile' | 'sand' | 'dull';

/**
 * The start of a line that abrades.
 * @param where the part of the surface; null for all of it
 */
export function abrasionWords(facts: FloorFacts, abrasion: Abrasion, where: string | null): string {
  if (abrasion !== 'profile') return `${abrasion === 'sand' ? 'Sand' : 'Abrade'} ${where ?? 'the whole surface'} to a dull, sound face`;
  const { least, most } = wantedProfile(facts);
  return `Abrade ${where === null ? '' : `${where} `}mechanically to CSP ${least === most ? least : `${least} to ${most}`}`;
}

/** Why the profile of a line is as it is. */
export const profileReason = (facts: FloorFacts): string =>
  wantedProfile(facts).typical
    ? 'typical profile. No acid, no chemical remover, no oily sweeping compound'
    : 'the profile on the data sheet. No acid, no chemical remover';
