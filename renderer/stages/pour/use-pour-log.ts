import { useEffect, useMemo, useState } from 'react';
import type { Pour, PourEvent } from '../../../shared-core/book/pour-record.ts';
import { readLog, stateAt, type PourRecordPlan, type PourState } from '../../../shared-core/pour/pour-state.ts';
import { newId, nowInstant } from '../../book/command.ts';
import { logEntry } from '../../book/pour-record-commands.ts';
import { pourQueue, type Makes, type QueueView } from '../../book/pour-queue.ts';
import { askDesk } from '../../desk/desk-client.ts';
import { heldValue, type HeldValue } from '../../desk/held-value.ts';

export type { Makes } from '../../book/pour-queue.ts';

export interface PourLogView extends Omit<QueueView, 'last'> {
  /** The entry stored last, apart from the view: it shows in the frame after the write, before the screen is drawn again. */
  readonly logged: HeldValue<PourEvent | null>;
  /** The state by the stored entries. */
  readonly state: PourState;
  /** The state with every entry logged so far: the screen is a moment behind it. */
  readonly stateNow: () => PourState;
  readonly log: (makes: Makes) => void;
  readonly answer: (yes: boolean) => void;
  readonly retry: () => void;
}

/** Delay before a failed entry is retried, ms. */
const RETRY_MS = 2000;
/** An entry can be newer than the last tick of the screen's clock by this much, ms. */
const TICK_LAG_MS = 2000;

/**
 * Writes to the log of a pour in the order of the keys. Entries not stored yet are shown and retried. The log is read once an entry; a
 * tick only adds the ages. A component serves one pour: its queue would lose waiting entries of another.
 */
export function usePourLog(pour: Pour, plan: PourRecordPlan, events: readonly PourEvent[], tick: string): PourLogView {
  const [view, setView] = useState<Omit<QueueView, 'last'>>({ waiting: [], asked: null, problem: null });
  const [logged] = useState(() => heldValue<PourEvent | null>(null));
  const { bagsOnSite } = pour;
  const log = useMemo(() => readLog(plan, { bagsOnSite }, events), [plan, bagsOnSite, events]);
  const [queue] = useState(() =>
    pourQueue(
      { pour, log },
      {
        write: (event) => logEntry({ event, ask: null }),
        keepAside: (of, event) => askDesk('journal.add', { pour: of, event }).catch(() => undefined),
        later: (again) => void setTimeout(again, RETRY_MS),
        now: nowInstant,
        newId,
        onChange: ({ last, ...next }) => {
          if (logged.get() !== last) logged.set(last);
          // Waiting entries show only with a problem, so a key that is stored at once draws nothing.
          setView((shown) => (shown.asked === next.asked && shown.problem === null && next.problem === null ? shown : next));
        },
      },
    ),
  );
  useEffect(() => queue.follow(pour, log), [queue, pour, log]);
  const latest = events.reduce((most, event) => (event.instant > most ? event.instant : most), '');
  const isLagging = latest > tick && Date.parse(latest) - Date.parse(tick) < TICK_LAG_MS;
  const state = stateAt(log, isLagging ? latest : tick);
  return { ...view, logged, state, stateNow: queue.state, log: queue.log, answer: queue.answer, retry: () => void queue.retry() };
}
