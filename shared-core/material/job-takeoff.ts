/** The takeoff of a job: all rooms, and carrying. */
import { carryingCaution, type CarryingCaution } from './carrying.ts';
import type { RoomTakeoff } from './takeoff.ts';
import type { BatchCounts } from './water.ts';

/** The rooms together. */
export type JobTakeoff = {
  readonly rooms: readonly RoomTakeoff[];
  readonly areaM2: number;
  readonly bags: number;
  readonly batches: BatchCounts;
  readonly powderKg: number;
  /** Null while no bags are known. */
  readonly carrying: CarryingCaution | null;
};

/** Adds up the takeoffs of a job's rooms. */
export function jobTakeoff(rooms: readonly RoomTakeoff[]): JobTakeoff {
  const sum = (amountOf: (room: RoomTakeoff) => number) => rooms.reduce((total, room) => total + amountOf(room), 0);
  const bags = sum((room) => room.bags?.quotedBags ?? 0);
  const batches = { likely: sum((room) => room.water?.batches.likely ?? 0), all: sum((room) => room.water?.batches.all ?? 0) };
  const isKnown = bags > 0 && rooms.some((room) => room.sheet !== null && room.water !== null);
  const carrying = isKnown
    ? carryingCaution({
        bags,
        bagKg: Math.max(0, ...rooms.map((room) => room.sheet?.bagKg.value ?? 0)),
        batches: batches.all,
        aggregateKg: sum((room) => room.aggregate?.totalKg ?? 0),
        waterKg: sum((room) => room.water?.totalL.least ?? 0),
        liftMinutes: sum((room) => room.pourMinutes),
      })
    : null;
  return { rooms, areaM2: sum((room) => room.room.areaM2), bags, batches, powderKg: sum((room) => room.powderKg), carrying };
}
