/** A planned pour at the usual pace: its model, edge ages and duration. */
import { useMemo } from 'react';
import type { PourReading } from '../../../shared-core/standing/read-pour.ts';
import type { PourPlan } from '../../../shared-core/book/job.ts';
import type { Parsed } from '../../../shared-core/measure/parsed.ts';
import { pourModel, withoutChance, type PourModel } from '../../../shared-core/pour/crew-model.ts';
import { joinAges, type JoinAge } from '../../../shared-core/pour/joins.ts';
import { timelineOf } from '../../../shared-core/pour/simulate.ts';

export interface Steady {
  /** Oldest first. */
  readonly edges: readonly JoinAge[];
  readonly finishMin: number;
  readonly oldestBatchMin: number;
  /** Age of each batch when it is placed, min. */
  readonly batchAgesMin: readonly number[];
}

/** Null without a layout; `model` is a message when the crew cannot place it. */
export function useSteady(read: PourReading): {
  readonly model: Parsed<PourModel> | null;
  readonly steady: Steady | null;
  /** The inputs of the simulation, without the results it stores. */
  readonly key: string;
} {
  const { layout, clocks, first, plans } = read;
  const { crew } = first;
  const model = useMemo(() => (layout.ok ? pourModel(layout.value, crew, clocks) : null), [layout, crew, clocks]);
  const steady = useMemo((): Steady | null => {
    if (model === null || !model.ok || !layout.ok) return null;
    const line = timelineOf(withoutChance(model.value), 1, 0);
    const edges = joinAges(layout.value.joins, line.laid).sort((a, b) => b.mostMin - a.mostMin);
    return { edges, finishMin: line.finishMin, oldestBatchMin: Math.max(0, ...line.ageMin), batchAgesMin: [...line.ageMin] };
  }, [model, layout]);
  const key = useMemo(
    () =>
      JSON.stringify([
        plans.map(withoutMinutes),
        withoutMinutes(first),
        clocks.healingMin,
        clocks.workingTimeMin,
        layout.ok ? [layout.value.volumeM3.toPrecision(6), layout.value.lanes.map((s) => s.roomId)] : null,
      ]),
    [plans, first, clocks, layout],
  );
  return { model, steady, key };
}

const withoutMinutes = ({ likelyMinutes: _, likelyVolumeM3: __, crew, ...plan }: PourPlan) => ({
  ...plan,
  crew: Object.entries(crew).sort(([a], [b]) => a.localeCompare(b)),
});
