import { useEffect } from 'react';
import { lookingAt, useLooking } from '../book/look-book.ts';
import { nowInstant } from '../book/moment.ts';
import { changedSinceCopy, watchRecords } from '../book/snapshot-commands.ts';
import { readyWords } from '../book/words.ts';
import { keepCopy } from './keep-copy.ts';

/** The book is copied when nothing has changed for this long. */
const SETTLED_MS = 3 * 60_000;
/** What the last run left uncopied is copied soon after opening. */
const AFTER_OPENING_MS = 15_000;

/** Once the first sheet stands. */
const WORDS_AFTER_MS = 4000;

/** Copies the book without being asked: after changes settle, and when the window goes away. Shows nothing. */
export function BackupWatch() {
  const looking = useLooking();
  useEffect(() => {
    // A copy is not copied.
    if (lookingAt() !== null) return undefined;
    let timer: ReturnType<typeof setTimeout> | undefined;
    const copyIfChanged = (reason: 'settled' | 'closing'): void => {
      clearTimeout(timer);
      void changedSinceCopy().then((changed) => (changed ? keepCopy(reason) : undefined));
    };
    const later = (ms: number): void => {
      clearTimeout(timer);
      timer = setTimeout(() => copyIfChanged('settled'), ms);
    };
    const stop = watchRecords(nowInstant, () => later(SETTLED_MS));
    const hidden = (): void => {
      if (document.visibilityState === 'hidden') copyIfChanged('closing');
    };
    document.addEventListener('visibilitychange', hidden);
    later(AFTER_OPENING_MS);
    // Nothing to do but after a restored copy or the first time.
    const words = setTimeout(() => void readyWords().catch(() => undefined), WORDS_AFTER_MS);
    return () => {
      clearTimeout(words);
      clearTimeout(timer);
      stop();
      document.removeEventListener('visibilitychange', hidden);
    };
  }, [looking]);
  return null;
}
