/** Changes to a room from its screens. A change that could not be saved is reported on the screen. */
import { useSyncExternalStore } from 'react';
import type { Outcome } from '../book/outcome.ts';
import type { Mark, Plan, Survey } from '../../shared-core/book/plan-fields.ts';
import type { Room } from '../../shared-core/book/room.ts';
import { nowInstant } from '../book/moment.ts';
import { changeRoom } from '../book/job-commands.ts';
import { type WhichSurvey, withMarks, withPlan, withSurvey } from '../book/plan-commands.ts';
import { applyAhead } from './room-ahead.ts';

let failure: string | null = null;
const listeners = new Set<() => void>();

function report(message: string | null): void {
  failure = message;
  for (const listener of listeners) listener();
}

/** Waits for a change to be saved and reports a failure. */
export async function reported(writing: Promise<Outcome>): Promise<Outcome> {
  const outcome = await writing;
  if (!outcome.ok) report(outcome.message);
  else if (failure !== null) report(null);
  return outcome;
}

function reportedChange(roomId: string, label: string, update: (room: Room) => Room): Promise<Outcome> {
  return reported(applyAhead(roomId, update, () => changeRoom(roomId, label, update)));
}

/** The message of the last failed change; null after the next success or when it is dismissed. */
export function useChangeFailure(): { readonly failure: string | null; readonly dismiss: () => void } {
  const now = useSyncExternalStore(
    (changed) => {
      listeners.add(changed);
      return () => listeners.delete(changed);
    },
    () => failure,
  );
  return { failure: now, dismiss: () => report(null) };
}

/** Changes a room's plan. */
export function changePlan(roomId: string, label: string, update: (plan: Plan) => Plan): Promise<Outcome> {
  return reportedChange(roomId, label, withPlan(update));
}

/** Changes what is marked on a room's plan. */
export function changeMarks(roomId: string, label: string, update: (marks: readonly Mark[]) => Mark[]): Promise<Outcome> {
  return reportedChange(roomId, label, withMarks(update));
}

/** Changes one of a room's surveys. */
export function changeSurvey(roomId: string, which: WhichSurvey, label: string, update: (survey: Survey) => Survey): Promise<Outcome> {
  return reportedChange(roomId, label, withSurvey(which, update, nowInstant()));
}
