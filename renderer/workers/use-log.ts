import { proxy, wrap } from 'comlink';
import { useEffect, useMemo, useState } from 'react';
import type { NamedTable } from '../parts/read-table.ts';
import type { LogWork } from './log.worker.ts';
import { type LogAsked, type LogRead, openLogTables, pastedTables, readLog, rowsOf } from './read-log.ts';

/** Shorter texts are read in the page, characters: that is faster than sending them. */
export const AT_ONCE_LETTERS = 20_000;
/** Share of the work that loading a file takes, 0 to 1. */
const OPENING_SHARE = 0.3;

export interface LogHad {
  /** Null before it is read, and for an empty one. */
  readonly read: LogRead | null;
  /** Progress, 0 to 1; null when nothing is being read. */
  readonly share: number | null;
  readonly isEmpty: boolean;
  readonly isUnreadable: boolean;
  /** A sentence about a file without a table. */
  readonly refused: string | null;
}

interface OpenLog {
  readonly opened: Promise<number | string>;
  readonly read: (asked: LogAsked, onShare: (share: number) => void) => Promise<LogRead>;
  readonly close: () => void;
}

/** A worker for one file, which is terminated to cancel. */
function openLog(source: File | string): OpenLog {
  const worker = new Worker(new URL('./log.worker.ts', import.meta.url), { type: 'module' });
  const remote = wrap<LogWork>(worker);
  const failed = new Promise<never>((_, reject) => {
    worker.addEventListener('error', () => reject(new Error('The worker could not be started.')));
  });
  // Where no worker can start, the page reads it.
  const inPage = (async (): Promise<{ readonly rows: number | string; readonly tables: readonly NamedTable[] | null }> => {
    try {
      return { rows: await Promise.race([remote.open(source), failed]), tables: null };
    } catch {
      const tables = await openLogTables(source);
      return typeof tables === 'string' ? { rows: tables, tables: [] } : { rows: rowsOf(tables), tables };
    }
  })();
  return {
    opened: inPage.then(({ rows }) => rows),
    read: async (asked, onShare) => {
      const { tables } = await inPage;
      return tables === null ? remote.read(asked, Date.now(), proxy(onShare)) : readLog(tables, asked, Date.now(), onShare);
    },
    close: () => worker.terminate(),
  };
}

const NOTHING: LogHad = { read: null, share: null, isEmpty: false, isUnreadable: false, refused: null };

/**
 * Reads a logger's file or a pasted table, a long one in a worker. Another source, or none, cancels it.
 * @param source the file or the text; null for none
 * @param asked how to read it; must be the same object while nothing changes
 */
export function useLog(source: File | string | null, asked: LogAsked): LogHad {
  const isSmall = typeof source === 'string' && source.length <= AT_ONCE_LETTERS;
  const tables = useMemo(() => (isSmall ? pastedTables(source) : null), [source, isSmall]);
  const atOnce = useMemo(() => (tables === null || rowsOf(tables) === 0 ? null : readLog(tables, asked, Date.now())), [tables, asked]);
  const [open, setOpen] = useState<{ readonly of: File | string; readonly log: OpenLog; readonly rows: number | string | null } | null>(
    null,
  );
  const [latest, setLatest] = useState<{ readonly log: OpenLog; readonly asked: LogAsked; readonly read: LogRead } | null>(null);
  const [done, setDone] = useState<{ readonly log: OpenLog; readonly asked: LogAsked; readonly share: number } | null>(null);
  useEffect(() => {
    if (source === null || isSmall) return undefined;
    let isGone = false;
    const log = openLog(source);
    const opened = (rows: number | string | null) => {
      if (!isGone) setOpen({ of: source, log, rows });
    };
    log.opened.then(opened, () => opened(null));
    return () => {
      isGone = true;
      log.close();
    };
  }, [source, isSmall]);
  const log = open !== null && open.of === source && typeof open.rows === 'number' && open.rows > 0 ? open.log : null;
  useEffect(() => {
    if (log === null) return undefined;
    let isGone = false;
    const unlessGone =
      <T>(say: (value: T) => void) =>
      (value: T): void => {
        if (!isGone) say(value);
      };
    log
      .read(
        asked,
        unlessGone((share: number) => setDone({ log, asked, share })),
      )
      .then(
        unlessGone((read: LogRead) => setLatest({ log, asked, read })),
        unlessGone(() => setOpen((current) => (current === null ? current : { ...current, rows: null }))),
      );
    return () => {
      isGone = true;
    };
  }, [log, asked]);
  if (source === null) return NOTHING;
  if (isSmall) return { ...NOTHING, read: atOnce };
  if (open?.of !== source) return { ...NOTHING, share: 0 };
  if (open.rows === null) return { ...NOTHING, isUnreadable: true };
  if (typeof open.rows === 'string') return { ...NOTHING, refused: open.rows };
  if (open.rows === 0) return { ...NOTHING, isEmpty: true };
  const read = latest?.log === log ? latest.read : null;
  if (read !== null && latest?.asked === asked) return { ...NOTHING, read };
  const rowsDone = done !== null && done.log === log && done.asked === asked ? done.share : 0;
  return { ...NOTHING, read, share: OPENING_SHARE + (1 - OPENING_SHARE) * rowsDone };
}
