/** Summarizes a simulation: placing times of the batches, likely cold joints, and waiting times of the crew. */
import { chanceOf, spreadOf, type Chance, type Spread } from './chance.ts';
import { SPENT } from './crew-bench.ts';
import { limitOfRun, type PourModel } from './crew-model.ts';
import type { Join } from './joins.ts';
import type { PourRuns } from './simulate.ts';

export type JoinOutlook = { readonly join: Join; readonly ageMin: Spread; readonly cold: Chance };
export type BatchOutlook = { readonly batch: number; readonly placedMin: Spread; readonly ageMin: Spread; readonly tooOld: Chance };

export type WaitOutlook = {
  readonly who: 'mixers' | 'carriers' | 'cart' | 'spreaders';
  readonly waitsFor: 'carriers' | 'cart' | 'mixers' | 'spreaders';
  /** Average minutes waited in a pour, summed over the people. */
  readonly meanMin: number;
};

export type PourOutlook = {
  readonly runs: number;
  readonly batches: readonly BatchOutlook[];
  readonly joins: readonly JoinOutlook[];
  readonly finishMin: Spread;
  readonly finishMeanMin: number;
  /** Half the 95 % confidence interval of the mean finish, minutes. */
  readonly finishErrorMin: number;
  /** Chance that a join exceeds its healing time. */
  readonly coldJoint: Chance;
  /** The join where this happens most often; null when it never does. */
  readonly worstJoin: JoinOutlook | null;
  /** Chance that a batch exceeds its working time before it is placed. */
  readonly tooOld: Chance;
  /** Share of the pour that each trade is working. */
  readonly busy: { readonly mixers: number; readonly carriers: number; readonly cart: number; readonly spreaders: number };
  readonly waits: readonly WaitOutlook[];
};

/** Summarizes runs of a model. */
export function outlookOf(model: PourModel, r: PourRuns): PourOutlook {
  const { runs, batches, joins } = r;
  const column = new Float32Array(runs);
  const gather = (values: Float32Array, width: number, place: number) => {
    for (let run = 0; run < runs; run++) column[run] = values[run * width + place] ?? 0;
    return column;
  };
  const tooOldIn = (run: number) => limitOfRun(model.workingTimeMin, model.workingTimeMostMin, run);
  const coldIn = (run: number) => limitOfRun(model.healingMin, model.healingMostMin, run);
  const countOver = (values: Float32Array, limit: (run: number) => number) =>
    values.reduce((hits, value, run) => hits + (value > limit(run) ? 1 : 0), 0);
  const batchOutlooks: BatchOutlook[] = [];
  for (let k = 0; k < batches; k++) {
    const tooOld = chanceOf(countOver(gather(r.ageMin, batches, k), tooOldIn), runs);
    const ageMin = spreadOf(column);
    batchOutlooks.push({ batch: k + 1, placedMin: spreadOf(gather(r.placedMin, batches, k)), ageMin, tooOld });
  }
  const joinOutlooks = model.joins.map((join, s) => {
    const cold = chanceOf(countOver(gather(r.joinMin, joins, s), coldIn), runs);
    return { join, ageMin: spreadOf(column), cold };
  });
  const mean = runs > 0 ? r.finishMin.reduce((sum, m) => sum + m, 0) / runs : 0;
  const variance = runs > 1 ? r.finishMin.reduce((sum, m) => sum + (m - mean) ** 2, 0) / (runs - 1) : 0;
  return {
    runs,
    batches: batchOutlooks,
    joins: joinOutlooks,
    finishMin: spreadOf(Float32Array.from(r.finishMin)),
    finishMeanMin: mean,
    finishErrorMin: runs > 0 ? (1.96 * Math.sqrt(variance)) / Math.sqrt(runs) : 0,
    coldJoint: chanceOf(runsOver(r.joinMin, joins, runs, coldIn), runs),
    worstJoin: worst(joinOutlooks, (s) => s.cold.share),
    tooOld: chanceOf(runsOver(r.ageMin, batches, runs, tooOldIn), runs),
    ...workOf(model, r, mean),
  };
}

/** Number of runs in which any value exceeds the run's limit. */
export function runsOver(values: Float32Array, width: number, runs: number, limitOf: (run: number) => number): number {
  let hits = 0;
  for (let run = 0; run < runs; run++) {
    const limit = limitOf(run);
    for (let i = run * width; i < (run + 1) * width; i++) {
      if ((values[i] ?? 0) > limit) {
        hits++;
        break;
      }
    }
  }
  return hits;
}

function worst<T>(list: readonly T[], share: (item: T) => number): T | null {
  return list.reduce<T | null>((best, item) => (share(item) > (best === null ? 0 : share(best)) ? item : best), null);
}

function workOf(model: PourModel, r: PourRuns, finishMin: number): Pick<PourOutlook, 'busy' | 'waits'> {
  const { mixers, carriers, spreaders, cartBatches } = model.shape;
  const mean = (place: number) => (r.runs > 0 ? (r.spentMin[place] ?? 0) / r.runs : 0);
  const working = Math.max(1e-9, finishMin - mean(SPENT.stopped));
  const byCart = cartBatches > 0;
  const carrying = mean(SPENT.carrying);
  const spreading = mean(SPENT.spreading) + (byCart && carriers === 0 ? carrying : 0);
  const waits: WaitOutlook[] = [];
  const wait = (trade: WaitOutlook['who'], waitsFor: WaitOutlook['waitsFor'], meanMin: number) => {
    if (meanMin > 0.05) waits.push({ who: trade, waitsFor, meanMin });
  };
  wait('mixers', byCart ? 'cart' : 'carriers', mean(SPENT.holding));
  if (spreaders > 0) wait(byCart ? 'cart' : 'carriers', 'spreaders', mean(SPENT.carrierWaits) + mean(SPENT.cartWaits));
  wait('cart', 'mixers', mean(SPENT.cartFills));
  if (spreaders > 0) wait('spreaders', 'mixers', spreaders * working - spreading);
  return {
    busy: {
      mixers: mean(SPENT.mixing) / (mixers * working),
      carriers: !byCart && carriers > 0 ? carrying / (carriers * working) : 0,
      cart: byCart ? carrying / working : 0,
      spreaders: spreaders > 0 ? spreading / (spreaders * working) : 0,
    },
    waits: waits.sort((a, b) => b.meanMin - a.meanMin),
  };
}
