/** Changes to a room that report a failure on the screen. */
import type { Update } from '../book/write.ts';
import { heldValue } from '../desk/held-value.ts';
import { type Outcome, nowInstant } from '../book/command.ts';
import type { Mark, Plan, Survey } from '../../shared-core/book/plan-fields.ts';
import type { Room } from '../../shared-core/book/room.ts';
import { openingsCleared } from '../../shared-core/survey/scale.ts';
import { changeRoom } from '../book/job-commands.ts';
import { type TiedSetups, type WhichSurvey, withMarks, withPlan, withSurvey, withTiedSetups } from '../book/plan-commands.ts';
import type { Said } from '../parts/Dialog.tsx';
import { applyAhead } from './pending-room.ts';
import { clearedWords } from './readings-words.ts';

/** The error of the last change, or what it cleared beside what was edited; null after any other or when closed. */
export const changeNotice = heldValue<Said>(null);

export async function reported(writing: Promise<Outcome>): Promise<Outcome> {
  const outcome = await writing;
  changeNotice.set(outcome.ok ? null : outcome.message);
  return outcome;
}

function reportedChange(roomId: string, label: string, update: Update<Room>): Promise<Outcome> {
  return reported(applyAhead(roomId, update, () => changeRoom(roomId, label, update)));
}

export function changePlan(roomId: string, label: string, update: Update<Plan>): Promise<Outcome> {
  return reportedChange(roomId, label, withPlan(update));
}

export function changeMarks(roomId: string, label: string, update: (marks: readonly Mark[]) => Mark[]): Promise<Outcome> {
  return reportedChange(roomId, label, withMarks(update));
}

/** Heights at doorways that the change clears are told of: they are not on the screen. */
export async function changeSurvey(roomId: string, which: WhichSurvey, label: string, update: Update<Survey>): Promise<Outcome> {
  const change = withSurvey(which, update, nowInstant());
  const cleared = { words: '' };
  const outcome = await reportedChange(roomId, label, (room) => {
    const next = change(room);
    cleared.words = clearedWords(openingsCleared(room.plan.openings, next.plan.openings));
    return next;
  });
  if (outcome.ok && cleared.words !== '') changeNotice.set({ ok: true, text: cleared.words });
  return outcome;
}

export function tieSetups(roomId: string, which: WhichSurvey, label: string, tied: TiedSetups): Promise<Outcome> {
  return reportedChange(roomId, label, withTiedSetups(which, tied, nowInstant()));
}
