import { useEffect, useMemo, useState } from 'react';
import type { Pour, PourEvent } from '../../../shared-core/book/pour-record.ts';
import type { PourRecordPlan } from '../../../shared-core/pour/pour-state.ts';
import { newId, nowInstant } from '../../book/now-instant.ts';
import { logEntry } from '../../book/pour-record-commands.ts';
import { pourQueue, type Makes, type QueueView } from '../../book/pour-queue.ts';
import { askDesk } from '../../desk/desk-client.ts';

export type { Makes } from '../../book/pour-queue.ts';

export interface PourLog extends QueueView {
  readonly log: (makes: Makes) => void;
  readonly answer: (yes: boolean) => void;
  readonly retry: () => void;
}

/** Delay before a failed entry is retried, ms. */
const RETRY_MS = 2000;

/** Writes to the log of a pour in the order of the keys. Entries not stored yet are shown and retried. */
export function usePourLog(pour: Pour, plan: PourRecordPlan, events: readonly PourEvent[]): PourLog {
  const [view, setView] = useState<QueueView>({ waiting: [], asked: null, problem: null, last: null });
  const queue = useMemo(
    () =>
      pourQueue(
        { pour, plan, events },
        {
          write: (event) => logEntry({ event, ask: null }),
          keepAside: (of, event) => askDesk('journal.add', { pour: of, event }).catch(() => undefined),
          later: (again) => void setTimeout(again, RETRY_MS),
          now: nowInstant,
          newId,
          onChange: setView,
        },
      ),
    // One queue while the pour is open, because a new one would lose waiting entries.
    // oxlint-disable-next-line react/exhaustive-deps
    [pour.id],
  );
  useEffect(() => queue.follow(pour, plan, events), [queue, pour, plan, events]);
  return { ...view, log: queue.log, answer: queue.answer, retry: () => void queue.retry() };
}
