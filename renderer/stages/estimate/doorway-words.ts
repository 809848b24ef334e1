/** What the new floor does at a doorway, in words. */
import { formatDepth } from '../../../shared-core/measure/length-format.ts';
import type { UnitSystem } from '../../../shared-core/measure/unit-system.ts';
import type { DoorwayLevel } from '../../../shared-core/survey/doorways.ts';

/** A step under this is none: half a sixteenth, what a hand feels. */
const FLUSH_M = 0.0008;

/** `flush with the tile`, `⅜″ up into this room`; what is missing where the floor beyond was not read. */
export function doorwayStep({ stepM, adjoiningFlooring }: DoorwayLevel, units: UnitSystem, locale: string): string {
  if (stepM === null) return 'adjoining floor not measured';
  if (Math.abs(stepM) < FLUSH_M) return adjoiningFlooring === '' ? 'flush' : `flush with the ${adjoiningFlooring}`;
  const from = adjoiningFlooring === '' ? '' : ` from the ${adjoiningFlooring}`;
  return `${formatDepth(Math.abs(stepM), units, locale)} ${stepM > 0 ? 'up' : 'down'} into this room${from}`;
}
