/** Simple floors for tests of the pour, laid out by hand. */
import type { Region } from '../../../shared-core/plan/region.ts';
import type { Depth } from '../../../shared-core/pour/lane-profile.ts';
import type { PourClocks } from '../../../shared-core/pour/clocks.ts';
import { layOut, type Bay, type FillPattern, type PourLayout } from '../../../shared-core/pour/layout.ts';
import type { PourRecordPlan } from '../../../shared-core/pour/pour-state.ts';

export const box = (x0: number, y0: number, x1: number, y1: number): Region => ({
  outline: [
    { xM: x0, yM: y0 },
    { xM: x1, yM: y0 },
    { xM: x1, yM: y1 },
    { xM: x0, yM: y1 },
  ],
  holes: [],
});

export const bay = (roomId: string, lanes: readonly (readonly Region[])[], depthM: Depth = 0.01): Bay => ({
  roomId,
  angleDeg: 0,
  lanes,
  depth: depthM,
  startAt: 'low',
});

/** `count` lanes of a rectangle, running along x. */
export const rectangle = (lengthM: number, widthM: number, count: number, x0 = 0): Region[][] =>
  Array.from({ length: count }, (_, i) => [box(x0, (i * widthM) / count, x0 + lengthM, ((i + 1) * widthM) / count)]);

export function laidOut(bays: readonly Bay[], batchM3: number, pattern: FillPattern = 'back-and-forth', bagsPerBatch = 1): PourLayout {
  const found = layOut({ bays, doorways: [], pattern, bagYieldM3: batchM3 / bagsPerBatch, bagsPerBatch });
  if (!found.ok) throw new Error(found.problem.kind);
  return found.value;
}

/** What a pour of one bag a batch is recorded against. */
export const recordPlan = (layout: PourLayout, { healingMin, workingTimeMin }: PourClocks): PourRecordPlan => ({
  layout,
  healingMin,
  workingTimeMin,
  hasLater: false,
  bagsPerBatch: 1,
});
