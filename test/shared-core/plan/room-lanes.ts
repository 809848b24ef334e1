import { type Lane, lanesOfRegion } from '../../../shared-core/plan/lanes.ts';
import type { Plan } from '../../../shared-core/book/plan-fields.ts';
import { wayOutPoint } from '../../../shared-core/plan/openings.ts';
import { roomRegion } from '../../../shared-core/plan/region.ts';

/** A room's lanes, starting at the wall farthest from its exit. */
export function roomLanes(plan: Pick<Plan, 'outline' | 'holes' | 'openings'>, widthM: number, angleDeg: number): readonly Lane[] {
  return lanesOfRegion(roomRegion(plan), widthM, angleDeg, wayOutPoint(plan));
}
