/** The datum of a plan screen: feet or meters of the room, below the room. */
import { lengthTicks } from '../../shared-core/drawing/datum.ts';
import type { PlanFit } from '../../shared-core/drawing/plan-walls.ts';
import type { Point } from '../../shared-core/book/fields.ts';
import type { UnitSystem } from '../../shared-core/measure/unit-system.ts';
import { boundsOf } from '../../shared-core/plan/polygon.ts';
import type { DatumScale } from '../parts/Datum.tsx';

/** Left edge of the drawing, px, as the screen's CSS sets it. */
const DRAWING_FROM_PX = { wide: 36, small: 18 };
/** Distance of a label from the window's edges, px. */
const EDGE_PX = 24;

/** Ticks below a room of this width at this scale; none while the size is unknown. */
export function roomDatum(fit: PlanFit | null, outline: readonly Point[], units: UnitSystem, small: boolean, widthPx: number): DatumScale {
  const box = boundsOf(outline);
  if (fit === null || box === null) return { ticks: [] };
  const x0 = (small ? DRAWING_FROM_PX.small : DRAWING_FROM_PX.wide) + fit.leftPx + box.leftM * fit.pxPerM;
  const lengthM = (widthPx - x0 - EDGE_PX) / fit.pxPerM;
  return {
    ticks: lengthTicks(Math.max(0, lengthM), fit.pxPerM, units)
      .filter((tick) => tick.value > 0)
      .map((tick) => ({ xPx: x0 + tick.value * fit.pxPerM, ...(tick.label === null ? {} : { label: tick.label }) })),
    pointerPx: x0,
  };
}
