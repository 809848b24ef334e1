/**
 * Reads of numeric arrays whose index is known to be in range. The compiler can't know that, and an `undefined` that
 * slipped through would turn into a silent zero somewhere; a NaN shows. One function an array class keeps each read fast.
 */

/** The number at a place of a list of reals; NaN when out of range. */
export function real(values: Float64Array, index: number): number {
  return values[index] ?? Number.NaN;
}

/** The index at a place of a list of indices; 0 when out of range. */
export function whole(values: Uint32Array, index: number): number {
  return values[index] ?? 0;
}

/** The signed index at a place; −1 (no neighbor) when out of range. */
export function signed(values: Int32Array, index: number): number {
  return values[index] ?? -1;
}
