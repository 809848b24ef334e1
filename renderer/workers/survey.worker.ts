/** Calculates the survey of a room in a worker. */
import { expose } from 'comlink';
import { readTried } from '../../shared-core/standing/what-if.ts';
import type { RoomEstimate } from '../../shared-core/price/estimate-room.ts';
import { readFloor } from '../../shared-core/survey/read-floor.ts';
import type { SettledLevel } from '../../shared-core/survey/settle-level.ts';
import { surveyRoom } from '../../shared-core/survey/survey-room.ts';
import { estimateKept, estimateLevel } from './cached-estimate.ts';

/** The result of a level being dragged, without the floor, which the screen has. */
export type LevelEstimate = Pick<RoomEstimate, 'takeoff'> & { readonly level: SettledLevel };

/** A room at another finish elevation; null while its floor is not read. */
function levelOnly(...asked: Parameters<typeof estimateLevel>): LevelEstimate | null {
  const { survey, takeoff } = estimateLevel(...asked);
  return survey.state === 'surveyed' ? { level: survey.level, takeoff } : null;
}

const work = { surveyRoom, estimateLevel: levelOnly, estimateKept, readTried, readFloor };
export type SurveyWork = typeof work;

expose(work);
