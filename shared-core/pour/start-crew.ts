/** The starting crew of a new plan, by how the mix is carried. */
import type { Crew } from '../book/job.ts';
import type { TaskTimes } from '../book/task-times.ts';
import { averageMin, USUAL_HANDS, usualMixers } from '../material/crew-hours.ts';
import type { PourClocks } from './clocks.ts';
import { TYPICAL_CREW } from './typical-crew.ts';

/** Share of the working time that a load may use by plan, as a margin for a slow batch. Our choice, no source. */
const LOAD_SHARE = 0.8;

/**
 * Batches per cart load: one round of the mixers, or fewer when its first batch would not be placed within the working time with every
 * task at its average. At least 1.
 */
export function loadWithin(crew: Crew, clocks: Pick<PourClocks, 'workingTimeMin'>): number {
  const perBatchMin = (averageMin(crew.measureMin) + averageMin(crew.mixMin) + averageMin(crew.scrapeMin)) / crew.mixers;
  const tripMin = averageMin(crew.mixMin) + averageMin(crew.carryMin) / 2;
  // One round of the mixers fills a load, since the first round would age in the cart during a second.
  for (let load = crew.mixers; load > 1; load--) {
    const emptyMin = (averageMin(crew.emptyMin) * load) / TYPICAL_CREW.cartBatches;
    if (tripMin + (load - 1) * perBatchMin + emptyMin <= LOAD_SHARE * clocks.workingTimeMin) return load;
  }
  return 1;
}

/**
 * The starting crew: by hand up to three stations carry their own buckets and anyone else carries; by cart up to the typical stations mix,
 * and the loads stay within the working time. Alone, the owner mixes, carries and spreads by turns; a cart takes a second person.
 * @param times the company's task times; omitted for typical ones
 * @param helpers number of people on site without the owner, including one who places
 */
export function startCrew(
  carry: Crew['carry'],
  clocks: Pick<PourClocks, 'workingTimeMin'>,
  times?: TaskTimes,
  helpers: number = USUAL_HANDS.helpers,
): Crew {
  const mixers = carry === 'by-hand' ? usualMixers(helpers) : Math.min(TYPICAL_CREW.mixers, usualMixers(helpers));
  const carriers = carry === 'by-hand' ? Math.max(0, helpers - mixers) : 0;
  const spreaders = carry === 'by-hand' && helpers === 0 ? 0 : TYPICAL_CREW.spreaders;
  const crew: Crew = { ...TYPICAL_CREW, ...times, mixers, carry, carriers, spreaders };
  return { ...crew, cartBatches: loadWithin(crew, clocks) };
}
