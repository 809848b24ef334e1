/**
 * Floors kept between estimates, in the page and in the worker alike.
 *
 * 1. A floor is read from its readings once, until its plan, its readings, its flooring or the units change. An edit of anything else in
 *    the room or the job, or of its level, only settles the level again.
 * 2. Inputs are compared by content, because records come new from each query and each message.
 * 3. The whole estimate of a job is kept by `job-estimates.ts` under the versions of its records.
 */
import { dequal } from 'dequal';
import type { JobRoom } from '../../shared-core/book/job.ts';
import type { Room } from '../../shared-core/book/room.ts';
import { estimateJob, type EstimateRecords, type JobEstimate } from '../../shared-core/price/estimate-job.ts';
import { estimateRoom, type RoomContext, type RoomEstimate, type RoomWay } from '../../shared-core/price/estimate-room.ts';
import { surveyOnceOut } from '../../shared-core/survey/once-out.ts';
import type { SurveyedRoom } from '../../shared-core/survey/survey-room.ts';

/** Number of rooms to cache; a floor of 2,000 readings takes about 10 MB. */
const MOST_FLOORS = 12;

const floors = new Map<string, { readonly of: readonly unknown[]; readonly survey: SurveyedRoom }>();

const inputsOf = (room: Room, jobRoom: JobRoom | undefined, { units, address }: EstimateRecords['business']): readonly unknown[] => [
  room.plan,
  surveyOnceOut(room.survey, room.layers),
  jobRoom?.flooring,
  jobRoom?.flooringLimits,
  units,
  address.country,
];

const floorKept = (id: string, of: readonly unknown[]): SurveyedRoom | null => {
  const cached = floors.get(id);
  return cached !== undefined && dequal(cached.of, of) ? cached.survey : null;
};

function keepFloor(id: string, of: readonly unknown[], survey: SurveyedRoom): void {
  floors.delete(id);
  if (survey.state === 'surveyed') floors.set(id, { of, survey });
  for (const oldest of floors.keys()) {
    if (floors.size <= MOST_FLOORS) break;
    floors.delete(oldest);
  }
}

/** Estimates a job with the cached floors of rooms that have not changed. */
export function estimateKept(records: EstimateRecords, day: string): JobEstimate {
  const { rooms, job, business } = records;
  const inputs = new Map(
    rooms.map((room) => [
      room.id,
      inputsOf(
        room,
        job.rooms.find((r) => r.roomId === room.id),
        business,
      ),
    ]),
  );
  const known = new Map<string, SurveyedRoom>();
  for (const [id, of] of inputs) {
    const survey = floorKept(id, of);
    if (survey !== null) known.set(id, survey);
  }
  const estimate = estimateJob(records, day, known);
  for (const [id, survey] of known) keepFloor(id, inputs.get(id) ?? [], survey);
  return estimate;
}

/** Estimates a room at another finish elevation, over its cached floor. */
export function estimateLevel(room: Room, jobRoom: JobRoom, way: RoomWay, context: RoomContext): RoomEstimate {
  const of = inputsOf(room, jobRoom, context.business);
  const estimate = estimateRoom(room, jobRoom, way, context, floorKept(room.id, of));
  keepFloor(room.id, of, estimate.survey);
  return estimate;
}
