/** What is left to do in a room that was poured: open floor, edges, patches, and what they take and cost. */
import { dayOfInstant } from '../measure/moment.ts';
import { restTakeoff } from '../material/rest-takeoff.ts';
import type { RoomTakeoff } from '../material/takeoff.ts';
import { type FloorRest, floorRest } from '../pour/floor-rest.ts';
import { costLines } from '../price/cost-lines.ts';
import type { CostLine } from '../price/line.ts';
import type { JobReading } from './read-job.ts';
import { readPour, readRest, roomFloorOf } from './read-pour.ts';
import type { RestReadings } from './rest-depth.ts';

export type RestOfRoom = {
  readonly rest: FloorRest;
  /** Readings of the open floor; null without a first survey. */
  readonly readings: RestReadings | null;
  /** Bags, primer, hours of the rest; null without an estimate. */
  readonly takeoff: RoomTakeoff | null;
};

/**
 * The rest of a room; null before any pour and where it is placed whole and sound.
 * @param all takeoff of all of the room; absent takes the job's own
 */
export function restOfRoom(reading: JobReading, roomId: string, all?: RoomTakeoff): RestOfRoom | null {
  const at = reading.rooms.find((r) => r.room.id === roomId);
  const floor = roomFloorOf(reading, roomId);
  const rest = floorRest(floor);
  if (at === undefined || rest === null) return null;
  const takeoff = all ?? at.estimate?.takeoff ?? null;
  const pour = rest.openM2 > 0 ? readPour(reading, [roomId]) : null;
  const prepHours = at.preparation.lines.reduce(
    (sum, { item }) => sum + (item !== null && /^(rest|patch)-/.test(item.key) && item.key !== 'rest-clean' ? (item.hours ?? 0) : 0),
    0,
  );
  return {
    rest,
    readings: readRest(at, floor, reading.whole.business.units),
    takeoff:
      takeoff === null
        ? null
        : restTakeoff(takeoff, {
            openShare: rest.openShare,
            plannedBags: rest.openM2 <= 0 ? 0 : pour?.ok === true && pour.value.layout.ok ? pour.value.bagsNeeded : null,
            prepHours,
          }),
  };
}

/** What the rest costs the business on a day, with the trip: lines as an estimate has them. */
export function restCost(
  reading: JobReading,
  { takeoff }: RestOfRoom,
  now: string,
): { readonly lines: readonly CostLine[]; readonly totalMinor: number } {
  const { business, materials, property } = reading.whole;
  if (takeoff === null) return { lines: [], totalMinor: 0 };
  const { lines } = costLines({
    business,
    materials: materials.filter((m) => m.deletedAt === null),
    rooms: [takeoff],
    roomKey: (id) => id,
    added: [],
    travelKm: property.travelKm,
    days: 1,
    day: dayOfInstant(now, business.timeZone),
  });
  return { lines, totalMinor: lines.reduce((sum, line) => sum + line.costMinor, 0) };
}
