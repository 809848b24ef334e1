/** What runs behind the screens: reading the agenda when the book has changed, saying what is due, saving calendar files. */
import { type Reminder, reminderNotice, remindersOf } from '../../shared-core/agenda/reminders.ts';
import { followCalendars } from '../book/calendar-files.ts';
import { readCalendarState } from '../book/calendar-commands.ts';
import { gatherAgenda, type GatheredAgenda } from '../book/gather-agenda.ts';
import { nowInstant } from '../book/moment.ts';
import { changeReminderState, giveBack, readReminderState, takeDue } from '../book/reminder-commands.ts';
import { noticeWay, showNotice } from '../parts/show-notice.ts';

/** The agenda also moves with the clock: a room cold for another night puts its dates off. */
const STALE_MS = 30 * 60_000;

export type Behind = {
  /** The book has changed: the next pass reads it again. */
  readonly changed: () => void;
  /** @param mayRead whether the book may be read now; what is known already is said all the same */
  readonly pass: (mayRead: boolean) => Promise<void>;
};

/** Since when reminders are on. Where the machine shows them itself they are on from the first start, until somebody switches them off. */
async function onSince(): Promise<string | null> {
  const { since } = await readReminderState();
  if (since !== undefined) return since;
  if ((await noticeWay()) !== 'machine') return null;
  const now = nowInstant();
  await changeReminderState((state) => ({ ...state, since: state.since === undefined ? now : state.since }));
  return now;
}

/** Begins; nothing is read before the first pass. */
export function behind(): Behind {
  let gathered: GatheredAgenda | null = null;
  let reminders: readonly Reminder[] = [];
  let readAt = 0;
  let isStale = true;
  let isFirst = true;
  let last: Promise<void> = Promise.resolve();

  const say = async (since: string, opening: boolean): Promise<void> => {
    const now = nowInstant();
    const due = await takeDue(reminders, since, now);
    if (due.length === 0) return;
    const notice = reminderNotice(due, opening, now, gathered?.agenda.business.locale ?? '');
    const shown = await showNotice(notice.title, notice.body);
    if (!shown.ok) await giveBack(due);
    await changeReminderState((state) => ({ ...state, problem: shown.ok ? null : shown.why }));
  };

  const run = async (mayRead: boolean): Promise<void> => {
    const [since, { following }] = [await onSince(), await readCalendarState()];
    const opening = isFirst;
    isFirst = false;
    if (since === null && following === 'off') return;
    const wasStale = mayRead && (isStale || Date.now() - readAt > STALE_MS);
    if (wasStale) {
      isStale = false;
      gathered = await gatherAgenda(gathered);
      readAt = Date.now();
      reminders = gathered === null ? [] : remindersOf(gathered.agenda);
    }
    if (since !== null) await say(since, opening);
    if (wasStale && gathered !== null) await followCalendars(gathered, opening);
  };

  return {
    changed: () => {
      isStale = true;
    },
    pass: (mayRead) => {
      // One after another: a change during a pass is read by the next.
      const next = (): Promise<void> => run(mayRead);
      last = last.then(next, next);
      return last;
    },
  };
}
