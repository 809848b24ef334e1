/** Calendar files: the text by the desk, then what was sent kept, so that the next file raises the right numbers. */
import type { CalendarFeed } from '../../shared-core/agenda/calendar-feed.ts';
import { book } from './database.ts';
import { done, explainDatabase, type Outcome } from './outcome.ts';

/** Notes what a calendar file told, once it is kept. Not an edit: undo must not unsay it. */
export async function noteCalendarSent(feed: CalendarFeed): Promise<Outcome> {
  try {
    await book()
      .rowsOf('calendarEntries')
      .bulkPut([...feed.records]);
    return done(undefined);
  } catch (error) {
    return explainDatabase(error);
  }
}
