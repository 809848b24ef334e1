/** Background work: reads the agenda when records change, shows reminders, saves calendar files. */
import { type Reminder, reminderNotice, remindersOf } from '../../shared-core/agenda/reminders.ts';
import { followCalendars } from '../book/calendar-files.ts';
import { readCalendarState } from '../book/calendar-commands.ts';
import { gatherAgenda, type GatheredAgenda } from '../book/gather-agenda.ts';
import { nowInstant } from '../book/command.ts';
import { openBackup } from '../book/open-read-only.ts';
import { changeReminderState, giveBack, readReminderState, takeDue } from '../book/reminder-commands.ts';
import { noticeWay, showNotice } from '../parts/show-notice.ts';

/** Time also changes the agenda: each cold night delays the dates of a curing floor. */
const STALE_MS = 30 * 60_000;

export type Behind = {
  /** Records changed, so the next pass reads the agenda again. */
  readonly changed: () => void;
  /** @param mayRead whether records may be read now; known reminders are shown either way */
  readonly pass: (mayRead: boolean) => Promise<void>;
};

/** Since when reminders are on. They are on from the first start where the desk shows them, until turned off. */
async function onSince(): Promise<string | null> {
  const { since } = await readReminderState();
  if (since !== undefined) return since;
  if ((await noticeWay()) !== 'machine') return null;
  const now = nowInstant();
  await changeReminderState((state) => ({ ...state, since: state.since === undefined ? now : state.since }));
  return now;
}

/** Nothing is read before the first pass. */
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
    // A backup opened meanwhile: the next pass comes once it is closed.
    if (openBackup() !== null) return;
    if (since !== null) await say(since, opening);
    if (wasStale && gathered !== null) await followCalendars(gathered, opening);
  };

  return {
    changed: () => {
      isStale = true;
    },
    pass: (mayRead) => {
      // One pass at a time; the next one reads changes made during a pass.
      const next = (): Promise<void> => run(mayRead);
      last = last.then(next, next);
      return last;
    },
  };
}
