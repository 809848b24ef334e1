/** What is still to buy for a job: its rooms that are not poured, in whole containers, nothing deducted that other jobs count on too. */
import { jobTakeoff } from '../material/job-takeoff.ts';
import type { ShoppingList } from '../material/shopping.ts';
import type { OptionEstimate } from '../price/estimate-job.ts';
import type { JobReading } from '../standing/read-job.ts';

/** The list, and the rooms left out because they are poured. */
export type ShoppingFor = { readonly list: ShoppingList; readonly pouredRooms: readonly string[] };

/** The shopping list of one option. On-hand stock is shown beside it, never deducted: several jobs share it. */
export function shoppingFor({ whole, bundle }: Pick<JobReading, 'whole' | 'bundle'>, option: OptionEstimate): ShoppingFor {
  const { business, job, materials } = whole;
  const isPoured = (roomId: string): boolean =>
    bundle.pours.some((p) => p.deletedAt === null && p.finishedAt !== null && p.roomIds.includes(roomId));
  const open = option.takeoff.rooms.filter(({ room }) => !isPoured(room.roomId));
  const inUse = materials.filter((m) => m.deletedAt === null);
  const openIds = new Set(open.map(({ room }) => room.roomId));
  const added = job.estimate.added.filter((line) => (line.roomId === null ? open.length > 0 : openIds.has(line.roomId)));
  const taken = jobTakeoff(open, added, inUse, [], business.units, business.locale);
  return {
    list: taken.shopping,
    pouredRooms: option.takeoff.rooms.filter(({ room }) => isPoured(room.roomId)).map(({ room }) => room.roomName),
  };
}
