/** Radiant heat that lies on top of the floor. */
import type { Layer } from '../book/layer.ts';

/**
 * The mats or tubing on top of the layers that stay. The pour runs between them and covers them, so they are no surface: readings are of
 * the floor beside them, and depths count from it.
 * @param layers from the top down
 */
export function heatOnTop(layers: readonly Layer[]): readonly Layer[] {
  const kept = layers.filter((layer) => layer.fate === 'keep');
  const surface = kept.findIndex((layer) => layer.material !== 'radiant-heating');
  return surface < 0 ? kept : kept.slice(0, surface);
}
