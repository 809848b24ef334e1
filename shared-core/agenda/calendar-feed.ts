/**
 * What a calendar file says: one event per entry, its UID for life, its SEQUENCE raised when it changes (RFC 5545, 3.8.7.4).
 * What was told and is done stays for good, confirmed, with when it was done: an event has no status of its own for that
 * (3.8.1.11), and one cancelled would vanish from the calendar of whoever looks back. Cancelled is only what was dropped.
 * Writing the file itself is the desk's work.
 */
import { z } from 'zod';
import { instantSchema } from '../book/fields.ts';
import type { CalendarEntry } from '../book/papers.ts';
import { isSettled } from './agenda.ts';
import type { AgendaEntry } from './agenda-entry.ts';
import { calendarAlarms } from './alarms.ts';
import type { Asked, Became } from './became.ts';
import { dayOfNumber } from '../standing/local-days.ts';

export type CalendarEvent = {
  /** Globally unique and never changed (RFC 5545, 3.8.4.7). */
  readonly uid: string;
  readonly jobId: string;
  readonly sequence: number;
  readonly status: 'CONFIRMED' | 'TENTATIVE' | 'CANCELLED';
  readonly summary: string;
  readonly description: string;
  readonly location: string;
  /** Instants in UTC, so that they are right across daylight saving changes. */
  readonly startAt: string;
  readonly endAt: string;
  /** For an all-day event its day, `2026-05-12`, and the day after it ends (exclusive); null for a timed one. */
  readonly day: { readonly from: string; readonly until: string } | null;
  readonly timeZone: string;
  /** Minutes before the start; negative for after it, in an event of whole days. */
  readonly alarmsMin: readonly number[];
  /** The crew is there: other calendars show the time as busy. */
  readonly busy: boolean;
};

export type CalendarFeed = {
  readonly events: readonly CalendarEvent[];
  /** Stored after the file is written, for comparison with the next one. */
  readonly records: readonly CalendarEntry[];
};

/** Length shown for an entry without an end. */
const OPEN_END_MIN = 30;

/** FNV-1a, twice with different seeds: tells a changed entry from an unchanged one, not a secret. */
export function fingerprint(text: string): string {
  const run = (seed: number): string => {
    let hash = seed;
    for (let i = 0; i < text.length; i++) hash = Math.imul(hash ^ text.charCodeAt(i), 0x01000193) >>> 0;
    return hash.toString(16).padStart(8, '0');
  };
  return run(0x811c9dc5) + run(0x9747b28c);
}

/** What was last sent, stored so that it can be sent again unchanged. */
const sentSchema = z.strictObject({
  summary: z.string(),
  description: z.string().default(''),
  location: z.string(),
  startAt: instantSchema,
  endAt: instantSchema,
  day: z.strictObject({ from: z.string(), until: z.string() }).nullable(),
  timeZone: z.string(),
  /** It has left the agenda and stays in the file; `says` is empty where nothing had to be done. */
  past: z.strictObject({ text: z.string() }).optional(),
});
type Sent = z.infer<typeof sentSchema>;

const AT_HOME = '@straightedge';

type Drafted = Omit<CalendarEvent, 'sequence'>;

/** Kinds that are certain without an accepted quote. */
const PAPERWORK: ReadonlySet<AgendaEntry['kind']> = new Set([
  'lead-step',
  'quote-waits',
  'quote-expires',
  'finish-quote',
  'lab-result',
  'payment-due',
  'refund-due',
  'lien-notice',
  'lien-deadline',
]);

function draft(entry: AgendaEntry): Drafted {
  const endMs = Date.parse(entry.until ?? entry.instant) + (entry.until === null ? OPEN_END_MIN * 60_000 : 0);
  return {
    uid: `${entry.key}${AT_HOME}`,
    jobId: entry.jobId,
    status: entry.agreed || PAPERWORK.has(entry.kind) ? 'CONFIRMED' : 'TENTATIVE',
    summary: entry.title,
    description: [`${entry.verb} ${entry.rest}`, ...(entry.note === null ? [] : [entry.note])].join('\n'),
    location: entry.place,
    startAt: entry.arriveAt,
    endAt: new Date(endMs).toISOString(),
    // Only the time the crew is there is blocked. Everything else is about a day.
    day: entry.onSite ? null : { from: dayOfNumber(entry.day), until: dayOfNumber(entry.day + 1) },
    timeZone: entry.timeZone,
    alarmsMin: calendarAlarms(entry),
    busy: entry.onSite,
  };
}

function markOf(event: Drafted): string {
  const { summary, description, location, startAt, endAt, day, status, alarmsMin, busy } = event;
  return fingerprint(JSON.stringify([summary, description, location, startAt, endAt, day, status, alarmsMin, busy]));
}

type Numbered = { readonly event: CalendarEvent; readonly record: CalendarEntry };

/** Sets SEQUENCE: one higher than before when the content changed. */
function numbered(event: Drafted, sent: Sent, known: CalendarEntry | undefined, now: string): Numbered {
  const fingerprinted = markOf(event);
  const cancelled = event.status === 'CANCELLED';
  const changed = known !== undefined && (known.fingerprint !== fingerprinted || known.cancelled !== cancelled);
  const sequence = known === undefined ? 0 : known.sequence + (changed ? 1 : 0);
  return {
    event: { ...event, sequence },
    record: {
      id: known?.id ?? `cal-${fingerprint(event.uid)}`,
      createdAt: known?.createdAt ?? now,
      changedAt: now,
      deletedAt: null,
      jobId: event.jobId,
      uid: event.uid,
      sequence,
      fingerprint: fingerprinted,
      cancelled,
      lastSentAt: now,
      note: JSON.stringify(sent),
    },
  };
}

function sentBefore(known: CalendarEntry): Sent | null {
  try {
    const read = sentSchema.safeParse(JSON.parse(known.note));
    return read.success ? read.data : null;
  } catch {
    return null;
  }
}

/** An entry that left the agenda, unchanged but with a sentence about what was done. */
function leftOver(known: CalendarEntry, sent: Sent, past: Sent['past']): Drafted {
  const { summary, description, location, startAt, endAt, day, timeZone } = sent;
  const own = { uid: known.uid, jobId: known.jobId, location, startAt, endAt, day, timeZone, alarmsMin: [], busy: day === null };
  if (past === undefined) return { ...own, status: 'CANCELLED', summary, description: '' };
  const { text } = past;
  return text === '' ? { ...own, status: 'CONFIRMED', summary, description } : { ...own, status: 'CONFIRMED', summary, description: text };
}

function gone(known: CalendarEntry, sent: Sent, became: Became | null, now: string): Numbered {
  // A job that was not read keeps its earlier entries.
  if (became === null) return numbered(leftOver(known, sent, sent.past), sent, known, now);
  const span = became.kind === 'done' && became.span !== null ? { ...became.span, day: null } : {};
  const { past: _, ...withoutPast } = { ...sent, ...span };
  // Of completed entries only visits stay in the file.
  if (became.kind === 'dropped' || (became.kind === 'done' && sent.day !== null))
    return numbered(leftOver(known, withoutPast, undefined), withoutPast, known, now);
  const past = { text: became.kind === 'done' ? became.text : '' };
  return numbered(leftOver(known, withoutPast, past), { ...withoutPast, past }, known, now);
}

/** Whether an entry is canceled or stays for good, so that its job need not be read again. */
export function hasEnded(known: CalendarEntry): boolean {
  return known.cancelled || sentBefore(known)?.past !== undefined;
}

/**
 * The events of a calendar file.
 * @param entries what the agenda says now: of one job, or of all
 * @param known what was sent before, of the same job or of all
 * @param becameOf what became of one that is no longer on the agenda; null where its job was not read
 * @param now stands in the records as when they were sent
 */
export function calendarFeed(
  entries: readonly AgendaEntry[],
  known: readonly CalendarEntry[],
  becameOf: (asked: Asked & { readonly jobId: string }) => Became | null,
  now: string,
): CalendarFeed {
  const byUid = new Map(known.map((k) => [k.uid, k]));
  const events: Numbered[] = [];
  const current = new Set<string>();
  for (const entry of entries) {
    if (entry.dueAt === null || isSettled(entry, now)) continue;
    const event = draft(entry);
    const { summary, description, location, startAt, endAt, day, timeZone } = event;
    current.add(event.uid);
    events.push(numbered(event, { summary, description, location, startAt, endAt, day, timeZone }, byUid.get(event.uid), now));
  }
  for (const before of known) {
    const sent = current.has(before.uid) ? null : sentBefore(before);
    if (sent === null) continue;
    const key = before.uid.slice(0, -AT_HOME.length);
    events.push(gone(before, sent, becameOf({ key, startAt: sent.startAt, jobId: before.jobId }), now));
  }
  return { events: events.map((m) => m.event), records: events.map((m) => m.record) };
}
