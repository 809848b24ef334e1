/**
 * Entries waiting for the pour log. No keystroke is lost: an entry that could not be stored waits in order, is shown, and is retried.
 * Nothing here rejects.
 */
import type { Pour, PourEvent } from '../../shared-core/book/pour-record.ts';
import type { Entry, PourQuestion, Stamp } from '../../shared-core/pour/pour-commands.ts';
import { type PourLog, type PourState, readLog, stateAt } from '../../shared-core/pour/pour-state.ts';
import type { Outcome } from './command.ts';

/** Makes an entry from the log at the time of the keystroke; null when there is nothing to log. */
export type Makes = (state: PourState, stamp: Stamp) => Entry | null;

/** A question about an entry that looks like a typo. */
export interface Asked {
  readonly question: PourQuestion;
  readonly entry: Entry;
}

export interface QueueView {
  /** Entries not stored yet, oldest first. */
  readonly waiting: readonly PourEvent[];
  readonly asked: Asked | null;
  /** Why the oldest waiting entry could not be stored, or why one was refused; null when there is no problem. */
  readonly problem: string | null;
  /** The entry this queue stored last. */
  readonly last: PourEvent | null;
}

export interface QueueWays {
  readonly write: (event: PourEvent) => Promise<Outcome<PourEvent>>;
  /** Saves an entry that the database refused elsewhere; must not reject. */
  readonly keepAside: (pour: Pour, event: PourEvent) => Promise<unknown>;
  /** Calls back after a delay, for the next try. */
  readonly later: (again: () => void) => void;
  readonly now: () => string;
  readonly newId: () => string;
  readonly onChange: (view: QueueView) => void;
}

export interface PourQueue {
  /** Updates the pour and the stored log that new entries are made from. */
  readonly follow: (pour: Pour, log: PourLog) => void;
  /** The state now, with the entries that the screen does not show yet. */
  readonly state: () => PourState;
  readonly log: (makes: Makes) => void;
  /** Answers the question: yes logs the entry, no logs the alternative it offered, if any. */
  readonly answer: (yes: boolean) => void;
  readonly retry: () => Promise<void>;
}

const UNKNOWN = 'The database did not respond.';

export function pourQueue(first: { readonly pour: Pour; readonly log: PourLog }, ways: QueueWays): PourQueue {
  let { pour, log: stored } = first;
  // Entries that this queue wrote and the live query has not returned yet.
  let written: readonly PourEvent[] = [];
  // The log with those and the waiting entries, read once for each entry.
  let whole = stored;
  let view: QueueView = { waiting: [], asked: null, problem: null, last: null };
  let isWriting = false;
  let isRetrySet = false;
  const show = (part: Partial<QueueView>): void => {
    view = { ...view, ...part };
    ways.onChange(view);
  };
  const current = (): PourLog => {
    const more = [...written, ...view.waiting];
    const isRead = whole.events.length === stored.events.length + more.length && more.every((event) => whole.events.includes(event));
    if (more.length === 0) whole = stored;
    else if (!isRead || whole.plan !== stored.plan) whole = readLog(stored.plan, stored.pour, [...stored.events, ...more]);
    return whole;
  };
  const writeOne = async (event: PourEvent): Promise<Outcome<PourEvent>> => {
    try {
      return await ways.write(event);
    } catch (error) {
      return { ok: false, message: error instanceof Error && error.message !== '' ? error.message : UNKNOWN, where: '' };
    }
  };
  const retryLater = (): void => {
    if (isRetrySet) return;
    isRetrySet = true;
    ways.later(() => {
      isRetrySet = false;
      void flush();
    });
  };
  const flush = async (): Promise<void> => {
    if (isWriting) return;
    isWriting = true;
    for (let next = view.waiting[0]; next !== undefined; next = view.waiting[0]) {
      const event = next;
      const outcome = await writeOne(event);
      const rest = view.waiting.filter((other) => other.id !== event.id);
      if (outcome.ok) {
        written = [...written, outcome.value];
        show({ waiting: rest, last: outcome.value, problem: null });
      } else if (outcome.where === '') {
        show({ problem: `Not saved yet: ${outcome.message} Trying again.` });
        void ways.keepAside(pour, event);
        retryLater();
        break;
      } else {
        // The entry itself is wrong or already logged, so a retry cannot help.
        show({ waiting: rest, problem: `Not logged. ${outcome.message}` });
      }
    }
    isWriting = false;
  };
  const add = (entry: Entry): void => {
    show({ waiting: [...view.waiting, entry.event] });
    void flush();
  };
  const stateNow = (instant: string): PourState => stateAt(current(), instant);
  return {
    state: () => stateNow(ways.now()),
    follow: (toPour, log) => {
      const ids = new Set(log.events.map((event) => event.id));
      written = written.filter((event) => !ids.has(event.id));
      pour = toPour;
      stored = log;
    },
    log: (makes) => {
      const instant = ways.now();
      const entry = makes(stateNow(instant), { id: ways.newId(), pourId: pour.id, instant });
      if (entry === null) return;
      if (entry.ask === null) add(entry);
      else show({ asked: { question: entry.ask, entry } });
    },
    answer: (yes) => {
      const { asked } = view;
      show({ asked: null });
      if (asked === null) return;
      if (yes) add({ ...asked.entry, ask: null });
      else if (asked.entry.otherwise !== undefined) add({ event: asked.entry.otherwise, ask: null });
    },
    retry: flush,
  };
}
