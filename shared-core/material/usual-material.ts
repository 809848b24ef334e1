/**
 * A room of a new job at this business: its usual material and primer, and the minimum thickness of that material. Until a
 * material is chosen for the first time, the typical underlayment stands in, so that a first lead has a price.
 */
import type { Business } from '../book/business.ts';
import type { JobRoom } from '../book/job.ts';
import type { Material } from '../book/material.ts';
import { newJobRoom } from '../book/new-records.ts';
import { levelForMaterial } from './minimum-thickness.ts';
import { typicalId } from './typical-materials.ts';

/** Used until the business chooses a material of its own. */
export const FIRST_MATERIAL_ID = typicalId('underlayment-fine');

/**
 * The job's record of a new room.
 * @param materials the data sheets; a usual one that is archived or gone is left out
 */
export function startingRoom(
  roomId: string,
  business: Pick<Business, 'usualMaterialId' | 'usualPrimerId'>,
  materials: readonly Material[],
): JobRoom {
  const bare = newJobRoom(roomId);
  const live = (id: string | null | undefined): Material | null =>
    materials.find((material) => material.id === id && material.deletedAt === null) ?? null;
  const material = live(business.usualMaterialId ?? FIRST_MATERIAL_ID);
  return {
    ...bare,
    materialId: material?.id ?? null,
    primerId: live(business.usualPrimerId)?.id ?? null,
    level: levelForMaterial(bare.level, null, material, bare.level.leastThicknessM),
  };
}
