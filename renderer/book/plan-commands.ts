import { updated, type Update } from './write.ts';
import type { Mark, Plan, Survey } from '../../shared-core/book/plan-fields.ts';
import type { Room } from '../../shared-core/book/room.ts';
import { surveyFromRuns } from '../../shared-core/survey/level-network.ts';

/** Which survey of a room: as found, the part still to be poured, or after the pour. */
export type WhichSurvey = 'before' | 'rest' | 'after';

/** The requested survey; null when there is none. */
export function surveyOf(room: Room, which: WhichSurvey): Survey | null {
  return which === 'before' ? room.survey : which === 'rest' ? room.surveyRest : room.surveyAfter;
}

export function withPlan(update: Update<Plan>): (room: Room) => Room {
  return (room) => ({ ...room, plan: updated(room.plan, update) });
}

export function withMarks(update: (marks: readonly Mark[]) => Mark[]): (room: Room) => Room {
  return (room) => ({ ...room, marks: updated(room.marks, update) });
}

/** A later survey starts with the settings of the first; those of runs without a laser stay with the runs. */
function blankSurvey({ survey }: Room): Survey {
  return survey.runs === undefined ? { ...survey, takenAt: null, readings: [] } : surveyFromRuns(survey, []);
}

/** Changes one survey of a room. The first reading sets its date, and the first change adds a later survey. */
export function withSurvey(which: WhichSurvey, update: Update<Survey>, now: string): (room: Room) => Room {
  const dated = (survey: Survey): Survey => {
    const next = updated(survey, update);
    return next.takenAt === null && next.readings.length > 0 ? { ...next, takenAt: now } : next;
  };
  return (room) => {
    if (which === 'before') return { ...room, survey: dated(room.survey) };
    const next = dated(surveyOf(room, which) ?? blankSurvey(room));
    return which === 'rest' ? { ...room, surveyRest: next } : { ...room, surveyAfter: next };
  };
}
