/** Changes to a room as its screens make them: one that could not be written says so on the sheet. */
import { useSyncExternalStore } from 'react';
import type { Outcome } from '../book/outcome.ts';
import * as commands from '../book/plan-commands.ts';

let told: string | null = null;
const listeners = new Set<() => void>();

function tell(message: string | null): void {
  told = message;
  for (const listener of listeners) listener();
}

async function heard(writing: Promise<Outcome>): Promise<Outcome> {
  const outcome = await writing;
  if (!outcome.ok) tell(outcome.message);
  else if (told !== null) tell(null);
  return outcome;
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
export const changePlan: typeof commands.changePlan = (...args) => heard(commands.changePlan(...args));
/** Changes what is marked on a room's plan. */
export const changeMarks: typeof commands.changeMarks = (...args) => heard(commands.changeMarks(...args));
/** Changes one of a room's surveys. */
export const changeSurvey: typeof commands.changeSurvey = (...args) => heard(commands.changeSurvey(...args));
