/** Moves of a pour from a wheeled cart or hopper: filled, pushed, emptied, brought back, its load spread. */
import {
  add,
  keep,
  idleFrom,
  takeHeld,
  scrapeOut,
  AT,
  SPENT,
  IDLE,
  GOING,
  WAITING,
  RETURNING,
  SPREADING,
  FILLING,
  READY,
  EMPTYING,
  TENDING,
  type Bench,
} from './crew-bench.ts';
import { TASK, type PourModel } from './crew-model.ts';
import { sampleMin } from './task-time.ts';

/** Mixed batches are scraped out into the cart while it stands at the mixers with room. */
export function fillCart(model: PourModel, b: Bench, now: number): void {
  while ((b.at[AT.holdHead] ?? 0) < (b.at[AT.holdTail] ?? 0)) {
    const room = loadWanted(model, b) - (b.at[AT.load] ?? 0) - (b.at[AT.pouring] ?? 0);
    if (b.at[AT.cartState] !== FILLING || room <= 0) return;
    add(b.at, AT.pouring, 1);
    scrapeOut(model, b, takeHeld(b, now), now);
  }
}

export const loadWanted = (model: PourModel, b: Bench): number => Math.min(model.shape.cartBatches, model.batches - (b.at[AT.sent] ?? 0));

/** A full cart leaves when somebody is free to push it. */
export function sendCart(model: PourModel, b: Bench, now: number): void {
  const { mixers, carriers, spreaders } = model.shape;
  const cart = mixers + carriers;
  const { at } = b;
  if (at[AT.cartState] === FILLING && (at[AT.load] ?? 0) > 0 && at[AT.load] === loadWanted(model, b)) {
    at[AT.cartState] = READY;
    at[AT.sent] = (at[AT.sent] ?? 0) + (at[AT.load] ?? 0);
    add(b.spent, SPENT.cartFills, now - (at[AT.fillFrom] ?? 0));
    keep(b, 'cart', 0, 'scrape', (at[AT.placed] ?? 0) + 1, at[AT.fillFrom] ?? 0, now);
    b.since[cart] = now;
  }
  if (at[AT.cartState] !== READY) return;
  let pusher = -1;
  if (carriers === 0) {
    // Nobody carries: whoever places fetches the cart, and not before the last load is spread.
    if ((at[AT.spreadQueue] ?? 0) > 0) return;
    pusher = idleFrom(b, cart + 1, spreaders);
    if (pusher < 0) return;
    b.state[pusher] = TENDING;
  }
  at[AT.pusher] = pusher;
  at[AT.cartState] = GOING;
  const half = sampleMin(model.rows, TASK.carry, b.random) / 2;
  b.trip[cart] = half;
  b.next[cart] = now + half;
  add(b.spent, SPENT.cartWaits, now - (b.since[cart] ?? now));
  add(b.spent, SPENT.carrying, half);
  keep(b, 'cart', 0, 'wait', (at[AT.placed] ?? 0) + 1, b.since[cart] ?? now, now);
  keep(b, 'cart', 0, 'carry', (at[AT.placed] ?? 0) + 1, now, now + half);
}

/** The cart has arrived, is empty, or is back. */
export function cartEvent(model: PourModel, b: Bench, now: number): void {
  const { mixers, carriers } = model.shape;
  const cart = mixers + carriers;
  const { at } = b;
  b.next[cart] = Infinity;
  if (at[AT.cartState] === GOING) {
    at[AT.cartState] = WAITING;
    b.since[cart] = now;
    return;
  }
  const pusher = at[AT.pusher] ?? -1;
  if (at[AT.cartState] === EMPTYING) {
    layLoad(b, now);
    if (carriers > 0 && pusher >= 0) {
      b.state[pusher] = IDLE;
      at[AT.pusher] = -1;
    }
    at[AT.cartState] = RETURNING;
    const back = b.trip[cart] ?? 0;
    b.next[cart] = now + back;
    add(b.spent, SPENT.carrying, back);
    keep(b, 'cart', 0, 'return', 0, now, now + back);
    return;
  }
  if (pusher >= 0) b.state[pusher] = IDLE;
  at[AT.pusher] = -1;
  at[AT.cartState] = FILLING;
  at[AT.load] = 0;
  at[AT.fillFrom] = now;
}

/** The load is laid evenly while the cart empties; batches mingle in it, so each is as old as it is when the cart is empty. */
export function layLoad(b: Bench, now: number): void {
  const load = b.at[AT.load] ?? 0;
  const from = b.at[AT.emptyFrom] ?? 0;
  const clock = now + (b.at[AT.moved] ?? 0);
  const first = b.at[AT.placed] ?? 0;
  for (let i = 0; i < load; i++) {
    b.laidStart[first + i] = from + ((clock - from) * i) / load;
    b.laidEnd[first + i] = from + ((clock - from) * (i + 1)) / load;
    b.age[first + i] = clock - (b.loadWater[i] ?? 0);
  }
  b.at[AT.placed] = first + load;
  add(b.at, AT.spreadQueue, load);
  b.at[AT.finish] = clock;
}

/** A cart at the edge is emptied once the load before it is spread. */
export function emptyCart(model: PourModel, b: Bench, now: number): void {
  const { mixers, carriers, spreaders } = model.shape;
  const cart = mixers + carriers;
  const { at } = b;
  if (at[AT.cartState] !== WAITING) return;
  if (carriers > 0) {
    if ((at[AT.spreadQueue] ?? 0) > 0) return;
    const spreader = idleFrom(b, cart + 1, spreaders);
    if (spreader < 0) return;
    b.state[spreader] = TENDING;
    at[AT.pusher] = spreader;
  }
  const load = at[AT.load] ?? 0;
  const time = (sampleMin(model.rows, TASK.empty, b.random) * load) / model.shape.cartBatches;
  at[AT.cartState] = EMPTYING;
  at[AT.emptyFrom] = now + (at[AT.moved] ?? 0);
  b.next[cart] = now + time;
  add(b.spent, SPENT.carrierWaits, now - (b.since[cart] ?? now));
  add(b.spent, SPENT.spreading, time);
  const batch = (at[AT.placed] ?? 0) + 1;
  keep(b, 'cart', 0, 'wait', batch, b.since[cart] ?? now, now);
  keep(b, 'cart', 0, 'empty', batch, now, now + time);
  keep(b, 'spreader', Math.max(0, (at[AT.pusher] ?? 0) - cart - 1), 'empty', batch, now, now + time);
}

/** Whoever is free spreads what the cart has laid. */
export function spreadLoad(model: PourModel, b: Bench, now: number): void {
  const first = model.shape.mixers + model.shape.carriers + 1;
  while ((b.at[AT.spreadQueue] ?? 0) > 0) {
    const spreader = idleFrom(b, first, model.shape.spreaders);
    if (spreader < 0) return;
    add(b.at, AT.spreadQueue, -1);
    add(b.at, AT.spreadDone, 1);
    const time = sampleMin(model.rows, TASK.spread, b.random);
    b.state[spreader] = SPREADING;
    b.next[spreader] = now + time;
    add(b.spent, SPENT.spreading, time);
    keep(b, 'spreader', spreader - first, 'spread', b.at[AT.spreadDone] ?? 0, now, now + time);
  }
}
