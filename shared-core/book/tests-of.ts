/** The tests of one kind among all made on a floor. */
import type { FloorTest, FloorTestKind } from './layer.ts';

/** A floor test of one kind. */
export type TestOf<K extends FloorTestKind> = Extract<FloorTest, { kind: K }>;

/**
 * The tests of one kind, oldest first; those of one moment in the order of their ids, so that the order of
 * entry decides nothing.
 */
export function testsOf<K extends FloorTestKind>(tests: readonly FloorTest[], kind: K): readonly TestOf<K>[] {
  const isKind = (test: FloorTest): test is TestOf<K> => test.kind === kind;
  return tests.filter(isKind).toSorted((a, b) => Date.parse(a.takenAt) - Date.parse(b.takenAt) || (a.id < b.id ? -1 : a.id > b.id ? 1 : 0));
}

/** A lab result. */
export type LabResult = TestOf<'lab'>;
