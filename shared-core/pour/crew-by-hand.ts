/** Moves of a pour by hand: buckets are carried to the edge and poured as spreaders become free. */
import {
  add,
  bar,
  indexOf,
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
  type Bench,
} from './crew-bench.ts';
import { TASK, type PourModel } from './crew-model.ts';
import { sampleMin } from './task-time.ts';

/** Someone leaves for the edge with a batch. */
export function startTrip(model: PourModel, b: Bench, person: number, now: number): void {
  const half = sampleMin(model.rows, TASK.carry, b.random) / 2;
  b.since[person] = half;
  b.state[person] = GOING;
  b.next[person] = now + half;
  add(b.spent, SPENT.carrying, half);
  b.bars?.push(bar(carrierOf(model, person), indexOf(model, person), 'carry', 0, [now, now + half]));
}

/** A bucket arrives at the edge and waits in line. */
export function joinWaiting(b: Bench, person: number, now: number): void {
  b.state[person] = WAITING;
  b.next[person] = Infinity;
  // The way back takes as long as the way there; the wait starts now.
  b.trip[person] = b.since[person] ?? 0;
  b.since[person] = now;
  const tail = b.readyMin[AT.waitTail] ?? 0;
  b.waiting[tail % b.waiting.length] = person;
  b.readyMin[AT.waitTail] = tail + 1;
}

/** Handles a carrier arriving at the edge or back at the mixers. */
export function carrierEvent(model: PourModel, b: Bench, person: number, now: number): void {
  if (b.state[person] === GOING) joinWaiting(b, person, now);
  else if (b.state[person] === SPREADING) endOwnSpread(model, b, person, now);
  else {
    b.state[person] = IDLE;
    b.next[person] = Infinity;
    handOver(model, b, now);
  }
}

/** Mixed batches go to free carriers in the order they were mixed. */
export function handOver(model: PourModel, b: Bench, now: number): void {
  while ((b.readyMin[AT.holdHead] ?? 0) < (b.readyMin[AT.holdTail] ?? 0)) {
    const carrier = idleFrom(b, model.shape.mixers, model.shape.carriers);
    if (carrier < 0) return;
    const m = takeHeld(b, now);
    b.water[carrier] = b.water[m] ?? 0;
    startTrip(model, b, carrier, now);
    scrapeOut(model, b, m, now);
  }
}

const carrierOf = (model: PourModel, person: number) => (person < model.shape.mixers ? 'mixer' : 'carrier');

/** Whoever carried a batch returns; a mixer then scrapes out the bucket. */
function goBack(model: PourModel, b: Bench, person: number, now: number): void {
  const back = (b.trip[person] ?? 0) + (person < model.shape.mixers ? sampleMin(model.rows, TASK.scrape, b.random) : 0);
  b.state[person] = RETURNING;
  b.next[person] = now + back;
  add(b.spent, SPENT.carrying, back);
  b.bars?.push(bar(carrierOf(model, person), indexOf(model, person), 'return', 0, [now, now + back]));
}

/** Whoever carried a batch and spread it, because nobody else does, returns. */
export function endOwnSpread(model: PourModel, b: Bench, person: number, now: number): void {
  const clock = now + (b.readyMin[AT.moved] ?? 0);
  b.laidEnd[b.since[person] ?? 0] = clock;
  b.readyMin[AT.finish] = clock;
  goBack(model, b, person, now);
}

/** Buckets at the edge are poured in order of arrival as spreaders become free; without spreaders, each by whoever carried it. */
export function land(model: PourModel, b: Bench, now: number): void {
  const { mixers, carriers, spreaders } = model.shape;
  const first = mixers + carriers + 1;
  while ((b.readyMin[AT.waitHead] ?? 0) < (b.readyMin[AT.waitTail] ?? 0)) {
    const free = idleFrom(b, first, spreaders);
    if (free < 0 && spreaders > 0) return;
    const head = b.readyMin[AT.waitHead] ?? 0;
    b.readyMin[AT.waitHead] = head + 1;
    const person = b.waiting[head % b.waiting.length] ?? 0;
    const since = b.since[person] ?? now;
    add(b.spent, SPENT.carrierWaits, now - since);
    const batch = b.readyMin[AT.placed] ?? 0;
    b.readyMin[AT.placed] = batch + 1;
    b.bars?.push(bar(carrierOf(model, person), indexOf(model, person), 'wait', batch + 1, [since, now]));
    const clock = now + (b.readyMin[AT.moved] ?? 0);
    b.laidStart[batch] = clock;
    b.age[batch] = clock - (b.water[person] ?? 0);
    const spread = sampleMin(model.rows, TASK.spread, b.random);
    const spreader = spreaders === 0 ? person : free;
    b.state[spreader] = SPREADING;
    b.next[spreader] = now + spread;
    add(b.spent, SPENT.spreading, spread);
    if (spreaders === 0) {
      // The way back stands in `trip`, and the wait is over.
      b.since[person] = batch;
      b.bars?.push(bar(carrierOf(model, person), indexOf(model, person), 'spread', batch + 1, [now, now + spread]));
      continue;
    }
    b.trip[spreader] = batch;
    b.bars?.push(bar('spreader', spreader - first, 'spread', batch + 1, [now, now + spread]));
    goBack(model, b, person, now);
  }
}
