/** Entries of a pour's log and its readings in words. */
import type { PourEvent } from '../../../shared-core/book/pour-record.ts';
import { seamWords } from '../../../shared-core/drawing/pour-edges.ts';
import { formatNumber } from '../../../shared-core/measure/number.ts';
import { formatPercent } from '../../../shared-core/measure/percent.ts';
import type { PourLayout } from '../../../shared-core/pour/layout.ts';
import type { PourOutlook } from '../../../shared-core/pour/outlook.ts';

export type IncidentKind = Extract<PourEvent, { kind: 'incident' }>['what'];

/** What may go wrong, with the key that says so. */
export const INCIDENTS: readonly { readonly what: IncidentKind; readonly key: string; readonly word: string }[] = [
  { what: 'blocked-outlet', key: '1', word: 'Blocked outlet' },
  { what: 'spill', key: '2', word: 'Spill' },
  { what: 'dry-spot', key: '3', word: 'Dry spot' },
  { what: 'wrong-water', key: '4', word: 'Wrong water' },
  { what: 'power-lost', key: '5', word: 'Power lost' },
  { what: 'other', key: '6', word: 'Something else went wrong' },
];

/** `2 bags`, `1 bag`. */
export function bagsWords(bags: number, locale: string): string {
  return `${formatNumber(bags, { most: 1 }, locale)} ${bags === 1 ? 'bag' : 'bags'}`;
}

/** `A cold joint in 4 % of pours, most often at strip 2 beside strip 3.` Without its place where there is no room for it. */
export function chanceWords(outlook: PourOutlook, locale: string, hasPlace = true): string {
  const { share } = outlook.coldJoint;
  const percent = formatPercent(share, share > 0 && share < 0.01 ? 1 : 0, locale);
  const where = !hasPlace || outlook.worstSeam === null || share === 0 ? '' : `, most often at ${seamWords(outlook.worstSeam.seam)}`;
  return `A cold joint in ${percent} of pours${where}.`;
}

/** A strip's number through the whole pour, as the screen and the wall sheet count: entries know it by its room. */
function laneNumber(layout: PourLayout | null, event: Extract<PourEvent, { kind: 'lane-finished' }>): number {
  return layout?.lanes.find((s) => s.roomId === event.roomId && s.inRoom === event.lane)?.number ?? event.lane;
}

/** An entry as the log lists it, and as undo names it. */
export function eventWords(event: PourEvent, layout: PourLayout | null, locale: string): string {
  switch (event.kind) {
    case 'started':
      return 'pour opened';
    case 'mixed':
      return `batch ${event.batch} mixed`;
    case 'placed':
      return `batch ${event.batch} landed`;
    case 'lane-finished':
      return `strip ${laneNumber(layout, event)} finished`;
    case 'incident':
      return (INCIDENTS.find((i) => i.what === event.what)?.word ?? event.what).toLowerCase();
    case 'reading':
      return 'readings taken';
    case 'lot':
      return `lot ${event.lot}`;
    case 'bags-added':
      return `${bagsWords(event.bags, locale)} added`;
    case 'note':
      return event.photoIds.length > 0 ? 'photo taken' : 'note written';
    case 'undone':
      return 'an entry taken back';
    case 'finished':
      return 'pour finished';
  }
}
