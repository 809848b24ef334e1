/** Entries of a pour's log and its readings in words. */
import type { PourEvent } from '../../../shared-core/book/pour-record.ts';
import { formatNumber } from '../../../shared-core/measure/number.ts';

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

/** An entry as the log lists it, and as undo names it. */
export function eventWords(event: PourEvent, locale: string): string {
  switch (event.kind) {
    case 'started':
      return 'pour opened';
    case 'mixed':
      return `batch ${event.batch} mixed`;
    case 'landed':
      return `batch ${event.batch} landed`;
    case 'strip-finished':
      return `strip ${event.strip} finished`;
    case 'incident':
      return (INCIDENTS.find((i) => i.what === event.what)?.word ?? event.what).toLowerCase();
    case 'reading':
      return 'readings taken';
    case 'lot':
      return `lot ${event.lot}`;
    case 'bags-added':
      return `${bagsWords(event.bags, locale)} added`;
    case 'note':
      return 'note written';
    case 'undone':
      return 'an entry taken back';
    case 'finished':
      return 'pour finished';
  }
}
