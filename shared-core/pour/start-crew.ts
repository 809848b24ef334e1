/** The crew a new plan starts from, by how the mix is carried. */
import type { Crew } from '../book/job.ts';
import type { TaskTimes } from '../book/task-times.ts';
import type { PourClocks } from './clocks.ts';
import { TYPICAL_CREW } from './typical-crew.ts';

const average = ({ least, usual, most }: { readonly least: number; readonly usual: number; readonly most: number }): number =>
  (least + usual + most) / 3;

/**
 * Mixing stations of a pour carried by hand, where whoever mixes also walks: with typical times two place a batch about every 3 min, too
 * slow for an edge that heals in 8 min. Common practice, no source.
 */
const STATIONS_BY_HAND = 3;

/** Share of the working time a load may use by plan, so that a slow batch still fits. Our choice, no source. */
const LOAD_SHARE = 0.8;

/**
 * Batches per cart load: one round of the mixers, or fewer where its first batch would not be placed within the working time with every
 * task at its average. At least 1.
 */
export function loadWithin(crew: Crew, clocks: Pick<PourClocks, 'workingTimeMin'>): number {
  const perBatchMin = (average(crew.measureMin) + average(crew.mixMin) + average(crew.scrapeMin)) / crew.mixers;
  const tripMin = average(crew.mixMin) + average(crew.carryMin) / 2;
  // One round of the mixers fills a load: a second round would let the first one age in the cart.
  for (let load = crew.mixers; load > 1; load--) {
    const emptyMin = (average(crew.emptyMin) * load) / TYPICAL_CREW.cartBatches;
    if (tripMin + (load - 1) * perBatchMin + emptyMin <= LOAD_SHARE * clocks.workingTimeMin) return load;
  }
  return 1;
}

/**
 * A crew to start from: by hand three stations carry their own buckets; by cart the loads stay within the working time.
 * @param times the business's own task times; absent for typical ones
 */
export function startCrew(carry: Crew['carry'], clocks: Pick<PourClocks, 'workingTimeMin'>, times?: TaskTimes): Crew {
  const mixers = carry === 'by-hand' ? STATIONS_BY_HAND : TYPICAL_CREW.mixers;
  const crew: Crew = { ...TYPICAL_CREW, ...times, mixers, carry, carriers: 0 };
  return { ...crew, cartBatches: loadWithin(crew, clocks) };
}
