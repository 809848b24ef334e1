/** What is left to do in a room that was poured: open floor, edges, patches, what they take, what they cost, and what is not priced yet. */
import { dayOfInstant } from '../measure/moment.ts';
import { hasAggregate } from '../material/lifts.ts';
import { restTakeoff } from '../material/rest-takeoff.ts';
import type { RoomTakeoff } from '../material/takeoff.ts';
import { type FloorRest, floorRest } from '../pour/floor-rest.ts';
import type { RoomFloor } from '../pour/placed-floor.ts';
import { liveEntries } from '../pour/pour-regions.ts';
import { areaOf } from '../plan/region.ts';
import { costLines } from '../price/cost-lines.ts';
import type { CostLine } from '../price/line.ts';
import type { JobReading } from './read-job.ts';
import { placedBags, readPour, readRest, roomFloorOf } from './read-pour.ts';
import type { RestReadings } from './rest-depth.ts';

/** What work takes, and the days on site for it. */
export type RestWorkload = { readonly takeoff: RoomTakeoff; readonly days: number };

export type RestOfRoom = {
  readonly rest: FloorRest;
  /** Readings of the open floor; null without a first survey. */
  readonly readings: RestReadings | null;
  /** All that is still to do; null without an estimate. */
  readonly left: RestWorkload | null;
  /**
   * What the price of the room does not hold: edges and repairs, priming again, setting up again, bags wasted beyond the reserve,
   * and floor placed a second time. The bags of floor not placed yet are in the price already.
   */
  readonly extra: RestWorkload | null;
};

/** Bags of a room's last pour that are not in its floor: scraped out, run off, or placed too thick. */
function wastedBags({ roomId, lift, pours }: RoomFloor, { whole }: Pick<JobReading, 'whole'>): number {
  const pour = pours.at(-1);
  const plan = pour?.asPoured;
  const layout = plan?.layout ?? null;
  if (lift === null || pour === undefined || plan === undefined || layout === null) return 0;
  const used = liveEntries(pour, whole.pourEvents).reduce(
    (bags, { event }) => bags + (event.kind === 'placed' && (event.roomId ?? roomId) === roomId ? event.bags : 0),
    0,
  );
  const depthM = (number: number | null): number => {
    const lanes = layout.lanes.filter((lane) => lane.roomId === roomId && (number === null || lane.number === number));
    const areaM2 = lanes.reduce((all, lane) => all + lane.areaM2, 0);
    return areaM2 <= 0 ? 0 : lanes.reduce((all, lane) => all + lane.volumeM3, 0) / areaM2;
  };
  const lying = lift.regions.filter((r) => r.pourId === pour.id && (r.state === 'placed' || r.state === 'suspect'));
  return Math.max(0, used - lying.reduce((bags, r) => bags + (r.areaM2 * depthM(r.lane)) / plan.bagYieldM3, 0));
}

/** Floor that the plan of the last pour left for another day, m2: its day and its work are in the price. */
export function laterM2({ roomId, pours }: Pick<RoomFloor, 'roomId' | 'pours'>): number {
  const later = pours.at(-1)?.asPoured.rooms.find((r) => r.roomId === roomId)?.later ?? [];
  return areaOf(later);
}

/** Less open floor than this is rounding, m2. */
const NO_FLOOR_M2 = 0.05;

function extraWork(all: RoomTakeoff, floor: RoomFloor, rest: FloorRest, reading: JobReading, prepHours: number): RestWorkload {
  const areaM2 = Math.max(1e-9, floor.lift?.areaM2 ?? 0);
  const plannedM2 = Math.min(rest.openM2, laterM2(floor));
  const againM2 = rest.openM2 - plannedM2 > NO_FLOOR_M2 ? rest.openM2 - plannedM2 : 0;
  const reserve = Math.max(0, (all.bags?.quotedBags ?? 0) - (all.bags?.exactBags ?? 0)) / floor.liftsPlanned;
  const isSetUp = againM2 > 0 && plannedM2 <= NO_FLOOR_M2;
  return {
    takeoff: restTakeoff(all, {
      isOverLift: (floor.lift?.lift ?? 1) > 1,
      openShare: againM2 / areaM2,
      pourShare: rest.takenOutM2 / areaM2,
      plannedBags: Math.round(Math.max(0, wastedBags(floor, reading) - reserve)),
      hasReserve: false,
      isSetUp,
      withAggregate: hasAggregate(all.lifts, floor.lift?.lift ?? 1),
      prepHours,
    }),
    days: isSetUp || rest.openM2 <= NO_FLOOR_M2 ? 1 : 0,
  };
}

/** Pour of all the open floor of a room: a section chosen for the next day is only the first of it. */
export function readAllOpen(reading: JobReading, roomId: string): ReturnType<typeof readPour> {
  const rooms = reading.rooms.map((roomReading) => {
    const { jobRoom, room } = roomReading;
    const { pourPlan } = jobRoom;
    if (room.id !== roomId || pourPlan === null) return roomReading;
    return { ...roomReading, jobRoom: { ...jobRoom, pourPlan: { ...pourPlan, section: null } } };
  });
  return readPour({ ...reading, rooms }, [roomId]);
}

/**
 * The rest of a room; null before any pour and where it is placed whole and sound.
 * @param all takeoff of all of the room; absent takes the job's own
 */
export function restOfRoom(reading: JobReading, roomId: string, all?: RoomTakeoff): RestOfRoom | null {
  const roomReading = reading.rooms.find((r) => r.room.id === roomId);
  const floor = roomFloorOf(reading, roomId);
  const rest = floorRest(floor);
  if (roomReading === undefined || rest === null) return null;
  const takeoff = all ?? roomReading.estimate?.takeoff ?? null;
  const pour = rest.openM2 > 0 ? readAllOpen(reading, roomId) : null;
  const prepHours = roomReading.preparation.lines.reduce(
    (sum, { item }) => sum + (item !== null && /^(rest|patch)-/.test(item.key) && item.key !== 'rest-clean' ? (item.hours ?? 0) : 0),
    0,
  );
  const workloadOf = (takeoff: RoomTakeoff): RestWorkload => ({
    takeoff: restTakeoff(takeoff, {
      isOverLift: (floor.lift?.lift ?? 1) > 1,
      openShare: rest.openShare,
      pourShare: rest.openShare,
      plannedBags:
        rest.openM2 <= 0
          ? 0
          : pour?.ok === true && pour.value.layout.ok
            ? placedBags(pour.value, pour.value.layout.value).reduce((sum, bags) => sum + bags, 0)
            : null,
      hasReserve: true,
      isSetUp: rest.openShare > 0,
      withAggregate: hasAggregate(takeoff.lifts, floor.lift?.lift ?? 1),
      prepHours,
    }),
    days: 1,
  });
  return {
    rest,
    readings: readRest(roomReading, floor, reading.whole.business.units),
    left: takeoff === null ? null : workloadOf(takeoff),
    extra: takeoff === null ? null : extraWork(takeoff, floor, rest, reading, prepHours),
  };
}

/** What work on the rest costs the business on a day, trips included: lines as an estimate has them. */
export function restCost(
  reading: JobReading,
  work: RestWorkload | null,
  now: string,
): { readonly lines: readonly CostLine[]; readonly totalMinor: number } {
  const { business, materials, property } = reading.whole;
  if (work === null) return { lines: [], totalMinor: 0 };
  const { lines } = costLines({
    business,
    materials,
    rooms: [work.takeoff],
    roomKey: (id) => id,
    added: [],
    travelKm: property.travelKm,
    days: work.days,
    day: dayOfInstant(now, business.timeZone),
  });
  return { lines, totalMinor: lines.reduce((sum, line) => sum + line.costMinor, 0) };
}
