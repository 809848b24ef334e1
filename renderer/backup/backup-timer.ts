/** When an automatic backup is due. */

/** Pause in edits before a backup, ms. */
const SETTLED_MS = 3 * 60_000;
/** Longest time between backups during steady work, ms. */
const LONGEST_MS = 10 * 60_000;
/** Delay after the start, for what the last run did not back up, ms. */
const AFTER_START_MS = 15_000;

export type BackupTimer = { readonly changed: () => void; readonly stop: () => void };

/** Calls back when a backup is due: soon after the start, when edits pause, and every ten minutes of steady work. */
export function backupTimer(due: () => void): BackupTimer {
  let settled: ReturnType<typeof setTimeout> | undefined;
  let longest: ReturnType<typeof setTimeout> | undefined;
  const fire = (): void => {
    clearTimeout(settled);
    clearTimeout(longest);
    longest = undefined;
    due();
  };
  settled = setTimeout(fire, AFTER_START_MS);
  return {
    changed: () => {
      clearTimeout(settled);
      settled = setTimeout(fire, SETTLED_MS);
      longest ??= setTimeout(fire, LONGEST_MS);
    },
    stop: () => {
      clearTimeout(settled);
      clearTimeout(longest);
    },
  };
}
