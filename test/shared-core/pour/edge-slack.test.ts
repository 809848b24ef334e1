/**
 * Advice that delays a pour, followed to the minute. The floor is a grid of batches that the test fills by itself: four batches to a lane,
 * back and forth, and the age of an edge is the time between the two batches that meet there. It shares no code with the layout.
 */
import { describe, expect, it } from 'vitest';
import type { PourEvent } from '../../../shared-core/book/pour-record.ts';
import { edgeSlackMin } from '../../../shared-core/pour/edge-slack.ts';
import { forecastPour, TYPICAL_SPREAD } from '../../../shared-core/pour/forecast.ts';
import { pourState, type PourRecordPlan } from '../../../shared-core/pour/pour-state.ts';
import { runOutOf } from '../../../shared-core/pour/run-out.ts';
import { DAM_MIN, stopPlan } from '../../../shared-core/pour/stop-plan.ts';
import { bay, laidOut, rectangle } from './floors.ts';

const LANES = 6;
const PER_LANE = 4;
const BATCHES = LANES * PER_LANE;
const BAGS = 2;
const PACE_MIN = 3.5;
const HEALING_MIN = 30;
const layout = laidOut([bay('room-hall', rectangle(4, 6, LANES))], 0.01, 'back-and-forth', BAGS);
const PLAN: PourRecordPlan = { layout, hasLater: false, healingMin: HEALING_MIN, workingTimeMin: 20, bagsPerBatch: BAGS };
const START = Date.parse('2026-05-12T14:00:00Z');
const instantOf = (min: number): string => new Date(START + min * 60_000).toISOString();

const onTime = (batch: number): number => batch * PACE_MIN;
/** The batch on a place of a lane, from 0 along it. */
const batchAt = (lane: number, place: number): number => lane * PER_LANE + (lane % 2 === 0 ? place : PER_LANE - 1 - place) + 1;

/** The oldest an edge gets before it is met, by when each batch is placed. */
function oldestMetMin(placedMin: (batch: number) => number): number {
  const ages = Array.from({ length: BATCHES - 1 }, (_, i) => placedMin(i + 2) - placedMin(i + 1));
  for (let lane = 0; lane + 1 < LANES; lane++)
    for (let place = 0; place < PER_LANE; place++) ages.push(placedMin(batchAt(lane + 1, place)) - placedMin(batchAt(lane, place)));
  return Math.max(...ages);
}

const stateAfter = (placed: number, bagsOnSite: number, more: readonly object[] = []) => {
  const placements = Array.from({ length: placed }, (_, i) => ({
    ...{ kind: 'placed', batch: i + 1, roomId: 'room-hall', lane: null, bags: BAGS },
    instant: instantOf(onTime(i + 1)),
  }));
  const events = [...placements, ...more].map(
    (event, i) =>
      ({ id: `event-${i}`, pourId: 'pour-1', seq: i + 1, estimated: false, instant: instantOf(onTime(placed)), ...event }) as PourEvent,
  );
  return pourState(PLAN, { bagsOnSite }, events, instantOf(onTime(placed)));
};
const after = Array.from({ length: BATCHES - 1 }, (_, i) => i + 1);

describe('waiting out an outage', () => {
  const delayed = (placed: number, outageMin: number) => (batch: number) => onTime(batch) + (batch > placed ? outageMin : 0);

  it('is advised only where no edge goes cold along the lane, and for as long as it says', () => {
    let waits = 0;
    for (const placed of after)
      for (let outageMin = 1; outageMin < HEALING_MIN; outageMin++) {
        const plan = stopPlan(PLAN, stateAfter(placed, 60), { bags: 0, outageMin });
        if (plan?.kind !== 'wait') continue;
        waits += 1;
        expect(oldestMetMin(delayed(placed, outageMin)), `${outageMin} min after batch ${placed}`).toBeLessThanOrEqual(HEALING_MIN);
        expect(oldestMetMin(delayed(placed, plan.leftMin ?? 0))).toBeLessThanOrEqual(HEALING_MIN + 1e-6);
        expect(oldestMetMin(delayed(placed, (plan.leftMin ?? 0) + 1))).toBeGreaterThan(HEALING_MIN);
      }
    expect(waits).toBeGreaterThan(10);
  });

  it('leaves the minutes that a dam takes', () => {
    const state = stateAfter(3, 60);
    const slackMin = edgeSlackMin(PLAN, state) ?? 0;
    expect(slackMin).toBeGreaterThan(DAM_MIN);
    expect(stopPlan(PLAN, state, { bags: 0, outageMin: slackMin - DAM_MIN })?.kind).toBe('wait');
    expect(stopPlan(PLAN, state, { bags: 0, outageMin: slackMin - DAM_MIN + 0.1 })?.kind).not.toBe('wait');
  });

  it('is not limited by an edge that has a dam', () => {
    expect(edgeSlackMin(PLAN, stateAfter(6, 60))).toBeLessThan(HEALING_MIN);
    expect(
      edgeSlackMin(
        PLAN,
        stateAfter(6, 60, [{ kind: 'joint', roomId: 'room-hall', from: { xM: 0, yM: 0 }, to: { xM: 1, yM: 0 }, note: '' }]),
      ),
    ).toBeNull();
  });
});

describe('sending for bags', () => {
  it.each([12, 20, 45])('before the batch it names, %i min round trip, meets every edge while it is wet', (fetchMin) => {
    let sent = 0;
    let late = 0;
    for (const placed of after)
      for (const bagsOnSite of [24, 32, 40, 44]) {
        const state = stateAfter(placed, bagsOnSite);
        const forecast = forecastPour(PLAN, state, TYPICAL_SPREAD);
        if (forecast === null || bagsOnSite < placed * BAGS) continue;
        const choice = runOutOf(PLAN, state, forecast, { leastM: 0.01, fetchMin }).choices.find(({ kind }) => kind === 'fetch');
        if (choice?.kind !== 'fetch') continue;
        // One batch is mixed after another: the bags on site last to a batch, and the first new bags are mixed when they come.
        const lastMin = onTime(bagsOnSite / BAGS);
        const sentBefore = (batch: number) => {
          const lostMin = Math.max(0, onTime(batch - 1) + fetchMin - lastMin);
          return oldestMetMin((one) => onTime(one) + (onTime(one) > lastMin ? lostMin : 0));
        };
        const words = `after batch ${placed} with ${bagsOnSite} bags`;
        sent += 1;
        expect(sentBefore(choice.beforeBatch), words).toBeLessThanOrEqual(HEALING_MIN);
        expect(choice.edgeMin, words).toBeLessThan(HEALING_MIN);
        if (sentBefore(choice.beforeBatch + 3) > HEALING_MIN) late += 1;
      }
    expect(sent).toBeGreaterThan(10);
    // It is not far too careful either.
    expect(late).toBeGreaterThan(sent / 2);
  });
});
