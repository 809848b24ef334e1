/** The text of a checklist line, as shown and as stored with a signature. */
import { formatLiquid } from '../measure/volume.ts';
import type { UnitSystem } from '../book/business.ts';
import { type Wording, wordingFor } from '../substrate/wording.ts';
import { amountText, type PrepItem } from './prep-item.ts';

/** The amount of a line as text; empty without one. */
export function lineAmount(item: PrepItem, wording: Wording, locale: string): string {
  return amountText(item.amount, wording, (volumeL) => formatLiquid(volumeL, wording.units, locale));
}

/** A line in one string, with its amount. Kept with a signature, so that a later change shows. */
export function lineText(item: PrepItem, wording: Wording, locale: string): string {
  const amount = lineAmount(item, wording, locale);
  return (amount === '' ? item.what : `${item.what}: ${amount}`).slice(0, 200);
}

/** The text of a signed line in both unit systems, so that changing units does not void a signature. */
export function lineTextsInAnyUnits(item: PrepItem, locale: string): readonly string[] {
  const systems: readonly UnitSystem[] = ['us', 'metric'];
  return systems.map((units) => lineText(item, wordingFor(units, locale), locale));
}
