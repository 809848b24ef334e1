/** Places on a plan under the hand. */
import { formatLength } from '../../shared-core/measure/length-format.ts';
import type { UnitSystem } from '../../shared-core/measure/unit-system.ts';

/** The step dragging and the arrow keys take, and the finer one: an inch and a sixteenth, or a centimeter and a millimeter. */
export function stepsM(units: UnitSystem): { readonly plain: number; readonly fine: number } {
  return units === 'us' ? { plain: 0.0254, fine: 0.0254 / 16 } : { plain: 0.01, fine: 0.001 };
}

/** A place in words, from the first corner. */
export function placeWords(point: { readonly xM: number; readonly yM: number }, units: UnitSystem, locale: string): string {
  return `${formatLength(point.xM, units, locale)} across, ${formatLength(point.yM, units, locale)} down`;
}
