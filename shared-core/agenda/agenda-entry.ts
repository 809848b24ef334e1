/** One thing to do, or to know, on a day. */
import type { Stage } from '../standing/stage.ts';
import type { DayNumber } from '../standing/local-days.ts';

export type EntryKind =
  | 'finish-quote'
  | 'quote-waits'
  | 'quote-expires'
  | 'order-waits'
  | 'lab-result'
  | 'prep-visit'
  | 'primer-window'
  | 'pour'
  | 'walk-on'
  | 'next-lift'
  | 'clearance-test'
  | 'cover'
  | 'promise'
  | 'visit'
  | 'invoice-ready'
  | 'payment-due'
  | 'lien-notice'
  | 'lien-deadline'
  | 'handover';

export type AgendaEntry = {
  /** Stable as long as the thing itself: it becomes the calendar's UID. */
  readonly key: string;
  readonly kind: EntryKind;
  readonly jobId: string;
  readonly roomIds: readonly string[];
  /** At most 40 characters, the room first, without a clock time: `Hall, Odell: pour`. */
  readonly title: string;
  /** The sentence begins with this word, set bold. */
  readonly verb: string;
  /** The rest of it, with its full stop. */
  readonly rest: string;
  /** A second line; null for none. */
  readonly note: string | null;
  readonly instant: string;
  /** Null where only a beginning is known. */
  readonly until: string | null;
  readonly allDay: boolean;
  /** The day it stands on, in the property's zone. */
  readonly day: DayNumber;
  readonly timeZone: string;
  /** Past this it is late. */
  readonly dueAt: string;
  /** Someone has to act. False for what only has to be known, such as a walk-on date. */
  readonly toDo: boolean;
  /** Somebody of the business has to be there from `arriveAt` until `until`. */
  readonly onSite: boolean;
  /** When the crew arrives: `at`, or earlier where the work needs setting up. */
  readonly arriveAt: string;
  /** Told to the customer for this day. */
  readonly promised: boolean;
  /** Quote not accepted: the date is a plan only. */
  readonly agreed: boolean;
  readonly place: string;
  readonly opens: { readonly jobId: string; readonly roomId: string | null; readonly stage: Stage | 'money' };
};
