/** The datum of a plan's sheet: feet or meters of the room, under the room itself. */
import { lengthTicks } from '../../shared-core/drawing/datum.ts';
import type { PlanFit } from '../../shared-core/drawing/plan-walls.ts';
import type { Point } from '../../shared-core/book/fields.ts';
import type { UnitSystem } from '../../shared-core/measure/unit-system.ts';
import { boundsOf } from '../../shared-core/plan/polygon.ts';
import type { DatumScale } from '../parts/Datum.tsx';

/** Where the drawing begins from the window's left edge, as the sheet's own style sets it. */
const DRAWING_FROM_PX = { wide: 36, small: 18 };
/** A label needs so much room from the window's edges, pixels. */
const EDGE_PX = 24;

/** Ticks under a room of this width drawn at this scale; none while there is no room. */
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
