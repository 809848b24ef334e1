/**
 * Times of the entries of a log, in minutes that never run backward. Entries are read in the order they were written.
 * Where the computer's clock was set back, time continues from the entry before, with a notice. Corrections are applied here, so that
 * every reader of the log sees the corrected time and bags.
 */
import type { PourEvent } from '../book/pour-record.ts';

/** An entry with its minutes since the first entry, and whether a later entry voided it. */
export type LogEntry = {
  /** With its corrections applied. */
  readonly event: PourEvent;
  readonly min: number;
  readonly undone: boolean;
};

/** What is odd about a log or its clock. Minutes are whole. */
export type LogNotice =
  | { readonly kind: 'clock-back' | 'long-gap' | 'asleep'; readonly minutes: number }
  | { readonly kind: 'placed-twice' | 'same-key'; readonly batch: number }
  | { readonly kind: 'more-than-on-site' | 'stack-low' };

export type TimedLog = {
  readonly entries: readonly LogEntry[];
  readonly notices: readonly LogNotice[];
  /** An instant after the last entry, in minutes on the same scale, with a notice when the clock went back since that entry. */
  readonly minuteAt: (instant: string) => { readonly min: number; readonly notice: LogNotice | null };
};

const MINUTE_MS = 60_000;
/** A computer clock may be set back this far by its automatic synchronization without a notice. */
const NUDGE_MS = 1000;
/** A gap this long between two entries raises a question. */
const LONG_GAP_MIN = 30;

/** The entries in order with their minutes. Entries from a handwritten log keep their written times. */
export function timedLog(events: readonly PourEvent[]): TimedLog {
  const ordered = [...events].sort((a, b) => a.seq - b.seq);
  const undone = voidedIds(ordered);
  const corrections = correctionsOf(ordered, undone);
  const notices: LogNotice[] = [];
  let moved = 0;
  let last = -Infinity;
  const backAt = (instant: string): number => Math.max(0, last - Date.parse(instant) - moved);
  const noticeOf = (backMs: number): LogNotice[] => (backMs > NUDGE_MS ? [clockBack(backMs)] : []);
  const minuteOf = (instant: string) => {
    const backMs = backAt(instant);
    notices.push(...noticeOf(backMs));
    moved += backMs;
    last = Date.parse(instant) + moved;
    return last;
  };
  const timed = ordered.map((written) => {
    const before = last;
    const event = corrected(written, corrections);
    let ms = written.estimated ? Date.parse(written.instant) : minuteOf(written.instant);
    if (!written.estimated && Number.isFinite(before) && ms - before > LONG_GAP_MIN * MINUTE_MS) {
      notices.push({ kind: 'long-gap', minutes: Math.round((ms - before) / MINUTE_MS) });
    }
    // A corrected time uses the same scale as the entry it replaces.
    if (event.instant !== written.instant) ms += Date.parse(event.instant) - Date.parse(written.instant);
    return { event, ms, undone: undone.has(written.id) };
  });
  const origin = timed[0]?.ms;
  const entries = timed.map(
    ({ event, ms, undone: isUndone }): LogEntry => ({
      event,
      min: (ms - (origin ?? ms)) / MINUTE_MS,
      undone: isUndone,
    }),
  );
  const minuteAt: TimedLog['minuteAt'] = (instant) => {
    const backMs = Number.isFinite(last) ? backAt(instant) : 0;
    const ms = Date.parse(instant) + moved + backMs;
    return { min: origin === undefined ? 0 : (ms - origin) / MINUTE_MS, notice: noticeOf(backMs)[0] ?? null };
  };
  return { entries, notices, minuteAt };
}

/** The latest corrected time by entry, and the latest corrected bags by batch. */
type Corrections = { readonly at: ReadonlyMap<string, string>; readonly bags: ReadonlyMap<string, number> };

/** The batch of an entry, among those of every pour; null for an entry without bags of a batch. */
const batchKey = (event: PourEvent): string | null =>
  event.kind === 'mixed' || event.kind === 'placed' ? `${event.pourId}/${event.batch}` : null;

/** What the corrections that are not voided say. The bags of a batch are one figure, whichever of its entries was corrected. */
function correctionsOf(ordered: readonly PourEvent[], undone: ReadonlySet<string>): Corrections {
  const written = new Map(ordered.map((event) => [event.id, event]));
  const at = new Map<string, string>();
  const bags = new Map<string, number>();
  for (const event of ordered) {
    if (event.kind !== 'corrected' || undone.has(event.id)) continue;
    const entry = written.get(event.eventId);
    const batch = entry === undefined || undone.has(entry.id) ? null : batchKey(entry);
    if (event.toAt !== null) at.set(event.eventId, event.toAt);
    if (event.toBags !== null && batch !== null) bags.set(batch, event.toBags);
  }
  return { at, bags };
}

/** An entry with its corrections applied; the latest value counts. */
function corrected(event: PourEvent, { at, bags }: Corrections): PourEvent {
  const instant = at.get(event.id) ?? event.instant;
  const toBags = bags.get(batchKey(event) ?? '');
  if (toBags !== undefined && (event.kind === 'mixed' || event.kind === 'placed')) return { ...event, instant, bags: toBags };
  return instant === event.instant ? event : { ...event, instant };
}

const clockBack = (backMs: number): LogNotice => ({ kind: 'clock-back', minutes: Math.max(1, Math.round(backMs / MINUTE_MS)) });

/** Valid entries: not voided, and neither a correction nor a void themselves. */
export function liveOf({ entries }: Pick<TimedLog, 'entries'>): LogEntry[] {
  return entries.filter(({ event, undone }) => !undone && event.kind !== 'undone' && event.kind !== 'corrected');
}

/** Entries in the order of what happened: one logged late, or whose time was corrected, stands at its own time. */
export const inTime = (entries: readonly LogEntry[]): LogEntry[] => [...entries].sort((a, b) => a.min - b.min || a.event.seq - b.event.seq);

/** Valid entries of one or more pours, corrections applied, in the order given. */
export function liveEvents(events: readonly PourEvent[]): PourEvent[] {
  const undone = voidedIds(events);
  const corrections = correctionsOf(
    [...events].sort((a, b) => a.seq - b.seq),
    undone,
  );
  return events.flatMap((event) =>
    undone.has(event.id) || event.kind === 'undone' || event.kind === 'corrected' ? [] : [corrected(event, corrections)],
  );
}

/**
 * The entry that ended a pour; null while it runs, or runs again.
 * @param live valid entries of the pour, in the order they were written
 */
export function endEntry(live: readonly PourEvent[]): Extract<PourEvent, { kind: 'finished' }> | null {
  const last = live.findLast(({ kind }) => kind === 'finished' || kind === 'resumed');
  return last?.kind === 'finished' ? last : null;
}

/** The last of some entries by the log's minutes. */
const latest = (entries: readonly LogEntry[]): LogEntry | null =>
  entries.reduce<LogEntry | null>((last, entry) => (last === null || entry.min >= last.min ? entry : last), null);

/**
 * When the last of the material of a pour was placed, whenever its end was logged; the `finished` entry where nothing was placed; null
 * while it runs. Corrections apply.
 * @param events every entry of the pour
 */
export function pourEnd(events: readonly PourEvent[]): string | null {
  const live = liveOf(timedLog(events));
  const end = endEntry(live.map(({ event }) => event));
  return end === null ? null : (latest(live.filter(({ event }) => event.kind === 'placed'))?.event ?? end).instant;
}

/** Clean-up after the last batch takes this long at most; what is logged later was logged afterwards. Our choice, no source. */
const CLEAN_UP_MIN = 120;

/** Work at a pour without a long break: instants. */
export type WorkSpan = { readonly from: string; readonly until: string };

/**
 * When a pour was worked at, up to each end of it. A span without a batch is no pour. Clean-up is work too: an end counts within two hours
 * of the last batch, as does the time until a pour that was ended is resumed; later ones leave the time between out.
 * @param events every entry of the pour
 */
export function workSpans(startedAt: string, events: readonly PourEvent[]): WorkSpan[] {
  const live = liveOf(timedLog(events));
  const placed = live.filter(({ event }) => event.kind === 'placed');
  const turns = live.filter(({ event }) => event.kind === 'finished' || event.kind === 'resumed');
  const spans: WorkSpan[] = [];
  let from = startedAt;
  let fromMin = -Infinity;
  for (const [i, { event: end }] of turns.entries()) {
    const next = turns[i + 1];
    // Of two ends in a row the later one counts.
    if (end.kind !== 'finished' || next?.event.kind === 'finished') continue;
    const last = latest(placed.filter(({ min }) => min >= fromMin && min < (next?.min ?? Infinity)))?.event.instant;
    const isCleanUp = (instant: string): boolean => {
      const min = (Date.parse(instant) - Date.parse(last ?? end.instant)) / MINUTE_MS;
      return min > 0 && min <= CLEAN_UP_MIN;
    };
    if (last !== undefined) spans.push({ from, until: isCleanUp(end.instant) ? end.instant : last });
    if (next === undefined) continue;
    if (!isCleanUp(next.event.instant)) from = next.event.instant;
    else if (last !== undefined) from = spans.at(-1)?.until ?? from;
    fromMin = next.min;
  }
  return spans;
}

/** Ids of voided entries. An `undone` entry that is itself voided no longer counts. */
export function voidedIds(events: readonly PourEvent[]): Set<string> {
  const ordered = [...events].sort((a, b) => a.seq - b.seq);
  const undone = new Set<string>();
  for (let i = ordered.length - 1; i >= 0; i--) {
    const event = ordered[i];
    if (event?.kind === 'undone' && !undone.has(event.id)) undone.add(event.eventId);
  }
  return undone;
}

/**
 * Whether two ticks of the screen's clock are far apart: the clock went back or the computer slept; null when they are not.
 * @param tickMs the intended interval
 */
export function tickGap(lastTickAt: string, nowAt: string, tickMs: number): LogNotice | null {
  const gapMs = Date.parse(nowAt) - Date.parse(lastTickAt);
  if (gapMs < -NUDGE_MS) return clockBack(-gapMs);
  if (gapMs < Math.max(MINUTE_MS, 3 * tickMs)) return null;
  return { kind: 'asleep', minutes: Math.round(gapMs / MINUTE_MS) };
}
