import { describe, expect, it } from 'vitest';
import type { PourEvent } from '../../../shared-core/book/pour-record.ts';
import { forecastPour, type PourForecast, TYPICAL_SPREAD } from '../../../shared-core/pour/forecast.ts';
import { pourState, type PourRecordPlan } from '../../../shared-core/pour/pour-state.ts';
import { runOutOf } from '../../../shared-core/pour/run-out.ts';
import { wholeJobsOf } from '../../../shared-core/sample/whole-jobs.ts';
import { readJob } from '../../../shared-core/standing/read-job.ts';
import { readPour } from '../../../shared-core/standing/read-pour.ts';
import { sampleAt } from '../../sample-at.ts';
import { bay, laidOut, rectangle } from './floors.ts';

const NOW = '2026-05-12T12:00:00.000Z';
const atMin = (min: number) => new Date(Date.parse(NOW) + min * 60_000).toISOString();

type Said = { readonly placedBags: number; readonly forecast: PourForecast; readonly choices: number };

/**
 * What is said after each entry of a pour that brings the bags of the estimate and finishes each lane with the batch that reaches its end.
 * @param take bags a lane takes, as a share of the plan
 */
function saidOver(plan: PourRecordPlan, bagsToBring: number, take: number): Said[] {
  const { layout, bagsPerBatch } = plan;
  if (layout === null) throw new Error('The pour has a layout.');
  const perM3 = layout.bagsPerBatch / layout.batchM3;
  const events: PourEvent[] = [];
  const said: Said[] = [];
  const stamp = (min: number) => ({
    ...{ id: `event-${events.length}`, pourId: 'pour-1', seq: events.length + 1, instant: atMin(min), estimated: false },
  });
  let placedBags = 0;
  const say = (min: number): void => {
    const state = pourState(plan, { bagsOnSite: bagsToBring }, events, atMin(min));
    const forecast = forecastPour(plan, state, TYPICAL_SPREAD, bagsToBring);
    if (forecast === null) throw new Error('no forecast');
    said.push({ placedBags, forecast, choices: runOutOf(plan, state, forecast, { leastM: 0.003, fetchMin: 20 }).choices.length });
  };
  say(0);
  const lanes = [...layout.lanes];
  for (let batch = 1; lanes.length > 0 && placedBags < bagsToBring; batch++) {
    const bags = Math.min(bagsPerBatch, bagsToBring - placedBags);
    placedBags += bags;
    events.push({ ...stamp(batch * 3), kind: 'placed', batch, roomId: lanes[0]?.roomId ?? '', lane: null, bags });
    say(batch * 3);
    for (let [lane] = lanes; lane !== undefined; [lane] = lanes) {
      if ((lane.startM3 + lane.volumeM3) * perM3 * take > placedBags + 1e-6) break;
      lanes.shift();
      events.push({ ...stamp(batch * 3 + 0.1), kind: 'lane-finished', roomId: lane.roomId, lane: lane.inRoom });
      say(batch * 3 + 0.2);
    }
  }
  return said;
}

/** A floor of 24 m² in lanes that no number of batches fills evenly. */
function floorOf(lanes: number, plannedBags: number, bagsPerBatch: number): PourRecordPlan {
  const layout = laidOut([bay('room-hall', rectangle(4, 6, lanes))], (0.24 / plannedBags) * bagsPerBatch, 'back-and-forth', bagsPerBatch);
  return { layout, hasLater: false, healingMin: 15, workingTimeMin: 20, bagsPerBatch };
}

// Lanes, planned bags, bags per batch: lanes of a third of a batch up to five batches and a bit.
const FLOORS = [
  [13, 18.4, 1],
  [28, 9.6, 1],
  [4, 14.2, 1],
  [5, 26.3, 1],
  [7, 37, 2],
  [11, 60, 2],
] as const;
/** Floors of many sizes, evenly filled by their batches or not. */
const MANY = [2, 3, 4, 5, 6, 8].flatMap((lanes) =>
  [8, 12, 17.3, 20, 29.6, 36, 48].flatMap((plannedBags) =>
    [1, 2, 3].flatMap((bagsPerBatch) => (plannedBags < lanes * bagsPerBatch ? [] : [[lanes, plannedBags, bagsPerBatch] as const])),
  ),
);
/** The estimate has 7 % more than planned, in whole bags. */
const broughtFor = (plannedBags: number) => Math.ceil(plannedBags * 1.07);

const SAMPLE = wholeJobsOf(sampleAt(NOW)).flatMap((whole) => {
  const reading = readJob({ ...whole, pours: [], pourEvents: [] }, NOW);
  return reading.rooms.flatMap(({ room }) => {
    const read = readPour(reading, [room.id]);
    return read.ok && read.value.layout.ok ? [[room.id, read.value.recordPlan, read.value.bagsToBring] as const] : [];
  });
});

function expectQuiet(said: readonly Said[]): void {
  for (const { placedBags, forecast, choices } of said) {
    expect([forecast.verdict, choices], `after ${placedBags} bags`).toEqual(['enough', 0]);
    expect(Math.ceil(forecast.needed.high - 1e-9), `after ${placedBags} bags`).toBeLessThanOrEqual(forecast.bagsLeft);
  }
}

describe('the forecast of a pour that follows its plan, with the bags of the estimate', () => {
  it.each(FLOORS)('is enough to the end over %i lanes of %f bags, %i a batch', (lanes, plannedBags, bagsPerBatch) => {
    expectQuiet(saidOver(floorOf(lanes, plannedBags, bagsPerBatch), broughtFor(plannedBags), 1));
  });

  it('is enough to the end over floors of many sizes', () => {
    for (const [lanes, plannedBags, bagsPerBatch] of MANY)
      expectQuiet(saidOver(floorOf(lanes, plannedBags, bagsPerBatch), broughtFor(plannedBags), 1));
  });

  it('is enough after the first batch of a lane whose lane before is not logged yet', () => {
    // 8 bags a lane, 2 a batch.
    const plan = floorOf(3, 24, 2);
    const said = saidOver(plan, broughtFor(24), 10);
    expectQuiet(said.filter(({ placedBags }) => placedBags <= 10));
    expect(said.find(({ placedBags }) => placedBags === 12)?.forecast.verdict).not.toBe('enough');
  });

  it('is enough to the end in every room of the sample', () => {
    expect(SAMPLE.length).toBeGreaterThan(4);
    for (const [, plan, bagsToBring] of SAMPLE) expectQuiet(saidOver(plan, bagsToBring, 1));
  });
});

describe('the forecast of a pour that takes more than its plan', () => {
  it.each(FLOORS)(
    'says so with half of the bags left: 15 %% more over %i lanes of %f bags, %i a batch',
    (lanes, plannedBags, bagsPerBatch) => {
      const brought = broughtFor(plannedBags);
      const said = saidOver(floorOf(lanes, plannedBags, bagsPerBatch), brought, 1.15);
      const first = said.find(({ forecast }) => forecast.verdict !== 'enough');
      expect(plannedBags * 1.15).toBeGreaterThan(brought);
      expect(first?.placedBags).toBeLessThanOrEqual(brought / 2);
      expect(said.at(-1)?.forecast.verdict).not.toBe('enough');
    },
  );

  it.each([1.15, 1.2, 1.25])('says so before three quarters of the bags, or with the first batch beyond the plan: %f of it', (take) => {
    let floors = 0;
    for (const [lanes, plannedBags, bagsPerBatch] of MANY) {
      const brought = broughtFor(plannedBags);
      // The first lane that takes another batch than planned. Until then nothing differs from a floor that takes as many bags as planned.
      const batchesTo = (bags: number) => Math.ceil(bags / bagsPerBatch - 1e-6);
      const ends = Array.from({ length: lanes }, (_, i) => (plannedBags * (i + 1)) / lanes);
      const first = ends.find((bags) => batchesTo(bags * take) > batchesTo(bags));
      if (plannedBags * take < brought + 1 || first === undefined) continue;
      const beyondBags = (batchesTo(first) + 1) * bagsPerBatch;
      if (beyondBags - bagsPerBatch >= brought) continue;
      floors += 1;
      const said = saidOver(floorOf(lanes, plannedBags, bagsPerBatch), brought, take);
      const warned = said.find(({ forecast }) => forecast.verdict !== 'enough')?.placedBags ?? Infinity;
      const floor = `${lanes} lanes of ${plannedBags} bags, ${bagsPerBatch} a batch`;
      expect(warned, floor).toBeLessThanOrEqual(Math.max(brought * 0.75, Math.min(beyondBags, brought)));
      expect(said.at(-1)?.forecast.verdict, floor).not.toBe('enough');
    }
    expect(floors).toBeGreaterThan(60);
  });

  it('says so after the first of three lanes where each takes a fifth more, and to the last bag', () => {
    // 12 bags planned, 13 brought, 2 a batch. Each lane takes 4.8 bags, so the first ends with the third batch and not the second.
    const said = saidOver(floorOf(3, 12, 2), 13, 1.2);
    expect(said.at(-1)).toMatchObject({ placedBags: 13, forecast: { bagsLeft: 0, lanesLeft: [3] } });
    for (const { placedBags, forecast } of said)
      expect(forecast.verdict === 'enough', `after ${placedBags} bags`).toBe(forecast.lanesLeft.length === 3);
  });

  it('is never enough with no bag left, more batches placed than planned and a lane open', () => {
    // Two lanes of 10 bags end with batches 4 and 7, as planned. Then 22 bags are placed, and the second lane takes 23.
    const last = saidOver(floorOf(2, 20, 3), 22, 1.15).at(-1)?.forecast;
    expect(last).toMatchObject({ verdict: 'tight', bagsLeft: 0, lanesLeft: [2] });
    expect(last?.needed.high).toBeGreaterThan(0);
  });

  it('never calls short what reaches the high end of the range it shows', () => {
    for (const [lanes, plannedBags, bagsPerBatch] of FLOORS)
      for (const take of [1.05, 1.1, 1.15, 1.25])
        for (const { forecast } of saidOver(floorOf(lanes, plannedBags, bagsPerBatch), broughtFor(plannedBags), take)) {
          if (forecast.verdict === 'short') expect(forecast.bagsLeft).toBeLessThan(Math.ceil(forecast.needed.high));
        }
  });
});
