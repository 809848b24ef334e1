import { describe, expect, it } from 'vitest';
import type { PourPlan } from '../../../shared-core/book/job.ts';
import { type AdviceCase, changesOf } from '../../../shared-core/pour/advice.ts';
import { adviseOn, judgeChange } from './advise-on.ts';
import { clocksAt } from '../../../shared-core/pour/clocks.ts';
import { pourModel } from '../../../shared-core/pour/crew-model.ts';
import { outlookOf } from '../../../shared-core/pour/outlook.ts';
import { planPour } from '../../../shared-core/pour/room-bays.ts';
import { simulatePour } from '../../../shared-core/pour/simulate.ts';
import { loadWithin, startCrew } from '../../../shared-core/pour/start-crew.ts';
import { TYPICAL_LANE_M } from '../../../shared-core/standing/read-pour.ts';
import { box } from './floors.ts';

const FT = 0.3048;
/** The usual job: 12 by 14 ft, 3/8 in. deep, 50 lb bags of 0.0125 m³, at 70 °F with typical times. */
const clocks = clocksAt(null, 21.1);
const usual = (carry: 'by-hand' | 'cart'): AdviceCase => ({
  rooms: [
    {
      roomId: 'hall',
      name: 'Hall',
      plan: { outline: [...box(0, 0, 14 * FT, 12 * FT).outline], holes: [], openings: [] },
      depth: 0.375 * 0.0254,
    },
  ],
  plans: [
    {
      // The default number of lanes: 14 ft in even lanes of about 18 in.
      laneWidthM: (14 * FT) / Math.round((14 * FT) / TYPICAL_LANE_M),
      angleDeg: 90,
      pattern: 'one-way',
      wayOutId: null,
      joints: [],
      crew: startCrew(carry, clocks),
    } satisfies PourPlan,
  ],
  doorways: [],
  bagYieldM3: 0.0125,
  clocks,
});
const RUNS = { runs: 1000, seed: 20 };

describe('the default plan', () => {
  it('keeps the edge wet in the usual job carried by hand', () => {
    const [now] = changesOf(usual('by-hand'));
    const judged = now && judgeChange(usual('by-hand'), now, RUNS);
    if (!judged?.ok) throw new Error('It can be laid out.');
    expect(judged.value.coldJoint.share).toBeLessThan(0.05);
    expect(judged.value.tooOld.share).toBeLessThan(0.05);
  });

  it('loads a cart within the working time', () => {
    const crew = startCrew('cart', clocks);
    expect(loadWithin(crew, clocks)).toBe(crew.cartBatches);
    const [now] = changesOf(usual('cart'));
    const judged = now && judgeChange(usual('cart'), now, RUNS);
    if (!judged?.ok) throw new Error('It can be laid out.');
    expect(judged.value.tooOld.share).toBeLessThan(0.05);
    expect(loadWithin(crew, { workingTimeMin: 1 })).toBe(1);
  });

  it('gives after a change what the suggestion promised for it', () => {
    const c = usual('cart');
    const advice = adviseOn(c, { ...RUNS, chance: 0.05 });
    if (!advice.ok) throw new Error(advice.problem.kind);
    for (const judged of advice.value.better.slice(0, 3)) {
      const plan = judged.change.plans[0];
      if (plan === undefined) throw new Error('A change has a plan.');
      const layout = planPour([{ ...c.rooms[0], pourPlan: plan } as Parameters<typeof planPour>[0][number]], {
        pattern: plan.pattern,
        bagYieldM3: c.bagYieldM3,
        bagsPerBatch: plan.crew.bagsPerBatch,
        doorways: [],
      });
      const model = layout.ok ? pourModel(layout.value, plan.crew, clocks) : layout;
      if (!model.ok) throw new Error(model.problem.kind);
      const outlook = outlookOf(model.value, simulatePour(model.value, { ...RUNS, from: 0 }));
      expect(outlook.coldJoint.share).toBe(judged.coldJoint.share);
      expect(outlook.tooOld.share).toBe(judged.tooOld.share);
    }
  });

  it('suggests a dammed joint only after changes that need none', () => {
    const advice = adviseOn(usual('cart'), { ...RUNS, chance: 0.05 });
    if (!advice.ok) throw new Error(advice.problem.kind);
    const keeps = advice.value.better.filter((judged) => judged.coldJoint.share <= 0.05 && judged.tooOld.share <= 0.05);
    const joints = keeps.map((judged) => judged.change.plans[0]?.joints.length ?? 0);
    expect(joints).toEqual([...joints].sort((a, b) => a - b));
  });
});
