/** How many tests a floor of a given size needs. */
import type { JobRoom } from '../book/job.ts';
import type { Circumstances, Layer } from '../book/layer.ts';
import { SQUARE_FOOT_M2 } from '../measure/area.ts';

const THOUSAND_FT2_M2 = 1000 * SQUARE_FOOT_M2;
/** Tolerance for the rounding of an area converted from square feet. */
const ROUNDING = 1e-9;

/** Slab moisture tests: three in the first 1,000 sq ft, one for each additional 1,000 sq ft or part of it. ASTM F1869 and F2170, second-hand. */
export function slabTestCount(areaM2: number): number {
  return 3 + Math.max(0, Math.ceil(areaM2 / THOUSAND_FT2_M2 - 1 - ROUNDING));
}

/** A room in the count of its slab's tests: its area, 0 without a drawing, and its tests that count. */
export type SlabRoom = { readonly areaM2: number; readonly have: number };

/** The tests of a slab: `wanted` and `have` over all rooms on it, and how many are still to be made in the room asked about. */
export type SlabTests = { readonly wanted: number; readonly have: number; readonly toMake: number };

/**
 * Slab tests are counted over the slab, not by room (ASTM F1869 and F2170, second-hand), with one in each room at least (common practice,
 * no source). Those to be made are planned where a test stands for the most floor.
 * @param rooms the rooms on the slab, in any fixed order
 * @param place the place of the room asked about among them
 */
export function slabTests(rooms: readonly SlabRoom[], place: number): SlabTests {
  const wanted = slabTestCount(rooms.reduce((sum, { areaM2 }) => sum + areaM2, 0));
  const have = rooms.reduce((sum, room) => sum + room.have, 0);
  const planned = rooms.map((room) => Math.max(1, room.have));
  const count = (): number => planned.reduce((sum, tests) => sum + tests, 0);
  while (count() < wanted) {
    const floorPerTest = rooms.map(({ areaM2 }, i) => areaM2 / (planned[i] ?? 1));
    const most = floorPerTest.indexOf(Math.max(...floorPerTest));
    planned[most] = (planned[most] ?? 1) + 1;
  }
  return { wanted, have, toMake: (planned[place] ?? 1) - (rooms[place]?.have ?? 0) };
}

type OnSlab = { readonly layers: readonly Layer[]; readonly circumstances: Pick<Circumstances, 'belowGrade'> };

/**
 * Whether two rooms of a property are on one slab, as far as the records tell: concrete on the ground under all of both, of the same
 * thickness and year, both above or both below grade. A suspended slab is one a story, and no record says which story a room is on.
 */
export function isOneSlab(a: OnSlab, b: OnSlab): boolean {
  const slab = ({ layers }: OnSlab): Layer | undefined =>
    layers.find(({ material, fate, area }) => material === 'concrete-on-ground' && fate === 'keep' && area === null);
  const [one, other] = [slab(a), slab(b)];
  if (one === undefined || other === undefined) return false;
  return (
    one.thicknessM === other.thicknessM &&
    one.yearInstalled === other.yearInstalled &&
    (a.circumstances.belowGrade ?? false) === (b.circumstances.belowGrade ?? false)
  );
}

/**
 * The rooms that share a room's slab tests, itself too, by id: those of the job on one slab and for the same flooring, whose limit is the same.
 * @param jobRooms the rooms' choices in the job
 */
export function roomsOnSlab<R extends OnSlab & { readonly id: string }>(
  room: R,
  rooms: readonly R[],
  jobRooms: readonly Pick<JobRoom, 'roomId' | 'flooring'>[],
): R[] {
  const flooringOf = ({ id }: R): string | null | undefined => jobRooms.find(({ roomId }) => roomId === id)?.flooring;
  const others = rooms.filter((other) => other.id !== room.id && flooringOf(other) === flooringOf(room) && isOneSlab(other, room));
  return [room, ...others].toSorted((a, b) => (a.id < b.id ? -1 : 1));
}

/** Minimum wood readings in a room of any size. Common practice, no source. */
export const WOOD_READINGS_LEAST = 3;

/** Moisture readings of a wood subfloor: 20 in 1,000 sq ft (NWFA, second-hand), and never fewer than three. */
export function woodReadingCount(areaM2: number): number {
  return Math.max(WOOD_READINGS_LEAST, Math.ceil((20 * areaM2) / THOUSAND_FT2_M2 - ROUNDING));
}

/** Drops, scratches or pulls: three spots. Common practice, no source; ASTM F3191 requires several. */
export const SURFACE_TEST_PLACES = 3;
