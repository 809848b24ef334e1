/** The text of a checklist line, as shown and as stored with a signature. */
import { formatLiquid } from '../measure/volume.ts';
import type { Wording } from '../substrate/wording.ts';
import { amountText, type PrepItem } from './prep-item.ts';

/** The amount of a line as text; empty without one. */
export function lineAmount(item: PrepItem, wording: Wording, locale: string): string {
  return amountText(item.amount, wording, (volumeL) => formatLiquid(volumeL, wording.units, locale));
}

/** The most of a line that a signature keeps, in characters. */
const SIGNED_MOST = 200;

/** A line in one string, with its amount. Kept with a signature, so that a later change shows. */
export function lineText(item: PrepItem, wording: Wording, locale: string): string {
  const amount = lineAmount(item, wording, locale);
  return (amount === '' ? item.what : `${item.what}: ${amount}`).slice(0, SIGNED_MOST);
}

/** Whether a text as signed is of the same work, whatever its amount. */
export function isSameWork({ what }: Pick<PrepItem, 'what'>, signedText: string): boolean {
  const start = `${what}: `.slice(0, SIGNED_MOST);
  return signedText === what.slice(0, SIGNED_MOST) || (signedText.startsWith(start) && /^(\d|$)/.test(signedText.slice(start.length)));
}
