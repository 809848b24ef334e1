/** The state of a pour as its log tells it. Nothing is kept but the log: the same entries always give the same state. */
import type { Pour, PourEvent } from '../book/pour-record.ts';
import type { PourLayout } from './layout.ts';
import { timedLog, type LogEntry } from './log-time.ts';

/** What the log is read against. `layout` null: poured without a plan, so edges are known by the last batch only. */
export type PourRecordPlan = {
  readonly layout: PourLayout | null;
  readonly healingMin: number;
  readonly flowLifeMin: number;
  readonly bagsPerBatch: number;
};

export type LoggedBatch = {
  readonly number: number;
  readonly bags: number;
  readonly waterL: number | null;
  /** Minutes on the log's scale; null when not logged. */
  readonly mixedMin: number | null;
  readonly placedMin: number | null;
  /** From water to landing, or to now while it is in hand; null when the water was not logged. */
  readonly ageMin: number | null;
  readonly tooOld: boolean;
  readonly roomId: string | null;
  readonly lane: number | null;
  readonly estimated: boolean;
};

export type OpenEdge = { readonly besideBatch: number; readonly ageMin: number; readonly leftMin: number };
export type LaneDone = {
  readonly roomId: string;
  readonly lane: number;
  readonly min: number;
  readonly bagsUsed: number;
  readonly placed: number;
};

export type PourState = {
  readonly phase: 'waiting' | 'pouring' | 'finished';
  readonly nowMin: number;
  readonly batches: readonly LoggedBatch[];
  readonly placed: number;
  readonly inHand: readonly LoggedBatch[];
  /** The number the next batch to mix will have, and the next to land. */
  readonly nextToMix: number;
  readonly nextToLand: number;
  readonly oldestEdge: OpenEdge | null;
  readonly lanesDone: readonly LaneDone[];
  readonly bagsUsed: number;
  /** Bags on site less bags used; below zero when the log and the stack disagree. */
  readonly bagsLeft: number;
  readonly bagsBrought: number;
  readonly incidents: readonly LogEntry[];
  readonly lastReading: Extract<PourEvent, { kind: 'reading' }> | null;
  readonly lots: readonly string[];
  /** Every entry, taken back or not. */
  readonly entries: readonly LogEntry[];
  /** The entry that undo would take back; null when there is none. */
  readonly undoable: PourEvent | null;
  /** Things to say that stop nothing. */
  readonly notices: readonly string[];
  readonly nextSeq: number;
};

/** Two entries of a kind closer than this are likely one key hit twice: nobody pours two batches within a second. */
const SAME_KEY_MS = 1000;

/** The state of a pour at a moment. */
export function pourState(plan: PourRecordPlan, pour: Pick<Pour, 'bagsOnSite'>, events: readonly PourEvent[], nowAt: string): PourState {
  const log = timedLog(events, nowAt);
  const live = log.entries.filter((entry) => !entry.undone && entry.event.kind !== 'undone');
  const notices = [...log.notices];
  const batches = batchesOf(plan, live, log.nowMin, notices);
  const placed = batches.filter((batch) => batch.placedMin !== null);
  const inHand = batches.filter((batch) => batch.placedMin === null);
  const bagsUsed = batches.reduce((sum, batch) => sum + batch.bags, 0);
  const added = live.reduce((sum, { event }) => sum + (event.kind === 'bags-added' ? event.bags : 0), 0);
  const lanesDone = lanesDoneOf(live);
  const kinds = new Set(live.map(({ event }) => event.kind));
  const finished = kinds.has('finished');
  const bagsLeft = pour.bagsOnSite + added - bagsUsed;
  if (bagsLeft < 0) {
    notices.push('By the log more bags were mixed than were on site: count the stack, and log the bags that were added.');
  } else if (!finished && bagsLeft < plan.bagsPerBatch && placed.length < (plan.layout?.batches.length ?? 0)) {
    notices.push('By the log there is less than a full batch left on site: count the stack before mixing the next.');
  }
  const numbers = batches.map((batch) => batch.number);
  const waiting = inHand.map((batch) => batch.number);
  const highest = Math.max(0, ...numbers);
  return {
    phase: finished ? 'finished' : batches.length > 0 || kinds.has('started') ? 'pouring' : 'waiting',
    nowMin: log.nowMin,
    batches,
    placed: placed.length,
    inHand,
    nextToMix: highest + 1,
    nextToLand: waiting.length > 0 ? Math.min(...waiting) : highest + 1,
    oldestEdge: finished ? null : oldestEdgeOf(plan, placed, lanesDone, log.nowMin),
    lanesDone,
    bagsUsed,
    bagsLeft,
    bagsBrought: pour.bagsOnSite + added,
    incidents: live.filter(({ event }) => event.kind === 'incident'),
    lastReading: live.reduce<Extract<PourEvent, { kind: 'reading' }> | null>(
      (last, { event }) => (event.kind === 'reading' ? event : last),
      null,
    ),
    lots: [...new Set(live.flatMap(({ event }) => (event.kind === 'lot' ? [event.lot] : [])))],
    entries: log.entries,
    undoable: live.filter(({ event }) => event.kind !== 'started').at(-1)?.event ?? null,
    notices,
    nextSeq: Math.max(0, ...events.map((event) => event.seq)) + 1,
  };
}

function batchesOf(plan: PourRecordPlan, live: readonly LogEntry[], nowMin: number, notices: string[]): LoggedBatch[] {
  const found = new Map<number, { mixed: LogEntry | null; placed: LogEntry | null }>();
  let lastPlacement: LogEntry | null = null;
  for (const entry of live) {
    const { event } = entry;
    if (event.kind !== 'mixed' && event.kind !== 'placed') continue;
    const batch = found.get(event.batch) ?? { mixed: null, placed: null };
    found.set(event.batch, batch);
    if (event.kind === 'mixed') batch.mixed ??= entry;
    else {
      if (batch.placed) notices.push(`Batch ${event.batch} is logged as landed twice: undo one, or it counts once.`);
      else if (lastPlacement && !event.estimated && isSameKey(event.at, lastPlacement.event.at)) {
        notices.push(`Batch ${event.batch} was logged within a second of the one before: undo it if the key was hit twice.`);
      }
      batch.placed ??= entry;
      lastPlacement = entry;
    }
  }
  return [...found.entries()]
    .sort(([a], [b]) => a - b)
    .map(([number, { mixed, placed }]) => {
      const mixedEvent = mixed?.event.kind === 'mixed' ? mixed.event : null;
      const placedEvent = placed?.event.kind === 'placed' ? placed.event : null;
      const ageMin = mixed ? Math.max(0, (placed?.min ?? nowMin) - mixed.min) : null;
      return {
        number,
        bags: mixedEvent?.bags ?? placedEvent?.bags ?? plan.bagsPerBatch,
        waterL: mixedEvent?.waterL ?? null,
        mixedMin: mixed?.min ?? null,
        placedMin: placed?.min ?? null,
        ageMin,
        tooOld: ageMin !== null && ageMin > plan.flowLifeMin,
        roomId: placedEvent?.roomId ?? null,
        lane: placedEvent?.lane ?? null,
        estimated: (mixed?.event.estimated ?? false) || (placed?.event.estimated ?? false),
      };
    });
}

/** By the machine's clock, not the log's: after the clock was set back the log stands still, and all would look like one key. */
export function isSameKey(at: string, otherAt: string): boolean {
  return Math.abs(Date.parse(at) - Date.parse(otherAt)) < SAME_KEY_MS;
}

function lanesDoneOf(live: readonly LogEntry[]): LaneDone[] {
  const done: LaneDone[] = [];
  const bags = new Map<number, number>();
  const placed = new Set<number>();
  for (const { event, min } of live) {
    if (event.kind === 'mixed') bags.set(event.batch, event.bags);
    if (event.kind === 'placed') {
      if (!bags.has(event.batch)) bags.set(event.batch, event.bags);
      placed.add(event.batch);
    }
    if (event.kind !== 'lane-finished' || done.some((d) => d.roomId === event.roomId && d.lane === event.lane)) continue;
    // Only what is on the floor filled the strip: a batch still in hand goes to the next.
    const bagsUsed = [...placed].reduce((sum, batch) => sum + (bags.get(batch) ?? 0), 0);
    done.push({ roomId: event.roomId, lane: event.lane, min, bagsUsed, placed: placed.size });
  }
  return done;
}

/** The edge that has waited longest for its neighbor; null when nothing lies open. */
function oldestEdgeOf(plan: PourRecordPlan, placed: readonly LoggedBatch[], done: readonly LaneDone[], nowMin: number): OpenEdge | null {
  const at = new Map(placed.map((batch) => [batch.number, batch.placedMin ?? nowMin]));
  const edge = (batch: number, min: number): OpenEdge => ({
    besideBatch: batch,
    ageMin: nowMin - min,
    leftMin: plan.healingMin - (nowMin - min),
  });
  const { layout } = plan;
  if (!layout) {
    const last = placed.reduce<LoggedBatch | null>((late, b) => ((b.placedMin ?? 0) >= (late?.placedMin ?? -1) ? b : late), null);
    return last && last.placedMin !== null ? edge(last.number, last.placedMin) : null;
  }
  const isDone = (lane: number) => {
    const s = layout.lanes[lane - 1];
    return s !== undefined && done.some((d) => d.roomId === s.roomId && d.lane === s.inRoom);
  };
  const closed = new Set(layout.lanes.filter((s) => isDone(s.number)).map((s) => s.number));
  let oldest: OpenEdge | null = null;
  for (const seam of layout.seams) {
    for (const point of seam.points) {
      const since = at.get(point.older);
      if (since === undefined || at.has(point.newer)) continue;
      const newerLane = seam.kind === 'batch' ? layout.batches[point.newer - 1]?.lane : seam.newer;
      if (newerLane !== undefined && closed.has(newerLane)) continue;
      if (!oldest || nowMin - since > oldest.ageMin) oldest = edge(point.older, since);
    }
  }
  return oldest;
}
