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
/** The width of a rod's foot: in a row or grid finer than a hand, only readings this close are one spot. Common practice, no source. */
const ROD_FOOT_M = 0.01;
/** Cells in each direction that fit in a key: far larger than any house. */
const CELLS = 2 ** 26;

/** The readings by cells of a width, with those in a reading's cell and the eight around it. */
function cellsOf<T>(widthM: number): { readonly near: (at: Reading) => readonly T[]; readonly add: (at: Reading, one: T) => void } {
  const cells = new Map<number, T[]>();
  const keyOf = ({ xM, yM }: Reading, dx = 0, dy = 0): number => (Math.floor(xM / widthM) + dx) * CELLS + Math.floor(yM / widthM) + dy;
  return {
    near: (at) => NEXT.flatMap((dx) => NEXT.flatMap((dy) => cells.get(keyOf(at, dx, dy)) ?? [])),
    add: (at, one) => {
      const cell = cells.get(keyOf(at));
      if (cell === undefined) cells.set(keyOf(at), [one]);
      else cell.push(one);
    },
  };
}

const isWithin = (a: Reading, b: Reading, withinM: number): boolean => Math.hypot(a.xM - b.xM, a.yM - b.yM) < withinM;

/** Groups within a distance of their first reading from the left. */
function groupsWithin(readings: readonly Reading[], withinM: number): Reading[][] {
  const cells = cellsOf<Reading[]>(withinM);
  const groups: Reading[][] = [];
  for (const reading of readings.toSorted((a, b) => a.xM - b.xM || a.yM - b.yM)) {
    const group = cells.near(reading).find(([first]) => first !== undefined && isWithin(first, reading, withinM));
    if (group !== undefined) {
      group.push(reading);
      continue;
    }
    const fresh = [reading];
    groups.push(fresh);
    cells.add(reading, fresh);
  }
  return groups;
}

/**
 * Readings of one spot each. Readings that go on farther than a hand's width, each within it of the next, are a row or grid that
 * was read that finely on purpose, as across a crack: merged, it would come out flatter than it was read.
 */
function groupsOf(readings: readonly Reading[]): Reading[][] {
  const feet = groupsWithin(readings, ROD_FOOT_M);
  const cells = cellsOf<readonly [Reading, number]>(SAME_SPOT_M);
  const hands = groupsWithin(
    feet.flatMap(([first]) => first ?? []),
    SAME_SPOT_M,
  );
  for (const [i, hand] of hands.entries()) for (const one of hand) cells.add(one, [one, i]);
  const isFine = (hand: readonly Reading[], i: number): boolean =>
    hand.some(
      (one) =>
        cells.near(one).some(([other, j]) => j !== i && isWithin(one, other, SAME_SPOT_M)) ||
        hand.some((other) => !isWithin(one, other, SAME_SPOT_M)),
    );
  const footOf = new Map(feet.map((foot) => [foot[0], foot]));
  const readingsAt = (first: Reading): Reading[] => footOf.get(first) ?? [];
  return hands.flatMap((hand, i) => (isFine(hand, i) ? hand.map(readingsAt) : [hand.flatMap(readingsAt)]));
}

/**
 * Usable readings, merged where they are on one spot: the mean of their heights at the mean of their places. Independent of the
 * order of the readings; in the order of the first of each spot.
 */
export function spotsOf(method: Survey['method'], readings: readonly Reading[]): Spot[] {
  const order = new Map(readings.map((reading, i) => [reading, i]));
  const orderOf = (reading: Reading | undefined): number => (reading === undefined ? 0 : (order.get(reading) ?? 0));
  const groups = groupsOf(readings).map((group) => group.toSorted((a, b) => orderOf(a) - orderOf(b)));
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
