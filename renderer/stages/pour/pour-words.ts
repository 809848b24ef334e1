/** Entries of a pour's log and its readings in words. */
import type { IncidentKind } from '../../../shared-core/book/pour-record.ts';
import { seamWords } from '../../../shared-core/drawing/pour-edges.ts';
import { formatPercent } from '../../../shared-core/measure/percent.ts';
import type { PourOutlook } from '../../../shared-core/pour/outlook.ts';

/** What may go wrong, with the key that says so. */
export const INCIDENTS: readonly { readonly what: IncidentKind; readonly key: string; readonly word: string }[] = [
  { what: 'blocked-outlet', key: '1', word: 'Blocked outlet' },
  { what: 'spill', key: '2', word: 'Spill' },
  { what: 'dry-spot', key: '3', word: 'Dry spot' },
  { what: 'wrong-water', key: '4', word: 'Wrong water' },
  { what: 'power-lost', key: '5', word: 'Power lost' },
  { what: 'other', key: '6', word: 'Something else went wrong' },
];

/** `A cold joint in 4 % of pours, most often at strip 2 beside strip 3.` Without its place where there is no room for it. */
export function chanceWords(outlook: PourOutlook, locale: string, hasPlace = true): string {
  const { share } = outlook.coldJoint;
  const percent = formatPercent(share, share > 0 && share < 0.01 ? 1 : 0, locale);
  const where = !hasPlace || outlook.worstSeam === null || share === 0 ? '' : `, most often at ${seamWords(outlook.worstSeam.seam)}`;
  return `A cold joint in ${percent} of pours${where}.`;
}
