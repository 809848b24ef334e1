/** A running pour as its log tells it, and writing to that log: one entry at a time, shown only once it is on the disk. */
import { useCallback, useEffect, useRef, useState } from 'react';
import type { Pour, PourEvent } from '../../../shared-core/book/pour-record.ts';
import type { Entry, Stamp } from '../../../shared-core/pour/pour-commands.ts';
import { pourState, type PourRecordPlan, type PourState } from '../../../shared-core/pour/pour-state.ts';
import { newId, nowInstant } from '../../book/moment.ts';
import { logEntry } from '../../book/pour-commands.ts';

/** What a key writes, from the state as it stands when the key's turn comes; null when there is nothing to write. */
export type Makes = (state: PourState, stamp: Stamp) => Entry | null;

/** A question about an entry that looks like a slip. */
export interface Asked {
  readonly question: string;
  readonly entry: Entry;
}

export interface PourLog {
  readonly log: (makes: Makes) => void;
  readonly asked: Asked | null;
  readonly answer: (yes: boolean) => void;
  /** Why the last entry could not be written. */
  readonly problem: string | null;
  readonly clearProblem: () => void;
  /** The entry written last since the sheet was opened. */
  readonly last: PourEvent | null;
}

/** Writing to the log of a pour. Keys pressed while an entry is being written wait their turn. */
export function usePourLog(pour: Pour, plan: PourRecordPlan, events: readonly PourEvent[]): PourLog {
  const known = useRef<readonly PourEvent[]>(events);
  const against = useRef({ pour, plan });
  const turn = useRef<Promise<void>>(Promise.resolve());
  const [asked, setAsked] = useState<Asked | null>(null);
  const [problem, setProblem] = useState<string | null>(null);
  const [last, setLast] = useState<PourEvent | null>(null);
  useEffect(() => {
    // The book may lag behind what was just written: nothing written is forgotten.
    const ids = new Set(events.map((event) => event.id));
    known.current = [...events, ...known.current.filter((event) => !ids.has(event.id))];
    against.current = { pour, plan };
  }, [events, pour, plan]);

  const write = useCallback(async (entry: Entry): Promise<void> => {
    const written = await logEntry(entry);
    if (!written.ok) {
      setProblem(`Not logged. ${written.message}`);
      return;
    }
    known.current = [...known.current, written.value];
    setProblem(null);
    setLast(written.value);
  }, []);

  const log = useCallback(
    (makes: Makes) => {
      const at = nowInstant();
      turn.current = turn.current.then(async () => {
        const state = pourState(against.current.plan, against.current.pour, known.current, at);
        const entry = makes(state, { id: newId(), pourId: against.current.pour.id, at });
        if (entry === null) return;
        if (entry.ask !== null) setAsked({ question: entry.ask, entry });
        else await write(entry);
      });
    },
    [write],
  );
  const answer = useCallback(
    (yes: boolean) => {
      if (yes && asked !== null) turn.current = turn.current.then(() => write(asked.entry));
      setAsked(null);
    },
    [asked, write],
  );
  return { log, asked, answer, problem, clearProblem: () => setProblem(null), last };
}
