/** One task, or one date to know about, on a day. */
import type { Stage } from '../standing/stage.ts';
import type { DayNumber } from '../standing/local-days.ts';

export type EntryKind =
  | 'lead-visit'
  | 'lead-step'
  | 'finish-quote'
  | 'quote-waits'
  | 'quote-expires'
  | 'quote-expired'
  | 'order-waits'
  | 'lab-result'
  | 'pour-date'
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
  | 'refund-due'
  | 'lien-notice'
  | 'lien-deadline'
  | 'handover-date'
  | 'handover';

export type AgendaEntry = {
  /** Stable as long as the thing itself: it becomes the calendar's UID. */
  readonly key: string;
  readonly kind: EntryKind;
  /** The job; of a lead, the lead. */
  readonly jobId: string;
  /** Of a lead alone: its customer, which it opens. */
  readonly customerId?: string;
  readonly roomIds: readonly string[];
  /** At most 40 characters, the room first: `Hall, Odell: pour`. It has the hour where a calendar shows none: `Hall, Odell: foot traffic from 4 pm`. */
  readonly title: string;
  /** The sentence begins with this word, set bold. */
  readonly verb: string;
  /** The rest of it, with its full stop. */
  readonly rest: string;
  /** A second line; null for none. */
  readonly note: string | null;
  /** Whether a hold, an overridden one or an unsigned prep line is left. The note says so. */
  readonly isUnready: boolean;
  readonly instant: string;
  /** Of a limit, the earliest moment the work can be done: when the primer is dry. */
  readonly fromAt?: string;
  /** Null where only the start is known. */
  readonly until: string | null;
  readonly allDay: boolean;
  /** The day in the property's time zone. */
  readonly day: DayNumber;
  readonly timeZone: string;
  /** After this it is late. Null for a task without a date, which waits from `day` on, on Today alone: no calendar or reminder has it. */
  readonly dueAt: string | null;
  /** From then on it asks for nothing: what was promised is reached. Null while that is not known. */
  readonly settledAt: string | null;
  /** Whether someone has to act. False for information only, such as a foot traffic date. */
  readonly toDo: boolean;
  /** Whether someone from the business is on site from `arriveAt` until `until`. */
  readonly onSite: boolean;
  /** When the crew arrives: `at`, or earlier where the work needs setting up. */
  readonly arriveAt: string;
  /** Whether the work is running: nobody has to be reminded of it, and it can be neither late nor moved. */
  readonly isUnderWay: boolean;
  /** Promised to the customer for this day. */
  readonly promised: boolean;
  /** The quote is not accepted, so the date is only planned. */
  readonly agreed: boolean;
  readonly place: string;
  /** `pourId` is that of a pour under way. */
  readonly opens: { readonly jobId: string; readonly roomId: string | null; readonly stage: Stage | 'money'; readonly pourId?: string };
};

/**
 * Whether a promised date will be missed: the customer is told at once, however far off it is. One that is at risk is watched, and has to
 * be met on its day.
 */
export const isBrokenPromise = (entry: Pick<AgendaEntry, 'kind' | 'verb'>): boolean => entry.kind === 'promise' && entry.verb === 'Call';
