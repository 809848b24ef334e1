/** Calculates the survey of a room in a worker. */
import { expose } from 'comlink';
import { readTried } from '../../shared-core/standing/what-if.ts';
import { estimateJob } from '../../shared-core/price/estimate-job.ts';
import { estimateLevel } from '../../shared-core/price/estimate-room.ts';
import { readFloor } from '../../shared-core/survey/read-floor.ts';
import { surveyRoom } from '../../shared-core/survey/survey-room.ts';

const work = { surveyRoom, estimateLevel, estimateJob, readTried, readFloor };
export type SurveyWork = typeof work;

expose(work);
