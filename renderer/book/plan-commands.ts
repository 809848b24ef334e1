/** What changes the plan, marks and readings of a room. */
import type { Mark, Plan, Survey } from '../../shared-core/book/plan-fields.ts';
import type { Room } from '../../shared-core/book/room.ts';

/** Which of a room's surveys: as found, the part still to be poured, or after the pour. */
export type WhichSurvey = 'before' | 'rest' | 'after';

/** The survey asked for; null when the room was not read then. */
export function surveyOf(room: Room, which: WhichSurvey): Survey | null {
  return which === 'before' ? room.survey : which === 'rest' ? room.surveyRest : room.surveyAfter;
}

/** A room with its plan changed. */
export function withPlan(update: (plan: Plan) => Plan): (room: Room) => Room {
  return (room) => ({ ...room, plan: update(room.plan) });
}

/** A room with what is marked on its plan changed. */
export function withMarks(update: (marks: readonly Mark[]) => Mark[]): (room: Room) => Room {
  return (room) => ({ ...room, marks: update(room.marks) });
}

/** A later survey as it begins: read as the first was. */
function blankSurvey(room: Room): Survey {
  const { runs: _runs, ...first } = room.survey;
  return { ...first, takenAt: null, readings: [] };
}

/** A room with one of its surveys changed; the first reading dates it, and a later survey begins with its first change. */
export function withSurvey(which: WhichSurvey, update: (survey: Survey) => Survey, now: string): (room: Room) => Room {
  const dated = (survey: Survey): Survey => {
    const next = update(survey);
    return next.takenAt === null && next.readings.length > 0 ? { ...next, takenAt: now } : next;
  };
  return (room) => {
    if (which === 'before') return { ...room, survey: dated(room.survey) };
    const next = dated(surveyOf(room, which) ?? blankSurvey(room));
    return which === 'rest' ? { ...room, surveyRest: next } : { ...room, surveyAfter: next };
  };
}
