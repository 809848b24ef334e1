/** Plan, marks and readings of a room. */
import type { Mark, Plan, Survey } from '../../shared-core/book/plan-fields.ts';
import type { Room } from '../../shared-core/book/room.ts';
import { nowInstant } from './moment.ts';
import type { Outcome } from './outcome.ts';
import { change } from './write.ts';

/** Which of a room's two surveys: as found, or after the pour. */
export type WhichSurvey = 'before' | 'after';

/** The survey asked for; null when the room was not read after the pour. */
export function surveyOf(room: Room, which: WhichSurvey): Survey | null {
  return which === 'before' ? room.survey : room.surveyAfter;
}

/** Changes a room's plan. */
export function changePlan(roomId: string, label: string, how: (plan: Plan) => Plan): Promise<Outcome> {
  return change('rooms', roomId, label, nowInstant(), (room) => ({ ...room, plan: how(room.plan) }));
}

/** Changes what is marked on a room's plan. */
export function changeMarks(roomId: string, label: string, how: (marks: readonly Mark[]) => Mark[]): Promise<Outcome> {
  return change('rooms', roomId, label, nowInstant(), (room) => ({ ...room, marks: how(room.marks) }));
}

/** The second survey as it begins: read as the first was. */
function blankAfter(room: Room): Survey {
  return { ...room.survey, takenAt: null, readings: [] };
}

/** Changes one of a room's surveys; the first reading dates it, and the second survey begins with its first change. */
export function changeSurvey(roomId: string, which: WhichSurvey, label: string, how: (survey: Survey) => Survey): Promise<Outcome> {
  const now = nowInstant();
  const dated = (survey: Survey): Survey => {
    const next = how(survey);
    return next.takenAt === null && next.readings.length > 0 ? { ...next, takenAt: now } : next;
  };
  return change('rooms', roomId, label, now, (room) =>
    which === 'before' ? { ...room, survey: dated(room.survey) } : { ...room, surveyAfter: dated(room.surveyAfter ?? blankAfter(room)) },
  );
}
