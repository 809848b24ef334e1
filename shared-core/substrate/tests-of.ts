/** The tests of one kind among all made on a floor. */
import type { FloorTest, FloorTestKind } from '../book/layer.ts';

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

/** Hours within which tests of one kind belong to one visit. A later visit replaces the one before it. Common practice, no source. */
export const VISIT_HOURS: Readonly<Record<FloorTestKind, number>> = {
  'moisture-dish': 72,
  'slab-humidity': 72,
  'wood-moisture': 12,
  'drop-absorption': 1,
  'surface-ph': 1,
  'pull-off': 1,
  scratch: 1,
  air: 0,
  'floor-deflection': 0,
  'surface-look': 0,
  lab: 0,
};

/**
 * The tests of one kind made at the last visit, oldest first. All count, since the weakest place of a floor
 * decides; those of earlier visits do not, since the floor has been worked on.
 */
export function lastVisit<K extends FloorTestKind>(tests: readonly FloorTest[], kind: K): readonly TestOf<K>[] {
  const ofKind = testsOf(tests, kind);
  const last = ofKind.at(-1);
  if (last === undefined) return [];
  const from = Date.parse(last.takenAt) - VISIT_HOURS[kind] * 3_600_000;
  return ofKind.filter((test) => Date.parse(test.takenAt) >= from);
}

/** A lab result. */
export type LabResult = TestOf<'lab'>;
