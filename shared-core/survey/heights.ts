/** Converts readings to heights. Readings are stored as entered; heights are calculated each time. */
import type { Reading, Survey } from '../book/plan-fields.ts';

/**
 * The height of a reading in meters. A distance down from the laser becomes its negative. The constant is zero on purpose,
 * so that a finish elevation or an adjoining floor stored on this scale does not change when another reading is added;
 * `scale.ts` says when the scale itself changes.
 * Screens show heights from the highest point, which is part of the result.
 */
export function heightOfM(method: Survey['method'], valueM: number): number {
  return method === 'height' ? valueM : -valueM;
}

/** Converts a height to a reading's value: the inverse of `heightOfM`. */
export function valueOfHeightM(method: Survey['method'], heightM: number): number {
  return method === 'height' ? heightM : -heightM;
}

/** A place with a height and its readings: more than one when the same spot was read twice. */
export type Spot = { readonly xM: number; readonly yM: number; readonly zM: number; readonly readings: readonly Reading[] };

/** Readings this close together are one spot: about the width of a rod's foot (common practice). */
export const SAME_SPOT_M = 0.01;
/** Cells in each direction that fit in a key: far larger than any house. */
const CELLS = 2 ** 26;

/** Usable readings, merged where they are on one spot (the mean of their heights), in the order of the first of each. */
export function spotsOf(method: Survey['method'], readings: readonly Reading[]): Spot[] {
  const cells = new Map<number, number[]>();
  const keyOf = (cx: number, cy: number): number => cx * CELLS + cy;
  const groups: { xM: number; yM: number; readings: Reading[] }[] = [];
  for (const reading of readings) {
    const cx = Math.floor(reading.xM / SAME_SPOT_M);
    const cy = Math.floor(reading.yM / SAME_SPOT_M);
    let groupIndex = -1;
    for (let dx = -1; dx <= 1 && groupIndex < 0; dx += 1) {
      for (let dy = -1; dy <= 1 && groupIndex < 0; dy += 1) {
        for (const index of cells.get(keyOf(cx + dx, cy + dy)) ?? []) {
          const group = groups[index];
          if (group && Math.hypot(group.xM - reading.xM, group.yM - reading.yM) < SAME_SPOT_M) groupIndex = index;
        }
      }
    }
    const group = groups[groupIndex];
    if (group) {
      group.readings.push(reading);
      continue;
    }
    const key = keyOf(cx, cy);
    const list = cells.get(key);
    if (list) list.push(groups.length);
    else cells.set(key, [groups.length]);
    groups.push({ xM: reading.xM, yM: reading.yM, readings: [reading] });
  }
  return groups.map((group) => ({
    xM: group.xM,
    yM: group.yM,
    zM: group.readings.reduce((sum, reading) => sum + heightOfM(method, reading.valueM), 0) / group.readings.length,
    readings: group.readings,
  }));
}
