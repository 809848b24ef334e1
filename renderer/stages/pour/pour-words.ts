/** Words of the pour screens: trouble with its keys, and the simulation's chance. */
import type { Defect, IncidentKind } from '../../../shared-core/book/pour-record.ts';
import { joinWords } from '../../../shared-core/drawing/pour-edges.ts';
import { formatPercent } from '../../../shared-core/measure/percent.ts';
import type { PourOutlook } from '../../../shared-core/pour/outlook.ts';

/** What a key of the trouble list does: logs at once, or opens a page. */
export type TroublePage = 'bad-batch' | 'stop' | 'short' | 'other';

/** Trouble with the key that logs it. */
export const TROUBLES: readonly {
  readonly what: IncidentKind;
  readonly key: string;
  readonly word: string;
  readonly page: TroublePage | null;
}[] = [
  { what: 'wrong-water', key: '1', word: 'Bad batch', page: 'bad-batch' },
  { what: 'power-lost', key: '2', word: 'Stop: power, water, crew, edge', page: 'stop' },
  { what: 'short-of-bags', key: '3', word: 'Short of bags', page: 'short' },
  { what: 'leak', key: '4', word: 'Leak', page: null },
  { what: 'blocked-outlet', key: '5', word: 'Blocked outlet', page: null },
  { what: 'spill', key: '6', word: 'Spill', page: null },
  { what: 'dry-spot', key: '7', word: 'Dry spot', page: null },
  { what: 'other', key: '8', word: 'Other trouble', page: 'other' },
];

/** `Cold joint in 4% of simulated pours, most often at lane 2 beside lane 3.` Without its place where there is no room for it. */
export function chanceWords(outlook: PourOutlook, locale: string, hasPlace = true): string {
  const { share } = outlook.coldJoint;
  const percent = formatPercent(share, share > 0 && share < 0.01 ? 1 : 0, locale);
  const where = !hasPlace || outlook.worstJoin === null || share === 0 ? '' : `, most often at ${joinWords(outlook.worstJoin.join)}`;
  return `Cold joint in ${percent} of simulated pours${where}.`;
}

/** Defects of a placed floor, as a sentence begins. */
export const DEFECT_WORDS: Readonly<Record<Defect, string>> = {
  pinholes: 'Pinholes',
  ridge: 'Ridge',
  hollow: 'Hollow spot',
  'low-spot': 'Low spot',
};
