/** The entry point for screens: takes a room, its readings, and a finish choice, and returns everything to display. */
import type { Point } from '../book/fields.ts';
import type { LevelChoice } from '../book/job.ts';
import type { Plan, Survey } from '../book/plan-fields.ts';
import { type FloorFlatness, floorFlatness, USUAL_STRAIGHTEDGE_M } from './floor-flatness.ts';
import { type FloorRead, readFloor } from './read-floor.ts';
import type { ReadingProblem } from './reading-problems.ts';
import { type Section, sectionAlong } from './section-along.ts';
import type { FlatnessDemand } from './tolerances.ts';
import { finishOf, type LevelOptions, settleLevel, type SettledLevel } from './settle-level.ts';

export type SurveyOptions = LevelOptions &
  FlatnessDemand & {
    /** Straightedge length to show, meters; null uses 10 ft. */
    readonly straightedgeM: number | null;
  };

/**
 * The result of a survey, or what is missing. Plain values and typed arrays, so that it can be passed to and from a worker.
 */
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
 * Reads a room's floor, rates its flatness, and settles a finish over it. While the elevation is dragged, reuse `floor` and
 * call `settleLevel` alone.
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
