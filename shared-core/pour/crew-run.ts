/**
 * Simulates one run of a pour event by event. Stations measure, mix and scrape out; buckets are carried, or a cart is filled,
 * pushed, emptied and returned; spreaders spread. Each person or cart has one event slot and the earliest is next, which for a
 * crew of a dozen is faster than a heap. Nothing is allocated during a run.
 *
 * A stoppage delays the whole crew, so the run counts working time and adds earlier stoppages to each moment.
 */
import {
  add,
  bar,
  beginMix,
  AT,
  SPENT,
  IDLE,
  MEASURING,
  MIXING,
  HOLDING,
  SCRAPING,
  GOING,
  RETURNING,
  SPREADING,
  FILLING,
  type Bench,
} from './crew-bench.ts';
import { TASK, type PourModel } from './crew-model.ts';
import { startTrip, joinWaiting, carrierEvent, endOwnSpread, handOver, land } from './crew-by-hand.ts';
import { fillCart, sendCart, cartEvent, emptyCart, spreadLoad } from './crew-by-cart.ts';
import { seedRandom } from './random.ts';
import { sampleMin } from './task-time.ts';

/** Runs one pour and stores placing times, ages and sums on the bench. */
export function runPour(model: PourModel, b: Bench, seed: number, run: number): void {
  const { mixers, carriers, spreaders, cartBatches, stoppagesPerHour } = model.shape;
  const { next, readyMin, state, spent } = b;
  seedRandom(b.random, seed, run);
  next.fill(Infinity);
  state.fill(IDLE);
  spent.fill(0);
  readyMin.fill(0);
  b.water.fill(0);
  const perMin = stoppagesPerHour / 60;
  readyMin[AT.nextStop] = perMin > 0 ? untilStop(b, perMin) : Infinity;
  readyMin[AT.cartState] = FILLING;
  const firstCarrier = mixers;
  const cart = mixers + carriers;
  const firstSpreader = cart + 1;
  const slots = firstSpreader + spreaders;
  for (let m = 0; m < mixers; m++) beginMix(model, b, m, 0);
  for (;;) {
    let person = 0;
    let now = next[0] ?? Infinity;
    for (let i = 1; i < slots; i++) {
      const when = next[i] ?? Infinity;
      if (when < now) {
        now = when;
        person = i;
      }
    }
    if (now === Infinity) break;
    while (now >= (readyMin[AT.nextStop] ?? Infinity)) {
      const length = sampleMin(model.rows, TASK.stop, b.random);
      readyMin[AT.moved] = (readyMin[AT.moved] ?? 0) + length;
      spent[SPENT.stopped] = (spent[SPENT.stopped] ?? 0) + length;
      readyMin[AT.nextStop] = (readyMin[AT.nextStop] ?? 0) + untilStop(b, perMin);
    }
    if (person < firstCarrier) stationEvent(model, b, person, now);
    else if (person < cart) carrierEvent(model, b, person, now);
    else if (person === cart) cartEvent(model, b, now);
    else spreaderEvent(model, b, person, now);
    if (cartBatches > 0) {
      fillCart(model, b, now);
      sendCart(model, b, now);
      emptyCart(model, b, now);
      spreadLoad(model, b, now);
    } else {
      handOver(model, b, now);
      land(model, b, now);
    }
  }
}

function untilStop(b: Bench, perMin: number): number {
  const unit = sampleMin(ONE, 0, b.random);
  return unit / perMin;
}
const ONE = new Float64Array([1, 0, 0, 0, 0, 2]);

function stationEvent(model: PourModel, b: Bench, m: number, now: number): void {
  const batch = b.trip[m] ?? 0;
  const state = b.state[m];
  if (state === MEASURING) {
    const time = sampleMin(model.rows, TASK.mix, b.random);
    b.water[m] = now + (b.readyMin[AT.moved] ?? 0);
    b.state[m] = MIXING;
    b.next[m] = now + time;
    add(b.spent, SPENT.mixing, time);
    b.bars?.push(bar('mixer', m, 'mix', batch, [now, now + time]));
  } else if (state === MIXING) {
    b.since[m] = now;
    if (model.shape.cartBatches === 0 && model.shape.carriers === 0) {
      // Without a carrier the mixer carries the bucket to the edge.
      startTrip(model, b, m, now);
      return;
    }
    b.state[m] = HOLDING;
    b.next[m] = Infinity;
    const tail = b.readyMin[AT.holdTail] ?? 0;
    b.holding[tail % b.holding.length] = m;
    b.readyMin[AT.holdTail] = tail + 1;
  } else if (state === SCRAPING) {
    if (model.shape.cartBatches > 0) {
      const load = b.readyMin[AT.load] ?? 0;
      b.loadWater[load] = b.water[m] ?? 0;
      b.readyMin[AT.load] = load + 1;
      add(b.readyMin, AT.pouring, -1);
    }
    beginMix(model, b, m, now);
  } else if (state === GOING) joinWaiting(b, m, now);
  else if (state === SPREADING) endOwnSpread(model, b, m, now);
  else if (state === RETURNING) beginMix(model, b, m, now);
}

function spreaderEvent(model: PourModel, b: Bench, person: number, now: number): void {
  const clock = now + (b.readyMin[AT.moved] ?? 0);
  if (model.shape.cartBatches === 0) b.laidEnd[b.trip[person] ?? 0] = clock;
  b.state[person] = IDLE;
  b.next[person] = Infinity;
  b.readyMin[AT.finish] = clock;
}
