/**
 * Floors kept between estimates, in the page and in the worker alike.
 *
 * 1. A floor is read from its readings once, until its plan, its readings, its flooring or the units change. An edit of anything else in
 *    the room or the job, or of its level, only settles the level again.
 * 2. Inputs are compared by content, because records come new from each query and each message.
 * 3. The whole estimate of a job is kept by `job-estimates.ts` under the versions of its records.
 */
import { dequal } from 'dequal';
import type { JobRoom, LevelChoice } from '../../shared-core/book/job.ts';
import type { Plan, Survey } from '../../shared-core/book/plan-fields.ts';
import type { Room } from '../../shared-core/book/room.ts';
import type { UnitSystem } from '../../shared-core/measure/unit-system.ts';
import { estimateJob, type EstimateRecords, type JobEstimate } from '../../shared-core/price/estimate-job.ts';
import { estimateRoom, type RoomContext, type RoomEstimate, type RoomWay } from '../../shared-core/price/estimate-room.ts';
import { surveyOnceOut } from '../../shared-core/survey/once-out.ts';
import { USUAL_STRAIGHTEDGE_M } from '../../shared-core/survey/floor-flatness.ts';
import { type FloorAnswer, keepAnswer } from '../../shared-core/survey/read-floor.ts';
import { settleLevel } from '../../shared-core/survey/settle-level.ts';
import { keepLast } from './keep-last.ts';
import { type SurveyedRoom, type SurveyOptions, surveyRoom } from '../../shared-core/survey/survey-room.ts';

/** Number of rooms to cache; a floor of 2,000 readings takes about 10 MB. */
const MOST_FLOORS = 12;

/** The floor that the readings screen asked for last. */
const ASKED = 'asked';

const floors = new Map<string, { readonly of: readonly unknown[]; readonly survey: SurveyedRoom }>();

const inputsOf = (room: Room, jobRoom: JobRoom | undefined, { units, address }: EstimateRecords['business']): readonly unknown[] => [
  room.plan,
  surveyOnceOut(room.survey, room.layers),
  jobRoom?.flooring,
  jobRoom?.flooringLimits,
  units,
  address.country,
];

const floorKept = (of: readonly unknown[]): SurveyedRoom | null =>
  [...floors.values()].findLast((cached) => dequal(cached.of, of))?.survey ?? null;

function keepFloor(id: string, of: readonly unknown[], survey: SurveyedRoom): void {
  if (survey.state === 'surveyed') keepLast(floors, id, { of, survey }, MOST_FLOORS);
  else floors.delete(id);
}

/** Estimates a job with the cached floors of rooms that have not changed. */
export function estimateKept(records: EstimateRecords, day: string): JobEstimate {
  const inputs = inputsByRoom(records);
  const known = new Map<string, SurveyedRoom>();
  for (const [id, of] of inputs) {
    const survey = floorKept(of);
    if (survey !== null) known.set(id, survey);
  }
  const estimate = estimateJob(records, day, known);
  for (const [id, survey] of known) keepFloor(id, inputs.get(id) ?? [], survey);
  return estimate;
}

const inputsByRoom = ({ rooms, job, business }: EstimateRecords): Map<string, readonly unknown[]> =>
  new Map(
    rooms.map((room) => [
      room.id,
      inputsOf(
        room,
        job.rooms.find((r) => r.roomId === room.id),
        business,
      ),
    ]),
  );

/** Keeps the floors of an estimate that was calculated elsewhere from these records. */
export function keepFloors(records: EstimateRecords, estimate: JobEstimate): void {
  const inputs = inputsByRoom(records);
  for (const { roomId, survey } of estimate.base.rooms) keepFloor(roomId, inputs.get(roomId) ?? [], survey);
}

export interface SurveyAsked {
  readonly plan: Plan;
  readonly survey: Survey;
  readonly choice: LevelChoice;
  readonly options: SurveyOptions;
}

/** Surveys a floor that may be cached: an estimate of the same plan, readings and flooring has read it. */
export function surveyKept({ plan, survey, choice, options }: SurveyAsked): SurveyedRoom {
  const of = [plan, survey, options.flooring, options.flooringLimits, options.units, options.country];
  const isUsual = (options.straightedgeM ?? USUAL_STRAIGHTEDGE_M) === USUAL_STRAIGHTEDGE_M;
  const before = isUsual ? floorKept(of) : null;
  if (before?.state === 'surveyed') return { ...before, level: settleLevel(before.floor, plan, choice, options) };
  const surveyed = surveyRoom(plan, survey, choice, options);
  if (isUsual) keepFloor(ASKED, of, surveyed);
  return surveyed;
}

/** Estimates a room at another finish elevation, over its cached floor. */
export function estimateLevel(room: Room, jobRoom: JobRoom, way: RoomWay, context: RoomContext): RoomEstimate {
  const of = inputsOf(room, jobRoom, context.business);
  const estimate = estimateRoom(room, jobRoom, way, context, floorKept(of));
  keepFloor(room.id, of, estimate.survey);
  return estimate;
}

/** Floors measured after a pour and read ahead, by room. */
const placedFloors = new Map<string, { readonly of: readonly unknown[]; readonly answer: FloorAnswer }>();

const placedOf = ({ plan, surveyAfter }: Room, units: UnitSystem): readonly unknown[] => [plan, surveyAfter, units];

export function keepPlacedFloor(room: Room, units: UnitSystem, answer: FloorAnswer): void {
  placedFloors.set(room.id, { of: placedOf(room, units), answer });
}

/** Lends the floors read ahead to whatever reads these records. */
export function lendPlacedFloors(rooms: readonly Room[], units: UnitSystem): void {
  for (const room of rooms) {
    const known = placedFloors.get(room.id);
    if (room.surveyAfter !== null && known !== undefined && dequal(known.of, placedOf(room, units)))
      keepAnswer(room.plan, room.surveyAfter, units, known.answer);
  }
}
