import { MILESTONE_NAME } from '../../shared-core/standing/cure-words.ts';
import { plural } from '../../shared-core/measure/count-words.ts';
import type { FigureSource, MaterialKind, MilestoneKind, PrimerUse } from '../../shared-core/book/material.ts';

export const KIND_WORDS: Readonly<Record<MaterialKind, string>> = {
  'cement-underlayment': 'Self-leveling underlayment (SLU)',
  'deep-fill': 'Deep-fill underlayment',
  'cement-topping': 'Self-leveling topping (wear surface)',
  'calcium-sulfate': 'Gypsum-based underlayment (calcium sulfate)',
  primer: 'Primer',
  'moisture-barrier': 'Moisture mitigation system',
  reinforcement: 'Reinforcement',
  'perimeter-strip': 'Perimeter isolation strip',
  dam: 'Dam',
  'crack-filler': 'Crack filler',
  sealer: 'Sealer',
  aggregate: 'Aggregate',
  tool: 'Tool bought for a job',
};

/** In the order of the list: underlayment, primer, then the rest. */
export const KINDS = Object.keys(KIND_WORDS) as readonly MaterialKind[];

/** Kinds that are always listed; the others are folded. */
export const FIRST_KINDS: ReadonlySet<MaterialKind> = new Set(KINDS.slice(0, 5));

export const SOURCE_WORDS: Readonly<Record<FigureSource, string>> = { bag: 'bag', typical: 'typical', measured: 'measured' };

export const MILESTONE_WORDS: Readonly<Record<MilestoneKind, string>> = {
  ...MILESTONE_NAME,
  cover: 'ready for flooring',
};

export const SUBSTRATE_NAMES: Readonly<Record<PrimerUse['substrate'], string>> = {
  porous: 'Porous substrate',
  'non-porous': 'Non-porous substrate',
  wood: 'Wood',
  metal: 'Metal',
  tile: 'Tile',
};

/** `3 bags`, `1 jug`. */
export function containersWord(n: number, shown: string, name: string): string {
  return `${shown} ${n === 1 ? name : plural(name)}`;
}
