/**
 * The pour of some rooms of a job, read from its records: lanes and batches, healing and working time, the plan that a log is
 * compared with.
 */
import type { PourPlan } from '../book/job.ts';
import type { WholeJob } from '../book/whole-job.ts';
import type { Material, PowderSheet } from '../book/material.ts';
import type { Pour } from '../book/pour-record.ts';
import type { Found } from '../measure/parsed.ts';
import { INCH_M } from '../measure/length-units.ts';
import type { UnitSystem } from '../measure/unit-system.ts';
import { crewPourMinutes } from '../material/crew-hours.ts';
import { bagsToBring } from '../material/lift-bags.ts';
import { hasAggregate, liftsAboveM } from '../material/lifts.ts';
import type { EffectiveSheet } from '../material/sheet.ts';
import { roomAir } from '../climate/room-air.ts';
import type { Region } from '../plan/region.ts';
import { clocksAt, type PourClocks } from '../pour/clocks.ts';
import { openDoorways } from '../pour/open-doorways.ts';
import type { PourLayout, PourProblem } from '../pour/layout.ts';
import { nextShare } from '../pour/fill-shares.ts';
import { likelyMinutes } from '../pour/likely-minutes.ts';
import type { PourRecordPlan } from '../pour/pour-state.ts';
import { openFloor, roomFloor, type RoomFloor } from '../pour/placed-floor.ts';
import { hasExit, planPour, type PourRoom, sectionNow } from '../pour/room-bays.ts';
import type { OpenDoorway } from '../pour/lane.ts';
import { helperCount } from '../pour/crew-names.ts';
import { startCrew } from '../pour/start-crew.ts';
import { depthOf, placedM3 } from '../price/lift-depth.ts';
import { isNothingStuckIn, isPouredOn } from '../substrate/floor-facts.ts';
import { isWood } from '../substrate/layer-words.ts';
import { heatDepth, isHeatInPour } from '../substrate/radiant.ts';
import { finishOf } from '../survey/settle-level.ts';
import { heightAt } from '../survey/surface.ts';
import { coversFloor } from './lift-cover.ts';
import { nextLift } from './next-pours.ts';
import type { JobReading, RoomReading } from './read-job.ts';
import { type RestReadings, restReadings } from './rest-depth.ts';

/**
 * Lane width to start from, 18 in.: at usual depths one or two bags fill a lane, so its edge is met while it is wet. Common
 * practice, no source.
 */
export const TYPICAL_LANE_M = 18 * INCH_M;

/** The plan of a pour of some rooms. */
export type PourReading = {
  /** In the order they are poured. */
  readonly rooms: readonly RoomReading[];
  /** The lift and the number of lifts, of the room with the most lifts. */
  readonly lift: { readonly number: number; readonly of: number };
  /** Lift of each room, in the same order; `isRest` where an earlier pour of the lift left floor open. */
  readonly lifts: readonly RoomLift[];
  /** One per room, in the same order. */
  readonly plans: readonly PourPlan[];
  /** The plan whose crew, pattern, temperature and doorways hold for the pour: of the room that takes the others along. */
  readonly first: PourPlan;
  /** Doorways between the rooms that stay open. */
  readonly doorways: readonly OpenDoorway[];
  readonly material: Material & { readonly powder: PowderSheet };
  readonly clocks: PourClocks;
  /** Air expected in the warmest of the rooms, °C: what the clocks take until a temperature is read during the pour. */
  readonly plannedTempC: number;
  /** Mixed volume that reaches the floor from a bag, m3: the yield less what stays in buckets. */
  readonly bagYieldM3: number;
  /** Waste factor in it, as a share. */
  readonly lossShare: number;
  readonly bagsNeeded: number;
  /** Bags to have on site: those of the estimate for this floor, a reserve included. Never fewer than `bagsNeeded`. */
  readonly bagsToBring: number;
  /** Or why there is none. */
  readonly layout: Found<PourLayout, PourProblem>;
  /** Sections of each room left for another day, in the same order. */
  readonly later: readonly (readonly Region[])[];
  /** Plan and depth of each room, for trying other plans; empty for a pour on record. */
  readonly pourRooms: readonly Omit<PourRoom, 'pourPlan'>[];
  readonly recordPlan: PourRecordPlan;
  /** Minimum thickness of the pour by its data sheet, the greater one over wood or radiant heat included, m. */
  readonly leastM: number;
};

/** Whether a room of the pour is of wood on joists, listed or presumed. */
export const isOnJoists = (read: Pick<PourReading, 'rooms'>): boolean =>
  read.rooms.some((roomReading) => roomReading.assessment.facts.isWoodFramed);

/** Whether the pour covers mats or tubing in one of its rooms. */
export const isOverHeat = (read: Pick<PourReading, 'rooms'>): boolean =>
  read.rooms.some((roomReading) => isHeatInPour(roomReading.assessment.facts.heat));

/** Whether nothing is stuck into the floor of one of its rooms: no spikes, no pins. */
export const hasNothingStuckIn = (read: Pick<PourReading, 'rooms'>): boolean =>
  read.rooms.some((roomReading) => isNothingStuckIn(roomReading.assessment.facts));

/** Whether the room poured first has an exit, which its lanes run toward. */
export const hasFirstExit = ({ rooms: [lead], first }: Pick<PourReading, 'rooms' | 'first'>): boolean =>
  lead !== undefined && hasExit({ plan: lead.room.plan, pourPlan: first });

/** The data sheet's minimum of a lift, m, or more where the lift meets wood, or heat: what it needs less the lifts above. */
function minimumDepthM({ rooms, lifts }: Pick<PourReading, 'rooms' | 'lifts'>, sheet: EffectiveSheet, powder: PowderSheet): number {
  return Math.max(
    ...rooms.flatMap((roomReading, i) => {
      const lift = lifts[i]?.number ?? 1;
      const isMixed = hasAggregate(roomReading.estimate?.takeoff.lifts ?? null, lift);
      const liftLeastM = (isMixed ? (sheet.liftExtendedM ?? sheet.liftM) : sheet.liftM).value.least;
      if (lift > 1 && coversFloor(roomReading.estimate, lift - 1)) return [liftLeastM];
      const { facts } = roomReading.assessment;
      const overHeatM = heatDepth(facts, powder)?.leastM ?? 0;
      return [
        liftLeastM,
        isPouredOn(facts, isWood) ? (powder.overWoodLeastM?.value ?? 0) : 0,
        overHeatM - liftsAboveM(roomReading.estimate?.takeoff.lifts ?? null, lift),
      ];
    }),
  );
}

type Placing = Pick<PourReading, 'first' | 'rooms' | 'lifts' | 'plans' | 'later' | 'bagYieldM3'>;

/** A layout follows the depths lane by lane: this far from the estimate's count it is still the same floor. Our choice, no source. */
const SAME_FLOOR_SHARE = 0.05;

/** Share of the bags of each room that a pour places: the estimate's for its lift and section, else that of its layout; null without bags. */
function placedShares({ first, rooms, lifts, plans, later, bagYieldM3 }: Placing, layout: PourLayout): readonly (number | null)[] {
  return rooms.map(({ room, estimate }, i) => {
    const exactBags = estimate?.takeoff.bags?.exactBags ?? 0;
    const lift = lifts[i];
    if (estimate === null || lift === undefined || exactBags <= 0) return null;
    const lanes = layout.lanes.filter((lane) => lane.roomId === room.id);
    const laidOut = lanes.reduce((sum, lane) => sum + lane.volumeM3, 0) / bagYieldM3 / exactBags;
    const open = lift.isRest ? [...lanes.flatMap((lane) => lane.pieces), ...(later[i] ?? [])] : null;
    const estimated = nextShare(estimate.fillShares, { plan: room.plan, pourPlan: plans[i] ?? first }, lift.number, open) ?? laidOut;
    return Math.abs(laidOut - estimated) < estimated * SAME_FLOOR_SHARE ? estimated : laidOut;
  });
}

/** Likely minutes of a pour: of each of its rooms the share of its bags that the pour places. */
export function pourMinutes(pour: Placing, layout: PourLayout): number {
  const shares = placedShares(pour, layout);
  if (shares.includes(null)) return likelyMinutes(pour.first, layout.volumeM3) ?? crewPourMinutes(pour.first.crew, layout.batches.length);
  return pour.rooms.reduce((sum, { estimate }, i) => sum + (estimate?.takeoff.pourMinutes ?? 0) * (shares[i] ?? 0), 0);
}

/** Bags before rounding that a pour places, of each of its rooms. */
export function placedBags(pour: Placing, layout: PourLayout): readonly number[] {
  return placedShares(pour, layout).map((share, i) => (share ?? 0) * (pour.rooms[i]?.estimate?.takeoff.bags?.exactBags ?? 0));
}

/** Aggregate in each bag of a room's lift, kg; 0 without. */
function aggregateKgOf({ estimate }: Pick<RoomReading, 'estimate'>, lift: number): number {
  return estimate !== null && hasAggregate(estimate.takeoff.lifts, lift) ? (estimate.takeoff.aggregate?.aggregateKg ?? 0) : 0;
}

/** Aggregate in each bag of a pour that is not on record, kg; 0 without. All its rooms have the same. */
export function pourAggregateKg({ rooms: [lead], lifts: [lift] }: Pick<PourReading, 'rooms' | 'lifts'>): number {
  return lead === undefined || lift === undefined ? 0 : aggregateKgOf(lead, lift.number);
}

/** Which lift of a room a pour is. */
export type RoomLift = { readonly number: number; readonly of: number; readonly isRest: boolean };

/**
 * The default plan: even lanes across the short way so that edges are short, each filled from the same end, carried by hand by as
 * many as the estimate counts, at the business's own times and the assumed temperature of the room. A dammed joint is never part of it.
 */
export function firstPourPlan(roomReading: RoomReading, { job, business }: Pick<WholeJob, 'job' | 'business'>): PourPlan {
  const { outline } = roomReading.room.plan;
  const xs = outline.map((p) => p.xM);
  const ys = outline.map((p) => p.yM);
  const isWide = Math.max(...xs) - Math.min(...xs) >= Math.max(...ys) - Math.min(...ys);
  const acrossM = isWide ? Math.max(...xs) - Math.min(...xs) : Math.max(...ys) - Math.min(...ys);
  // Lanes of even width, because a sliver at the wall would add a joint.
  const lanes = Number.isFinite(acrossM) ? Math.max(1, Math.round(acrossM / TYPICAL_LANE_M)) : 1;
  return {
    laneWidthM: outline.length >= 3 ? acrossM / lanes : TYPICAL_LANE_M,
    angleDeg: outline.length >= 3 && isWide ? 90 : 0,
    pattern: 'one-way',
    wayOutId: null,
    joints: [],
    crew: startCrew(
      'by-hand',
      clocksAt(roomReading.material?.powder ?? null, roomAir(roomReading.room, roomReading.jobRoom).tempC),
      business.ownTimes,
      helperCount(null, job.crewNames, business),
    ),
  };
}

/** The readings of the rest of a room, tied to its placed floor; null without a survey to tie them to. */
export function readRest(roomReading: RoomReading, floor: RoomFloor, units: UnitSystem): RestReadings | null {
  const { estimate } = roomReading;
  if (estimate === null || estimate.survey.state === 'waiting') return null;
  const { floor: read, level } = estimate.survey;
  const finish = finishOf(level, estimate.level, level.highSpotsAreGround);
  const belowM = liftsAboveM(estimate.takeoff.lifts, floor.lift?.lift ?? 1);
  // A lift under the last ends on a plane of its own. Where the floor stands higher, it placed nothing to tie to.
  const topAt = (xM: number, yM: number): number | null => {
    const { finishedM, groundM } = finish(xM, yM, heightAt(read.surface, xM, yM).zM);
    return belowM > 0 && finishedM - belowM < groundM ? null : finishedM - belowM;
  };
  return restReadings(roomReading.room, floor, topAt, units);
}

/** State of a room's floor over its pours. */
export function roomFloorOf(reading: Pick<JobReading, 'whole'>, roomId: string): RoomFloor {
  return roomFloor(reading.whole.pours, reading.whole.pourEvents, roomId);
}

/** Why the pour of some rooms cannot be read. */
export type ReadPourProblem =
  | { readonly kind: 'no-rooms' | 'no-sheet-stored' | 'rooms-removed' }
  | { readonly kind: 'no-product' | 'no-estimate'; readonly room: string }
  | { readonly kind: 'other-product' | 'other-mix'; readonly room: string; readonly lead: string }
  /** `why` is what its survey waits for; null while there is none. */
  | { readonly kind: 'depth-unknown'; readonly room: string; readonly why: string | null }
  | { readonly kind: 'lifts-apart'; readonly rooms: readonly { readonly name: string; readonly lift: number }[] };

/**
 * Reads the pour of some rooms, or what is still to be done before it can be planned.
 * @param roomIds in pouring order
 * @param tempC temperature of the day where it was read; null takes the plan's
 * @param opened a pour that is on record: its plans as they were when it was opened stand before those of the job, and its lift before
 * the one that would be next
 */
export function readPour(
  reading: JobReading,
  roomIds: readonly string[],
  tempC: number | null = null,
  opened: Pick<Pour, 'plans' | 'lift'> | null = null,
): Found<PourReading, ReadPourProblem> {
  const asked = roomIds.flatMap((id) => reading.rooms.find((r) => r.room.id === id) ?? []);
  const rooms = opened === null ? stillToPour(reading, asked) : asked;
  const lead = rooms[0];
  if (lead === undefined) return { ok: false, problem: { kind: 'no-rooms' } };
  const material = lead.material;
  const powder = material?.powder ?? null;
  if (material === null || powder === null) return { ok: false, problem: { kind: 'no-product', room: lead.room.name } };
  const sheet = lead.estimate?.takeoff.sheet ?? null;
  if (lead.estimate === null || sheet === null) return { ok: false, problem: { kind: 'no-estimate', room: lead.room.name } };
  const plans = rooms.map(
    (roomReading) =>
      opened?.plans?.find((f) => f.roomId === roomReading.room.id)?.plan ??
      roomReading.jobRoom.pourPlan ??
      firstPourPlan(roomReading, reading.whole),
  );
  const floors = rooms.map((roomReading) => roomFloorOf(reading, roomReading.room.id));
  const lifts = rooms.map((roomReading, i): RoomLift => {
    const next = floors[i] === undefined ? { number: 1, isRest: false } : nextLift(floors[i]);
    return { number: opened?.lift ?? next.number, of: liftsOf(roomReading), isRest: opened === null && next.isRest };
  });
  const apart = liftsApart(rooms, lifts);
  if (apart.length > 0) return { ok: false, problem: { kind: 'lifts-apart', rooms: apart } };
  const first = leadingPlan(rooms, plans) ?? firstPourPlan(lead, reading.whole);
  const pourRooms: PourRoom[] = [];
  const later: (readonly Region[])[] = [];
  for (const [i, roomReading] of rooms.entries()) {
    const name = roomReading.room.name;
    if (roomReading.jobRoom.materialId !== lead.jobRoom.materialId)
      return { ok: false, problem: { kind: 'other-product', room: name, lead: lead.room.name } };
    if (aggregateKgOf(roomReading, lifts[i]?.number ?? 1) !== pourAggregateKg({ rooms, lifts }))
      return { ok: false, problem: { kind: 'other-mix', room: name, lead: lead.room.name } };
    const isRest = lifts[i]?.isRest === true;
    const again = isRest && floors[i] !== undefined ? readRest(roomReading, floors[i], reading.whole.business.units) : null;
    const depth = roomReading.estimate === null ? null : depthOf(roomReading.estimate, lifts[i]?.number ?? 1, again?.groundAt ?? null);
    if (depth === null) {
      const why = roomReading.estimate?.survey.state === 'waiting' ? roomReading.estimate.survey.message : null;
      return { ok: false, problem: { kind: 'depth-unknown', room: name, why } };
    }
    const floor = floors[i];
    const pourPlan = plans[i] ?? first;
    const open = isRest && floor !== undefined ? openFloor(floor) : null;
    const now = sectionNow({ plan: roomReading.room.plan, pourPlan }, pourPlan.section ?? null, open);
    later.push(now.later);
    pourRooms.push({ roomId: roomReading.room.id, name, plan: roomReading.room.plan, pourPlan, depth, only: now.only });
  }
  // The warmest room gives the shortest working and healing time.
  const plannedTempC = Math.max(...rooms.map((roomReading) => roomAir(roomReading.room, roomReading.jobRoom).tempC));
  const clocks = clocksAt(powder, tempC ?? plannedTempC);
  const bagYieldM3 = placedM3(lead.estimate.takeoff, lifts[0]?.number ?? 1) ?? sheet.yieldM3.value;
  // Any other opening is dammed, feathered or stopped as its room's plan says.
  const doorways = openDoorways(
    rooms.map(({ room }) => ({ roomId: room.id, plan: room.plan })),
    first.openDoorways ?? [],
  );
  const layout = planPour(pourRooms, {
    pattern: first.pattern,
    bagYieldM3,
    bagsPerBatch: first.crew.bagsPerBatch,
    doorways,
  });
  return {
    ok: true,
    value: {
      rooms,
      lift: liftOf(lifts),
      lifts,
      plans,
      first,
      doorways,
      material: { ...material, powder },
      clocks,
      plannedTempC,
      bagYieldM3,
      lossShare: lead.estimate.takeoff.lossShare,
      bagsNeeded: layout.ok ? Math.ceil(layout.value.volumeM3 / bagYieldM3 - 1e-6) : 0,
      bagsToBring: layout.ok ? broughtBags({ first, rooms, lifts, plans, later, bagYieldM3 }, layout.value) : 0,
      layout,
      later,
      pourRooms: pourRooms.map(({ pourPlan: _, ...room }) => room),
      recordPlan: {
        layout: layout.ok ? layout.value : null,
        hasLater: later.some((regions) => regions.length > 0),
        healingMin: clocks.healingMin,
        workingTimeMin: clocks.workingTimeMin,
        bagsPerBatch: first.crew.bagsPerBatch,
      },
      leastM: minimumDepthM({ rooms, lifts }, sheet, powder),
    },
  };
}

/** Bags to bring for a pour, those of each of its rooms as the prep sheet of the room has them, and never fewer than its layout takes. */
export function broughtBags(pour: Placing, layout: PourLayout): number {
  const brought = placedBags(pour, layout).reduce((sum, placed, i) => {
    const bags = pour.rooms[i]?.estimate?.takeoff.bags ?? null;
    return bags === null ? sum : sum + bagsToBring(bags, placed);
  }, 0);
  return Math.max(brought, Math.ceil(layout.volumeM3 / pour.bagYieldM3 - 1e-6));
}

/** The rooms with floor still to be placed; all of them where none has any. A room whose last lift is whole is not poured again. */
function stillToPour(reading: JobReading, rooms: readonly RoomReading[]): readonly RoomReading[] {
  const open = rooms.filter((roomReading) => nextLift(roomFloorOf(reading, roomReading.room.id)).number <= liftsOf(roomReading));
  return open.length === 0 ? rooms : open;
}

const liftsOf = (roomReading: RoomReading): number => roomReading.estimate?.takeoff.lifts?.count ?? 1;

/** Rooms of several lifts must be at the same one: a pour is one lift for all of them. Two that are not; none where all are. */
function liftsApart(rooms: readonly RoomReading[], lifts: readonly RoomLift[]): { name: string; lift: number }[] {
  const several = rooms.flatMap((roomReading, i) =>
    liftsOf(roomReading) > 1 ? [{ name: roomReading.room.name, lift: lifts[i]?.number ?? 1 }] : [],
  );
  const [first] = several;
  const other = several.find((candidate) => candidate.lift !== first?.lift);
  return first === undefined || other === undefined ? [] : [first, other];
}

function liftOf(lifts: readonly RoomLift[]): PourReading['lift'] {
  return { number: Math.max(...lifts.map((lift) => lift.number)), of: Math.max(...lifts.map((lift) => lift.of)) };
}

/** The pour of a room that is under way; null when none is. */
export function runningPour(pours: readonly Pour[], roomId: string): Pour | null {
  return pours.find((p) => p.deletedAt === null && p.startedAt !== null && p.finishedAt === null && p.roomIds.includes(roomId)) ?? null;
}

/** The last finished pour of a room; null before any. */
export function lastPour(pours: readonly Pour[], roomId: string): Pour | null {
  return (
    pours
      .filter((p) => p.deletedAt === null && p.finishedAt !== null && p.roomIds.includes(roomId))
      .sort((a, b) => (a.finishedAt ?? '').localeCompare(b.finishedAt ?? ''))
      .at(-1) ?? null
  );
}

/** The plan of the room that takes all the others along; the first one's where none does. */
export function leadingPlan(rooms: readonly RoomReading[], plans: readonly PourPlan[]): PourPlan | undefined {
  const takes = (plan: PourPlan, own: string) => rooms.every(({ room }) => room.id === own || (plan.withRoomIds ?? []).includes(room.id));
  const lead = rooms.length < 2 ? 0 : plans.findIndex((plan, i) => takes(plan, rooms[i]?.room.id ?? ''));
  return plans[Math.max(0, lead)];
}

/** The rooms of a pour that a room's plan takes along, in pouring order: itself first, unless the plan names its place. */
export function roomsOfGo(reading: JobReading, roomId: string): string[] {
  const plan = reading.rooms.find((r) => r.room.id === roomId)?.jobRoom.pourPlan;
  const known = [...new Set(plan?.withRoomIds ?? [])].filter((id) => reading.rooms.some((r) => r.room.id === id));
  return known.includes(roomId) ? known : [roomId, ...known];
}
