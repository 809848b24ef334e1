/** Moves of a pour by cart or hopper: filling, pushing, emptying, returning and spreading. */
import {
  add,
  bar,
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

/** Mixed batches are scraped into the cart while it is at the mixers and has room. */
export function fillCart(model: PourModel, b: Bench, now: number): void {
  while ((b.readyMin[AT.holdHead] ?? 0) < (b.readyMin[AT.holdTail] ?? 0)) {
    const room = loadWanted(model, b) - (b.readyMin[AT.load] ?? 0) - (b.readyMin[AT.pouring] ?? 0);
    if (b.readyMin[AT.cartState] !== FILLING || room <= 0) return;
    add(b.readyMin, AT.pouring, 1);
    scrapeOut(model, b, takeHeld(b, now), now);
  }
}

export const loadWanted = (model: PourModel, b: Bench): number =>
  Math.min(model.shape.cartBatches, model.batches - (b.readyMin[AT.sent] ?? 0));

/** A full cart leaves when someone is free to push it. */
export function sendCart(model: PourModel, b: Bench, now: number): void {
  const { mixers, carriers, spreaders } = model.shape;
  const cart = mixers + carriers;
  const { readyMin } = b;
  if (readyMin[AT.cartState] === FILLING && (readyMin[AT.load] ?? 0) > 0 && readyMin[AT.load] === loadWanted(model, b)) {
    readyMin[AT.cartState] = READY;
    readyMin[AT.sent] = (readyMin[AT.sent] ?? 0) + (readyMin[AT.load] ?? 0);
    add(b.spent, SPENT.cartFills, now - (readyMin[AT.fillFrom] ?? 0));
    b.bars?.push(bar('cart', 0, 'scrape', (readyMin[AT.placed] ?? 0) + 1, [readyMin[AT.fillFrom] ?? 0, now]));
    b.since[cart] = now;
  }
  if (readyMin[AT.cartState] !== READY) return;
  let pusher = -1;
  if (carriers === 0) {
    // Without a carrier a spreader fetches the cart, but only after the last load is spread.
    if ((readyMin[AT.spreadQueue] ?? 0) > 0) return;
    pusher = idleFrom(b, cart + 1, spreaders);
    if (pusher < 0) return;
    b.state[pusher] = TENDING;
  }
  readyMin[AT.pusher] = pusher;
  readyMin[AT.cartState] = GOING;
  const half = sampleMin(model.rows, TASK.carry, b.random) / 2;
  b.trip[cart] = half;
  b.next[cart] = now + half;
  add(b.spent, SPENT.cartWaits, now - (b.since[cart] ?? now));
  add(b.spent, SPENT.carrying, half);
  b.bars?.push(bar('cart', 0, 'wait', (readyMin[AT.placed] ?? 0) + 1, [b.since[cart] ?? now, now]));
  b.bars?.push(bar('cart', 0, 'carry', (readyMin[AT.placed] ?? 0) + 1, [now, now + half]));
}

/** Handles the cart arriving, being empty or being back. */
export function cartEvent(model: PourModel, b: Bench, now: number): void {
  const { mixers, carriers } = model.shape;
  const cart = mixers + carriers;
  const { readyMin } = b;
  b.next[cart] = Infinity;
  if (readyMin[AT.cartState] === GOING) {
    readyMin[AT.cartState] = WAITING;
    b.since[cart] = now;
    return;
  }
  const pusher = readyMin[AT.pusher] ?? -1;
  if (readyMin[AT.cartState] === EMPTYING) {
    layLoad(b, now);
    if (carriers > 0 && pusher >= 0) {
      b.state[pusher] = IDLE;
      readyMin[AT.pusher] = -1;
    }
    readyMin[AT.cartState] = RETURNING;
    const back = b.trip[cart] ?? 0;
    b.next[cart] = now + back;
    add(b.spent, SPENT.carrying, back);
    b.bars?.push(bar('cart', 0, 'return', 0, [now, now + back]));
    return;
  }
  if (pusher >= 0) b.state[pusher] = IDLE;
  readyMin[AT.pusher] = -1;
  readyMin[AT.cartState] = FILLING;
  readyMin[AT.load] = 0;
  readyMin[AT.fillFrom] = now;
}

/** The load is placed evenly while the cart empties. Batches mix in it, so each gets its age when the cart is empty. */
export function layLoad(b: Bench, now: number): void {
  const load = b.readyMin[AT.load] ?? 0;
  const from = b.readyMin[AT.emptyFrom] ?? 0;
  const clock = now + (b.readyMin[AT.moved] ?? 0);
  const first = b.readyMin[AT.placed] ?? 0;
  for (let i = 0; i < load; i++) {
    b.laidStart[first + i] = from + ((clock - from) * i) / load;
    b.laidEnd[first + i] = from + ((clock - from) * (i + 1)) / load;
    b.age[first + i] = clock - (b.loadWater[i] ?? 0);
  }
  b.readyMin[AT.placed] = first + load;
  add(b.readyMin, AT.spreadQueue, load);
  b.readyMin[AT.finish] = clock;
}

/** A cart at the edge is emptied once the previous load is spread. */
export function emptyCart(model: PourModel, b: Bench, now: number): void {
  const { mixers, carriers, spreaders } = model.shape;
  const cart = mixers + carriers;
  const { readyMin } = b;
  if (readyMin[AT.cartState] !== WAITING) return;
  if (carriers > 0) {
    if ((readyMin[AT.spreadQueue] ?? 0) > 0) return;
    const spreader = idleFrom(b, cart + 1, spreaders);
    if (spreader < 0) return;
    b.state[spreader] = TENDING;
    readyMin[AT.pusher] = spreader;
  }
  const load = readyMin[AT.load] ?? 0;
  const time = (sampleMin(model.rows, TASK.empty, b.random) * load) / model.shape.cartBatches;
  readyMin[AT.cartState] = EMPTYING;
  readyMin[AT.emptyFrom] = now + (readyMin[AT.moved] ?? 0);
  b.next[cart] = now + time;
  add(b.spent, SPENT.carrierWaits, now - (b.since[cart] ?? now));
  add(b.spent, SPENT.spreading, time);
  const batch = (readyMin[AT.placed] ?? 0) + 1;
  b.bars?.push(bar('cart', 0, 'wait', batch, [b.since[cart] ?? now, now]));
  b.bars?.push(bar('cart', 0, 'empty', batch, [now, now + time]));
  b.bars?.push(bar('spreader', Math.max(0, (readyMin[AT.pusher] ?? 0) - cart - 1), 'empty', batch, [now, now + time]));
}

/** Idle spreaders spread what the cart has placed. */
export function spreadLoad(model: PourModel, b: Bench, now: number): void {
  const first = model.shape.mixers + model.shape.carriers + 1;
  while ((b.readyMin[AT.spreadQueue] ?? 0) > 0) {
    const spreader = idleFrom(b, first, model.shape.spreaders);
    if (spreader < 0) return;
    add(b.readyMin, AT.spreadQueue, -1);
    add(b.readyMin, AT.spreadDone, 1);
    const time = sampleMin(model.rows, TASK.spread, b.random);
    b.state[spreader] = SPREADING;
    b.next[spreader] = now + time;
    add(b.spent, SPENT.spreading, time);
    b.bars?.push(bar('spreader', spreader - first, 'spread', b.readyMin[AT.spreadDone] ?? 0, [now, now + time]));
  }
}
