import type { Room } from '../../../shared-core/book/room.ts';
import { keyPlan } from '../../../shared-core/drawing/house.ts';
import type { Drawing } from '../../../shared-core/drawing/marks.ts';

const [WIDTH_PX, HEIGHT_PX] = [140, 96];

/** Null until a room of the job is drawn. */
export function keyPlanDrawing(rooms: readonly Room[], currentId: string): Drawing | null {
  const drawn = rooms.filter((room) => room.plan.outline.length >= 3);
  if (drawn.length === 0) return null;
  return keyPlan(
    drawn.map((room) => ({ id: room.id, plan: room.plan, isPicked: room.id === currentId, label: room.name })),
    WIDTH_PX,
    HEIGHT_PX,
  );
}
