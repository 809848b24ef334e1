/**
 * Reads numeric arrays whose index is known to be in range. The compiler cannot know that, and an `undefined` would turn
 * into a silent zero; a NaN is visible. One function per array class keeps each read fast.
 */

/** The number at an index; NaN when out of range. */
export function real(values: Float64Array, index: number): number {
  return values[index] ?? Number.NaN;
}

/** The index at an index; 0 when out of range. */
export function whole(values: Uint32Array, index: number): number {
  return values[index] ?? 0;
}

/** The signed index at an index; −1 (no neighbor) when out of range. */
export function signed(values: Int32Array, index: number): number {
  return values[index] ?? -1;
}
