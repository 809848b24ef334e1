import { useEffect } from 'react';
import { changedSinceBackup, watchRecords } from '../book/backup-commands.ts';
import { openBackup, useOpenBackup } from '../book/open-read-only.ts';
import { readyWords } from '../book/words.ts';
import { backupTimer } from './backup-timer.ts';
import { makeBackup } from './make-backup.ts';

/** Once the first screen is shown. */
const WORDS_AFTER_MS = 4000;

const backUpIfChanged = async (reason: 'automatic' | 'closing'): Promise<void> => {
  try {
    if (await changedSinceBackup()) await makeBackup(reason);
  } catch {
    // A database that cannot be read says so where it is used.
  }
};

/** Backs up automatically: when changes settle, every ten minutes of steady work, and when the window closes. Shows nothing. */
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
    // Nothing to do except after a restore or the first time.
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
