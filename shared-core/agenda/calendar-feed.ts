/**
 * What a calendar file says: one event an entry, its UID for life, its SEQUENCE raised when it changes, entries that are
 * gone sent as cancelled (RFC 5545, 3.8.7.4 and 3.8.1.11). Writing the file itself is the desk's work.
 */
import { z } from 'zod';
import { instantSchema } from '../book/fields.ts';
import type { CalendarEntry } from '../book/papers.ts';
import type { AgendaEntry } from './agenda-entry.ts';
import { ALARMS_MIN } from './alarms.ts';
import { dayOfNumber } from './local-days.ts';

export type CalendarEvent = {
  /** Globally unique and the same for ever (RFC 5545, 3.8.4.7). */
  readonly uid: string;
  readonly jobId: string;
  readonly sequence: number;
  readonly status: 'CONFIRMED' | 'TENTATIVE' | 'CANCELLED';
  readonly summary: string;
  readonly description: string;
  readonly location: string;
  /** Instants in UTC: written as UTC, they are right across every change of the clocks. */
  readonly startAt: string;
  readonly endAt: string;
  /** For an all-day event its day, `2026-05-12`, and the day after it ends (exclusive); null for a timed one. */
  readonly day: { readonly from: string; readonly until: string } | null;
  readonly timeZone: string;
  /** Minutes before the start. */
  readonly alarmsMin: readonly number[];
};

export type CalendarFeed = {
  readonly events: readonly CalendarEvent[];
  /** To be stored once the file is written, so that the next one knows what was sent. */
  readonly records: readonly CalendarEntry[];
};

/** An entry with no end is shown for so long. */
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

/** What was last sent, kept in the record so that it can be cancelled as it stood. */
const sentSchema = z.strictObject({
  summary: z.string(),
  location: z.string(),
  startAt: instantSchema,
  endAt: instantSchema,
  day: z.strictObject({ from: z.string(), until: z.string() }).nullable(),
  timeZone: z.string(),
});

type Drafted = Omit<CalendarEvent, 'sequence'>;

function draft(entry: AgendaEntry): Drafted {
  const endMs = Date.parse(entry.until ?? entry.at) + (entry.until === null ? OPEN_END_MIN * 60_000 : 0);
  return {
    uid: `${entry.key}@straightedge`,
    jobId: entry.jobId,
    status:
      entry.agreed || entry.kind === 'quote-lapses' || entry.kind === 'finish-quote' || entry.kind === 'lab-result'
        ? 'CONFIRMED'
        : 'TENTATIVE',
    summary: `${entry.verb} ${entry.rest}`.replace(/\.$/, ''),
    description: entry.note ?? '',
    location: entry.place,
    startAt: entry.at,
    endAt: new Date(endMs).toISOString(),
    day: entry.allDay ? { from: dayOfNumber(entry.day), until: dayOfNumber(entry.day + 1) } : null,
    timeZone: entry.timeZone,
    alarmsMin: ALARMS_MIN[entry.kind],
  };
}

function markOf(event: Drafted): string {
  const { summary, description, location, startAt, endAt, day, status, alarmsMin } = event;
  return fingerprint(JSON.stringify([summary, description, location, startAt, endAt, day, status, alarmsMin]));
}

function record(event: Drafted, sequence: number, known: CalendarEntry | undefined, mark: string, now: string): CalendarEntry {
  const { summary, location, startAt, endAt, day, timeZone } = event;
  return {
    id: known?.id ?? `cal-${fingerprint(event.uid)}`,
    createdAt: known?.createdAt ?? now,
    changedAt: now,
    deletedAt: null,
    jobId: event.jobId,
    uid: event.uid,
    sequence,
    fingerprint: mark,
    cancelled: event.status === 'CANCELLED',
    lastSentAt: now,
    note: JSON.stringify({ summary, location, startAt, endAt, day, timeZone }),
  };
}

function sentBefore(known: CalendarEntry): Drafted | null {
  let note: unknown;
  try {
    note = JSON.parse(known.note);
  } catch {
    return null;
  }
  const read = sentSchema.safeParse(note);
  if (!read.success) return null;
  return { ...read.data, uid: known.uid, jobId: known.jobId, status: 'CANCELLED', description: '', alarmsMin: [] };
}

/**
 * The events of a calendar file.
 * @param entries what the agenda says now: of one job, or of all
 * @param known what was sent before, of the same job or of all
 * @param now stands in the records as when they were sent
 */
export function calendarFeed(entries: readonly AgendaEntry[], known: readonly CalendarEntry[], now: string): CalendarFeed {
  const byUid = new Map(known.map((k) => [k.uid, k]));
  const events: CalendarEvent[] = [];
  const records: CalendarEntry[] = [];
  const current = new Set<string>();
  for (const entry of entries) {
    const event = draft(entry);
    const before = byUid.get(event.uid);
    const mark = markOf(event);
    const changed = before !== undefined && (before.fingerprint !== mark || before.cancelled);
    const sequence = before === undefined ? 0 : before.sequence + (changed ? 1 : 0);
    current.add(event.uid);
    events.push({ ...event, sequence });
    records.push(record(event, sequence, before, mark, now));
  }
  for (const before of known) {
    if (current.has(before.uid)) continue;
    const event = sentBefore(before);
    if (event === null) continue;
    // An entry cancelled already stays cancelled at the number it was cancelled with.
    const sequence = before.sequence + (before.cancelled ? 0 : 1);
    events.push({ ...event, sequence });
    records.push(record(event, sequence, before, markOf(event), now));
  }
  return { events, records };
}
