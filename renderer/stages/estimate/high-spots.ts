import type { PlanNote } from '../../../shared-core/drawing/plan-layers.ts';
import type { SettledLevel } from '../../../shared-core/survey/settle-level.ts';
import { placeLetter } from '../../parts/plan-places.ts';

/** Number of lettered high spots, largest first; the rest are summed. */
export const HIGH_SPOTS_LISTED = 6;

export function highSpotNotes({ highSpots }: SettledLevel): PlanNote[] {
  return highSpots
    .slice(0, HIGH_SPOTS_LISTED)
    .map((spot, i) => ({ id: `high-${i}`, point: spot.highestAt, figure: placeLetter(i), text: '' }));
}
