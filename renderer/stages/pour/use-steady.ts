/** A planned pour at the usual pace: its model, edge ages and duration. */
import type { PourReading } from '../../../shared-core/standing/read-pour.ts';
import type { Found } from '../../../shared-core/measure/parsed.ts';
import { pourModel, withoutChance, type PourModel } from '../../../shared-core/pour/crew-model.ts';
import { joinAges, type JoinAge } from '../../../shared-core/pour/joins.ts';
import type { PourProblem } from '../../../shared-core/pour/layout.ts';
import { timelineOf } from '../../../shared-core/pour/simulate.ts';
import { calculatedFor } from '../../parts/calculated-for.ts';
import { useSame } from '../../workers/use-same.ts';

export interface Steady {
  /** Oldest first. */
  readonly edges: readonly JoinAge[];
  readonly finishMin: number;
  readonly oldestBatchMin: number;
  /** Age of each batch when it is placed, min. */
  readonly batchAgesMin: readonly number[];
}

/** Null without a layout; `model` is the problem when the crew cannot place it, and one object while its content is equal. */
export function useSteady(read: PourReading): {
  readonly model: Found<PourModel, PourProblem> | null;
  readonly steady: Steady | null;
} {
  const { layout, clocks, first } = read;
  const { crew } = first;
  // Storing a result of the simulation writes the plan, and the model stays the same.
  const model = useSame(calculatedFor(read, 'model', () => (layout.ok ? pourModel(layout.value, crew, clocks) : null)));
  const steady = calculatedFor(read, 'steady', (): Steady | null => {
    if (model === null || !model.ok || !layout.ok) return null;
    const line = timelineOf(withoutChance(model.value), 1, 0);
    const edges = joinAges(layout.value.joins, line.laid).sort((a, b) => b.mostMin - a.mostMin);
    return { edges, finishMin: line.finishMin, oldestBatchMin: Math.max(0, ...line.ageMin), batchAgesMin: [...line.ageMin] };
  });
  return { model, steady };
}
