/** The text of a checklist line, as shown and as stored with a signature. */
import { formatLiquid } from '../measure/volume.ts';
import type { Wording } from '../substrate/wording.ts';
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
