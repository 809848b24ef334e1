import { describe, expect, it } from 'vitest';
import type { PourEvent } from '../../../shared-core/book/pour-record.ts';
import {
  estimateBags,
  FORECAST_RATE,
  forecastPour,
  TYPICAL_SPREAD,
  verdictAfter,
  type Verdict,
} from '../../../shared-core/pour/forecast.ts';
import { pourState, type PourRecordPlan } from '../../../shared-core/pour/pour-state.ts';
import { newRandom, nextUnit, seedRandom, type RandomState } from '../../../shared-core/pour/random.ts';
import { runOutWords } from '../../../renderer/stages/pour/pour-mode-words.ts';
import { runOutOf } from '../../../shared-core/pour/run-out.ts';
import { bay, laidOut, rectangle } from './floors.ts';

/** Normal deviate by Box and Muller (Annals of Mathematical Statistics 29, 1958). */
const normal = (r: RandomState) => Math.sqrt(-2 * Math.log(1 - nextUnit(r))) * Math.cos(2 * Math.PI * nextUnit(r));

const LANES = 6;
const LANE_BAGS = 8;
const TOTAL = LANES * LANE_BAGS;
const BATCH_BAGS = 2;

/** A synthetic pour: the batches each lane takes, and the bags used when its edge is judged to be reached. */
function syntheticPour(seed: number, ratioOf: (r: RandomState) => number) {
  const r = newRandom();
  seedRandom(r, 77, seed);
  const ratio = ratioOf(r);
  const walk = TYPICAL_SPREAD.stretchShare * Math.sqrt(BATCH_BAGS);
  const laneBags = Array.from({ length: LANES }, () => LANE_BAGS * ratio + walk * Math.sqrt(LANE_BAGS) * normal(r));
  const edges = laneBags.map(() => TYPICAL_SPREAD.edgeShare * BATCH_BAGS * normal(r));
  let used = 0;
  const seen = laneBags.map((bags, i) => {
    used += bags;
    return { plannedBags: (i + 1) * LANE_BAGS, usedBags: used + (i + 1 < LANES ? (edges[i] ?? 0) : 0) };
  });
  return { seen, total: used };
}
const likePlan = (r: RandomState) => 1 + TYPICAL_SPREAD.planShare * normal(r);

describe('estimateBags over synthetic pours', () => {
  const POURS = 4000;
  it.each([0, 1, 2, 3, 4, 5])('covers the outcome at its stated rate after %i of six lanes', (lanes) => {
    let held = 0;
    for (let seed = 0; seed < POURS; seed++) {
      const pour = syntheticPour(seed, likePlan);
      const { total } = estimateBags(TOTAL, BATCH_BAGS, pour.seen[lanes - 1] ?? null, TYPICAL_SPREAD);
      if (total.low <= pour.total && pour.total <= total.high) held++;
    }
    expect(Math.abs(held / POURS - FORECAST_RATE)).toBeLessThan(0.025);
  });

  it('covers nearly as often when the ratio is uniform instead of normal', () => {
    let held = 0;
    for (let seed = 0; seed < POURS; seed++) {
      const pour = syntheticPour(seed, (r) => 0.86 + 0.28 * nextUnit(r));
      const { total } = estimateBags(TOTAL, BATCH_BAGS, pour.seen[2] ?? null, TYPICAL_SPREAD);
      if (total.low <= pour.total && pour.total <= total.high) held++;
    }
    expect(held / POURS).toBeGreaterThan(FORECAST_RATE - 0.03);
  });

  it('narrows as lanes are finished', () => {
    const widths = [0, 1, 2, 3, 4, 5].map((lanes) => {
      const seen = lanes === 0 ? null : { plannedBags: lanes * LANE_BAGS, usedBags: lanes * LANE_BAGS };
      const { total } = estimateBags(TOTAL, BATCH_BAGS, seen, TYPICAL_SPREAD);
      return total.high - total.low;
    });
    widths.slice(1).forEach((width, i) => expect(width).toBeLessThan(widths[i] ?? 0));
  });

  // The verdict has to agree with the figures beside it, so a warning ends once a bag is to spare.
  it('seldom changes back: few warnings in two thousand pours end and return', () => {
    let wavered = 0;
    for (let seed = 0; seed < 2000; seed++) {
      const pour = syntheticPour(seed, likePlan);
      const brought = TOTAL * 1.08;
      let verdict: Verdict | null = verdictAfter(null, estimateBags(TOTAL, BATCH_BAGS, null, TYPICAL_SPREAD).total, brought);
      const verdicts: Verdict[] = [verdict];
      for (const seen of pour.seen.slice(0, -1)) {
        verdict = verdictAfter(verdict, estimateBags(TOTAL, BATCH_BAGS, seen, TYPICAL_SPREAD).total, brought);
        if (verdict !== verdicts.at(-1)) verdicts.push(verdict);
      }
      const rank = verdicts.map((v) => ['enough', 'tight', 'short'].indexOf(v));
      const turns = rank.filter(
        (v, i) => i >= 2 && Math.sign(v - (rank[i - 1] ?? 0)) !== Math.sign((rank[i - 1] ?? 0) - (rank[i - 2] ?? 0)),
      );
      if (turns.length > 1) wavered++;
    }
    expect(wavered / 2000).toBeLessThan(0.05);
  });
});

// Six lanes of 4 m² at 10 mm, bags of 0.005 m³: eight bags per lane, two per batch, four batches per lane.
const layout = laidOut([bay('room-hall', rectangle(4, 6, LANES))], 0.01, 'back-and-forth', BATCH_BAGS);
const PLAN: PourRecordPlan = { layout, hasLater: false, healingMin: 15, workingTimeMin: 20, bagsPerBatch: BATCH_BAGS };
const atMin = (min: number) => new Date(Date.parse('2026-05-12T14:00:00Z') + min * 60_000).toISOString();

/** The log of a synthetic pour with `perLane` batches for each lane, up to a batch. */
function logOf(perLane: number, placed: number): PourEvent[] {
  const events: PourEvent[] = [];
  const stamp = (min: number) => ({
    id: `event-${events.length + 1}`,
    pourId: 'pour-1',
    seq: events.length + 1,
    instant: atMin(min),
    estimated: false,
  });
  for (let batch = 1; batch <= placed; batch++) {
    events.push({ ...stamp(batch * 3), kind: 'placed', batch, roomId: 'room-hall', lane: null, bags: BATCH_BAGS });
    if (batch % perLane === 0)
      events.push({ ...stamp(batch * 3 + 0.2), kind: 'lane-finished', roomId: 'room-hall', lane: batch / perLane });
  }
  return events;
}
const forecastAt = (perLane: number, placed: number, bagsOnSite: number) => {
  const state = pourState(PLAN, { bagsOnSite }, logOf(perLane, placed), atMin(placed * 3 + 1));
  const forecast = forecastPour(PLAN, state, TYPICAL_SPREAD);
  if (!forecast) throw new Error('no forecast');
  return { state, forecast };
};
const LIMITS = { leastM: 0.003, fetchMin: 20 } as const;

describe('forecastPour on replayed synthetic pours', () => {
  it('says enough throughout when the pour follows the plan with bags to spare', () => {
    for (let placed = 0; placed < 24; placed++) expect(forecastAt(4, placed, 56).forecast.verdict, `after batch ${placed}`).toBe('enough');
  });

  it('warns by the end of the first lane when every lane takes a quarter more, long before the bags are used up', () => {
    // Thirty batches would be needed; 56 bags make twenty-eight.
    const first = Array.from({ length: 28 }, (_, i) => i).find((placed) => forecastAt(5, placed, 56).forecast.verdict !== 'enough');
    expect(first).toBeLessThanOrEqual(10);
    expect(forecastAt(5, 20, 56).forecast.verdict).toBe('short');
    const { forecast } = forecastAt(5, 20, 56);
    // Then 20 bags are needed. Up to a batch of those placed may lie past the lane, so that the range shown just holds them.
    expect(forecast.needed.low).toBeLessThanOrEqual(20);
    expect(Math.ceil(forecast.needed.high)).toBeGreaterThanOrEqual(20);
  });

  it('does not change between finished lanes when the pour follows the plan', () => {
    const totals = [8, 9, 10, 11].map((placed) => forecastAt(4, placed, 50).forecast.estimate.total.likely);
    for (const total of totals) expect(total).toBe(totals[0]);
  });

  it('raises no alarm when lanes are never marked', () => {
    const marks = new Set(['lane-finished']);
    const verdicts = [1, 3, 8, 12, 18].map((placed) => {
      const events = logOf(4, placed).filter((event) => !marks.has(event.kind));
      const state = pourState(PLAN, { bagsOnSite: 56 }, events, atMin(placed * 3 + 1));
      return forecastPour(PLAN, state, TYPICAL_SPREAD);
    });
    expect(verdicts.map((f) => f?.verdict)).toEqual(['enough', 'enough', 'enough', 'enough', 'enough']);
  });

  it('starts again when bags are brought', () => {
    const events = logOf(5, 20);
    events.push({ id: 'event-more', pourId: 'pour-1', seq: 99, instant: atMin(61), estimated: false, kind: 'bags-added', bags: 20 });
    const state = pourState(PLAN, { bagsOnSite: 56 }, events, atMin(62));
    expect(forecastPour(PLAN, state, TYPICAL_SPREAD)?.verdict).toBe('enough');
  });
});

describe('forecastPour with the reserve of the estimate', () => {
  // 48 bags are planned, and the estimate has 51.
  const at = (placed: number, onSite: number, events = logOf(4, placed)) => {
    const state = pourState(PLAN, { bagsOnSite: onSite }, events, atMin(placed * 3 + 1));
    const forecast = forecastPour(PLAN, state, TYPICAL_SPREAD, 51);
    if (forecast === null) throw new Error('no forecast');
    return { forecast, run: runOutOf(PLAN, state, forecast, LIMITS) };
  };

  it('is enough from the start to the end of a pour that follows the plan, with what the estimate has and no bag fewer', () => {
    for (let placed = 0; placed <= 24; placed++) {
      const { forecast, run } = at(placed, 51);
      expect([forecast.verdict, run.choices], `after batch ${placed}`).toEqual(['enough', []]);
      expect(Math.ceil(forecast.needed.high - 1e-9)).toBeLessThanOrEqual(forecast.bagsLeft);
    }
    expect(at(0, 50).forecast.verdict).toBe('tight');
    // The typical range reaches higher.
    expect(forecastAt(4, 0, 51).forecast.verdict).toBe('tight');
  });

  it('still warns where the floor takes more', () => {
    expect(at(20, 51, logOf(5, 20)).forecast.verdict).toBe('short');
  });

  it('advises nothing after the last planned batch, until the log places another', () => {
    const unmarked = (placed: number) => logOf(4, placed).filter(({ kind }) => kind === 'placed');
    expect(at(24, 49, unmarked(24)).run).toEqual({ verdict: 'enough', choices: [] });
    expect(at(24, 48, unmarked(24)).forecast.needed.high).toBe(0);
    expect(at(25, 50, unmarked(25)).forecast.verdict).not.toBe('enough');
  });
});

describe('forecastPour with batches thrown out', () => {
  const atEnd = (events: readonly PourEvent[], bagsOnSite: number) => {
    const state = pourState(PLAN, { bagsOnSite }, events, atMin(200));
    const forecast = forecastPour(PLAN, state, TYPICAL_SPREAD);
    if (!forecast) throw new Error('no forecast');
    return { state, forecast };
  };
  const added = (events: PourEvent[], min: number, event: object): void => {
    const seq = events.length + 1;
    events.push({ id: `more-${seq}`, pourId: 'pour-1', seq, instant: atMin(min), estimated: false, ...event } as PourEvent);
  };

  it('is short once the stack is smaller than the floor left, however many bags were mixed', () => {
    // Half of 48 bags placed as planned, then six batches of two mixed and thrown out: 20 bags for the other 24.
    const events = logOf(4, 12);
    for (let batch = 13; batch <= 18; batch++) {
      added(events, batch * 3, { kind: 'mixed', batch, bags: BATCH_BAGS, waterL: null });
      added(events, batch * 3 + 1, { kind: 'discarded', batch, by: 'MP', why: 'wrong water' });
    }
    const { state, forecast } = atEnd(events, 56);
    expect([state.bagsUsed, state.bagsLeft]).toEqual([36, 20]);
    expect(forecast.needed.likely).toBeCloseTo(24, 6);
    expect(forecast.verdict).toBe('short');
    expect(forecast.shortBags).toBeGreaterThanOrEqual(4);
  });

  it('takes neither a scraped batch for floor nor its bags for a lane that takes more', () => {
    // Five batches to a lane, the third of each scraped out: four of them fill it, as planned.
    const events: PourEvent[] = [];
    for (let batch = 1; batch <= 10; batch++) {
      added(events, batch * 3, { kind: 'placed', batch, roomId: 'room-hall', lane: null, bags: BATCH_BAGS });
      if (batch % 5 === 3) added(events, batch * 3 + 1, { kind: 'discarded', batch, by: 'MP', why: 'lumps' });
      if (batch % 5 === 0) added(events, batch * 3 + 1, { kind: 'lane-finished', roomId: 'room-hall', lane: batch / 5 });
    }
    const { state, forecast } = atEnd(events, 60);
    expect(state.lanesDone.map((lane) => lane.bagsUsed)).toEqual([8, 16]);
    // 16 of 48 bags are floor.
    expect(forecast.needed.likely).toBeCloseTo(32, 6);
    expect(forecast.verdict).toBe('enough');
    expect(atEnd(events, 48).forecast.verdict).toBe('short');
  });
});

describe('verdictAfter', () => {
  it('says enough for 27 bags where 19 to 26 are needed, whatever was said before', () => {
    for (const before of [null, 'enough', 'tight', 'short'] as const)
      expect(verdictAfter(before, { low: 19, likely: 22, high: 25.6 }, 27)).toBe('enough');
  });
});

describe('verdictAfter a short pour', () => {
  it('stays short until the bags reach the high end of the range, and is enough with one more', () => {
    expect(verdictAfter('short', { low: 19, likely: 22, high: 26 }, 27)).toBe('enough');
    expect(verdictAfter('short', { low: 19, likely: 22, high: 26 }, 26)).toBe('tight');
    expect(verdictAfter('short', { low: 19, likely: 22, high: 26 }, 25)).toBe('short');
    expect(verdictAfter('tight', { low: 19, likely: 22, high: 26 }, 25)).toBe('tight');
  });
});

describe('runOutOf', () => {
  it('names no batch after the last, and no thinning that a gauge cannot show', () => {
    for (const placed of [2, 6, 10, 14, 18, 20])
      for (const onSite of [30, 40, 44, 48, 50, 52]) {
        const { state, forecast } = forecastAt(4, placed, onSite);
        const run = runOutOf(PLAN, state, forecast, LIMITS);
        for (const choice of run.choices) {
          expect(choice.beforeBatch).toBeLessThanOrEqual(24);
          const words = runOutWords(run, forecast, 'metric', 'en-US').choices.join(' ');
          expect(words).not.toMatch(/ 0 mm|0″/);
          for (const [, number] of words.matchAll(/batch (\d+)/g)) expect(Number(number)).toBeLessThanOrEqual(24);
        }
      }
  });

  it('is empty while the bags last', () => {
    const { state, forecast } = forecastAt(4, 8, 56);
    expect(runOutOf(PLAN, state, forecast, LIMITS)).toMatchObject({ verdict: 'enough', choices: [] });
  });

  it('suggests thinning, sending for bags or stopping at a lane’s end, each with its batch', () => {
    const { state, forecast } = forecastAt(5, 10, 50);
    const run = runOutOf(PLAN, state, forecast, LIMITS);
    const words = runOutWords(run, forecast, 'metric', 'en-US');
    expect(words.head).toMatch(/Tight|Short/);
    expect(run.choices.map((c) => c.kind).sort()).toEqual(['fetch', 'stop', 'thin']);
    for (const choice of run.choices) expect(choice.beforeBatch).toBeGreaterThanOrEqual(state.nextToLand);
    expect(words.choices.join(' ')).toMatch(/Pour lanes 3 to 6 \d+ mm thinner/);
    // Each choice has its minutes: the trip, what the bags last, what the edge takes.
    expect(words.choices.join(' ')).toMatch(/Send for \d+ more bags: 20 min round trip\. Bags last \d+ min, the edges 0 min more\./);
  });

  it('thins by what the shallowest open place has over the minimum, whatever the average', () => {
    // The same volume, from 4 mm deep at one wall to 16 mm at the other: 4 mm in the first lane, 14 mm in the last.
    const sloped = laidOut([bay('room-hall', rectangle(4, 6, LANES), ({ yM }) => 0.004 + 0.002 * yM)], 0.01, 'back-and-forth', BATCH_BAGS);
    const thin = (placed: number, leastM: number) => {
      const { state, forecast } = forecastAt(5, placed, 50);
      return runOutOf({ ...PLAN, layout: sloped }, state, forecast, { ...LIMITS, leastM }).choices.find((choice) => choice.kind === 'thin');
    };
    expect(sloped.volumeM3).toBeCloseTo(layout.volumeM3, 6);
    expect(sloped.lanes.map((lane) => lane.leastDepthM)).toEqual([4, 6, 8, 10, 12, 14].map((mm) => expect.closeTo(mm / 1000, 3)));
    // Ten of 30 batches lie in the first lanes. The third is 8 mm at its shallow edge.
    expect(thin(10, 0.0035)).toMatchObject({ lanes: [3, 4, 5, 6] });
    expect(thin(10, 0.008)).toBeUndefined();
  });

  it('never thins below the data sheet’s minimum, and sends for nothing where there is nothing', () => {
    const { state, forecast } = forecastAt(5, 10, 50);
    const run = runOutOf(PLAN, state, forecast, { ...LIMITS, leastM: 0.01, fetchMin: null });
    expect(run.choices.map((c) => c.kind)).toEqual(['stop']);
  });

  it('orders a stop only where bags are missing, and else asks for a count', () => {
    const { state, forecast } = forecastAt(4, 20, 50);
    const words = (verdict: Verdict, likely: number, high: number, bagsLeft: number) => {
      const of = { ...forecast, verdict, bagsLeft, needed: { low: 8, likely, high }, shortBags: Math.max(0, Math.ceil(high - bagsLeft)) };
      const run = runOutOf(PLAN, state, of, { leastM: 0.01, fetchMin: null });
      // Of the last lane no end is left to stop at.
      return runOutWords({ ...run, choices: run.choices.filter(({ kind }) => kind !== 'stop') }, of, 'us', 'en-US').choices;
    };
    expect(words('tight', 10, 14, 14)).toEqual(['Count the stack.']);
    expect(words('tight', 10, 14, 12)).toEqual(['Count the stack.']);
    expect(words('short', 10, 14, 12)).toEqual(['Count the stack.']);
    expect(words('short', 13, 14, 12)).toEqual(['Stop at the wet edge, set a dam, and pour the rest another day.']);
    expect(words('enough', 10, 12, 14)).toEqual([]);
  });

  it('sends for no bag where none is missing', () => {
    const { state, forecast } = forecastAt(5, 10, 50);
    const run = runOutOf(PLAN, state, { ...forecast, verdict: 'tight', bagsLeft: 40, shortBags: 0 }, LIMITS);
    expect(run).toEqual({ verdict: 'tight', choices: [] });
  });
});
