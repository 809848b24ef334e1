/**
 * Following the advice loses less floor than continuing: each problem over seeded pours of the crew simulation, by hand and by cart. Lost
 * floor is counted the same way for both: floor beside a cold joint that has to be cut out, a bad batch that stays, and floor that the bags
 * no longer reach. The width cut out along a cold joint is our choice, and the same for both.
 */
import { describe, expect, it } from 'vitest';
import { type PourEvent, pourEventSchema } from '../../../shared-core/book/pour-record.ts';
import { badBatchPlan, SCRAPE_MIN } from '../../../shared-core/pour/bad-batch.ts';
import { clocksAt } from '../../../shared-core/pour/clocks.ts';
import { pourModel } from '../../../shared-core/pour/crew-model.ts';
import { TYPICAL_SPREAD } from '../../../shared-core/pour/forecast.ts';
import { leakAlarm } from '../../../shared-core/pour/leak.ts';
import { pourState } from '../../../shared-core/pour/pour-state.ts';
import { newRandom, nextUnit, seedRandom } from '../../../shared-core/pour/random.ts';
import { joinAges } from '../../../shared-core/pour/joins.ts';
import { timelineOf } from '../../../shared-core/pour/simulate.ts';
import { startCrew } from '../../../shared-core/pour/start-crew.ts';
import { DAM_MIN, stopPlan } from '../../../shared-core/pour/stop-plan.ts';
import { bay, laidOut, recordPlan, rectangle } from './floors.ts';

/** Ten lanes of 4 m, 10 mm deep, bags of 12.5 L. */
const layout = laidOut([bay('room-hall', rectangle(4, 4.5, 10))], 0.0125, 'one-way', 1);
const clocks = clocksAt(null, 21.1);
const PLAN = recordPlan(layout, clocks);
const CUT_M = 0.3;
const RUNS = 100;
const START = Date.parse('2026-05-12T14:00:00Z');
const instantAt = (min: number): string => new Date(START + min * 60_000).toISOString();
const LAST = layout.batches.length;
const AREA_M2 = layout.areaM2 / LAST;

type Logged = { readonly min: number; readonly event: Record<string, unknown> };
const stateOf = (logged: readonly Logged[], nowMin: number) => {
  const events: PourEvent[] = logged.map(({ min, event }, i) =>
    pourEventSchema.parse({ id: `event-${i}`, pourId: 'pour-1', seq: i + 1, instant: instantAt(min), estimated: false, ...event }),
  );
  return pourState(PLAN, { bagsOnSite: 40 }, events, instantAt(nowMin));
};
const placed = (batch: number, min: number): Logged => ({
  min,
  event: { kind: 'placed', batch, roomId: 'room-hall', lane: null, bags: 1 },
});
const logUntil = (endMin: readonly number[], untilMin: number): Logged[] =>
  endMin.flatMap((min, i) => (min > untilMin ? [] : [placed(i + 1, min)]));

/** Floor beside joints that were met too late, up to a batch. */
function coldM2(endMin: readonly number[], last = LAST): number {
  const met = layout.joins.filter((join) => join.points.some((p) => p.newer <= last && p.older <= last));
  return joinAges(met, { startMin: endMin, endMin }).reduce(
    (sum, age) => sum + (age.mostMin > clocks.healingMin ? age.join.lengthM * CUT_M : 0),
    0,
  );
}
const late = (endMin: readonly number[], fromMin: number, byMin: number): number[] =>
  endMin.map((min) => (min > fromMin ? min + byMin : min));

type Run = {
  readonly endMin: readonly number[];
  readonly slowMin: readonly number[];
  readonly unit: () => number;
  readonly stations: number;
};

/** Floor lost when following the advice, where the pour stops at a minute with the batches in hand. */
function stoppedM2({ endMin, stations }: Run, atMin: number): number {
  const state = stateOf(logUntil(endMin, atMin), atMin);
  const plan = stopPlan(PLAN, state, { bags: stations, outageMin: null });
  if (plan === null) throw new Error('There is a plan.');
  const damM = plan.dams.reduce((sum, dam) => sum + dam.lengthM, 0);
  return coldM2(endMin, state.placed + plan.batches) + (plan.leftMin !== null && plan.leftMin < DAM_MIN ? damM * CUT_M : 0);
}

/** The floor each problem loses: continuing, and as advised. */
const TROUBLES: Readonly<Record<string, (run: Run) => readonly [number, number]>> = {
  'power lost': (run) => {
    const atMin = run.unit() * (run.endMin.at(-1) ?? 0);
    const outageMin = 15 + run.unit() * 45;
    return [coldM2(late(run.endMin, atMin, outageMin)), stoppedM2(run, atMin)];
  },
  'helper hurt': (run) => {
    // One station fewer from then on, with the time it takes to look after a person.
    const atMin = run.unit() * (run.endMin.at(-1) ?? 0);
    const done = run.endMin.filter((min) => min <= atMin).length;
    const careMin = 5 + run.unit() * 20;
    const slow = run.endMin.map((min, i) =>
      i < done ? min : atMin + careMin + (run.slowMin[i] ?? min) - (run.slowMin[Math.max(0, done - 1)] ?? 0),
    );
    return [coldM2(slow), stoppedM2(run, atMin)];
  },
  'edge past healing': (run) => {
    // A stoppage of unknown length: as advised, the dam goes in while the edge still has the minutes that takes.
    const atMin = run.unit() * (run.endMin.at(-1) ?? 0);
    const outageMin = run.unit() * 40;
    const going = late(run.endMin, atMin, outageMin);
    const edge = stateOf(logUntil(run.endMin, atMin), atMin).oldestEdge;
    const isOver = edge === null || outageMin <= edge.leftMin - DAM_MIN;
    return [coldM2(going), isOver ? coldM2(going) : stoppedM2(run, atMin)];
  },
  'wrong water': (run) => {
    const batch = 1 + Math.floor(run.unit() * LAST);
    const seenMin = (run.endMin[batch - 1] ?? 0) + run.unit() * 2;
    // Scraped out while wet, its place filled by the next batch; every later batch is later by the scraping and a batch.
    const step = (run.endMin.at(-1) ?? 0) / LAST;
    const going = AREA_M2 + coldM2(run.endMin);
    const { kind } = badBatchPlan(PLAN, stateOf(logUntil(run.endMin, seenMin), seenMin), batch);
    return [going, kind === 'scrape' ? coldM2(late(run.endMin, seenMin, SCRAPE_MIN + step)) : going];
  },
  'short of bags': (run) => {
    // Three bags short. Continuing ends anywhere, waits an hour for a trip, and meets a cold front; as advised it stops at a lane's end.
    const bagsLeft = LAST - 3;
    const outMin = run.endMin[bagsLeft - 1] ?? 0;
    const atMin = run.endMin[Math.floor(LAST / 2)] ?? 0;
    const state = stateOf(logUntil(run.endMin, atMin), atMin);
    const plan = stopPlan(PLAN, state, { bags: bagsLeft - state.placed, outageMin: null });
    if (plan === null) throw new Error('There is a plan.');
    return [coldM2(late(run.endMin, outMin, 60)), coldM2(run.endMin, state.placed + plan.batches)];
  },
  leak: (run) => {
    // A gap under one lane takes a share of each bag until it is sealed: at the end of the lane, or when the alarm is raised.
    const lane = layout.lanes[2 + Math.floor(run.unit() * 5)];
    if (lane === undefined) throw new Error('There are ten lanes.');
    const share = 0.5 + run.unit() * 0.3;
    const perM3 = layout.bagsPerBatch / layout.batchM3;
    const step = (run.endMin.at(-1) ?? 0) / LAST;
    const pour = (follows: boolean): number => {
      const logged: Logged[] = [];
      let [min, batch, lostBags] = [0, 0, 0];
      for (const one of layout.lanes) {
        let needBags = one.volumeM3 * perM3;
        let isOpen = one === lane;
        while (needBags > 1e-6) {
          batch += 1;
          min += step;
          const usefulBags = isOpen ? 1 - share : 1;
          needBags -= usefulBags;
          lostBags += 1 - usefulBags;
          logged.push(placed(batch, min));
          if (follows && isOpen && leakAlarm(PLAN, stateOf(logged, min), TYPICAL_SPREAD) !== null) isOpen = false;
        }
        logged.push({ min, event: { kind: 'lane-finished', roomId: 'room-hall', lane: one.inRoom } });
      }
      return lostBags * AREA_M2;
    };
    return [pour(false), pour(true)];
  },
};

describe.each(['by-hand', 'cart'] as const)('over seeded pours %s', (carry) => {
  const crew = startCrew(carry, clocks);
  const full = pourModel(layout, crew, clocks);
  const fewer = pourModel(layout, { ...crew, mixers: Math.max(1, crew.mixers - 1) }, clocks);
  if (!full.ok || !fewer.ok) throw new Error('Both crews can pour it.');

  it.each(Object.keys(TROUBLES))('%s: following the advice loses less floor than continuing', (name) => {
    const random = newRandom();
    seedRandom(random, 7, name.length);
    let [goingOn, advised] = [0, 0];
    for (let run = 0; run < RUNS; run++) {
      const [going, as] = TROUBLES[name]?.({
        endMin: [...timelineOf(full.value, 20, run).laid.endMin],
        slowMin: [...timelineOf(fewer.value, 20, run).laid.endMin],
        unit: () => nextUnit(random),
        stations: crew.mixers,
      }) ?? [0, 0];
      goingOn += going;
      advised += as;
    }
    expect(goingOn).toBeGreaterThan(0);
    expect(advised, `going on ${goingOn.toFixed(1)} m2, as advised ${advised.toFixed(1)} m2`).toBeLessThan(goingOn);
  });
});
