/** Sample drawings by name. */
import type { Drawing } from '../../../shared-core/drawing/marks.ts';
import { planDrawing } from '../../../shared-core/drawing/plan.ts';
import { hallInput } from './sample-room.ts';

export function samples(): Record<string, Drawing> {
  return {
    hall: planDrawing(hallInput()),
  };
}
