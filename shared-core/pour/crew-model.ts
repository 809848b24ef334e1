/** A laid-out pour and its crew as arrays of numbers for the simulation. */
import type { Crew } from '../book/job.ts';
import type { Found } from '../measure/parsed.ts';
import type { PourClocks } from './clocks.ts';
import type { PourLayout, PourProblem } from './layout.ts';
import type { Join } from './joins.ts';
import { fixed, meanMin, taskRows, triangular, type TaskTime } from './task-time.ts';

/** Row of each task: `carry` is a round trip, `empty` is for a full cart, `stop` is the length of a stoppage. */
export const TASK = { measure: 0, mix: 1, scrape: 2, carry: 3, spread: 4, empty: 5, stop: 6 } as const;

export type CrewTimes = {
  readonly measure: TaskTime;
  readonly mix: TaskTime;
  readonly scrape: TaskTime;
  readonly carry: TaskTime;
  readonly spread: TaskTime;
  readonly empty: TaskTime;
  readonly stop: TaskTime;
};

export type CrewShape = {
  readonly mixers: number;
  readonly carriers: number;
  /** 0 where whoever carries a batch by hand spreads it. */
  readonly spreaders: number;
  /** Batches a cart holds; 0 when carried by hand. */
  readonly cartBatches: number;
  readonly stoppagesPerHour: number;
};

export type PourModel = {
  readonly batches: number;
  readonly shape: CrewShape;
  readonly times: CrewTimes;
  readonly rows: Float64Array;
  readonly healingMin: number;
  readonly workingTimeMin: number;
  readonly healingMostMin: number;
  readonly workingTimeMostMin: number;
  readonly joins: readonly Join[];
  /** One entry per joint point: its join, and the batches (from 0) and parts on either side. */
  readonly pointJoin: Int32Array;
  readonly pointNewer: Int32Array;
  readonly pointOlder: Int32Array;
  readonly pointNewerPart: Float64Array;
  readonly pointOlderPart: Float64Array;
};

/** The times of a crew's record. */
export function crewTimes(crew: Crew): CrewTimes {
  return {
    measure: triangular(crew.measureMin),
    mix: triangular(crew.mixMin),
    scrape: triangular(crew.scrapeMin),
    carry: triangular(crew.carryMin),
    spread: triangular(crew.spreadMin),
    empty: triangular(crew.emptyMin),
    stop: triangular(crew.stoppageMin),
  };
}

/** The numbers of people and stations in a crew's record. */
export function crewShape(crew: Crew): CrewShape {
  return {
    mixers: crew.mixers,
    carriers: crew.carriers,
    spreaders: crew.spreaders,
    cartBatches: crew.carry === 'cart' ? crew.cartBatches : 0,
    stoppagesPerHour: crew.stoppagesPerHour,
  };
}

/** Builds a model from its parts; returns the problem without mixers, with a cart and no spreaders, or when the cart has no capacity. */
export function modelOf(
  batches: number,
  joins: readonly Join[],
  shape: CrewShape,
  times: CrewTimes,
  limits: {
    readonly healingMin: number;
    readonly workingTimeMin: number;
    /** The maximum of the data sheet's ranges; omitted where they are single figures. */
    readonly healingMostMin?: number;
    readonly workingTimeMostMin?: number;
  },
): Found<PourModel, PourProblem> {
  if (!(shape.mixers >= 1)) return { ok: false, problem: { kind: 'no-mixer' } };
  if (!(shape.spreaders >= (shape.cartBatches > 0 ? 1 : 0))) return { ok: false, problem: { kind: 'no-spreader' } };
  if (!(batches >= 1)) return { ok: false, problem: { kind: 'no-batch' } };
  if (shape.cartBatches < 0) return { ok: false, problem: { kind: 'no-load' } };
  if (meanMin(times.mix) + meanMin(times.measure) + meanMin(times.scrape) <= 0) {
    return { ok: false, problem: { kind: 'no-times' } };
  }
  const points = joins.flatMap((join, index) => join.points.map((point) => ({ index, point })));
  return {
    ok: true,
    value: {
      batches,
      shape,
      times,
      rows: taskRows([times.measure, times.mix, times.scrape, times.carry, times.spread, times.empty, times.stop]),
      healingMin: limits.healingMin,
      workingTimeMin: limits.workingTimeMin,
      healingMostMin: limits.healingMostMin ?? limits.healingMin,
      workingTimeMostMin: limits.workingTimeMostMin ?? limits.workingTimeMin,
      joins,
      pointJoin: Int32Array.from(points, (p) => p.index),
      pointNewer: Int32Array.from(points, (p) => p.point.newer - 1),
      pointOlder: Int32Array.from(points, (p) => p.point.older - 1),
      pointNewerPart: Float64Array.from(points, (p) => p.point.newerPart),
      pointOlderPart: Float64Array.from(points, (p) => p.point.olderPart),
    },
  };
}

/** The model of a laid-out pour with a crew and the clocks of the day. */
export function pourModel(layout: PourLayout, crew: Crew, clocks: PourClocks): Found<PourModel, PourProblem> {
  return modelOf(layout.batches.length, layout.joins, crewShape(crew), crewTimes(crew), clocks);
}

/** The same model with every task at its mean and no stoppage: one run of it is the average pour. */
export function withoutChance(model: PourModel): PourModel {
  const { times } = model;
  const steady: CrewTimes = {
    measure: fixed(meanMin(times.measure)),
    mix: fixed(meanMin(times.mix)),
    scrape: fixed(meanMin(times.scrape)),
    carry: fixed(meanMin(times.carry)),
    spread: fixed(meanMin(times.spread)),
    empty: fixed(meanMin(times.empty)),
    stop: fixed(meanMin(times.stop)),
  };
  return {
    ...model,
    shape: { ...model.shape, stoppagesPerHour: 0 },
    times: steady,
    rows: taskRows([steady.measure, steady.mix, steady.scrape, steady.carry, steady.spread, steady.empty, steady.stop]),
  };
}

/** Golden ratio step: spreads draws evenly over a range for any number of runs (a Kronecker sequence). */
const GOLDEN = 0.6180339887498949;

/**
 * A limit of one run, drawn evenly from the data sheet's range. A run has the same limit in every plan, so that plans are compared
 * under the same conditions.
 * @param run index from 0
 */
export function limitOfRun(leastMin: number, mostMin: number, run: number): number {
  return leastMin + (mostMin - leastMin) * (((run + 0.5) * GOLDEN) % 1);
}
