/** Every kind of floor test, one entry each; a missing kind is a compile error. */
import type { FloorTest, FloorTestKind } from '../book/layer.ts';
import { type TestOf, testsOf } from '../book/tests-of.ts';
import { moistureDish, slabHumidity, woodMoisture } from './moisture-kinds.ts';
import { type Absorption, absorptionOf, absorptionOfAll } from './measured-tests.ts';
import { air, floorDeflection, lab } from './site-kinds.ts';
import { dropAbsorption, pullOff, scratch, surfaceLook, surfacePh } from './surface-kinds.ts';
import type { TestKind } from './test-kind.ts';

/** In order of work. */
export const TEST_KINDS: { readonly [K in FloorTestKind]: TestKind<TestOf<K>> } = {
  'slab-humidity': slabHumidity,
  'moisture-dish': moistureDish,
  'wood-moisture': woodMoisture,
  'drop-absorption': dropAbsorption,
  'surface-ph': surfacePh,
  scratch,
  'pull-off': pullOff,
  air,
  'floor-deflection': floorDeflection,
  'surface-look': surfaceLook,
  lab,
};

/** The kinds in order of work. */
export const testKinds = (): readonly FloorTestKind[] => Object.keys(TEST_KINDS) as FloorTestKind[];

/** The entry of a test's kind. */
export const kindOf = (test: FloorTest): TestKind<FloorTest> => TEST_KINDS[test.kind];

/** Whether a test of this kind is stale. A test exactly at its limit still counts. */
export function isStale(kind: FloorTestKind, takenAt: string, now: string): boolean {
  const goodFor = TEST_KINDS[kind].goodForHours;
  return goodFor !== null && Date.parse(now) - Date.parse(takenAt) > goodFor * 3_600_000;
}

/**
 * The tests of one kind made at the last visit, oldest first. All count, since the weakest spot of a floor
 * decides; earlier visits do not, since the floor has been worked on since.
 */
export function lastVisit<K extends FloorTestKind>(tests: readonly FloorTest[], kind: K): readonly TestOf<K>[] {
  const ofKind = testsOf(tests, kind);
  const last = ofKind.at(-1);
  if (last === undefined) return [];
  const from = Date.parse(last.takenAt) - TEST_KINDS[kind].visitHours * 3_600_000;
  return ofKind.filter((test) => Date.parse(test.takenAt) >= from);
}

/** Whether the surface is porous by the water drops of the last visit that count; null without any. */
export const lastAbsorption = (tests: readonly FloorTest[]): Absorption | null =>
  absorptionOfAll(
    lastVisit(
      testsOf(tests, 'drop-absorption').filter((drop) => absorptionOf(drop) !== null),
      'drop-absorption',
    ),
  );
