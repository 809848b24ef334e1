/**
 * Many seeded runs of a pour. Run `n` of a seed is the same whoever does it and in whatever pieces: a worker does some
 * hundreds at a time, reports, and merges, and may stop between pieces with what it has.
 */
import type { PourModel } from './crew-model.ts';
import { benchFor, finishOf, SPENT, SPENT_COUNT, type Bar } from './crew-bench.ts';
import { runPour } from './crew-run.ts';

/** Results of some runs, run by run; merge pieces with `mergeRuns`. */
export type PourRuns = {
  readonly runs: number;
  readonly batches: number;
  readonly seams: number;
  /** When each batch is down, minutes, `run * batches + batch`. */
  readonly placedMin: Float32Array;
  /** Age of each batch when it landed, minutes, likewise. */
  readonly ageMin: Float32Array;
  /** Greatest age along each seam, minutes, `run * seams + seam`. */
  readonly seamMin: Float32Array;
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
  const seams = model.seams.length;
  const placedMin = new Float32Array(runs * batches);
  const ageMin = new Float32Array(runs * batches);
  const seamMin = new Float32Array(runs * seams);
  const finishMin = new Float32Array(runs);
  const spentMin = new Float64Array(SPENT_COUNT);
  const b = benchFor(model, false);
  const { pointSeam, pointNewer, pointOlder, pointNewerPart, pointOlderPart } = model;
  const { laidStart, laidEnd } = b;
  for (let run = 0; run < runs; run++) {
    runPour(model, b, choice.seed, choice.from + run);
    placedMin.set(laidEnd, run * batches);
    ageMin.set(b.age, run * batches);
    finishMin[run] = finishOf(b);
    for (let i = 0; i < SPENT_COUNT; i++) spentMin[i] = (spentMin[i] ?? 0) + (b.spent[i] ?? 0);
    const first = run * seams;
    for (let p = 0; p < pointSeam.length; p++) {
      const newer = pointNewer[p] ?? 0;
      const older = pointOlder[p] ?? 0;
      const newerStart = laidStart[newer] ?? 0;
      const olderStart = laidStart[older] ?? 0;
      const passNewer = newerStart + (pointNewerPart[p] ?? 0) * ((laidEnd[newer] ?? 0) - newerStart);
      const passOlder = olderStart + (pointOlderPart[p] ?? 0) * ((laidEnd[older] ?? 0) - olderStart);
      const place = first + (pointSeam[p] ?? 0);
      if (passNewer - passOlder > (seamMin[place] ?? 0)) seamMin[place] = passNewer - passOlder;
    }
  }
  return { runs, batches, seams, placedMin, ageMin, seamMin, finishMin, spentMin };
}

function joined(a: Float32Array, b: Float32Array): Float32Array {
  const both = new Float32Array(a.length + b.length);
  both.set(a);
  both.set(b, a.length);
  return both;
}

/** Two pieces of one simulation as one; pieces of different pours are a bug. */
export function mergeRuns(a: PourRuns, b: PourRuns): PourRuns {
  if (a.batches !== b.batches || a.seams !== b.seams) throw new Error('Runs of two different pours cannot be merged.');
  return {
    runs: a.runs + b.runs,
    batches: a.batches,
    seams: a.seams,
    placedMin: joined(a.placedMin, b.placedMin),
    ageMin: joined(a.ageMin, b.ageMin),
    seamMin: joined(a.seamMin, b.seamMin),
    finishMin: joined(a.finishMin, b.finishMin),
    spentMin: a.spentMin.map((sum, i) => sum + (b.spentMin[i] ?? 0)),
  };
}

/** One run in full: who did what when, and when each batch was laid. */
export type PourTimeline = {
  readonly bars: readonly Bar[];
  readonly laid: { readonly startMin: Float64Array; readonly endMin: Float64Array };
  readonly ageMin: Float64Array;
  readonly finishMin: number;
  readonly stoppedMin: number;
};

/** The timeline of one run. Bars are in working minutes, laying times by the clock: they differ by the stoppages. */
export function timelineOf(model: PourModel, seed: number, run: number): PourTimeline {
  const b = benchFor(model, true);
  runPour(model, b, seed, run);
  return {
    bars: b.bars ?? [],
    laid: { startMin: b.laidStart, endMin: b.laidEnd },
    ageMin: b.age,
    finishMin: finishOf(b),
    stoppedMin: b.spent[SPENT.stopped] ?? 0,
  };
}
