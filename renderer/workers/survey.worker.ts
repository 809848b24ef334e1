/** Calculates the survey of a room in a worker. */
import { expose } from 'comlink';
import { readTried } from '../../shared-core/standing/what-if.ts';
import type { JobRoom } from '../../shared-core/book/job.ts';
import type { Room } from '../../shared-core/book/room.ts';
import { estimateRoom, type RoomContext, type RoomEstimate, type RoomWay } from '../../shared-core/price/estimate-room.ts';
import type { SettledLevel } from '../../shared-core/survey/settle-level.ts';
import { type SurveyedRoom, surveyRoom } from '../../shared-core/survey/survey-room.ts';
import { estimateKept } from './cached-estimate.ts';

/** The result of a level being dragged, without the floor, which the screen has. */
export type LevelEstimate = Pick<RoomEstimate, 'takeoff'> & { readonly level: SettledLevel };

// The floor of the room whose level is being dragged, read once.
let last: { readonly key: string; readonly survey: SurveyedRoom } | null = null;

/** A room at another finish elevation; null while its floor is not read. */
function estimateLevel(room: Room, jobRoom: JobRoom, way: RoomWay, context: RoomContext): LevelEstimate | null {
  const key = `${room.id}@${room.changedAt}`;
  const { survey, takeoff } = estimateRoom(room, jobRoom, way, context, last?.key === key ? last.survey : null);
  last = { key, survey };
  return survey.state === 'surveyed' ? { level: survey.level, takeoff } : null;
}

const work = { surveyRoom, estimateLevel, estimateKept, readTried };
export type SurveyWork = typeof work;

expose(work);
