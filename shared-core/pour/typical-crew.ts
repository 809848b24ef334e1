/**
 * The typical crew of a new plan. Times are typical: common practice, no source, until the company enters its own.
 * With them, two people mixing and one placing from a wheeled hopper place twelve 50 lb bags in about 45 minutes.
 */
import type { Crew } from '../book/job.ts';

export const TYPICAL_CREW: Crew = {
  mixers: 2,
  carriers: 0,
  spreaders: 1,
  bagsPerBatch: 1,
  carry: 'cart',
  cartBatches: 5,
  measureMin: { least: 0.75, usual: 1.25, most: 2.5 },
  mixMin: { least: 2, usual: 2.5, most: 3.5 },
  scrapeMin: { least: 0.5, usual: 0.75, most: 1.5 },
  carryMin: { least: 0.5, usual: 1, most: 2 },
  spreadMin: { least: 0.4, usual: 0.6, most: 1.2 },
  emptyMin: { least: 2, usual: 3, most: 5 },
  stoppagesPerHour: 0.5,
  stoppageMin: { least: 1, usual: 3, most: 8 },
};
