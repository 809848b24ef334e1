/** Changes to a room that report a failure on the screen. */
import type { Update } from '../book/write.ts';
import { heldValue } from '../desk/held-value.ts';
import { type Outcome, nowInstant } from '../book/command.ts';
import type { Mark, Plan, Survey } from '../../shared-core/book/plan-fields.ts';
import type { Room } from '../../shared-core/book/room.ts';
import { changeRoom } from '../book/job-commands.ts';
import { type TiedSetups, type WhichSurvey, withMarks, withPlan, withSurvey, withTiedSetups } from '../book/plan-commands.ts';
import { applyAhead } from './pending-room.ts';

/** The error of the last failed change; null after a success or when closed. */
export const changeFailure = heldValue<string | null>(null);

export async function reported(writing: Promise<Outcome>): Promise<Outcome> {
  const outcome = await writing;
  changeFailure.set(outcome.ok ? null : outcome.message);
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

export function changeSurvey(roomId: string, which: WhichSurvey, label: string, update: Update<Survey>): Promise<Outcome> {
  return reportedChange(roomId, label, withSurvey(which, update, nowInstant()));
}

export function tieSetups(roomId: string, which: WhichSurvey, label: string, tied: TiedSetups): Promise<Outcome> {
  return reportedChange(roomId, label, withTiedSetups(which, tied, nowInstant()));
}
