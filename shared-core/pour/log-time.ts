/**
 * When the entries of a log happened, in minutes that never run backward. Entries are taken in the order they were written;
 * where the machine's clock went back, time goes on from the entry before, and the log says so.
 */
import type { PourEvent } from '../book/pour-record.ts';

/** An entry with its minute from the first entry, and whether a later one took it back. */
export type LogEntry = { readonly event: PourEvent; readonly min: number; readonly undone: boolean };

export type TimedLog = {
  readonly entries: readonly LogEntry[];
  /** Now, on the same scale. */
  readonly nowMin: number;
  readonly notices: readonly string[];
};

const MINUTE_MS = 60_000;
/** A clock may be nudged this far back by its own correction without a word. */
const NUDGE_MS = 1000;
/** A gap between two entries this long is asked about. */
const LONG_GAP_MIN = 30;

/** The entries in order with their minutes. Entries from paper keep the times written on it. */
export function timedLog(events: readonly PourEvent[], nowAt: string): TimedLog {
  const ordered = [...events].sort((a, b) => a.seq - b.seq);
  const undone = takenBack(ordered);
  const notices: string[] = [];
  let moved = 0;
  let last = -Infinity;
  const minuteOf = (at: string) => {
    const ms = Date.parse(at);
    if (ms + moved < last) {
      const backMs = last - ms - moved;
      if (backMs > NUDGE_MS) notices.push(clockWords(backMs));
      moved += backMs;
    }
    last = ms + moved;
    return last;
  };
  const timed = ordered.map((event) => {
    const before = last;
    const ms = event.estimated ? Date.parse(event.at) : minuteOf(event.at);
    if (!event.estimated && Number.isFinite(before) && ms - before > LONG_GAP_MIN * MINUTE_MS) {
      notices.push(
        `Nothing was logged for ${Math.round((ms - before) / MINUTE_MS)} minutes: if the clock was set forward, the ages shown are too high.`,
      );
    }
    return { event, ms, undone: undone.has(event.id) };
  });
  const nowMs = ordered.some((event) => !event.estimated) ? minuteOf(nowAt) : Date.parse(nowAt);
  const origin = timed[0]?.ms ?? nowMs;
  const entries = timed.map(({ event, ms, undone: isUndone }) => ({ event, min: (ms - origin) / MINUTE_MS, undone: isUndone }));
  return { entries, nowMin: (nowMs - origin) / MINUTE_MS, notices };
}

function clockWords(backMs: number): string {
  const minutes = Math.max(1, Math.round(backMs / MINUTE_MS));
  return `This machine’s clock went back by ${minutes} ${minutes === 1 ? 'minute' : 'minutes'}. Entries stay in the order they were made; the time in between is not known, so add it by eye.`;
}

/** Ids of entries that are taken back: an undo that is itself undone counts no more. */
function takenBack(ordered: readonly PourEvent[]): Set<string> {
  const undone = new Set<string>();
  for (let i = ordered.length - 1; i >= 0; i--) {
    const event = ordered[i];
    if (event?.kind === 'undone' && !undone.has(event.id)) undone.add(event.eventId);
  }
  return undone;
}

/**
 * What to say when two ticks of the screen's clock lie far apart; null when they do not.
 * @param tickMs the spacing meant
 */
export function gapWords(lastTickAt: string, nowAt: string, tickMs: number): string | null {
  const gapMs = Date.parse(nowAt) - Date.parse(lastTickAt);
  if (gapMs < -NUDGE_MS) return clockWords(-gapMs);
  if (gapMs < Math.max(MINUTE_MS, 3 * tickMs)) return null;
  const minutes = Math.round(gapMs / MINUTE_MS);
  return `This machine was asleep for ${minutes} ${minutes === 1 ? 'minute' : 'minutes'}. Every clock counted on: log now what landed in between.`;
}
