import { useEffect } from 'react';
import { TABLE_NAMES } from '../../shared-core/book/tables.ts';
import { openBackup, useOpenBackup } from '../book/open-read-only.ts';
import { onRecords } from '../book/on-records.ts';
import type { Behind } from './background.ts';

/** Starts after the first screen is drawn, ms. */
const AFTER_OPENING_MS = 8000;
const MINUTE_MS = 60_000;
/** Pause in edits before the agenda is read, ms. */
const SETTLED_MS = 4000;
/** Photos and calendar entries do not change the agenda. */
const SPEAKING = TABLE_NAMES.filter((table) => table !== 'calendarEntries' && table !== 'photos');

/** During a pour nothing may delay its screen. */
const isPouring = (): boolean => location.hash.startsWith('#/pour/');

/** Shows reminders and updates the calendar files from any screen. Draws nothing. */
export function AgendaWatch() {
  const looking = useOpenBackup();
  useEffect(() => {
    // A read-only backup has no reminders.
    if (openBackup() !== null) return undefined;
    let reading: Promise<Behind> | null = null;
    let isUnmounted = false;
    // Loaded on first use.
    const work = (): Promise<Behind> => (reading ??= import('./background.ts').then((m) => m.behind()));
    const pass = (): void => void work().then((background) => (isUnmounted ? undefined : background.pass(!isPouring())));
    let settling: ReturnType<typeof setTimeout> | undefined;
    const opening = setTimeout(pass, AFTER_OPENING_MS);
    const minute = setInterval(pass, MINUTE_MS);
    const heard = (): void => {
      clearTimeout(settling);
      settling = setTimeout(() => {
        void work().then((background) => background.changed());
        pass();
      }, SETTLED_MS);
    };
    const stop = onRecords(heard, SPEAKING);
    return () => {
      isUnmounted = true;
      clearTimeout(opening);
      clearTimeout(settling);
      clearInterval(minute);
      stop();
    };
  }, [looking]);
  return null;
}
