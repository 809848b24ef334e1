import { formatLength } from '../../shared-core/measure/length-format.ts';
import type { UnitSystem } from '../../shared-core/measure/unit-system.ts';

/** Coarse and fine steps of dragging and arrow keys: 1 in. and 1/16 in., or 1 cm and 1 mm. */
export function stepsM(units: UnitSystem): { readonly plain: number; readonly fine: number } {
  return units === 'us' ? { plain: 0.0254, fine: 0.0254 / 16 } : { plain: 0.01, fine: 0.001 };
}

/** A point in words, measured from the first corner. */
export function placeWords(point: { readonly xM: number; readonly yM: number }, units: UnitSystem, locale: string): string {
  return `${formatLength(point.xM, units, locale)} across, ${formatLength(point.yM, units, locale)} down`;
}
