/**
 * Computes the state of a pour from its log. Only the log is stored, and the same entries always give the same state. What the entries
 * say is read once an entry; a clock then adds only the ages at its instant.
 */
import type { Pour, PourEvent } from '../book/pour-record.ts';
import { coveredBatches, coverOf } from './cover.ts';
import { type LimitsAt, type LimitsOver, limitsOver } from './clocks.ts';
import type { PourLayout } from './layout.ts';
import { endEntry, inTime, liveOf, timedLog, type LogEntry, type LogNotice, type TimedLog } from './log-time.ts';

/** The plan used to read the log. `layout` is null for a pour without a plan, where only the edge of the last batch is known. */
export type PourRecordPlan = {
  readonly layout: PourLayout | null;
  /** Whether the plan left a section for another day. */
  readonly hasLater: boolean;
  /** The limits of what waits now. */
  readonly healingMin: number;
  readonly workingTimeMin: number;
  /** The limits by temperature, for what waited before; absent where those of now are all that is known. */
  readonly limitsAt?: LimitsAt;
  readonly bagsPerBatch: number;
};

/** For counting what a log used, where its plan cannot be read: no edge is timed. */
export const NO_PLAN: PourRecordPlan = { layout: null, hasLater: false, healingMin: Infinity, workingTimeMin: Infinity, bagsPerBatch: 1 };

export type LoggedBatch = {
  readonly number: number;
  readonly bags: number;
  readonly waterL: number | null;
  /** Minutes on the log's scale; null when not logged. */
  readonly mixedMin: number | null;
  readonly placedMin: number | null;
  /** Minutes from mixing to placing or throwing out, or to now before either; null when mixing was not logged. */
  readonly ageMin: number | null;
  readonly tooOld: boolean;
  readonly roomId: string | null;
  readonly lane: number | null;
  readonly estimated: boolean;
  /** Minute when it was thrown out or scraped out; null while it counts as floor. */
  readonly discardedMin: number | null;
};

/** The last count of the stack, compared with the log. */
export type StackCount = {
  readonly counted: number;
  /** Bags left by the log at that minute. */
  readonly byLog: number;
};

export type OpenEdge = { readonly besideBatch: number; readonly ageMin: number; readonly leftMin: number };
export type LaneDone = {
  readonly roomId: string;
  readonly lane: number;
  readonly min: number;
  /** Bags on the floor up to the end of this lane, those thrown out by then left out. */
  readonly bagsUsed: number;
};

export type PourState = {
  readonly phase: 'waiting' | 'pouring' | 'finished';
  readonly nowMin: number;
  readonly batches: readonly LoggedBatch[];
  readonly placed: number;
  readonly inHand: readonly LoggedBatch[];
  /** The numbers of the next batch to mix and the next batch to place. */
  readonly nextToMix: number;
  readonly nextToLand: number;
  readonly oldestEdge: OpenEdge | null;
  readonly lanesDone: readonly LaneDone[];
  /** Bags taken from the stack, thrown out or not. */
  readonly bagsUsed: number;
  /** Bags left: from the last count of the stack, or from the start; negative when log and stack disagree. */
  readonly bagsLeft: number;
  /** The last count of the stack; null when it was not counted. */
  readonly stack: StackCount | null;
  /** The logged batch on each planned batch's floor, where covered. */
  readonly covered: ReadonlyMap<number, number>;
  readonly bagsBrought: number;
  readonly incidents: readonly LogEntry[];
  readonly lots: readonly string[];
  /** Every entry, including voided ones. */
  readonly entries: readonly LogEntry[];
  /** The entry that Undo voids; null when there is none. */
  readonly undoable: PourEvent | null;
  /** The latest voided entry while nothing was logged since, which can be restored with its original time; else null. */
  readonly redoable: { readonly undo: PourEvent; readonly voided: PourEvent } | null;
  /** What is odd but does not stop the pour. */
  readonly notices: readonly LogNotice[];
  readonly nextSeq: number;
};

/** Two entries of a kind closer than this are probably one key pressed twice: two batches are never poured within a second. */
const SAME_KEY_MS = 1000;

/** A log as read, before an instant is chosen. Parts that hang on no clock keep their identity in every state made from it. */
export type PourLog = {
  readonly plan: PourRecordPlan;
  readonly pour: Pick<Pour, 'bagsOnSite'>;
  readonly events: readonly PourEvent[];
  readonly timed: TimedLog;
  /** Everything but ages; a batch not placed yet has no age. */
  readonly read: Omit<PourState, 'nowMin' | 'oldestEdge'>;
  /** The oldest edge by the minute it was placed. */
  readonly edge: { readonly besideBatch: number; readonly sinceMin: number } | null;
};

/** The state of a pour at a given time. */
export function pourState(plan: PourRecordPlan, pour: Pick<Pour, 'bagsOnSite'>, events: readonly PourEvent[], nowAt: string): PourState {
  return stateAt(readLog(plan, pour, events), nowAt);
}

/** A log with the ages at an instant after its last entry. */
export function stateAt({ plan, timed, read, edge }: PourLog, nowAt: string): PourState {
  const { min: nowMin, notice } = timed.minuteAt(nowAt);
  const aged = (batch: LoggedBatch): LoggedBatch => {
    if (batch.placedMin !== null || batch.mixedMin === null) return batch;
    // What was thrown out ages no more.
    const ageMin = Math.max(0, (batch.discardedMin ?? nowMin) - batch.mixedMin);
    return { ...batch, ageMin, tooOld: ageMin > plan.workingTimeMin };
  };
  const ageMin = edge === null ? 0 : nowMin - edge.sinceMin;
  return {
    ...read,
    nowMin,
    batches: read.batches.map(aged),
    inHand: read.inHand.map(aged),
    oldestEdge: edge === null ? null : { besideBatch: edge.besideBatch, ageMin, leftMin: plan.healingMin - ageMin },
    notices: notice === null ? read.notices : [...timed.notices, notice, ...read.notices.slice(timed.notices.length)],
  };
}

/** Reads a log: batches, bags, covered floor and notices, whatever the time. */
export function readLog(plan: PourRecordPlan, pour: Pick<Pour, 'bagsOnSite'>, events: readonly PourEvent[]): PourLog {
  const timed = timedLog(events);
  const live = liveOf(timed);
  const notices = [...timed.notices];
  const limits = limitsOver(live, plan.limitsAt ?? (() => plan));
  const batches = batchesOf({ ...plan, limits }, live, notices);
  const placed = batches.filter((batch) => batch.placedMin !== null);
  const inHand = batches.filter((batch) => batch.placedMin === null && batch.discardedMin === null);
  const bagsUsed = batches.reduce((sum, batch) => sum + batch.bags, 0);
  const added = live.reduce((sum, { event }) => sum + (event.kind === 'bags-added' ? event.bags : 0), 0);
  const lanesDone = lanesDoneOf(live);
  const kinds = new Set(live.map(({ event }) => event.kind));
  const finished = endEntry(live.map(({ event }) => event)) !== null;
  const { bagsLeft, stack } = bagsOf(pour.bagsOnSite, live);
  const { layout } = plan;
  const covered = layout === null ? new Map<number, number>() : coveredBatches(layout, coverOf(layout, live, plan.hasLater));
  if (bagsLeft < 0) {
    notices.push({ kind: 'more-than-on-site' });
  } else if (!finished && bagsLeft < plan.bagsPerBatch && covered.size < (layout?.batches.length ?? 0)) {
    notices.push({ kind: 'stack-low' });
  }
  const numbers = batches.map((batch) => batch.number);
  const waiting = inHand.map((batch) => batch.number);
  const highest = Math.max(0, ...numbers);
  const read: PourLog['read'] = {
    phase: finished ? 'finished' : batches.length > 0 || kinds.has('started') ? 'pouring' : 'waiting',
    batches,
    placed: placed.length,
    inHand,
    nextToMix: highest + 1,
    nextToLand: waiting.length > 0 ? Math.min(...waiting) : highest + 1,
    lanesDone,
    bagsUsed,
    bagsLeft,
    stack,
    covered,
    bagsBrought: pour.bagsOnSite + added,
    incidents: live.filter(({ event }) => event.kind === 'incident'),
    lots: [...new Set(live.flatMap(({ event }) => (event.kind === 'lot' ? [event.lot] : [])))],
    entries: timed.entries,
    undoable: lastUndoable(timed.entries),
    redoable: lastVoided(timed.entries),
    notices,
    nextSeq: Math.max(0, ...events.map((event) => event.seq)) + 1,
  };
  const edge = finished ? null : oldestEdgeOf(plan, notDammed(batches, live), covered, lanesDone);
  return { plan, pour, events, timed, read, edge };
}

/** Corrections can be undone too; a start cannot. */
function lastUndoable(entries: readonly LogEntry[]): PourEvent | null {
  return entries.findLast(({ event, undone }) => !undone && event.kind !== 'undone' && event.kind !== 'started')?.event ?? null;
}

function lastVoided(entries: readonly LogEntry[]): PourState['redoable'] {
  const last = entries.findLast(({ undone }) => !undone)?.event;
  const newest = entries.at(-1);
  const undo = newest !== undefined && !newest.undone && newest.event.kind === 'undone' ? newest.event : null;
  if (undo?.kind !== 'undone' || last === undefined) return null;
  const voided = entries.find(({ event }) => event.id === undo.eventId)?.event;
  return voided === undefined ? null : { undo, voided };
}

/** Bags left by the log, reset at each count of the stack. */
function bagsOf(onSite: number, live: readonly LogEntry[]): { readonly bagsLeft: number; readonly stack: StackCount | null } {
  const known = new Set<number>();
  let remaining = onSite;
  let stack: StackCount | null = null;
  for (const { event } of live) {
    if ((event.kind === 'mixed' || event.kind === 'placed') && !known.has(event.batch)) {
      known.add(event.batch);
      remaining -= event.bags;
    } else if (event.kind === 'bags-added') remaining += event.bags;
    else if (event.kind === 'counted') {
      stack = { counted: event.bags, byLog: remaining };
      remaining = event.bags;
    }
  }
  return { bagsLeft: remaining, stack };
}

function batchesOf(
  { bagsPerBatch, limits }: Pick<PourRecordPlan, 'bagsPerBatch'> & { readonly limits: LimitsOver },
  live: readonly LogEntry[],
  notices: LogNotice[],
): LoggedBatch[] {
  const byBatch = new Map<number, { mixed: LogEntry | null; placed: LogEntry | null }>();
  const discarded = new Map<number, number>();
  let lastPlacement: LogEntry | null = null;
  for (const entry of live) {
    const { event } = entry;
    if (event.kind === 'discarded') discarded.set(event.batch, entry.min);
    if (event.kind !== 'mixed' && event.kind !== 'placed') continue;
    const batch = byBatch.get(event.batch) ?? { mixed: null, placed: null };
    byBatch.set(event.batch, batch);
    if (event.kind === 'mixed') batch.mixed ??= entry;
    else {
      if (batch.placed) notices.push({ kind: 'placed-twice', batch: event.batch });
      else if (lastPlacement && !event.estimated && event.sameCart !== true && isSameKey(event.instant, lastPlacement.event.instant)) {
        notices.push({ kind: 'same-key', batch: event.batch });
      }
      batch.placed ??= entry;
      lastPlacement = entry;
    }
  }
  return [...byBatch.entries()]
    .sort(([a], [b]) => a - b)
    .map(([number, { mixed, placed }]) => {
      const mixedEvent = mixed?.event.kind === 'mixed' ? mixed.event : null;
      const placedEvent = placed?.event.kind === 'placed' ? placed.event : null;
      const ageMin = mixed && placed ? Math.max(0, placed.min - mixed.min) : null;
      return {
        number,
        bags: mixedEvent?.bags ?? placedEvent?.bags ?? bagsPerBatch,
        waterL: mixedEvent?.waterL ?? null,
        mixedMin: mixed?.min ?? null,
        placedMin: placed?.min ?? null,
        ageMin,
        tooOld: mixed !== null && placed !== null && placed.min - mixed.min > limits(mixed.min, placed.min).workingTimeMin,
        roomId: placedEvent?.roomId ?? null,
        lane: placedEvent?.lane ?? null,
        estimated: (mixed?.event.estimated ?? false) || (placed?.event.estimated ?? false),
        discardedMin: discarded.get(number) ?? null,
      };
    });
}

/** Uses the computer's clock: after it is set back, log minutes stop, and all entries would look like one key press. */
export function isSameKey(instant: string, otherAt: string): boolean {
  return Math.abs(Date.parse(instant) - Date.parse(otherAt)) < SAME_KEY_MS;
}

function lanesDoneOf(live: readonly LogEntry[]): LaneDone[] {
  const done: LaneDone[] = [];
  const bags = new Map<number, number>();
  const placed = new Set<number>();
  const thrownOut = new Set<number>();
  for (const { event, min } of inTime(live)) {
    if (event.kind === 'discarded') thrownOut.add(event.batch);
    if (event.kind === 'mixed') bags.set(event.batch, event.bags);
    if (event.kind === 'placed') {
      if (!bags.has(event.batch)) bags.set(event.batch, event.bags);
      placed.add(event.batch);
    }
    if (event.kind !== 'lane-finished' || done.some((d) => d.roomId === event.roomId && d.lane === event.lane)) continue;
    // Only batches lying on the floor filled the lane: one thrown out did not, and one not placed yet goes to the next lane.
    const bagsUsed = [...placed].reduce((sum, batch) => sum + (thrownOut.has(batch) ? 0 : (bags.get(batch) ?? 0)), 0);
    done.push({ roomId: event.roomId, lane: event.lane, min, bagsUsed });
  }
  return done;
}

/** Batches without a dam on their edges: a logged dam closes every edge that was open when it was set. */
export function notDammed(batches: readonly LoggedBatch[], live: readonly LogEntry[]): readonly LoggedBatch[] {
  const damMin = live.findLast(({ event }) => event.kind === 'joint')?.min ?? -Infinity;
  return batches.filter((batch) => batch.placedMin === null || batch.placedMin > damMin);
}

/** The open edge that has waited longest for the adjacent floor; null when no edge is open. */
function oldestEdgeOf(
  plan: PourRecordPlan,
  batches: readonly LoggedBatch[],
  covered: ReadonlyMap<number, number>,
  done: readonly LaneDone[],
): PourLog['edge'] {
  const onFloor = batches.filter((b) => b.placedMin !== null && b.discardedMin === null);
  const minOf = new Map(onFloor.map((batch) => [batch.number, batch.placedMin]));
  const { layout } = plan;
  if (!layout) {
    const last = onFloor.reduce<LoggedBatch | null>((late, b) => ((b.placedMin ?? 0) >= (late?.placedMin ?? -1) ? b : late), null);
    return last && last.placedMin !== null ? { besideBatch: last.number, sinceMin: last.placedMin } : null;
  }
  const isDone = (lane: number) => {
    const s = layout.lanes[lane - 1];
    return s !== undefined && done.some((d) => d.roomId === s.roomId && d.lane === s.inRoom);
  };
  const closed = new Set(layout.lanes.filter((s) => isDone(s.number)).map((s) => s.number));
  let oldest: PourLog['edge'] = null;
  for (const join of layout.joins) {
    for (const point of join.points) {
      const batch = covered.get(point.older);
      const since = batch === undefined ? undefined : minOf.get(batch);
      if (batch === undefined || since == null || covered.has(point.newer)) continue;
      const newerLane = join.kind === 'batch' ? layout.batches[point.newer - 1]?.lane : join.newer;
      if (newerLane !== undefined && closed.has(newerLane)) continue;
      if (!oldest || since < oldest.sinceMin) oldest = { besideBatch: batch, sinceMin: since };
    }
  }
  return oldest;
}
