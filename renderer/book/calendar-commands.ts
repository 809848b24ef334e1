/** Calendar files: what was sent, kept so that the next file raises the right numbers; and whether they follow the book by themselves. */
import { useLiveQuery } from 'dexie-react-hooks';
import type { CalendarFeed } from '../../shared-core/agenda/calendar-feed.ts';
import type { CalendarEntry } from '../../shared-core/book/papers.ts';
import { book } from './database.ts';
import { readable } from './integrity.ts';
import { attempt, done, type Outcome } from './outcome.ts';

/** Records the entries of a saved calendar file. Not an edit, because undo must not change it. */
export function noteCalendarSent(feed: Pick<CalendarFeed, 'records'>): Promise<Outcome> {
  return attempt(async () => {
    await book()
      .rowsOf('calendarEntries')
      .bulkPut([...feed.records]);
    return done(undefined);
  });
}

/** Entries of earlier calendar files, of one job or of all, because an archived job has dates to cancel. */
export async function readCalendarSent(jobId: string | null): Promise<CalendarEntry[]> {
  const table = book().rowsOf('calendarEntries');
  return readable('calendarEntries', await (jobId === null ? table.toArray() : table.where('jobId').equals(jobId).toArray()));
}

/** `off`: saved when asked; `book`: one file rewritten as dates change; `jobs`: one for each job besides. */
export type CalendarFollowing = 'off' | 'book' | 'jobs';

export type CalendarState = {
  readonly following: CalendarFollowing;
  /** When the files were last written, and where. */
  readonly writtenAt: string | null;
  readonly folder: string | null;
  /** Why the last try failed; null when it did not. */
  readonly failed: string | null;
  /** What each file last said, by its name. */
  readonly fingerprints: Readonly<Record<string, string>>;
};

const KEY = 'calendar/state';
const NONE: CalendarState = { following: 'off', writtenAt: null, folder: null, failed: null, fingerprints: {} };

/** How it stands with the calendar files of this machine. */
export async function readCalendarState(): Promise<CalendarState> {
  return { ...NONE, ...((await book().meta.get(KEY))?.value as Partial<CalendarState> | undefined) };
}

/** Changes it by a function of it as it stands. */
export function changeCalendarState(edit: (state: CalendarState) => CalendarState): Promise<Outcome> {
  return attempt(() =>
    book().transaction('rw', book().meta, async () => {
      await book().meta.put({ key: KEY, value: edit(await readCalendarState()) });
      return done(undefined);
    }),
  );
}

/** The same, live; undefined while reading. */
export function useCalendarState(): CalendarState | undefined {
  return useLiveQuery(readCalendarState, []);
}
