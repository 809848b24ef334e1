import { updated, type Update } from './write.ts';
import type { Mark, Plan, Survey } from '../../shared-core/book/plan-fields.ts';
import type { Room } from '../../shared-core/book/room.ts';
import { heightOfM } from '../../shared-core/survey/heights.ts';
import { changedReading } from '../../shared-core/survey/reading-entry.ts';
import { openingsOnScale } from '../../shared-core/survey/scale.ts';
import { surveyFromRuns } from '../../shared-core/survey/level-network.ts';

/** Which survey of a room: as found, the part still to be poured, or after the pour. */
export type WhichSurvey = 'before' | 'rest' | 'after';

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
export const blankSurvey = ({ survey }: Room): Survey => emptySurvey(survey);

/** A survey with its settings and nothing read; runs would bring their points back with the next edit. */
export const emptySurvey = (survey: Survey): Survey => ({
  ...(survey.runs === undefined ? survey : surveyFromRuns(survey, [])),
  takenAt: null,
  readings: [],
});

/**
 * Changes one survey of a room. The first reading sets its date, also where all others were deleted or replaced, and the first change
 * adds a later survey. The floors beyond the doorways follow the readings of the first survey.
 */
export function withSurvey(which: WhichSurvey, update: Update<Survey>, now: string): (room: Room) => Room {
  const dated = (survey: Survey): Survey => {
    const next = updated(survey, update);
    if (next.readings.length === 0) return { ...next, takenAt: null };
    const ids = new Set(survey.readings.map(({ id }) => id));
    const isNewSetup = !next.readings.some(({ id }) => ids.has(id));
    return isNewSetup || next.takenAt === null ? { ...next, takenAt: now } : next;
  };
  return (room) => {
    if (which === 'before') {
      const survey = dated(room.survey);
      return { ...room, survey, plan: { ...room.plan, openings: openingsOnScale(room.plan.openings, room.survey, survey) } };
    }
    const next = dated(surveyOf(room, which) ?? blankSurvey(room));
    return which === 'rest' ? { ...room, surveyRest: next } : { ...room, surveyAfter: next };
  };
}

/** What was read from a later setup of the laser, and how far its values are shifted onto the scale of the first, meters. */
export type TiedSetups = { readonly readingIds: readonly string[]; readonly openingIds: readonly string[]; readonly shiftM: number };

/** Shifts what was read from a later setup: readings of one survey, and floors beyond doorways. */
export function withTiedSetups(which: WhichSurvey, { readingIds, openingIds, shiftM }: TiedSetups, now: string): (room: Room) => Room {
  const shifted = (survey: Survey): Survey => ({
    ...survey,
    readings: survey.readings.map((r) => (readingIds.includes(r.id) ? changedReading(r, { valueM: r.valueM + shiftM }) : r)),
  });
  return (room) => {
    const next = withSurvey(which, shifted, now)(room);
    const openings = next.plan.openings.map((o) =>
      openingIds.includes(o.id) && o.adjoiningM !== null ? { ...o, adjoiningM: o.adjoiningM + heightOfM(next.survey.method, shiftM) } : o,
    );
    return { ...next, plan: { ...next.plan, openings } };
  };
}
