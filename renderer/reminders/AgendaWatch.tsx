import { useEffect } from 'react';
import { TABLE_NAMES } from '../../shared-core/book/tables.ts';
import { openBackup, useOpenBackup } from '../book/open-read-only.ts';
import { onRecords } from '../book/on-records.ts';
import type { Behind } from './behind.ts';

/** Long enough for the first sheet to stand before anything else is read. */
const AFTER_OPENING_MS = 8000;
const MINUTE_MS = 60_000;
/** Changes have settled when nothing has changed for this long. */
const SETTLED_MS = 4000;
/** Neither a photo nor what a calendar file told changes the agenda. */
const SPEAKING = TABLE_NAMES.filter((table) => table !== 'calendarEntries' && table !== 'photos');

/** A pour runs on this sheet: nothing else may make it wait. */
const isPouring = (): boolean => location.hash.startsWith('#/pour/');

/** Says what comes due and keeps the calendar files in step, in every window and on every sheet. Shows nothing. */
export function AgendaWatch() {
  const looking = useOpenBackup();
  useEffect(() => {
    // A copy reminds of nothing.
    if (openBackup() !== null) return undefined;
    let reading: Promise<Behind> | null = null;
    let gone = false;
    // What it is made of is loaded when it is first needed.
    const work = (): Promise<Behind> => (reading ??= import('./behind.ts').then((m) => m.behind()));
    const pass = (): void => void work().then((it) => (gone ? undefined : it.pass(!isPouring())));
    let settling: ReturnType<typeof setTimeout> | undefined;
    const opening = setTimeout(pass, AFTER_OPENING_MS);
    const minute = setInterval(pass, MINUTE_MS);
    const heard = (): void => {
      clearTimeout(settling);
      settling = setTimeout(() => {
        void work().then((it) => it.changed());
        pass();
      }, SETTLED_MS);
    };
    const stop = onRecords(heard, SPEAKING);
    return () => {
      gone = true;
      clearTimeout(opening);
      clearTimeout(settling);
      clearInterval(minute);
      stop();
    };
  }, [looking]);
  return null;
}
