/**
 * A room of a new job at this business: its usual material and primer, and the minimum thickness of that material over the
 * room's floor. Until a material is chosen for the first time, the typical underlayment stands in, and while no primer for
 * the floor was chosen, the typical one for it, so that a first lead has a price.
 */
import type { Business } from '../book/business.ts';
import type { Job, JobRoom } from '../book/job.ts';
import type { Material } from '../book/material.ts';
import { newJobRoom } from '../book/new-records.ts';
import type { Room } from '../book/room.ts';
import { levelForFloor, levelForMaterial } from './minimum-thickness.ts';
import { primerNeed } from './primer.ts';
import { substrateClass } from '../substrate/primed-substrate.ts';
import { typicalId } from './typical-materials.ts';

/** What the company usually starts with. */
export type Usual = Pick<Business, 'usualMaterialId' | 'usualPrimerId'>;

/** Used until the business chooses a material of its own. */
export const FIRST_MATERIAL_ID = typicalId('underlayment-fine');
/** Used where the usual primer is not for the floor. */
const FIRST_PRIMER_IDS = ['primer-porous', 'primer-non-porous', 'primer-wood'].map(typicalId);

const materialIdOf = ({ usualMaterialId }: Usual): string => usualMaterialId ?? FIRST_MATERIAL_ID;
const primerIdsOf = ({ usualPrimerId }: Usual): string[] => [...(usualPrimerId == null ? [] : [usualPrimerId]), ...FIRST_PRIMER_IDS];

/** The data sheets that a new room may start with. */
export const startingIds = (business: Usual): string[] => [materialIdOf(business), ...primerIdsOf(business)];

/**
 * The job's record of a new room.
 * @param room its record; null while it cannot be read
 * @param materials the data sheets; one that is archived or gone is left out
 */
export function startingRoom(roomId: string, room: Room | null, business: Usual, materials: readonly Material[]): JobRoom {
  const bare = newJobRoom(roomId);
  const live = (id: string): Material | null => materials.find((material) => material.id === id && material.deletedAt === null) ?? null;
  const material = live(materialIdOf(business));
  const primers = primerIdsOf(business).flatMap((id) => live(id) ?? []);
  const substrate = room === null ? null : substrateClass(room).substrate;
  const fit = substrate === null ? [] : primers.filter((one) => primerNeed(one, substrate, 0).ok);
  // One that is first of all for this floor, before one that may be used on it too.
  const primer = fit.find((one) => one.primer[0]?.substrate === substrate) ?? fit[0];
  return {
    ...bare,
    materialId: material?.id ?? null,
    primerId: primer?.id ?? primers.find(({ id }) => id === business.usualPrimerId)?.id ?? null,
    level: levelForMaterial(bare.level, { before: null, after: material, floor: room }, bare.level.leastThicknessM),
  };
}

/**
 * The job of a room whose floor changed: the primer and the minimum thickness that the room started with are chosen again for the floor
 * now, the minimum thickness in its options too. What a person chose stays.
 * @param floor the room's record before and after the change
 */
export function startedAgain(
  job: Job,
  { before, after }: { readonly before: Room; readonly after: Room },
  business: Usual,
  materials: readonly Material[],
): Job {
  const own = job.rooms.find(({ roomId }) => roomId === after.id);
  if (own === undefined) return job;
  const primerOver = (room: Room): string | null => startingRoom(own.roomId, room, business, materials).primerId;
  const leveled = <Way extends Pick<JobRoom, 'roomId' | 'level' | 'materialId'>>(way: Way): Way => {
    if (way.roomId !== own.roomId) return way;
    const materialId = way.materialId ?? own.materialId;
    const material = materials.find(({ id }) => id === materialId) ?? null;
    return { ...way, level: levelForFloor(way.level, material, before, after) };
  };
  const primerId = own.primerId === primerOver(before) ? primerOver(after) : own.primerId;
  return {
    ...job,
    rooms: job.rooms.map((room) => leveled(room === own ? { ...room, primerId } : room)),
    estimate: {
      ...job.estimate,
      options: job.estimate.options.map((option) => ({ ...option, rooms: option.rooms.map(leveled) })),
    },
  };
}
