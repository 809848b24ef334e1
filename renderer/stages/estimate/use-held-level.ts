import { useEffect, useRef, useState } from 'react';
import type { LevelChoice } from '../../../shared-core/book/job.ts';

/** Saves the level this long after the last key, ms. */
const SETTLES_MS = 900;
/** By then the database has stored or refused it, ms. */
const SHOWN_BY_MS = 1500;

/** A level being dragged, saved when it is released. */
export interface HeldLevel {
  /** Null when none is being dragged. */
  readonly level: LevelChoice | null;
  readonly hold: (level: LevelChoice) => void;
  /** Like `hold`, but saves when no other key follows. */
  readonly step: (level: LevelChoice) => void;
  readonly save: () => void;
  readonly letGo: () => void;
}

const isSame = (a: LevelChoice, b: LevelChoice): boolean => JSON.stringify(a) === JSON.stringify(b);

/** Keeps a dragged level apart from the record until it is released, so that a drag is one step of undo and Escape cancels it. */
export function useHeldLevel(recorded: LevelChoice, write: (level: LevelChoice) => void): HeldLevel {
  const [held, setHeld] = useState<{ readonly level: LevelChoice; readonly isWritten: boolean } | null>(null);
  const timer = useRef<ReturnType<typeof setTimeout> | undefined>(undefined);
  const latestHeld = useRef(held);
  useEffect(() => () => clearTimeout(timer.current), []);
  // Called when it is stored and shown.
  if (held?.isWritten === true && isSame(held.level, recorded)) setHeld(null);
  const setHeldLevel = (next: typeof held): void => {
    clearTimeout(timer.current);
    latestHeld.current = next;
    setHeld(next);
  };
  const save = (): void => {
    const now = latestHeld.current;
    if (now === null || now.isWritten) return;
    if (isSame(now.level, recorded)) {
      setHeldLevel(null);
      return;
    }
    setHeldLevel({ level: now.level, isWritten: true });
    timer.current = setTimeout(() => setHeldLevel(null), SHOWN_BY_MS);
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
    hold: (level) => setHeldLevel({ level, isWritten: false }),
    step: (level) => {
      setHeldLevel({ level, isWritten: false });
      timer.current = setTimeout(() => latest.current(), SETTLES_MS);
    },
    save,
    letGo: () => setHeldLevel(null),
  };
}
