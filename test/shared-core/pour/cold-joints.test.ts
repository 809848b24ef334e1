/** Possible cold joints of logged pours. Every time and place is worked out by hand from the log. */
import { describe, expect, it } from 'vitest';
import { pourEventSchema } from '../../../shared-core/book/pour-record.ts';
import { joinLetter, joinWatched } from '../../../shared-core/drawing/pour-edges.ts';
import { afterPour } from '../../../shared-core/pour/after-pour.ts';
import type { FillPattern, PourLayout } from '../../../shared-core/pour/layout.ts';
import { pourState } from '../../../shared-core/pour/pour-state.ts';
import { bay, laidOut, rectangle } from './floors.ts';

const START = Date.parse('2026-05-12T14:00:00Z');
const instantOf = (min: number) => new Date(START + min * 60_000).toISOString();
type Step = readonly [min: number, kind: 'placed' | 'lane-finished' | 'discarded' | 'finished', number: number, bags?: number];

/** The joints of a log that were met after more than 15 minutes. */
function coldOf(layout: PourLayout, steps: readonly Step[]) {
  const details = {
    placed: (batch: number, bags = 2) => ({ batch, roomId: null, lane: null, bags }),
    'lane-finished': (lane: number) => ({ lane, roomId: 'room-hall' }),
    discarded: (batch: number) => ({ batch, why: '', by: '' }),
    finished: () => ({ bagsLeft: null, floor: 'partly' }),
  };
  const events = steps.map(([min, kind, number, bags], i) =>
    pourEventSchema.parse({
      ...{ id: `event-${i}`, pourId: 'pour-1', seq: i + 1, instant: instantOf(min), estimated: false, kind },
      ...details[kind](number, bags),
    }),
  );
  const plan = { layout, hasLater: false, healingMin: 15, workingTimeMin: 30, bagsPerBatch: layout.bagsPerBatch };
  return afterPour(layout, pourState(plan, { bagsOnSite: 40 }, events, instantOf(200)), plan, null).toWatch;
}
const named = (cold: ReturnType<typeof coldOf>) => cold.map((j) => [j.kind, j.older, j.newer, j.olderBatch, j.newerBatch, j.mostMin]);

// Lanes a meter wide that take a bag for each meter of their length.
const lanesOf = (count: number, lengthM: number, bagsPerBatch: number, pattern: FillPattern = 'back-and-forth') =>
  laidOut([bay('room-hall', rectangle(lengthM, count, count))], 0.01 * bagsPerBatch, pattern, bagsPerBatch);

describe('cold joints of a pour that used more bags than planned', () => {
  const layout = lanesOf(4, 4, 2);
  // Three batches in each lane where two were planned, one every two minutes; each lane marked finished.
  const lane = (number: number, delayMin = 0): Step[] => [
    ...[0, 1, 2].map((i): Step => [6 * (number - 1) + 2 * i + delayMin, 'placed', 3 * number - 2 + i]),
    [6 * (number - 1) + 5 + delayMin, 'lane-finished', number],
  ];
  const before = [...lane(1), ...lane(2), ...lane(3)];

  it('are only those along the edge that waited while the power was lost', () => {
    // Batches 7 to 9 filled lane 3 at minutes 12 to 16; 10 to 12 fill lane 4 from the far end at 37 to 41.
    const cold = coldOf(layout, [...before, ...lane(4, 19)]);
    expect(named(cold)).toEqual([['lane', 3, 4, 7, 12, 29]]);
  });

  it('are drawn from the first to the last place that was met too late', () => {
    // Batch 10 meets batch 9 in time and ends 4/3 m before the end of lane 4. Batch 11 comes 21 minutes after it.
    const [first, second, third, done] = lane(4);
    if (first === undefined || second === undefined || third === undefined || done === undefined) throw new Error('Four steps.');
    const late = ([min, ...rest]: Step): Step => [min + 19, ...rest];
    const cold = coldOf(layout, [...before, first, late(second), late(third), late(done)]);
    expect(named(cold)).toEqual([
      ['lane', 3, 4, 7, 12, 29],
      ['batch', 10, 11, 10, 11, 21],
    ]);
    const lines = cold.map((joint, i) => joinWatched(joint, joinLetter(i)).line.map(({ xM, yM }) => [xM, yM]));
    const ends = lines.map((line) => line.map((point) => point.map((m) => Math.round(m * 1e6) / 1e6)).sort());
    expect(ends).toEqual([
      [
        [0, 3],
        [2.666667, 3],
      ],
      [
        [2.666667, 3],
        [2.666667, 4],
      ],
    ]);
  });
});

describe('cold joints of a pour that stopped at the end of a lane', () => {
  it('are none beside a lane that was not placed, though a planned batch reaches into it', () => {
    // Lanes of five bags in batches of three, all filled the same way: batch 2 was to end lane 1 and to begin lane 2 beside batch 1.
    const layout = lanesOf(2, 5, 3, 'one-way');
    const steps: Step[] = [
      [0, 'placed', 1, 3],
      [30, 'placed', 2, 2],
      [31, 'lane-finished', 1],
      [32, 'finished', 0],
    ];
    expect(named(coldOf(layout, steps))).toEqual([['batch', 1, 2, 1, 2, 30]]);
  });
});

describe('cold joints of floor that was scraped out and placed again', () => {
  it('are with the older floor, on whichever side it is', () => {
    // Batch 1 is scraped out. Batch 4 fills its place 22 minutes after batch 2 beside it; batch 5 goes on from batch 3.
    const steps: Step[] = [
      [0, 'placed', 1],
      [2, 'placed', 2],
      [4, 'placed', 3],
      [5, 'discarded', 1],
      [24, 'placed', 4],
      [26, 'placed', 5],
    ];
    expect(named(coldOf(lanesOf(2, 4, 2), steps))).toEqual([
      ['batch', 2, 4, 2, 4, 22],
      ['batch', 3, 5, 3, 5, 22],
    ]);
  });
});
