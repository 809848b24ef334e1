/** The entry point for screens: takes a room, its readings, and a finish choice, and returns everything to display. */
import type { Point } from '../book/fields.ts';
import type { LevelChoice } from '../book/job.ts';
import type { Plan, Survey } from '../book/plan-fields.ts';
import type { UnitSystem } from '../measure/unit-system.ts';
import { type FloorFlatness, floorFlatness, keepGaps, USUAL_STRAIGHTEDGE_M } from './floor-flatness.ts';
import { type FloorRead, keepAnswer, readFloor } from './read-floor.ts';
import type { ReadingProblem } from './reading-problems.ts';
import { type Section, sectionAlong } from './section-along.ts';
import type { FlatnessDemand } from './tolerances.ts';
import { finishOf, type LevelOptions, settleLevel, type SettledLevel } from './settle-level.ts';

export type SurveyOptions = LevelOptions &
  FlatnessDemand & {
    /** Straightedge length to show, meters; null uses 10 ft. */
    readonly straightedgeM: number | null;
  };

/** The result of a survey, or what is missing. Plain values and typed arrays, so that it can be passed to and from a worker. */
export type SurveyedRoom =
  | { readonly state: 'waiting'; readonly message: string; readonly problems: readonly ReadingProblem[] }
  | {
      readonly state: 'surveyed';
      readonly floor: FloorRead;
      readonly flatness: FloorFlatness;
      readonly level: SettledLevel;
      readonly problems: readonly ReadingProblem[];
    };

/**
 * Reads a room's floor, rates its flatness, and settles a finish over it. The floor and its gaps are kept, so that another
 * elevation or an edit of anything else only settles the level again.
 */
export function surveyRoom(plan: Plan, survey: Survey, choice: LevelChoice, options: SurveyOptions): SurveyedRoom {
  const read = readFloor(plan, survey, options.units);
  if (!read.ok) return { state: 'waiting', message: read.message, problems: read.problems };
  const { floor } = read;
  return {
    state: 'surveyed',
    floor,
    flatness: floorFlatness(floor, options.straightedgeM ?? USUAL_STRAIGHTEDGE_M, options),
    level: settleLevel(floor, plan, choice, options),
    problems: floor.problems,
  };
}

/** Keeps a floor that was surveyed on another thread from these records. */
export function keepSurveyed(plan: Plan, survey: Survey, units: UnitSystem, surveyed: SurveyedRoom): void {
  if (surveyed.state !== 'surveyed') return;
  keepAnswer(plan, survey, units, { ok: true, floor: surveyed.floor });
  keepGaps(surveyed.floor.profiles, surveyed.flatness.gaps);
}

/** The section along any line of a surveyed room, under its settled finish. */
export function sectionThrough(
  floor: FloorRead,
  level: SettledLevel,
  choice: LevelChoice,
  mayGrind: boolean,
  { from, to }: { readonly from: Point; readonly to: Point },
): Section {
  return sectionAlong(floor.surface, floor.room, from, to, finishOf(level, choice, mayGrind));
}
