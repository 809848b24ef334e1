import type { Laid } from '../../../shared-core/pour/joins.ts';

/** Placing times at a steady rate without pauses, m³ per minute. */
export function steadyLaying(batches: readonly { readonly volumeM3: number }[], m3PerMin: number): Laid {
  const startMin: number[] = [];
  const endMin: number[] = [];
  let volume = 0;
  for (const batch of batches) {
    startMin.push(volume / m3PerMin);
    volume += batch.volumeM3;
    endMin.push(volume / m3PerMin);
  }
  return { startMin, endMin };
}
