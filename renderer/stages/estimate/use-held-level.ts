import { useEffect, useRef, useState } from 'react';
import type { LevelChoice } from '../../../shared-core/book/job.ts';

/** After so long without another key the level stands as it is. */
const SETTLES_MS = 900;
/** By then the book shows what was written, or said why not. */
const SHOWN_BY_MS = 1500;

/** A level under the hand: shown, and written once it is let go. */
export interface HeldLevel {
  /** Null while nobody holds it. */
  readonly level: LevelChoice | null;
  readonly hold: (level: LevelChoice) => void;
  /** As `hold`, and written when no other key follows. */
  readonly step: (level: LevelChoice) => void;
  readonly save: () => void;
  readonly letGo: () => void;
}

const isSame = (a: LevelChoice, b: LevelChoice): boolean => JSON.stringify(a) === JSON.stringify(b);

/** Holds a level apart from the record until it is let go: a drag is one change to undo, and Escape leaves nothing behind. */
export function useHeldLevel(recorded: LevelChoice, write: (level: LevelChoice) => void): HeldLevel {
  const [held, setHeld] = useState<{ readonly level: LevelChoice; readonly isWritten: boolean } | null>(null);
  const timer = useRef<ReturnType<typeof setTimeout> | undefined>(undefined);
  const latestHeld = useRef(held);
  useEffect(() => () => clearTimeout(timer.current), []);
  // Written and shown by the book: nothing is held any more.
  if (held?.isWritten === true && isSame(held.level, recorded)) setHeld(null);
  const put = (next: typeof held): void => {
    clearTimeout(timer.current);
    latestHeld.current = next;
    setHeld(next);
  };
  const save = (): void => {
    const now = latestHeld.current;
    if (now === null || now.isWritten) return;
    if (isSame(now.level, recorded)) {
      put(null);
      return;
    }
    put({ level: now.level, isWritten: true });
    timer.current = setTimeout(() => put(null), SHOWN_BY_MS);
    write(now.level);
  };
  const latest = useRef(save);
  useEffect(() => {
    latest.current = save;
  });
  useEffect(() => {
    const flush = () => latest.current();
    window.addEventListener('pagehide', flush);
    return () => window.removeEventListener('pagehide', flush);
  }, []);
  return {
    level: held?.level ?? null,
    hold: (level) => put({ level, isWritten: false }),
    step: (level) => {
      put({ level, isWritten: false });
      timer.current = setTimeout(() => latest.current(), SETTLES_MS);
    },
    save,
    letGo: () => put(null),
  };
}
