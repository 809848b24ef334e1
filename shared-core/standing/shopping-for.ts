/** What is still to buy for a job: its rooms and parts of rooms that are not poured, in whole containers, nothing deducted. */
import type { UsedMaterial } from '../book/job.ts';
import { bagsOfLift } from '../material/lift-bags.ts';
import { hasAggregate } from '../material/lifts.ts';
import { restTakeoff, withLaterLifts } from '../material/rest-takeoff.ts';
import { type ShoppingList, shoppingList } from '../material/shopping.ts';
import type { RoomTakeoff } from '../material/takeoff.ts';
import { dayOfInstant } from '../measure/moment.ts';
import type { JobNeed } from '../ledger/shopping-day.ts';
import type { OptionEstimate } from '../price/estimate-job.ts';
import type { JobReading } from './read-job.ts';
import { nextLift } from './next-pours.ts';
import { roomFloorOf } from './read-pour.ts';
import { restOfRoom } from './rest-of-room.ts';
import type { PouredPart } from './room-pour.ts';

/** The list, and the rooms left out because they are poured. */
export type ShoppingFor = { readonly list: ShoppingList; readonly pouredRooms: readonly string[] };

type Rooms = OptionEstimate['takeoff']['rooms'];

const pouredOf = ({ standing }: JobReading, roomId: string): PouredPart =>
  standing.rooms.find((room) => room.roomId === roomId)?.poured ?? 'none';

/** What a room still takes, prep included: of a begun one the rest or the next lift, and the lifts after it; null for a fully placed room. */
function stillOpen(reading: JobReading, taken: RoomTakeoff): RoomTakeoff | null {
  const { roomId } = taken.room;
  const part = pouredOf(reading, roomId);
  if (part === 'whole') return null;
  const rest = restOfRoom(reading, roomId, taken)?.left?.takeoff;
  if (rest === undefined && part !== 'part') return taken;
  const floor = roomFloorOf(reading, roomId);
  const { number } = nextLift(floor);
  return rest === undefined
    ? withLaterLifts(taken, nextLiftOf(taken, number), number)
    : withLaterLifts(taken, rest, floor.lift?.lift ?? number);
}

/** Materials the rooms still need. */
function stillNeeded(reading: JobReading, rooms: Rooms): Rooms {
  return rooms.flatMap((taken) => {
    const open = stillOpen(reading, taken);
    return open === null ? [] : [withoutUsed(reading, open)];
  });
}

/** A room after a signed prep line: what the line used up is on the floor and no longer needed. */
const USED_UP: Readonly<Record<string, (taken: RoomTakeoff) => RoomTakeoff>> = {
  'isolation-strip': (taken) => ({ ...taken, room: { ...taken.room, perimeterM: 0 } }),
  dams: (taken) => ({ ...taken, damM: 0, dams: 0 }),
  'fill-cracks': (taken) => ({ ...taken, room: { ...taken.room, crackM: 0 } }),
  reinforce: (taken) => ({ ...taken, room: { ...taken.room, reinforceM2: 0 } }),
  'moisture-system': (taken) => ({ ...taken, room: { ...taken.room, mitigation: null } }),
  // The lifts left to prime are later ones.
  prime: (taken) => ({
    ...taken,
    primer: taken.primings > 1 ? taken.liftPrimer : null,
    primings: Math.max(1, taken.primings - 1),
  }),
};

/** Without what the signed prep lines used up. Primer stays needed for the lifts after, and where it is too old to pour on. */
function withoutUsed(reading: JobReading, taken: RoomTakeoff): RoomTakeoff {
  const preparation = reading.rooms.find(({ room }) => room.id === taken.room.roomId)?.preparation;
  if (preparation === undefined) return taken;
  const isPrimed = preparation.clock?.state === 'drying' || preparation.clock?.state === 'ready';
  const signed = preparation.lines.filter(({ key, state }) => key !== 'prime' && state === 'signed').map(({ key }) => key);
  return [...signed, ...(isPrimed ? ['prime'] : [])].reduce((room, key) => USED_UP[key]?.(room) ?? room, taken);
}

/**
 * What signing a prep line takes out of stock: what the room still needs before it less what it needs after.
 * @param lineKey key of the line
 */
export function usedBySigning(reading: JobReading, roomId: string, lineKey: string): UsedMaterial[] {
  const taken = reading.estimate.base.takeoff.rooms.find(({ room }) => room.roomId === roomId);
  const open = taken === undefined ? null : stillOpen(reading, taken);
  const use = USED_UP[lineKey];
  if (open === null || use === undefined) return [];
  const itemsOf = (room: RoomTakeoff) => shoppingList([room], [], reading.whole.materials).items;
  const after = new Map(itemsOf(use(open)).map(({ key, need }) => [key, need]));
  return itemsOf(open).flatMap(({ key, materialId, need, each }): UsedMaterial[] => {
    const used = need - (after.get(key) ?? 0);
    return materialId === null || each === null || used <= DUST ? [] : [{ materialId, containers: used / each }];
  });
}

/** A smaller need is rounding, in the unit of its container. */
const DUST = 1e-9;

/** The next lift where the lifts before it are complete. */
function nextLiftOf(all: RoomTakeoff, lift: number): RoomTakeoff {
  return restTakeoff(all, {
    ...{ isOverLift: true, openShare: 1, pourShare: 1, hasReserve: true, isSetUp: true, prepHours: 0 },
    withAggregate: hasAggregate(all.lifts, lift),
    plannedBags: bagsOfLift(all.liftBags, lift),
  });
}

function listOf({ whole }: JobReading, rooms: Rooms, withJobLines: boolean): ShoppingList {
  const { job, materials } = whole;
  const ids = new Set(rooms.map(({ room }) => room.roomId));
  const added = job.estimate.added.filter((line) => (line.roomId === null ? withJobLines : ids.has(line.roomId)));
  return shoppingList(rooms, added, materials);
}

/** The shopping list of one option. Stock is deducted in the list of a day, over all jobs. */
export function shoppingFor(reading: JobReading, option: OptionEstimate): ShoppingFor {
  const open = stillNeeded(reading, option.takeoff.rooms);
  const poured = option.takeoff.rooms.filter(({ room }) => pouredOf(reading, room.roomId) === 'whole');
  return { list: listOf(reading, open, open.length > 0), pouredRooms: poured.map(({ room }) => room.roomName) };
}

/**
 * What an accepted job still needs, by the day its rooms are to be poured. A job without an accepted quote needs nothing yet.
 * Things bought for the whole job belong to its first day.
 */
export function jobNeeds(reading: JobReading): JobNeed[] {
  const { job, property, quotes } = reading.whole;
  if (job.state !== 'open' || !quotes.some((quote) => quote.state === 'accepted' && quote.deletedAt === null)) return [];
  const dayOf = (roomId: string): string => {
    const pourAt = reading.rooms.find(({ room }) => room.id === roomId)?.nextPourAt ?? null;
    return pourAt === null ? '' : dayOfInstant(pourAt, property.timeZone);
  };
  const open = stillNeeded(reading, reading.estimate.base.takeoff.rooms);
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
              ...{ jobNumber: job.number, pourDay: day === '' ? null : day, materialId: item.materialId },
              ...{ amount: item.need, each: item.each, rooms: item.rooms },
            },
          ],
    ),
  );
}
