/** What a mark on the plan says of itself. */
import type { Mark } from '../../shared-core/book/plan-fields.ts';
import { hasMovement } from '../../shared-core/plan/honored-marks.ts';

export const MOVEMENT: Readonly<Record<Mark['moves'], string>> = { still: 'Dormant', moving: 'Active', unknown: 'Unknown' };

/** Beside a mark in the list: its note, or else the movement of a crack or joint. */
export function markDetail(mark: Pick<Mark, 'kind' | 'moves' | 'note'>): string {
  if (mark.note !== '' || !hasMovement(mark)) return mark.note;
  return mark.moves === 'unknown' ? 'movement unknown' : MOVEMENT[mark.moves].toLowerCase();
}
