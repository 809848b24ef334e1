/** What a floor is primed as. */
import type { PrimerUse } from '../book/material.ts';
import { exposedLayers, type LayeredRoom } from './exposed-layers.ts';
import { isNonPorous, isWood } from './layer-words.ts';
import { lastAbsorption } from './test-kinds.ts';

/** The primed substrate, and what it is known by: the layer itself, water drops on it, or neither. */
export type SubstrateClass = { readonly substrate: PrimerUse['substrate']; readonly by: 'layer' | 'drops' | 'presumed' };

/**
 * The substrate for the primer: by the layer primed over most of the room, and for cement, gypsum or an unknown layer by the water
 * drop test. Without one it is presumed porous. A drop never makes any other layer porous: it fell on bare slab elsewhere, or found
 * a gap. Common practice, no source.
 */
export function substrateClass(room: LayeredRoom): SubstrateClass {
  const bySize = exposedLayers(room).toSorted((a, b) => (b.areaM2 ?? Infinity) - (a.areaM2 ?? Infinity));
  const top = bySize[0]?.layer.material ?? null;
  if (top !== null && isWood(top)) return { substrate: 'wood', by: 'layer' };
  if (top === 'metal') return { substrate: 'metal', by: 'layer' };
  if (top !== null && ['ceramic-tile', 'stone-tile', 'terrazzo'].includes(top)) return { substrate: 'tile', by: 'layer' };
  if (top !== null && isNonPorous(top)) return { substrate: 'non-porous', by: 'layer' };
  const absorbs = lastAbsorption(room.tests);
  return absorbs === null ? { substrate: 'porous', by: 'presumed' } : { substrate: absorbs, by: 'drops' };
}
