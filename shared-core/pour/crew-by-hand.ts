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
  b.bars?.push(bar(person < model.shape.mixers ? 'mixer' : 'carrier', indexOf(model, person), 'carry', 0, [now, now + half]));
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

/** Buckets at the edge are poured in order of arrival as spreaders become free. */
export function land(model: PourModel, b: Bench, now: number): void {
  const { mixers, carriers, spreaders } = model.shape;
  const first = mixers + carriers + 1;
  while ((b.readyMin[AT.waitHead] ?? 0) < (b.readyMin[AT.waitTail] ?? 0)) {
    const spreader = idleFrom(b, first, spreaders);
    if (spreader < 0) return;
    const head = b.readyMin[AT.waitHead] ?? 0;
    b.readyMin[AT.waitHead] = head + 1;
    const person = b.waiting[head % b.waiting.length] ?? 0;
    const since = b.since[person] ?? now;
    const self = person < mixers;
    add(b.spent, SPENT.carrierWaits, now - since);
    const batch = b.readyMin[AT.placed] ?? 0;
    b.readyMin[AT.placed] = batch + 1;
    b.bars?.push(bar(self ? 'mixer' : 'carrier', indexOf(model, person), 'wait', batch + 1, [since, now]));
    const clock = now + (b.readyMin[AT.moved] ?? 0);
    b.laidStart[batch] = clock;
    b.age[batch] = clock - (b.water[person] ?? 0);
    const spread = sampleMin(model.rows, TASK.spread, b.random);
    b.state[spreader] = SPREADING;
    b.trip[spreader] = batch;
    b.next[spreader] = now + spread;
    add(b.spent, SPENT.spreading, spread);
    b.bars?.push(bar('spreader', spreader - first, 'spread', batch + 1, [now, now + spread]));
    const back = (b.trip[person] ?? 0) + (self ? sampleMin(model.rows, TASK.scrape, b.random) : 0);
    b.state[person] = RETURNING;
    b.next[person] = now + back;
    add(b.spent, SPENT.carrying, back);
    b.bars?.push(bar(self ? 'mixer' : 'carrier', indexOf(model, person), 'return', 0, [now, now + back]));
  }
}
