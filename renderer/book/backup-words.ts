/** When the last backup was made, for the title block. */
import { formatInstantDay, formatInstantTime, dayOfInstant } from '../../shared-core/measure/moment.ts';
import { useBackupState } from './backup-commands.ts';

/** `Backup 9:12 am`, the day instead when it was not today; a failed backup says so. Null while reading or before the first one. */
export function useBackupWords(now: string, timeZone: string, locale: string): string | null {
  const state = useBackupState();
  if (state === undefined) return null;
  if (state.failed !== null) return 'Backup failed';
  if (state.instant === null) return null;
  const today = dayOfInstant(state.instant, timeZone) === dayOfInstant(now, timeZone);
  return `Backup ${today ? formatInstantTime(state.instant, timeZone, locale) : formatInstantDay(state.instant, timeZone, 'short', locale)}`;
}
