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

/** Readings this close together are one spot: within a hand's width, 3 1/2 in. Common practice, no source. */
export const SAME_SPOT_M = 0.09;
/** Cells in each direction that fit in a key: far larger than any house. */
const CELLS = 2 ** 26;

/**
 * Usable readings, merged where they are on one spot: the mean of their heights at the mean of their places. Independent of the
 * order of the readings; in the order of the first of each spot.
 */
export function spotsOf(method: Survey['method'], readings: readonly Reading[]): Spot[] {
  const cells = new Map<number, Reading[][]>();
  const cellOf = (m: number): number => Math.floor(m / SAME_SPOT_M);
  const isSameSpot = (a: Reading, b: Reading): boolean => Math.hypot(a.xM - b.xM, a.yM - b.yM) < SAME_SPOT_M;
  for (const reading of readings.toSorted((a, b) => a.xM - b.xM || a.yM - b.yM)) {
    const [cx, cy] = [cellOf(reading.xM), cellOf(reading.yM)];
    const near = NEXT.flatMap((dx) => NEXT.flatMap((dy) => cells.get((cx + dx) * CELLS + cy + dy) ?? []));
    const group = near.find(([first]) => first !== undefined && isSameSpot(first, reading));
    if (group !== undefined) {
      group.push(reading);
      continue;
    }
    const key = cx * CELLS + cy;
    cells.set(key, [...(cells.get(key) ?? []), [reading]]);
  }
  const order = new Map(readings.map((reading, i) => [reading, i]));
  const orderOf = (reading: Reading | undefined): number => (reading === undefined ? 0 : (order.get(reading) ?? 0));
  const groups = [...cells.values()].flat().map((group) => group.toSorted((a, b) => orderOf(a) - orderOf(b)));
  return groups
    .toSorted(([a], [b]) => orderOf(a) - orderOf(b))
    .map((group) => {
      const mean = (of: (reading: Reading) => number): number => group.reduce((sum, reading) => sum + of(reading), 0) / group.length;
      return {
        xM: mean(({ xM }) => xM),
        yM: mean(({ yM }) => yM),
        zM: mean(({ valueM }) => heightOfM(method, valueM)),
        readings: group,
      };
    });
}

const NEXT = [-1, 0, 1] as const;
