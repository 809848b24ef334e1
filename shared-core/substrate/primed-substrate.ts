/** What a floor is primed as. */
import type { FloorTest } from '../book/layer.ts';
import type { PrimerUse } from '../book/material.ts';
import { testsOf } from '../book/tests-of.ts';
import { exposedLayers, type LayeredRoom } from './exposed-layers.ts';
import { staysWithAsbestos } from './floor-facts.ts';
import { isCementitious, isNonPorous, isWood } from './layer-words.ts';
import { absorptionOf } from './measured-tests.ts';
import { lastAbsorption, lastVisit } from './test-kinds.ts';

/**
 * The primed substrate, and what it is known by: the layer itself, water drops on it, or neither. `expected`: drops stay on the surface
 * as it is, and it is abraded before it is primed, so the test after that decides.
 */
export type SubstrateClass = {
  readonly substrate: PrimerUse['substrate'];
  readonly by: 'layer' | 'drops' | 'presumed' | 'expected';
};

/** Whether the drops of the visit before the last stayed too, so that the last ones were on the abraded surface. */
function stayedBefore(tests: readonly FloorTest[]): boolean {
  const drops = testsOf(tests, 'drop-absorption').filter((drop) => absorptionOf(drop) !== null);
  const last = lastVisit(drops, 'drop-absorption');
  return lastAbsorption(drops.filter((drop) => !last.includes(drop))) === 'non-porous';
}

/**
 * The substrate for the primer: by the layer primed over most of the room, and for cement, gypsum or an unknown layer by the water
 * drop test. Without one it is presumed porous. A drop never makes any other layer porous: it fell on bare slab elsewhere, or found
 * a gap. A drop that stays on concrete tells of a coat or a finish that is abraded off, and ground concrete is porous: the drop counts
 * once it stays again. Where asbestos may stay, nothing is abraded. ASTM F3191: test after preparation; else common practice, no source.
 * @param room the year built is its building's; null or left out while unknown
 */
export function substrateClass(room: LayeredRoom & { readonly yearBuilt?: number | null }): SubstrateClass {
  const bySize = exposedLayers(room).toSorted((a, b) => (b.areaM2 ?? Infinity) - (a.areaM2 ?? Infinity));
  const top = bySize[0]?.layer.material ?? null;
  if (top !== null && isWood(top)) return { substrate: 'wood', by: 'layer' };
  if (top === 'metal') return { substrate: 'metal', by: 'layer' };
  if (top !== null && ['ceramic-tile', 'stone-tile', 'terrazzo'].includes(top)) return { substrate: 'tile', by: 'layer' };
  if (top !== null && isNonPorous(top)) return { substrate: 'non-porous', by: 'layer' };
  const absorbs = lastAbsorption(room.tests);
  if (absorbs === null) return { substrate: 'porous', by: 'presumed' };
  const isAbraded = top !== null && isCementitious(top) && !staysWithAsbestos(room);
  if (absorbs === 'non-porous' && isAbraded && !stayedBefore(room.tests)) return { substrate: 'porous', by: 'expected' };
  return { substrate: absorbs, by: 'drops' };
}
