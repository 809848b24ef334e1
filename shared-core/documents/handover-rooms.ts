/** The fully placed rooms of a job, for the handover: cure, product, flatness before and after, possible cold joints. */
import { type CuredRoom, jobReadingCures } from '../standing/job-cures.ts';
import { type FlatnessAfter, flatnessAfter } from '../standing/flatness-after.ts';
import type { JobReading } from '../standing/read-job.ts';
import { roomsOf } from '../standing/job-bundle.ts';
import { type PouredPart, roomPour } from '../standing/room-pour.ts';
import { roomFloorOf } from '../standing/read-pour.ts';
import { readPourRecord } from '../standing/read-poured.ts';
import { joinLetter } from '../drawing/pour-edges.ts';
import type { Point } from '../book/fields.ts';
import type { JobRoom } from '../book/job.ts';
import type { Material } from '../book/material.ts';
import type { Pour } from '../book/pour-record.ts';
import { afterPour } from '../pour/after-pour.ts';
import { pourState } from '../pour/pour-state.ts';
import { type JointLine, pourJoints } from '../pour/floor-rest.ts';
import { poursIn, primersUnder, type RoomFloor, systemUnder } from '../pour/placed-floor.ts';
import type { ColdJoint } from '../pour/cold-joints.ts';
import { type Heat, roomHeat } from '../substrate/radiant.ts';
import type { WorstGap } from '../survey/flatness.ts';
import type { FloorRead } from '../survey/read-floor.ts';

/** A join that stayed open past its healing time, at its place in the room. */
export type JoinToWatch = {
  /** The letter it has on the plan. */
  readonly letter: string;
  readonly roomId: string;
  readonly point: Point;
  readonly openMin: number;
};

export type HandoverRoom = CuredRoom & {
  readonly jobRoom: JobRoom;
  /** What was placed, in the order of the pours. */
  readonly materials: readonly Material[];
  /** The moisture mitigation system under it; null for none. */
  readonly moistureSystem: ReturnType<typeof systemUnder>;
  /** Names of the primers it was poured on. */
  readonly primers: readonly string[];
  readonly lifts: number;
  /** Largest gap under the usual straightedge; null where the floor was not measured. */
  readonly flatness: {
    readonly before: { readonly worst: WorstGap; readonly floor: FloorRead } | null;
    readonly after: FlatnessAfter;
  };
  readonly joins: readonly JoinToWatch[];
  /** Joints between the pours of its last lift. */
  readonly joints: readonly JointLine[];
  readonly heat: Heat;
};

/** Joints of one pour that were met too late. */
function coldJointsOf(reading: JobReading, pour: Pour): readonly ColdJoint[] {
  const read = readPourRecord(reading, pour);
  if (!read.ok || !read.value.layout.ok) return [];
  const events = reading.whole.pourEvents.filter((e) => e.pourId === pour.id);
  const state = pourState(read.value.recordPlan, pour, events, pour.finishedAt ?? pour.changedAt);
  return afterPour(read.value.layout.value, state, read.value.recordPlan, null).toWatch;
}

/** Whether a pour placed some of the last lift. */
const isInFloor = ({ lift }: RoomFloor, { id }: Pour): boolean => lift?.regions.some((region) => region.pourId === id) === true;

/** Fully placed rooms, the first placed first. A partly placed floor is left out. */
export function handoverRooms(reading: JobReading): HandoverRoom[] {
  const { whole } = reading;
  const known = new Map<string, readonly ColdJoint[]>();
  const joinsOf = (pour: Pour): readonly ColdJoint[] => {
    const late = known.get(pour.id) ?? coldJointsOf(reading, pour);
    known.set(pour.id, late);
    return late;
  };
  let letters = 0;
  return jobReadingCures(reading)
    .sort((a, b) => a.schedule.placedAt.localeCompare(b.schedule.placedAt))
    .flatMap((cured): HandoverRoom[] => {
      const roomReading = reading.rooms.find((r) => r.room.id === cured.room.id);
      const facts = roomsOf(reading.bundle).find((candidate) => candidate.room.id === cured.room.id);
      if (roomReading === undefined || facts === undefined || roomPour(reading.bundle, facts).part !== 'whole') return [];
      const { pour, room } = cured;
      const floor = roomFloorOf(reading, room.id);
      const late = floor.pours.filter((one) => isInFloor(floor, one)).flatMap(joinsOf);
      const survey = roomReading.estimate?.survey;
      return [
        {
          ...cured,
          jobRoom: roomReading.jobRoom,
          moistureSystem: systemUnder(floor),
          primers: primersUnder(floor),
          materials: poursIn(floor).map((one) => one.asPoured.material),
          lifts: floor.liftsWhole,
          flatness: {
            before: survey?.state === 'surveyed' ? { worst: survey.flatness.worst, floor: survey.floor } : null,
            after: flatnessAfter(room, roomReading.jobRoom, {
              quotes: whole.quotes,
              placedAt: pour.finishedAt ?? pour.changedAt,
              units: whole.business.units,
              country: whole.business.address.country,
            }),
          },
          joins: late
            .filter((l) => l.roomId === room.id)
            .map((joint) => ({
              letter: joinLetter(letters++),
              roomId: room.id,
              point: joint.point,
              openMin: joint.mostMin,
            })),
          joints: pourJoints(floor),
          heat: roomHeat(room),
        },
      ];
    });
}

/** A room of the job that is not fully placed, with its state. */
export type UnfinishedRoom = { readonly roomId: string; readonly name: string; readonly part: Exclude<PouredPart, 'whole'> };

/** Rooms of the job that are not handed over. */
export function unfinishedRooms({ bundle }: Pick<JobReading, 'bundle'>): UnfinishedRoom[] {
  return roomsOf(bundle).flatMap((facts): UnfinishedRoom[] => {
    const { part } = roomPour(bundle, facts);
    return part === 'whole' ? [] : [{ roomId: facts.room.id, name: facts.room.name, part }];
  });
}

/** The one person or customer who received all of these floors; '' before, and where they are several. */
export function receivedBy(rooms: readonly Pick<HandoverRoom, 'jobRoom'>[]): string {
  const [first = '', ...others] = [...new Set(rooms.map(({ jobRoom }) => (jobRoom.handedOverTo ?? '').trim()))];
  return others.length === 0 ? first : '';
}
