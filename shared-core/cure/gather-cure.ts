/** Builds the input of a room's cure from the records. */
import { staysWithAsbestos } from '../substrate/floor-facts.ts';
import { hasSlab, isFramed } from '../substrate/layer-words.ts';
import { isHeated, isHeatInPour, mayHitHeat, roomHeat } from '../substrate/radiant.ts';
import type { Business } from '../book/business.ts';
import type { ClearanceTest, CureLog, CureReading, Promised } from '../book/cure-record.ts';
import type { JobRoom } from '../book/job.ts';
import type { Material } from '../book/material.ts';
import type { PourEvent } from '../book/pour-record.ts';
import type { Room } from '../book/room.ts';
import { roomAir } from '../climate/room-air.ts';
import { testsOf } from '../book/tests-of.ts';
import { roomAreaM2 } from '../plan/region.ts';
import { liveEvents } from '../pour/log-time.ts';
import type { Drilling } from './clearance-tests.ts';
import { workCalendar } from './stated-date.ts';
import { ASSUMED_SPREAD_C, type CureInput, type CuringLift } from './cure-input.ts';

export type CureRecords = CuringLift & {
  readonly business: Pick<Business, 'units' | 'locale' | 'address' | 'hours'>;
  readonly jobRoom: JobRoom;
  readonly room: Room;
  /** IANA time zone of the property. */
  readonly timeZone: string;
  /** Of the property; null while unknown. */
  readonly yearBuilt: number | null;
  /** The powder that was (or is to be) poured. */
  readonly material: Material;
  /** Whether a moisture mitigation system is, or is to be, under the pour. */
  readonly overSystem: boolean;
  /** The rooms whose in-slab tests are counted with those of this one: poured with it, for the same flooring, over the same slab. */
  readonly sharing: readonly Pick<Room, 'id' | 'plan'>[];
  /** All of the job; those of other rooms are ignored. */
  readonly logs: readonly CureLog[];
  readonly pourEvents: readonly PourEvent[];
  readonly promises: readonly Promised[];
  readonly tests: readonly ClearanceTest[];
};

/** Readings of a room's air from its logs, from the pour itself and from ambient tests made after it; deleted logs are left out. */
export function roomReadings(
  room: Pick<Room, 'id' | 'tests'>,
  logs: readonly CureLog[],
  events: readonly PourEvent[],
  placedAt: string,
): readonly CureReading[] {
  const fromPour = liveEvents(events).flatMap((e) =>
    e.kind === 'reading' && e.airTempC !== null ? [{ instant: e.instant, tempC: e.airTempC, relativeHumidity: e.relativeHumidity }] : [],
  );
  const tested = testsOf(room.tests, 'air').flatMap((t) =>
    t.takenAt >= placedAt ? [{ instant: t.takenAt, tempC: t.airTempC, relativeHumidity: t.relativeHumidity }] : [],
  );
  return [...fromPour, ...tested, ...logs.filter((l) => l.roomId === room.id && l.deletedAt === null).flatMap((l) => l.readings)];
}

/** Whether the floor under the pour is wood framing without concrete. */
function isOverWood(room: Room): boolean {
  const kept = room.layers.filter((layer) => layer.fate === 'keep');
  return isFramed(kept) && !hasSlab(kept);
}

/** Whether a moisture test may drill into the finished floor. */
function drillingIn({ room, yearBuilt, overSystem }: CureRecords): Drilling {
  if (isHeatInPour(roomHeat(room)) || staysWithAsbestos({ ...room, yearBuilt })) return 'never';
  if (overSystem) return 'over-system';
  return mayHitHeat(room) ? 'heat-located' : 'allowed';
}

/** The input of `cureSchedule`; null when the material is no powder with a sheet. */
export function gatherCure(records: CureRecords): CureInput | null {
  const { business, jobRoom, room, material } = records;
  if (material.powder === null) return null;
  const air = roomAir(room, jobRoom);
  const testsOfRoom = ({ id }: Pick<Room, 'id'>): ClearanceTest[] => records.tests.filter((t) => t.roomId === id && t.deletedAt === null);
  return {
    lift: records.lift,
    isLastLift: records.isLastLift,
    placedAt: records.placedAt,
    depth: records.depth,
    wetBelowM: records.wetBelowM,
    sheet: material.powder,
    materialKind: material.kind,
    flooring: jobRoom.flooring,
    flooringLimits: jobRoom.flooringLimits,
    laidOn: jobRoom.flooringLaidOn ?? null,
    place: workCalendar(business, records.timeZone),
    overWood: isOverWood(room),
    drilling: drillingIn(records),
    areaM2: roomAreaM2(room.plan),
    sharing: records.sharing.map((other) => ({ areaM2: roomAreaM2(other.plan), tests: testsOfRoom(other) })),
    heated: isHeated(roomHeat(room)),
    readings: roomReadings(room, records.logs, records.pourEvents, records.placedAt),
    assumedTempC: air.tempC,
    assumedHumidity: air.relativeHumidity,
    assumedSpreadC: ASSUMED_SPREAD_C,
    gaps: 'line',
    promises: records.promises.filter((p) => p.roomId === room.id && p.deletedAt === null),
    tests: testsOfRoom(room),
  };
}
