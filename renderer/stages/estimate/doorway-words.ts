import { formatDepth } from '../../../shared-core/measure/length-format.ts';
import type { UnitSystem } from '../../../shared-core/measure/unit-system.ts';
import type { DoorwayLevel } from '../../../shared-core/survey/doorway-levels.ts';

/** Half of 1/16 in., m: a smaller step is flush, because it cannot be felt. Common practice, no source. */
const FLUSH_M = 0.0008;

/** `flush with the tile`, `⅜″ up into this room`, or what is missing where the floor beyond was not measured. */
export function doorwayStep({ stepM, adjoiningFlooring, isExterior }: DoorwayLevel, units: UnitSystem, locale: string): string {
  if (stepM === null) return isExterior ? 'sill not measured' : 'adjoining floor not measured';
  if (Math.abs(stepM) < FLUSH_M) return adjoiningFlooring === '' ? 'flush' : `flush with the ${adjoiningFlooring}`;
  const from = adjoiningFlooring === '' ? '' : ` from the ${adjoiningFlooring}`;
  return `${formatDepth(Math.abs(stepM), units, locale)} ${stepM > 0 ? 'up' : 'down'} into this room${from}`;
}
