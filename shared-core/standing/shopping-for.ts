/** What is still to buy for a job: its rooms that are not poured, in whole containers, nothing deducted. */
import { jobTakeoff } from '../material/job-takeoff.ts';
import type { ShoppingList } from '../material/shopping.ts';
import { dayOfInstant } from '../measure/moment.ts';
import type { JobNeed } from '../ledger/shopping-day.ts';
import type { OptionEstimate } from '../price/estimate-job.ts';
import type { JobReading } from './read-job.ts';

/** The list, and the rooms left out because they are poured. */
export type ShoppingFor = { readonly list: ShoppingList; readonly pouredRooms: readonly string[] };

type Of = Pick<JobReading, 'whole' | 'bundle'>;

const isPoured = ({ bundle }: Of, roomId: string): boolean =>
  bundle.pours.some((p) => p.deletedAt === null && p.finishedAt !== null && p.roomIds.includes(roomId));

function listOf({ whole }: Of, rooms: OptionEstimate['takeoff']['rooms'], withJobLines: boolean): ShoppingList {
  const { business, job, materials } = whole;
  const ids = new Set(rooms.map(({ room }) => room.roomId));
  const added = job.estimate.added.filter((line) => (line.roomId === null ? withJobLines : ids.has(line.roomId)));
  return jobTakeoff(
    rooms,
    added,
    materials.filter((m) => m.deletedAt === null),
    business.units,
    business.locale,
  ).shopping;
}

/** The shopping list of one option. Stock is set against all jobs at once, in the list of a day. */
export function shoppingFor(of: Of, option: OptionEstimate): ShoppingFor {
  const open = option.takeoff.rooms.filter(({ room }) => !isPoured(of, room.roomId));
  const poured = option.takeoff.rooms.filter(({ room }) => isPoured(of, room.roomId));
  return { list: listOf(of, open, open.length > 0), pouredRooms: poured.map(({ room }) => room.roomName) };
}

/**
 * What an accepted job still needs, by the day its rooms are to be poured. A job without an accepted quote needs nothing yet.
 * Things bought for the whole job belong to its first day.
 */
export function jobNeeds(reading: JobReading): JobNeed[] {
  const { job, property, quotes } = reading.whole;
  if (job.state !== 'open' || !quotes.some((quote) => quote.state === 'accepted' && quote.deletedAt === null)) return [];
  const dayOf = (roomId: string): string => {
    const at = job.rooms.find((room) => room.roomId === roomId)?.pourAt ?? null;
    return at === null ? '' : dayOfInstant(at, property.timeZone);
  };
  const open = reading.estimate.base.takeoff.rooms.filter(({ room }) => !isPoured(reading, room.roomId));
  const days = [...new Set(open.map(({ room }) => dayOf(room.roomId)))].sort((a, b) => (a === '' ? 1 : b === '' ? -1 : a.localeCompare(b)));
  return days.flatMap((day, i) =>
    listOf(
      reading,
      open.filter(({ room }) => dayOf(room.roomId) === day),
      i === 0,
    ).items.flatMap((item): JobNeed[] =>
      item.materialId === null || item.each === null
        ? []
        : [
            {
              ...{ jobId: job.id, jobNumber: job.number, pourDay: day === '' ? null : day, materialId: item.materialId },
              ...{ amount: item.need, each: item.each, words: item.needWords, rooms: item.rooms },
            },
          ],
    ),
  );
}
