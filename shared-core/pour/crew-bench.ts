/** State of a simulation run, and the moves shared by pours by hand and by cart. */
import { TASK, type PourModel } from './crew-model.ts';
import { newRandom, type RandomState } from './random.ts';
import { sampleMin } from './task-time.ts';

/** Trade or cart in a timeline. */
export type Actor = 'mixer' | 'carrier' | 'cart' | 'spreader';
export type Doing = 'measure' | 'mix' | 'hold' | 'scrape' | 'carry' | 'wait' | 'empty' | 'return' | 'spread';
/** One bar of a timeline, in working minutes; `batch` counts mixes from 1 for mixers and placed batches elsewhere, 0 when none. */
export type Bar = { actor: Actor; index: number; doing: Doing; batch: number; fromMin: number; toMin: number };

/** A bar; built only where the timeline is recorded, so that a run allocates nothing. */
export const bar = (actor: Actor, index: number, doing: Doing, batch: number, [fromMin, toMin]: readonly [number, number]): Bar => ({
  actor,
  index,
  doing,
  batch,
  fromMin,
  toMin,
});

/** State and results of a run; allocated once and reused for every run. */
export type Bench = {
  readonly random: RandomState;
  readonly next: Float64Array;
  readonly state: Int8Array;
  readonly since: Float64Array;
  readonly water: Float64Array;
  readonly trip: Float64Array;
  readonly holding: Int32Array;
  readonly waiting: Int32Array;
  readonly loadWater: Float64Array;
  readonly laidStart: Float64Array;
  readonly laidEnd: Float64Array;
  readonly age: Float64Array;
  /** Minutes, by `SPENT`. */
  readonly spent: Float64Array;
  /** Counters, by `AT`. */
  readonly readyMin: Float64Array;
  readonly bars: Bar[] | null;
};

/** Sums over one run, working minutes. */
export const SPENT = { mixing: 0, holding: 1, carrying: 2, carrierWaits: 3, cartFills: 4, cartWaits: 5, spreading: 6, stopped: 7 } as const;
export const SPENT_COUNT = 8;

/** Counters of one run, by index in `readyMin`. */
export const AT = {
  moved: 0,
  nextStop: 1,
  started: 2,
  placed: 3,
  holdHead: 4,
  holdTail: 5,
  waitHead: 6,
  waitTail: 7,
  load: 8,
  pouring: 9,
  sent: 10,
  cartState: 11,
  pusher: 12,
  spreadQueue: 13,
  emptyFrom: 14,
  fillFrom: 15,
  spreadDone: 16,
  finish: 17,
} as const;

export const IDLE = 0;
export const MEASURING = 1;
export const MIXING = 2;
export const HOLDING = 3;
export const SCRAPING = 4;
export const GOING = 5;
export const WAITING = 6;
export const RETURNING = 7;
export const SPREADING = 8;
export const FILLING = 9;
export const READY = 10;
export const EMPTYING = 11;
export const TENDING = 12;

/** A bench for a model; the timeline is recorded when `bars` is set. */
export function benchFor(model: PourModel, keepBars: boolean): Bench {
  const { mixers, carriers, spreaders } = model.shape;
  const people = mixers + carriers + spreaders + 1;
  return {
    random: newRandom(),
    next: new Float64Array(people),
    state: new Int8Array(people),
    since: new Float64Array(people),
    water: new Float64Array(people),
    trip: new Float64Array(people),
    holding: new Int32Array(mixers + 1),
    waiting: new Int32Array(mixers + carriers + 1),
    loadWater: new Float64Array(model.batches),
    laidStart: new Float64Array(model.batches),
    laidEnd: new Float64Array(model.batches),
    age: new Float64Array(model.batches),
    spent: new Float64Array(SPENT_COUNT),
    readyMin: new Float64Array(18),
    bars: keepBars ? [] : null,
  };
}

/** Minutes from the start until the last batch is spread, for the latest run on a bench. */
export const finishOf = (b: Bench): number => b.readyMin[AT.finish] ?? 0;

/** Adds an amount to one of the sums. */
export const add = (sums: Float64Array, place: number, amount: number): void => {
  sums[place] = (sums[place] ?? 0) + amount;
};

/** A station starts its next batch, or goes idle when every batch is started. */
export function beginMix(model: PourModel, b: Bench, m: number, now: number): void {
  const started = b.readyMin[AT.started] ?? 0;
  if (started >= model.batches) {
    b.state[m] = IDLE;
    b.next[m] = Infinity;
    return;
  }
  b.readyMin[AT.started] = started + 1;
  const time = sampleMin(model.rows, TASK.measure, b.random);
  b.state[m] = MEASURING;
  b.trip[m] = started + 1;
  b.next[m] = now + time;
  add(b.spent, SPENT.mixing, time);
  b.bars?.push(bar('mixer', m, 'measure', started + 1, [now, now + time]));
}

/** Index of a person within their trade. */
export const indexOf = (model: PourModel, person: number): number => (person < model.shape.mixers ? person : person - model.shape.mixers);

/** The first idle person of a trade; -1 when all are busy. */
export function idleFrom(b: Bench, first: number, count: number): number {
  for (let i = first; i < first + count; i++) if (b.state[i] === IDLE) return i;
  return -1;
}

/** Releases the mixed batch held longest, and returns its station. */
export function takeHeld(b: Bench, now: number): number {
  const head = b.readyMin[AT.holdHead] ?? 0;
  b.readyMin[AT.holdHead] = head + 1;
  const m = b.holding[head % b.holding.length] ?? 0;
  add(b.spent, SPENT.holding, now - (b.since[m] ?? now));
  b.bars?.push(bar('mixer', m, 'hold', b.trip[m] ?? 0, [b.since[m] ?? now, now]));
  return m;
}

/** A station scrapes out its bucket. */
export function scrapeOut(model: PourModel, b: Bench, m: number, now: number): void {
  const time = sampleMin(model.rows, TASK.scrape, b.random);
  b.state[m] = SCRAPING;
  b.next[m] = now + time;
  add(b.spent, SPENT.mixing, time);
  b.bars?.push(bar('mixer', m, 'scrape', b.trip[m] ?? 0, [now, now + time]));
}
