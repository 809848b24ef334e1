/** The plan of a pour that was started without a layout, for tests that need a pour and not its lanes. */
import type { Material } from '../../../shared-core/book/material.ts';
import type { PouredPlan } from '../../../shared-core/book/poured-plan.ts';
import { typicalMaterials } from '../../../shared-core/material/typical-materials.ts';

const AT = '2026-05-01T12:00:00.000Z';
const POWDER = typicalMaterials((slug) => `powder-${slug}`, AT, 'UTC').find((material) => material.powder !== null);

/**
 * @param lift of every room
 * @param material null takes a typical one
 */
export function barePlan(roomIds: readonly string[], lift = 1, liftsPlanned = lift, material: Material | null = null): PouredPlan {
  const of = material ?? POWDER;
  if (of === undefined) throw new Error('There is no typical powder.');
  return {
    rooms: roomIds.map((roomId) => ({
      ...{ roomId, name: roomId, lift, liftsPlanned, depth: null, isRest: false },
      plan: { outline: [], holes: [], openings: [] },
    })),
    layout: null,
    material: of,
    bagYieldM3: 0.0125,
    lossShare: 0.05,
    minThicknessM: 0.003,
    plannedTempC: 20,
  };
}
