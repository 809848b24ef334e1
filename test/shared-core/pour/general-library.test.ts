import { describe, expect, it } from 'vitest';
import { SPENT } from '../../../shared-core/pour/crew-bench.ts';
import { crewShape, crewTimes, modelOf } from '../../../shared-core/pour/crew-model.ts';
import { simulatePour } from '../../../shared-core/pour/simulate.ts';
import { TYPICAL_CREW } from '../../../shared-core/pour/typical-crew.ts';
import { generalPour } from '../../reference/pour-simjs.ts';

describe('simulatePour beside the same pour in a general-purpose library (simjs)', () => {
  it.each([
    [1, 1, 1],
    [2, 1, 1],
    [3, 2, 1],
    [4, 3, 2],
  ])('agrees on finish and waits: %i mixing, %i carrying, %i spreading', (mixers, carriers, spreaders) => {
    const crew = { ...TYPICAL_CREW, carry: 'by-hand' as const, mixers, carriers, spreaders, stoppagesPerHour: 0 };
    // Spreading is slow, so that there is a wait.
    const times = { ...crewTimes(crew), spread: { kind: 'triangular' as const, least: 0.5, usual: 1.5, most: 4 } };
    const model = modelOf(30, [], crewShape(crew), times, { healingMin: 15, workingTimeMin: 20 });
    if (!model.ok) throw new Error(model.problem.kind);
    const runs = 3000;
    const ours = simulatePour(model.value, { runs, seed: 1, from: 0 });
    const theirs = generalPour(model.value, runs, 2);
    const stats = (values: ArrayLike<number>) => {
      const list = Array.from(values);
      const mean = list.reduce((sum, v) => sum + v, 0) / list.length;
      return { mean, error: Math.sqrt(list.reduce((sum, v) => sum + (v - mean) ** 2, 0)) / list.length };
    };
    const [a, b] = [stats(ours.finishMin), stats(theirs.finishMin)];
    // Four standard errors of the difference.
    expect(Math.abs(a.mean - b.mean)).toBeLessThan(4 * Math.hypot(a.error, b.error));
    const waits = ours.spentMin[SPENT.carrierWaits] ?? 0;
    expect(Math.abs(waits - theirs.waitedMin) / runs).toBeLessThan(0.05 * Math.max(2, theirs.waitedMin / runs));
  });
});
