/** State of reminders on this computer, also while a backup is open: whether they are on, which were shown, and the last failure. */
import { useLiveQuery } from 'dexie-react-hooks';
import { type Reminder, remindersDue } from '../../shared-core/agenda/reminders.ts';
import { ownBook } from './database.ts';
import { attempt, done, type Outcome, stored } from './command.ts';

export type ReminderState = {
  /** When they were turned on; null while off, undefined when never chosen. */
  readonly since: string | null | undefined;
  /** Why the last one could not be shown; null when it was. */
  readonly problem: string | null;
};

const STATE_KEY = 'reminders/state';
const SHOWN_KEY = 'reminders/shown';
/** Reminder history older than this is pruned unless the entry is still on the agenda. */
const REMEMBERED_MS = 60 * 86_400_000;

export async function readReminderState(): Promise<ReminderState> {
  return { since: undefined, problem: null, ...((await ownBook().meta.get(STATE_KEY))?.value as Partial<ReminderState> | undefined) };
}

export function useReminderState(): ReminderState | undefined {
  return useLiveQuery(readReminderState, []);
}

export function changeReminderState(edit: (state: ReminderState) => ReminderState): Promise<Outcome> {
  return stored(() =>
    ownBook().transaction('rw', ownBook().meta, async () => {
      const before = await readReminderState();
      const next = edit(before);
      if (next.since !== before.since || next.problem !== before.problem) await ownBook().meta.put({ key: STATE_KEY, value: next });
    }),
  );
}

const readShown = async (): Promise<Record<string, string>> =>
  ((await ownBook().meta.get(SHOWN_KEY))?.value as Record<string, string> | undefined) ?? {};

/**
 * Claims the reminders that are due in one transaction, so that two windows never show the same one.
 * @returns those this window shows now; none when the claim could not be stored, so that the next check tries again
 */
export async function takeDue(all: readonly Reminder[], since: string, now: string): Promise<readonly Reminder[]> {
  const claimed = await attempt(async () => done(await noteDue(all, since, now)));
  return claimed.ok ? claimed.value : [];
}

const noteDue = (all: readonly Reminder[], since: string, now: string): Promise<readonly Reminder[]> =>
  ownBook().transaction('rw', ownBook().meta, async () => {
    const shown = await readShown();
    const due = remindersDue(all, since, now, new Set(Object.keys(shown)));
    if (due.length === 0) return due;
    const present = new Set(all.map(({ key }) => key));
    const remaining = Object.entries(shown).filter(
      ([key, instant]) => present.has(key) || Date.parse(now) - Date.parse(instant) < REMEMBERED_MS,
    );
    await ownBook().meta.put({ key: SHOWN_KEY, value: Object.fromEntries([...remaining, ...due.map(({ key }) => [key, now])]) });
    return due;
  });

/** Releases reminders that could not be shown, so that they are tried again. */
export function giveBack(due: readonly Reminder[]): Promise<Outcome> {
  return stored(() =>
    ownBook().transaction('rw', ownBook().meta, async () => {
      const given = new Set(due.map(({ key }) => key));
      await ownBook().meta.put({
        key: SHOWN_KEY,
        value: Object.fromEntries(Object.entries(await readShown()).filter(([key]) => !given.has(key))),
      });
    }),
  );
}
