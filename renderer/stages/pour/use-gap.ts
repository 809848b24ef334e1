import { useEffect, useRef, useState } from 'react';
import { noticeWords } from '../../../shared-core/documents/log-words.ts';
import { tickGap } from '../../../shared-core/pour/log-time.ts';

/** A message for some minutes after the computer slept or its clock was changed between two ticks; null otherwise. */
export function useGap(tick: string, tickMs: number): string | null {
  const before = useRef(tick);
  const [shown, setMessage] = useState<{ readonly words: string; readonly instant: string } | null>(null);
  useEffect(() => {
    const gap = tickGap(before.current, tick, tickMs);
    before.current = tick;
    if (gap !== null) setMessage({ words: noticeWords(gap), instant: tick });
  }, [tick, tickMs]);
  return shown !== null && Math.abs(Date.parse(tick) - Date.parse(shown.instant)) < 300_000 ? shown.words : null;
}
