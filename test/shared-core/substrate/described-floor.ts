/** A described floor, and how its table changes a tested slab or a framed floor. */
import type { FloorInput } from '../../../shared-core/substrate/floor-facts.ts';
import type { Verdict } from '../../../shared-core/substrate/rule.ts';
import { layer, SLAB, test } from './a-floor.ts';

/** A floor with its expected results. `not` names rules and lines that would be wrong. */
export type DescribedFloor = {
  readonly name: string;
  readonly floor: FloorInput;
  readonly verdict: Verdict;
  readonly rules: readonly string[];
  readonly lines: readonly string[];
  readonly not?: readonly string[];
};

export const with_ = (from: FloorInput, layers: FloorInput['layers'], change: Partial<FloorInput> = {}): FloorInput => ({
  ...from,
  layers,
  ...change,
});
export const slab = SLAB.layers;
export const floorWith = (
  from: FloorInput,
  circumstances: Partial<FloorInput['circumstances']>,
  change: Partial<FloorInput> = {},
): FloorInput => ({
  ...from,
  circumstances: { ...from.circumstances, ...circumstances },
  ...change,
});
export const rh = (share: number, count = 3) =>
  Array.from({ length: count }, (_, i) => test.humidity({ id: `rh-${i + 1}`, relativeHumidity: share }));
export const drops = (seconds: number | null) => [1, 2, 3].map((i) => test.drop(`drop${i}`, seconds));
export const lab = (layerId: string, state: 'found' | 'none-found', question: 'asbestos' | 'lead-paint' = 'asbestos') =>
  test.lab({ id: `lab-${layerId}-${question}`, layerId, state, question });
export const tested = (floor: FloorInput, ...more: FloorInput['tests'][number][]): FloorInput => ({
  ...floor,
  tests: [...floor.tests, ...more],
});
export const cutback = (yearInstalled: number | null, fate: 'keep' | 'remove' = 'keep') =>
  layer('adhesive-cutback', { id: 'cutback', yearInstalled, fate });
export const tile = (yearInstalled: number | null, fate: 'keep' | 'remove' = 'keep') =>
  layer('resilient-tile', { id: 'tile', yearInstalled, fate });
export const paint = layer('paint-or-sealer', { id: 'paint', yearInstalled: null });
export const joists = layer('joists');
