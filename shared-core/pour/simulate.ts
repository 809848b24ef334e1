/**
 * Many seeded runs of a pour. Run `n` of a seed is always the same, however the runs are split: a worker does a few
 * hundred at a time, reports and merges, and may stop after any part.
 */
import type { PourModel } from './crew-model.ts';
import { benchFor, finishOf, SPENT_COUNT, type Bar } from './crew-bench.ts';
import { runPour } from './crew-run.ts';

/** Results by run; merge parts with `mergeRuns`. */
export type PourRuns = {
  readonly runs: number;
  readonly batches: number;
  readonly joins: number;
  /** Minute when each batch is placed, at index `run * batches + batch`. */
  readonly placedMin: Float32Array;
  /** Age of each batch when placed, minutes, at the same index. */
  readonly ageMin: Float32Array;
  /** Maximum age along each join, minutes, at index `run * joins + join`. */
  readonly joinMin: Float32Array;
  readonly finishMin: Float32Array;
  /** Sums over the runs by `SPENT`, minutes. */
  readonly spentMin: Float64Array;
};

export type RunChoice = {
  readonly runs: number;
  readonly seed: number /** The first run's number, 0 unless a later piece. */;
  readonly from: number;
};

/** Runs a pour many times. */
export function simulatePour(model: PourModel, choice: RunChoice): PourRuns {
  const runs = Math.max(0, Math.floor(choice.runs));
  const { batches } = model;
  const joins = model.joins.length;
  const placedMin = new Float32Array(runs * batches);
  const ageMin = new Float32Array(runs * batches);
  const joinMin = new Float32Array(runs * joins);
  const finishMin = new Float32Array(runs);
  const spentMin = new Float64Array(SPENT_COUNT);
  const b = benchFor(model, false);
  const { pointJoin, pointNewer, pointOlder, pointNewerPart, pointOlderPart } = model;
  const { laidStart, laidEnd } = b;
  for (let run = 0; run < runs; run++) {
    runPour(model, b, choice.seed, choice.from + run);
    placedMin.set(laidEnd, run * batches);
    ageMin.set(b.age, run * batches);
    finishMin[run] = finishOf(b);
    for (let i = 0; i < SPENT_COUNT; i++) spentMin[i] = (spentMin[i] ?? 0) + (b.spent[i] ?? 0);
    const first = run * joins;
    for (let p = 0; p < pointJoin.length; p++) {
      const newer = pointNewer[p] ?? 0;
      const older = pointOlder[p] ?? 0;
      const newerStart = laidStart[newer] ?? 0;
      const olderStart = laidStart[older] ?? 0;
      const passNewer = newerStart + (pointNewerPart[p] ?? 0) * ((laidEnd[newer] ?? 0) - newerStart);
      const passOlder = olderStart + (pointOlderPart[p] ?? 0) * ((laidEnd[older] ?? 0) - olderStart);
      const place = first + (pointJoin[p] ?? 0);
      if (passNewer - passOlder > (joinMin[place] ?? 0)) joinMin[place] = passNewer - passOlder;
    }
  }
  return { runs, batches, joins, placedMin, ageMin, joinMin, finishMin, spentMin };
}

function joined(a: Float32Array, b: Float32Array): Float32Array {
  const both = new Float32Array(a.length + b.length);
  both.set(a);
  both.set(b, a.length);
  return both;
}

/** Merges two parts of one simulation; parts of different pours are a bug. */
export function mergeRuns(a: PourRuns, b: PourRuns): PourRuns {
  if (a.batches !== b.batches || a.joins !== b.joins) throw new Error('Runs of two different pours cannot be merged.');
  return {
    runs: a.runs + b.runs,
    batches: a.batches,
    joins: a.joins,
    placedMin: joined(a.placedMin, b.placedMin),
    ageMin: joined(a.ageMin, b.ageMin),
    joinMin: joined(a.joinMin, b.joinMin),
    finishMin: joined(a.finishMin, b.finishMin),
    spentMin: a.spentMin.map((sum, i) => sum + (b.spentMin[i] ?? 0)),
  };
}

/** One run in full: the timeline of the crew, and the placing times of the batches. */
export type PourTimeline = {
  readonly bars: readonly Bar[];
  readonly laid: { readonly startMin: Float64Array; readonly endMin: Float64Array };
  readonly ageMin: Float64Array;
  readonly finishMin: number;
};

/** The timeline of one run. Bars are in working minutes and placing times in clock minutes; they differ by the stoppages. */
export function timelineOf(model: PourModel, seed: number, run: number): PourTimeline {
  const b = benchFor(model, true);
  runPour(model, b, seed, run);
  return {
    bars: (b.bars ?? []).filter((bar) => bar.toMin > bar.fromMin),
    laid: { startMin: b.laidStart, endMin: b.laidEnd },
    ageMin: b.age,
    finishMin: finishOf(b),
  };
}
