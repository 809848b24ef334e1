/** The job's rooms in outline, as a key plan. */
import type { Room } from '../../../shared-core/book/room.ts';
import type { Drawing } from '../../../shared-core/drawing/marks.ts';

/** Null until a room of the job is drawn. */
export function keyPlanDrawing(_rooms: readonly Room[], _current: string): Drawing | null {
  return null;
}
