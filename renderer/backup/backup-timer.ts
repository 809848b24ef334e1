/** When an automatic backup is due. */

/** Nothing has changed for this long. */
const SETTLED_MS = 3 * 60_000;
/** Steady work does not put a backup off for longer than this. */
const LONGEST_MS = 10 * 60_000;
/** What the last run did not back up is backed up soon after the start. */
const AFTER_START_MS = 15_000;

export type BackupTimer = { readonly changed: () => void; readonly stop: () => void };

/** Calls back when a backup is due: soon after the start, when changes have settled, and at least every ten minutes of steady work. */
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
