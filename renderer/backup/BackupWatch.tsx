import { useEffect } from 'react';
import { changedSinceBackup, watchRecords } from '../book/backup-commands.ts';
import { openBackup, useOpenBackup } from '../book/open-read-only.ts';
import { readyWords } from '../book/words.ts';
import { backupTimer } from './backup-timer.ts';
import { makeBackup } from './make-backup.ts';

/** Starts after the first screen has been shown. */
const WORDS_AFTER_MS = 4000;

const backUpIfChanged = async (reason: 'automatic' | 'closing'): Promise<void> => {
  try {
    if (await changedSinceBackup()) await makeBackup(reason);
  } catch {
    // A database that cannot be read is reported by the screen that reads it.
  }
};

/** Backs up automatically: when edits pause, every ten minutes of steady work, and when the window closes. Draws nothing. */
export function BackupWatch() {
  const open = useOpenBackup();
  useEffect(() => {
    // A backup that is open read-only is not backed up.
    if (openBackup() !== null) return undefined;
    const timer = backupTimer(() => void backUpIfChanged('automatic'));
    const stop = watchRecords(timer.changed);
    const hidden = (): void => {
      if (document.visibilityState === 'hidden') void backUpIfChanged('closing');
    };
    document.addEventListener('visibilitychange', hidden);
    const words = setTimeout(() => void readyWords().catch(() => undefined), WORDS_AFTER_MS);
    return () => {
      clearTimeout(words);
      timer.stop();
      stop();
      document.removeEventListener('visibilitychange', hidden);
    };
  }, [open]);
  return null;
}
