import type { Room } from '../../shared-core/book/room.ts';
import { estimateJob, type EstimateRecords, type JobEstimate } from '../../shared-core/price/estimate-job.ts';
import { surveyOnceOut } from '../../shared-core/survey/once-out.ts';
import type { SurveyedRoom } from '../../shared-core/survey/survey-room.ts';

/** Number of rooms to cache; a floor of 2,000 readings takes about 10 MB. */
const MOST_FLOORS = 12;

const floors = new Map<string, { readonly of: string; readonly survey: SurveyedRoom }>();

/** The inputs of a floor and its flatness. */
function floorOf(room: Room, { job, business }: EstimateRecords): string {
  const jobRoom = job.rooms.find((r) => r.roomId === room.id);
  return JSON.stringify([
    room.plan,
    surveyOnceOut(room.survey, room.layers),
    jobRoom?.flooring,
    jobRoom?.flooringLimits,
    business.units,
    business.address.country,
  ]);
}

/** Estimates a job with the cached floors of rooms that have not changed. */
export function estimateKept(records: EstimateRecords, day: string): JobEstimate {
  const floorsNow = new Map(records.rooms.map((room) => [room.id, floorOf(room, records)]));
  const known = new Map<string, SurveyedRoom>();
  for (const [id, of] of floorsNow) {
    const cached = floors.get(id);
    if (cached?.of === of) known.set(id, cached.survey);
  }
  const estimate = estimateJob(records, day, known);
  for (const [id, survey] of known) {
    floors.delete(id);
    if (survey.state === 'surveyed') floors.set(id, { of: floorsNow.get(id) ?? '', survey });
  }
  for (const id of floors.keys()) {
    if (floors.size <= MOST_FLOORS) break;
    floors.delete(id);
  }
  return estimate;
}
