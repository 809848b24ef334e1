/** Finds the wettest of several readings: flooring fails at the wettest spot, not at the average. */
import { emissionLb } from './measured-tests.ts';
import type { TestOf } from '../book/tests-of.ts';

/** The highest reading, with the test it came from. */
export type Highest = { readonly testId: string; readonly value: number };

function highest(readings: readonly Highest[]): Highest | null {
  return readings.reduce<Highest | null>((most, reading) => (most === null || reading.value > most.value ? reading : most), null);
}

/** The highest relative humidity in the slab, a share; null without readings. */
export function highestHumidity(tests: readonly TestOf<'slab-humidity'>[]): Highest | null {
  return highest(tests.map((test) => ({ testId: test.id, value: test.relativeHumidity })));
}

/** The highest emission, pounds per 1,000 sq ft in 24 h; impossible figures are skipped. */
export function highestEmissionLb(tests: readonly TestOf<'moisture-dish'>[]): Highest | null {
  return highest(
    tests.flatMap((test) => {
      const emission = emissionLb(test);
      return emission.ok ? [{ testId: test.id, value: emission.value }] : [];
    }),
  );
}
