/** Changes to a room as its screens make them: one that could not be written says so on the sheet. */
import { useSyncExternalStore } from 'react';
import type { Outcome } from '../book/outcome.ts';
import type { Mark, Plan, Survey } from '../../shared-core/book/plan-fields.ts';
import type { Room } from '../../shared-core/book/room.ts';
import { nowInstant } from '../book/moment.ts';
import { changeRoom } from '../book/job-commands.ts';
import { type WhichSurvey, withMarks, withPlan, withSurvey } from '../book/plan-commands.ts';
import { ahead } from './room-ahead.ts';

let told: string | null = null;
const listeners = new Set<() => void>();

function tell(message: string | null): void {
  told = message;
  for (const listener of listeners) listener();
}

/** Waits for a writing, and tells when it failed. */
export async function heard(writing: Promise<Outcome>): Promise<Outcome> {
  const outcome = await writing;
  if (!outcome.ok) tell(outcome.message);
  else if (told !== null) tell(null);
  return outcome;
}

function toldChange(roomId: string, label: string, how: (room: Room) => Room): Promise<Outcome> {
  return heard(ahead(roomId, how, () => changeRoom(roomId, label, how)));
}

/** What the last change that failed said; null once one succeeds or it is put aside. */
export function useTold(): { readonly told: string | null; readonly putAside: () => void } {
  const now = useSyncExternalStore(
    (changed) => {
      listeners.add(changed);
      return () => listeners.delete(changed);
    },
    () => told,
  );
  return { told: now, putAside: () => tell(null) };
}

/** Changes a room's plan. */
export function changePlan(roomId: string, label: string, how: (plan: Plan) => Plan): Promise<Outcome> {
  return toldChange(roomId, label, withPlan(how));
}

/** Changes what is marked on a room's plan. */
export function changeMarks(roomId: string, label: string, how: (marks: readonly Mark[]) => Mark[]): Promise<Outcome> {
  return toldChange(roomId, label, withMarks(how));
}

/** Changes one of a room's surveys. */
export function changeSurvey(roomId: string, which: WhichSurvey, label: string, how: (survey: Survey) => Survey): Promise<Outcome> {
  return toldChange(roomId, label, withSurvey(which, how, nowInstant()));
}
