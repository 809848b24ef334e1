/** The survey of a room off the screen's thread. */
import { expose } from 'comlink';
import { surveyRoom } from '../../shared-core/survey/survey-room.ts';

const work = { surveyRoom };
export type SurveyWork = typeof work;

expose(work);
