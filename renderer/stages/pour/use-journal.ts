import { useEffect, useRef, useState } from 'react';
import type { Pour, PourEvent } from '../../../shared-core/book/pour-record.ts';
import { openBackup } from '../../book/open-read-only.ts';
import { followPour } from '../../book/recovery-log.ts';

/** Long enough to read with both hands full, ms. */
const SHOWN_MS = 90_000;

/**
 * Follows a pour with its recovery log until its last entry.
 * @returns recovered entries or why the log cannot be written, for a while; else null
 */
export function useJournal(pour: Pour | null | undefined, events: readonly PourEvent[] | undefined): string | null {
  const [message, setMessage] = useState<string | null>(null);
  const follow = useRef<{ readonly pourId: string; readonly on: ReturnType<typeof followPour> } | null>(null);
  useEffect(() => {
    if (message === null) return undefined;
    const timer = setTimeout(() => setMessage(null), SHOWN_MS);
    return () => clearTimeout(timer);
  }, [message]);
  useEffect(() => {
    if (pour === null || pour === undefined || events === undefined || openBackup() !== null) return;
    // A finished pour was already followed.
    if (follow.current?.pourId !== pour.id)
      follow.current = pour.finishedAt === null ? { pourId: pour.id, on: followPour(pour.id, setMessage) } : null;
    follow.current?.on(pour, events);
  }, [pour, events]);
  return message;
}
