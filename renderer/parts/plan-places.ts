import type { Point } from '../../shared-core/book/fields.ts';
import { formatLength } from '../../shared-core/measure/length-format.ts';
import type { UnitSystem } from '../../shared-core/measure/unit-system.ts';

/** Coarse and fine steps of dragging and arrow keys: 1 in. and 1/16 in., or 1 cm and 1 mm. */
export function stepsM(units: UnitSystem): { readonly plain: number; readonly fine: number } {
  return units === 'us' ? { plain: 0.0254, fine: 0.0254 / 16 } : { plain: 0.01, fine: 0.001 };
}

/** The letter of a place on the plan and in its list. */
export const placeLetter = (index: number): string => String.fromCharCode(97 + index);

/** The corner that places are measured from; the origin while nothing is drawn. */
export const firstCorner = (outline: readonly Point[]): Point => outline[0] ?? { xM: 0, yM: 0 };

/** A point in words, measured from the first corner. */
export function placeWords(outline: readonly Point[], point: Point, units: UnitSystem, locale: string): string {
  const first = firstCorner(outline);
  return `${formatLength(point.xM - first.xM, units, locale)} across, ${formatLength(point.yM - first.yM, units, locale)} down`;
}
