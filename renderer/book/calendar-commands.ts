/**
 * State of the calendar files of this computer, also while a backup is open: the entries sent, so that the next file counts up their
 * sequence numbers, and whether files are updated automatically.
 */
import { useLiveQuery } from 'dexie-react-hooks';
import type { CalendarFeed } from '../../shared-core/agenda/calendar-feed.ts';
import type { CalendarEntry } from '../../shared-core/book/papers.ts';
import { ownBook } from './database.ts';
import { readable } from './integrity.ts';
import { type Outcome, stored } from './command.ts';

/** Records the entries of a saved calendar file. Not an edit, because undo must not change it. */
export function noteCalendarSent(feed: Pick<CalendarFeed, 'records'>): Promise<Outcome> {
  return stored(() =>
    ownBook()
      .rowsOf('calendarEntries')
      .bulkPut([...feed.records]),
  );
}

/** Entries of earlier calendar files, for one job or all. Archived jobs are included, because their dates have to be canceled. */
export async function readCalendarSent(jobId: string | null): Promise<CalendarEntry[]> {
  const table = ownBook().rowsOf('calendarEntries');
  return readable('calendarEntries', await (jobId === null ? table.toArray() : table.where('jobId').equals(jobId).toArray()));
}

/** `off`: saved on request; `book`: one file rewritten as dates change; `jobs`: also one for each job. */
export type CalendarFollowing = 'off' | 'book' | 'jobs';

export type CalendarState = {
  readonly following: CalendarFollowing;
  readonly writtenAt: string | null;
  /** Name of the file with all dates, as last saved. */
  readonly file: string | null;
  /** Why the last save failed; null when it succeeded. */
  readonly failed: string | null;
  /** Fingerprint of each file's last content, by file name. */
  readonly fingerprints: Readonly<Record<string, string>>;
};

const KEY = 'calendar/state';
const NONE: CalendarState = { following: 'off', writtenAt: null, file: null, failed: null, fingerprints: {} };

export async function readCalendarState(): Promise<CalendarState> {
  return { ...NONE, ...((await ownBook().meta.get(KEY))?.value as Partial<CalendarState> | undefined) };
}

export function changeCalendarState(edit: (state: CalendarState) => CalendarState): Promise<Outcome> {
  return stored(() =>
    ownBook().transaction('rw', ownBook().meta, async () => {
      await ownBook().meta.put({ key: KEY, value: edit(await readCalendarState()) });
    }),
  );
}

export function useCalendarState(): CalendarState | undefined {
  return useLiveQuery(readCalendarState, []);
}
