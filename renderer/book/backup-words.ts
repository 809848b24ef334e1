/** When the last backup was made, for the title block. */
import { formatInstantDay, formatInstantTime, dayOfInstant } from '../../shared-core/measure/moment.ts';
import { useBackupState } from './backup-commands.ts';

/** `Backup 9:12 am`, or the day when it was not today, or that it failed. Null while loading or before the first backup. */
export function useBackupWords(now: string, timeZone: string, locale: string): string | null {
  const state = useBackupState();
  if (state === undefined) return null;
  if (state.failed !== null) return 'Backup failed';
  if (state.instant === null) return null;
  const today = dayOfInstant(state.instant, timeZone) === dayOfInstant(now, timeZone);
  return `Backup ${today ? formatInstantTime(state.instant, timeZone, locale) : formatInstantDay(state.instant, timeZone, 'short', locale)}`;
}
