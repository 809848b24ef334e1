/** Which marks of a floor go on through the underlayment and its flooring. */
import type { Mark } from '../book/plan-fields.ts';

/** Whether a mark may move or be dormant: a crack, or a control or construction joint. A drain or a hollow area does neither. */
export const hasMovement = ({ kind }: Pick<Mark, 'kind'>): boolean => kind === 'crack' || kind === 'joint';

/**
 * An expansion joint always; a crack, or a control or construction joint, unless it is known to be dormant.
 * ASTM F710: only non-moving joints are filled; TCNA EJ171 for tile.
 */
export const isHonored = ({ kind, moves }: Pick<Mark, 'kind' | 'moves'>): boolean =>
  kind === 'expansion-joint' || (hasMovement({ kind }) && moves !== 'still');
