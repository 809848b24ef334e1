/** When the book was last copied, for the title block. */
import { formatInstantDay, formatInstantTime, dayOfInstant } from '../../shared-core/measure/moment.ts';
import { useCopyState } from './snapshot-commands.ts';

/** `Book copied 9:12`, the day instead when it was not today; a failed copy says so. Null while reading or before the first one. */
export function useCopyWords(now: string, timeZone: string, locale: string): string | null {
  const state = useCopyState();
  if (state === undefined) return null;
  if (state.failed !== null) return 'Copying the book failed';
  if (state.at === null) return null;
  const today = dayOfInstant(state.at, timeZone) === dayOfInstant(now, timeZone);
  return `Book copied ${today ? formatInstantTime(state.at, timeZone, locale) : formatInstantDay(state.at, timeZone, 'short', locale)}`;
}
