import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { SQUARE_FOOT_M2 } from '../../../shared-core/measure/area.ts';
import { CUBIC_FOOT_M3 } from '../../../shared-core/measure/volume.ts';
import { crewPourMinutes, typicalPourMinutes } from '../../../shared-core/material/crew-hours.ts';
import { clocksAt } from '../../../shared-core/pour/clocks.ts';
import { SPENT } from '../../../shared-core/pour/crew-bench.ts';
import { modelOf, pourModel, withoutChance, type CrewShape, type CrewTimes, type PourModel } from '../../../shared-core/pour/crew-model.ts';
import { helpersIn } from '../../../shared-core/pour/crew-names.ts';
import { outlookOf } from '../../../shared-core/pour/outlook.ts';
import { newRandom, nextUint32, nextUnit, seedRandom } from '../../../shared-core/pour/random.ts';
import { mergeRuns, simulatePour, timelineOf } from '../../../shared-core/pour/simulate.ts';
import { startCrew } from '../../../shared-core/pour/start-crew.ts';
import { exponential, fixed, sampleMin, taskRows, triangular } from '../../../shared-core/pour/task-time.ts';
import { TYPICAL_CREW } from '../../../shared-core/pour/typical-crew.ts';
import { HOPPER_BATCHES, TWELVE_BAGS, XOSHIRO_1234 } from '../../reference/pour.ts';
import { waitMD1, waitMG1, waitMM1 } from '../../reference/queueing.ts';
import { bay, laidOut, rectangle } from './floors.ts';

const STEADY: CrewTimes = {
  measure: fixed(1),
  mix: fixed(3),
  scrape: fixed(1),
  carry: fixed(1),
  spread: fixed(0.5),
  empty: fixed(2),
  stop: fixed(0),
};
const SHAPE: CrewShape = { mixers: 1, carriers: 1, spreaders: 1, cartBatches: 0, stoppagesPerHour: 0 };
const LIMITS = { healingMin: 15, workingTimeMin: 20 };

function model(batches: number, shape: Partial<CrewShape> = {}, times: Partial<CrewTimes> = {}): PourModel {
  const parsed = modelOf(batches, [], { ...SHAPE, ...shape }, { ...STEADY, ...times }, LIMITS);
  if (!parsed.ok) throw new Error(parsed.problem.kind);
  return parsed.value;
}
const once = (m: PourModel) => timelineOf(m, 1, 0);

describe('the generator', () => {
  it('gives the published outputs of xoshiro128**', () => {
    const state = Uint32Array.from([1, 2, 3, 4]);
    expect(XOSHIRO_1234.map(() => nextUint32(state))).toEqual([...XOSHIRO_1234]);
  });

  it('gives streams that differ by seed and by run, with the mean and variance of the unit interval', () => {
    const state = newRandom();
    const firsts = new Set<number>();
    let sum = 0;
    let squares = 0;
    for (let run = 0; run < 20_000; run++) {
      seedRandom(state, run % 7, run);
      firsts.add(nextUint32(state));
      const unit = nextUnit(state);
      sum += unit;
      squares += unit * unit;
    }
    expect(firsts.size).toBeGreaterThan(19_980);
    expect(sum / 20_000).toBeCloseTo(0.5, 1);
    expect(squares / 20_000 - (sum / 20_000) ** 2).toBeCloseTo(1 / 12, 2);
  });
});

describe('sampled task times', () => {
  it('are exact where there is no range, each task by its own', () => {
    const rows = taskRows([fixed(2), triangular({ least: 3, usual: 3, most: 3 }), fixed(5)]);
    expect([0, 1, 2].map((task) => sampleMin(rows, task, newRandom()))).toEqual([2, 3, 5]);
  });

  it('have the triangular distribution’s mean and variance (NIST/SEMATECH e-Handbook form, from memory)', () => {
    fc.assert(
      fc.property(
        fc.tuple(fc.integer({ min: 0, max: 40 }), fc.integer({ min: 0, max: 40 }), fc.integer({ min: 1, max: 40 })),
        ([a, rise, fall]) => {
          const [least, usual, most] = [a, a + rise, a + rise + fall];
          const rows = taskRows([triangular({ least, usual, most })]);
          const state = newRandom();
          seedRandom(state, 11, a);
          const n = 20_000;
          let sum = 0;
          let squares = 0;
          for (let i = 0; i < n; i++) {
            const x = sampleMin(rows, 0, state);
            if (x < least || x > most) throw new Error('outside its range');
            sum += x;
            squares += x * x;
          }
          const mean = (least + usual + most) / 3;
          const variance = (least ** 2 + usual ** 2 + most ** 2 - least * usual - least * most - usual * most) / 18;
          expect(Math.abs(sum / n - mean)).toBeLessThan(5 * Math.sqrt(variance / n));
          expect(Math.abs((squares / n - (sum / n) ** 2) / variance - 1)).toBeLessThan(0.06);
        },
      ),
      { numRuns: 15, seed: 4 },
    );
  });
});

describe('one run without randomness', () => {
  it('by hand, one mixer: N cycles, then the last carry and spread', () => {
    // Cycle 1 + 3 + 1 = 5; the last batch is mixed 1 before its cycle ends, then half a round trip and 0.5 of spreading.
    expect(once(model(8)).finishMin).toBeCloseTo(8 * 5 - 1 + 0.5 + 0.5, 9);
  });

  it('by hand, the mixer carrying: measure, mix, walk, scrape, walk back', () => {
    expect(once(model(3, { carriers: 0 })).finishMin).toBeCloseTo(2 * 6 + 1 + 3 + 0.5 + 0.5, 9);
  });

  it('two mixers halve the cycles', () => {
    expect(once(model(8, { mixers: 2, carriers: 2, spreaders: 2 })).finishMin).toBeCloseTo(4 * 5 - 1 + 0.5 + 0.5, 9);
  });

  it('a cart of two, one mixer, one placing: calculated by hand', () => {
    // Filled at 10, pushed 0.5, emptied by 12.5, back by 13; the third mix, begun at 10, is held from 14, scraped by 15.
    // Fourth: 15 to 20. Two spreads from 13 to 14. Second load: 20, 20.5, 22.5, back at 23, spread until 24.
    const t = once(model(4, { carriers: 0, cartBatches: 2 }));
    expect([...t.laid.endMin]).toEqual([11.5, 12.5, 21.5, 22.5]);
    expect(t.finishMin).toBeCloseTo(24, 9);
    // Batch 1 met water at 1 and is in the cart until 12.5.
    expect([...t.ageMin]).toEqual([11.5, 6.5, 11.5, 6.5]);
  });

  it('a short last load is emptied in its share of the time', () => {
    const t = once(model(3, { carriers: 1, cartBatches: 2 }));
    expect((t.laid.endMin[2] ?? 0) - (t.laid.startMin[2] ?? 0)).toBeCloseTo(1, 9);
  });

  it('places every batch, in order, with any crew', () => {
    fc.assert(
      fc.property(
        fc.record({
          mixers: fc.integer({ min: 1, max: 6 }),
          carriers: fc.integer({ min: 0, max: 4 }),
          spreaders: fc.integer({ min: 1, max: 3 }),
          cartBatches: fc.integer({ min: 0, max: 7 }),
          stoppagesPerHour: fc.integer({ min: 0, max: 6 }),
        }),
        fc.integer({ min: 1, max: 40 }),
        fc.integer(),
        (shape, batches, seed) => {
          const m = model(batches, shape, {
            mix: triangular({ least: 1, usual: 2, most: 6 }),
            stop: triangular({ least: 1, usual: 2, most: 4 }),
          });
          const t = timelineOf(m, seed, 0);
          for (let k = 0; k < batches; k++) {
            expect(t.laid.endMin[k]).toBeGreaterThan(t.laid.startMin[k] ?? 0);
            expect(t.ageMin[k]).toBeGreaterThan(0);
            if (k > 0) expect(t.laid.startMin[k]).toBeGreaterThanOrEqual(t.laid.startMin[k - 1] ?? 0);
          }
          expect(t.finishMin).toBeGreaterThanOrEqual(t.laid.endMin[batches - 1] ?? 0);
        },
      ),
      { numRuns: 200 },
    );
  });
});

describe('many runs', () => {
  it('one saturated mixer takes N times its average cycle', () => {
    const m = model(400, { carriers: 2, spreaders: 2 }, { mix: triangular({ least: 2, usual: 3, most: 7 }) });
    const outlook = outlookOf(m, simulatePour(m, { runs: 200, seed: 5, from: 0 }));
    // Except the ends: a cycle of 1 + 4 + 1.
    expect(outlook.finishMeanMin / (400 * 6)).toBeCloseTo(1, 2);
  });

  it('stoppages lengthen the pour by their rate and length', () => {
    const m = model(100, { stoppagesPerHour: 2 }, { stop: triangular({ least: 1, usual: 3, most: 5 }) });
    const outlook = outlookOf(m, simulatePour(m, { runs: 3000, seed: 9, from: 0 }));
    const work = once(withoutChance(m)).finishMin;
    expect(Math.abs(outlook.finishMeanMin / (work * (1 + (2 * 3) / 60)) - 1)).toBeLessThan(0.005);
  });

  const line = (spread: CrewTimes['spread']) => {
    // A mixer that delivers at once is a Poisson stream, carriers the queue, the spreader the one server.
    const zero = fixed(0);
    const m = model(20_000, { carriers: 60 }, { measure: zero, mix: exponential(2), scrape: zero, carry: zero, spread });
    const r = simulatePour(m, { runs: 12, seed: 3, from: 0 });
    return (r.spentMin[SPENT.carrierWaits] ?? 0) / (12 * 20_000);
  };

  it('waits as M/M/1 when spreading is exponential (Gross and Harris)', () => {
    expect(Math.abs(line(exponential(1)) / waitMM1(0.5, 1) - 1)).toBeLessThan(0.04);
    expect(Math.abs(line(exponential(1.4)) / waitMM1(0.5, 1.4) - 1)).toBeLessThan(0.06);
  });

  it('waits as M/D/1 when spreading takes a fixed time (Gross and Harris)', () => {
    expect(Math.abs(line(fixed(1)) / waitMD1(0.5, 1) - 1)).toBeLessThan(0.04);
  });

  it('waits as M/G/1 when spreading is triangular (Pollaczek-Khintchine)', () => {
    const variance = (0.25 + 1 + 2.25 - 0.5 - 0.75 - 1.5) / 18;
    expect(Math.abs(line(triangular({ least: 0.5, usual: 1, most: 1.5 })) / waitMG1(0.5, 1, variance) - 1)).toBeLessThan(0.04);
  });

  const hall = laidOut([bay('r', rectangle(5, 4, 4), 0.02)], 0.0127);
  const planned = pourModel(hall, TYPICAL_CREW, clocksAt(null, 21.1));
  if (!planned.ok) throw new Error(planned.problem.kind);

  it('are the same for the same seed, in one piece or several, and differ for another seed', () => {
    const whole = simulatePour(planned.value, { runs: 300, seed: 7, from: 0 });
    const pieces = [0, 100, 200].map((from) => simulatePour(planned.value, { runs: 100, seed: 7, from }));
    const merged = pieces.reduce(mergeRuns);
    expect(merged.placedMin).toEqual(whole.placedMin);
    expect(merged.joinMin).toEqual(whole.joinMin);
    expect(merged.runs).toBe(300);
    expect(simulatePour(planned.value, { runs: 300, seed: 8, from: 0 }).finishMin).not.toEqual(whole.finishMin);
  });

  it('hold their stated sampling error: 95 of 100 repeats, about', () => {
    const truth = outlookOf(planned.value, simulatePour(planned.value, { runs: 20_000, seed: 1000, from: 0 }));
    let finishHeld = 0;
    let coldHeld = 0;
    for (let seed = 0; seed < 100; seed++) {
      const o = outlookOf(planned.value, simulatePour(planned.value, { runs: 150, seed, from: 0 }));
      if (Math.abs(o.finishMeanMin - truth.finishMeanMin) <= o.finishErrorMin) finishHeld++;
      if (o.tooOld.low <= truth.tooOld.share && truth.tooOld.share <= o.tooOld.high) coldHeld++;
    }
    expect(finishHeld).toBeGreaterThanOrEqual(87);
    expect(coldHeld).toBeGreaterThanOrEqual(87);
  });

  it('narrower limits never lower a chance, and the chance of any joint is at least that of each one', () => {
    const runs = simulatePour(planned.value, { runs: 500, seed: 2, from: 0 });
    const strict = outlookOf({ ...planned.value, healingMin: 9 }, runs);
    const loose = outlookOf({ ...planned.value, healingMin: 25 }, runs);
    expect(strict.coldJoint.share).toBeGreaterThanOrEqual(loose.coldJoint.share);
    expect(strict.coldJoint.share).toBeGreaterThan(0);
    for (const s of strict.joins) expect(s.cold.share).toBeLessThanOrEqual(strict.coldJoint.share);
  });
});

describe('the typical crew', () => {
  // Twelve bags of 0.45 cu ft over 168 sq ft, in four lanes.
  const areaM2 = TWELVE_BAGS.areaSqFt * SQUARE_FOOT_M2;
  const bagM3 = 0.45 * CUBIC_FOOT_M3;
  const side = Math.sqrt(areaM2);
  const layout = laidOut([bay('r', rectangle(side, side, 4), (TWELVE_BAGS.bags * bagM3) / areaM2)], bagM3);
  const model = pourModel(layout, TYPICAL_CREW, clocksAt(null, 21.1));
  if (!model.ok) throw new Error(model.problem.kind);
  const outlook = outlookOf(model.value, simulatePour(model.value, { runs: 4000, seed: 1, from: 0 }));

  it('places twelve 50 lb bags over 168 sq ft in about 45 minutes, within a quarter (common practice, no source)', () => {
    expect(layout.batches).toHaveLength(TWELVE_BAGS.bags);
    expect(TYPICAL_CREW).toMatchObject({ mixers: 2, spreaders: 1, carry: 'cart' });
    for (const minutes of [outlook.finishMin.p10, outlook.finishMin.p50, outlook.finishMin.p90]) {
      expect(Math.abs(minutes / TWELVE_BAGS.minutes - 1)).toBeLessThan(TWELVE_BAGS.within);
    }
  });

  it('fills a hopper with five batches, and the oldest is as old as three mixing rounds and the trip when it empties', () => {
    expect(TYPICAL_CREW.cartBatches).toBe(HOPPER_BATCHES);
    const { times } = model.value;
    const t = once(withoutChance(model.value));
    const mean = (task: CrewTimes['mix']) => (task.kind === 'triangular' ? (task.least + task.usual + task.most) / 3 : NaN);
    // Two mix at once: the fifth batch goes in after the third round, the first met water one measuring into the first.
    const rounds = 3 * (mean(times.measure) + mean(times.mix) + mean(times.scrape));
    expect(t.ageMin[0]).toBeCloseTo(rounds - mean(times.measure) + mean(times.carry) / 2 + mean(times.empty), 6);
    expect(outlook.batches[0]?.ageMin.p50).toBeGreaterThan(15);
  });

  it('gives waiting times of the crew and how busy each person is', () => {
    expect(outlook.busy.mixers).toBeGreaterThan(0.5);
    expect(outlook.busy.mixers).toBeLessThanOrEqual(1);
    expect(outlook.waits.map((w) => w.who)).toContain('spreaders');
  });
});

// Common practice, no source: one person does one thing at a time, so the times of a batch add up.
describe('an owner alone', () => {
  const alone = { mixers: 1, carriers: 0, spreaders: 0 };
  it('mixes, carries and spreads by turns', () => {
    // Measured 1, mixed 3, carried 0.5, spread 0.5, walked back 0.5, scraped out 1: 6.5 min a batch, and the fourth ends when it is spread.
    const { laid, ageMin } = once(model(4, alone));
    expect([...laid.endMin]).toEqual([5, 11.5, 18, 24.5]);
    expect(ageMin[0]).toBeCloseTo(3.5, 9);
  });
  it('takes longer than with one helper, by hand as in the estimate', () => {
    expect(once(model(4, alone)).finishMin).toBeGreaterThan(once(model(4, { ...alone, spreaders: 1 })).finishMin);
    expect(crewPourMinutes(startCrew('by-hand', LIMITS, undefined, 0), 20)).toBeGreaterThan(
      crewPourMinutes(startCrew('by-hand', LIMITS, undefined, 1), 20) + 10,
    );
    expect(typicalPourMinutes(20, { mixers: 1, helpers: 0 })).toBe(typicalPourMinutes(20, { mixers: 1, helpers: 1 }) + 15);
    expect(helpersIn({ crew: startCrew('by-hand', LIMITS, undefined, 0) })).toBe(0);
  });
});

describe('modelOf', () => {
  it('says what is missing', () => {
    expect(modelOf(5, [], { ...SHAPE, mixers: 0 }, STEADY, LIMITS)).toMatchObject({ problem: { kind: 'no-mixer' } });
    expect(modelOf(5, [], { ...SHAPE, cartBatches: 2, spreaders: 0 }, STEADY, LIMITS)).toMatchObject({ problem: { kind: 'no-spreader' } });
    expect(modelOf(0, [], SHAPE, STEADY, LIMITS)).toMatchObject({ problem: { kind: 'no-batch' } });
  });
});
