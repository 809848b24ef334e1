/**
 * Log entries for each key of pour mode: pure functions from the state to the entry, which the screen stores. `ask` is a question
 * when the entry looks like a mistake; it is logged when the user says yes. No entry is refused.
 */
import type { Defect, IncidentKind, MarkedState, PourEvent } from '../book/pour-record.ts';
import type { Point } from '../book/fields.ts';
import { bagsPerM3 } from './cover.ts';
import { TYPICAL_SPREAD } from './forecast.ts';
import { bagsToMix, type PourLayout } from './layout.ts';
import { alarmBags } from './leak.ts';
import { isSameKey, type PourRecordPlan, type PourState } from './pour-state.ts';

/** The new entry's id and instant, from the computer. */
export type Stamp = { readonly id: string; readonly pourId: string; readonly instant: string };
/** The stack by the log beside a count of it, in bags. */
export type StackCount = Pick<PourState, 'bagsBrought' | 'bagsUsed' | 'bagsLeft'> & { readonly counted: number };
/** Why an entry looks like a mistake. */
export type PourQuestion =
  | { readonly kind: 'none-placed' }
  /** The lane through the pour, and the batch that filled it by the plan. */
  | { readonly kind: 'lane-late'; readonly lane: number; readonly batch: number }
  | { readonly kind: 'mixed-twice' | 'placed-twice' | 'still-mixed'; readonly batch: number }
  | { readonly kind: 'mixed-short' | 'placed-short'; readonly batch: number; readonly bags: number; readonly bagsLeft: number }
  | { readonly kind: 'undone-before'; readonly batch: number; readonly minutesAgo: number }
  | ({ readonly kind: 'count-differs' | 'end-count-differs' } & StackCount);
export type Entry = {
  readonly event: PourEvent;
  /** A question to answer before it is logged; null when it is logged at once. */
  readonly ask: PourQuestion | null;
  /** The entry logged on No; omitted when No logs nothing. */
  readonly otherwise?: PourEvent;
};

/** The person who corrects and the reason; both may be empty during the pour. */
export type Correction = { readonly by: string; readonly why: string };

const stamped = (state: PourState, stamp: Stamp) => ({ ...stamp, seq: state.nextSeq, estimated: false });

/** Logs that powder and water of the next batch are mixed. */
export function mixedEntry(state: PourState, plan: PourRecordPlan, stamp: Stamp, waterL: number | null): Entry {
  const batch = state.nextToMix;
  const bags = bagsOf(plan, state, batch);
  const twice = justLogged(state, 'mixed', stamp);
  return {
    event: { ...stamped(state, stamp), kind: 'mixed', batch, bags, waterL },
    ask: twice !== null ? { kind: 'mixed-twice', batch: twice } : shortOf('mixed-short', state, batch, bags),
  };
}

/**
 * Logs the oldest mixed batch as placed, or the next batch when none is mixed. Asks about a batch that was placed and undone a moment ago:
 * yes restores it with its own time, no logs it now.
 */
export function placedEntry(state: PourState, plan: PourRecordPlan, stamp: Stamp): Entry {
  const batch = state.nextToLand;
  const lane = laneAhead(plan.layout, state);
  const logged = state.batches.find((b) => b.number === batch);
  const bags = logged?.bags ?? bagsOf(plan, state, batch);
  const twice = justLogged(state, 'placed', stamp);
  const short = logged ? null : shortOf('placed-short', state, batch, bags);
  const base = stamped(state, stamp);
  const event: PourEvent = { ...base, kind: 'placed', batch, roomId: lane?.roomId ?? null, lane: lane?.inRoom ?? null, bags };
  const { redoable } = state;
  if (redoable?.voided.kind === 'placed' && redoable.voided.batch === batch) {
    const minutesAgo = Math.max(0, Math.round((Date.parse(stamp.instant) - Date.parse(redoable.voided.instant)) / 60_000));
    return {
      event: { ...base, kind: 'undone', eventId: redoable.undo.id },
      ask: { kind: 'undone-before', batch, minutesAgo },
      otherwise: event,
    };
  }
  return { event, ask: twice !== null ? { kind: 'placed-twice', batch } : short };
}

/** Logs the oldest batch of an emptied cart as placed. All but the first batch of a load are marked as from the same cart. */
export function cartEntry(state: PourState, plan: PourRecordPlan, stamp: Stamp, isFirst: boolean): Entry | null {
  if (state.inHand.length === 0) return null;
  const { event } = placedEntry({ ...state, redoable: null }, plan, stamp);
  return event.kind !== 'placed' ? null : { event: isFirst ? event : { ...event, sameCart: true }, ask: null };
}

/** Whether a flow test is due: with the first batch, and with each batch after a doubtful one. */
export function isFlowTestDue(state: PourState): boolean {
  const tested = state.entries.findLast(({ event, undone }) => !undone && event.kind === 'reading' && event.spreadM !== null);
  if (tested === undefined && state.placed === 0) return true;
  const doubt = state.incidents.findLast(
    ({ event }) => event.kind === 'incident' && (event.what === 'wrong-water' || event.what === 'lumps' || event.what === 'old-batch'),
  );
  return doubt !== undefined && (tested === undefined || tested.min < doubt.min);
}

/** The batch of the latest valid entry of a kind when it is less than a second old; null otherwise. */
function justLogged(state: PourState, kind: 'mixed' | 'placed', stamp: Stamp): number | null {
  const last = state.entries.findLast(({ event, undone }) => event.kind === kind && !undone)?.event;
  if (last === undefined || (last.kind !== 'mixed' && last.kind !== 'placed') || last.estimated) return null;
  return isSameKey(stamp.instant, last.instant) ? last.batch : null;
}

/** The lane of the next batch, which is that of the first planned batch with open floor. */
export function laneAhead(layout: PourLayout | null, state: Pick<PourState, 'covered'>): PourLayout['lanes'][number] | undefined {
  const next = layout?.batches.find((batch) => !state.covered.has(batch.number)) ?? layout?.batches.at(-1);
  return next === undefined ? undefined : layout?.lanes[next.lane - 1];
}

/**
 * Depth gauge setting for the next batch: the average depth of its lane, meters; null without a plan.
 * @param deepRoomIds rooms whose lift only fills the deep places, where no rake runs over the floor
 */
export function gaugeAhead(layout: PourLayout | null, state: Pick<PourState, 'covered'>, deepRoomIds: readonly string[]): number | null {
  const lane = laneAhead(layout, state);
  return lane === undefined || lane.areaM2 <= 0 || deepRoomIds.includes(lane.roomId) ? null : lane.volumeM3 / lane.areaM2;
}

const shortOf = (kind: 'mixed-short' | 'placed-short', { bagsLeft }: PourState, batch: number, bags: number): PourQuestion | null =>
  bags > bagsLeft ? { kind, batch, bags, bagsLeft } : null;

/** Planned bags of a batch: as in the plan while nothing was discarded, else a full batch. */
function bagsOf(plan: PourRecordPlan, state: PourState, batch: number): number {
  const isAsPlanned = state.batches.every((b) => b.discardedMin === null);
  return plan.layout === null || !isAsPlanned ? plan.bagsPerBatch : bagsToMix(plan.layout, batch);
}

/**
 * Logs the next open lane as finished; null when every lane is, or there is no plan. Where so much was placed since that it cannot all lie in
 * the lane, it asks whether the lane was full before: yes logs its end after the batch that filled it by the plan, no logs it now.
 */
export function laneFinishedEntry(state: PourState, plan: PourRecordPlan, stamp: Stamp): Entry | null {
  const next = plan.layout?.lanes.find((s) => !state.lanesDone.some((d) => d.roomId === s.roomId && d.lane === s.inRoom));
  if (!next) return null;
  const isNonePlaced = !state.batches.some((b) => b.placedMin !== null);
  const event: PourEvent = { ...stamped(state, stamp), kind: 'lane-finished', roomId: next.roomId, lane: next.inRoom };
  const filled = filledBefore(state, plan.layout, next);
  if (filled === null) return { event, ask: isNonePlaced ? { kind: 'none-placed' } : null };
  return {
    event: { ...event, instant: filled.instant, estimated: true },
    ask: { kind: 'lane-late', lane: next.number, batch: filled.batch },
    otherwise: event,
  };
}

/** The batch that filled an open lane by the plan, with its time, where as much was placed after it as raises the leak alarm; else null. */
function filledBefore(
  { batches, lanesDone, entries }: PourState,
  layout: PourLayout | null,
  lane: PourLayout['lanes'][number],
): { readonly batch: number; readonly instant: string } | null {
  if (layout === null) return null;
  const plannedBags = lane.volumeM3 * bagsPerM3(layout);
  const onFloor = batches
    .flatMap(({ number, bags, placedMin, discardedMin }) =>
      placedMin === null || discardedMin !== null ? [] : [{ number, bags, placedMin }],
    )
    .sort((a, b) => a.placedMin - b.placedMin);
  let inLane = -(lanesDone.at(-1)?.bagsUsed ?? 0);
  const upTo = onFloor.map((batch) => ({ ...batch, inLane: (inLane += batch.bags) }));
  if (inLane <= alarmBags(plannedBags, layout.bagsPerBatch, TYPICAL_SPREAD)) return null;
  const enoughBags = plannedBags - TYPICAL_SPREAD.edgeShare * layout.bagsPerBatch;
  const full = upTo.find((batch) => batch.inLane >= enoughBags);
  const origin = entries[0]?.event.instant;
  if (full === undefined || full === upTo.at(-1) || origin === undefined) return null;
  // On the scale of the log, also where the computer's clock was set back since.
  return { batch: full.number, instant: new Date(Date.parse(origin) + Math.round(full.placedMin * 60_000)).toISOString() };
}

/**
 * Logs a problem while the clocks keep running. `batch` is the batch it concerns; `at` when it happened, entered afterwards from memory;
 * absent is now.
 */
export function incidentEntry(
  state: PourState,
  stamp: Stamp,
  trouble: { readonly what: IncidentKind; readonly batch?: number | null; readonly note?: string; readonly at?: string | null },
): Entry {
  const { what, batch = null, note = '', at = null } = trouble;
  return { event: { ...stampedAt(state, stamp, at), kind: 'incident', what, batch, note }, ask: null };
}

/** Stamps an entry at the time it happened, from memory; null is now. */
const stampedAt = (state: PourState, stamp: Stamp, at: string | null) =>
  at === null ? stamped(state, stamp) : { ...stamped(state, stamp), instant: at, estimated: true };

/** Logs a batch as discarded: thrown out, or scraped out after it was placed. `at` is as in `incidentEntry`. */
export function discardedEntry(
  state: PourState,
  stamp: Stamp,
  batch: number,
  { by, why, at = null }: Correction & { readonly at?: string | null },
): Entry {
  return { event: { ...stampedAt(state, stamp, at), kind: 'discarded', batch, by, why }, ask: null };
}

/** Logs bags delivered to the site. */
export function bagsAddedEntry(state: PourState, stamp: Stamp, bags: number): Entry {
  return { event: { ...stamped(state, stamp), kind: 'bags-added', bags }, ask: null };
}

/** Logs a count of the stack, with a question when it differs from the log by more than a batch. */
export function countedEntry(state: PourState, plan: PourRecordPlan, stamp: Stamp, bags: number): Entry {
  const differenceBags = Math.abs(bags - state.bagsLeft);
  return {
    event: { ...stamped(state, stamp), kind: 'counted', bags, by: '', why: '' },
    ask: differenceBags > plan.bagsPerBatch ? { kind: 'count-differs', ...stackCount(state, bags) } : null,
  };
}

/** Corrects the time or the bags of an earlier entry without undoing the entries after it. */
export function correctedEntry(
  state: PourState,
  stamp: Stamp,
  change: { readonly eventId: string; readonly toAt: string | null; readonly toBags: number | null } & Correction,
): Entry {
  return { event: { ...stamped(state, stamp), kind: 'corrected', ...change }, ask: null };
}

/** Logs an area marked on the plan. */
export function markedEntry(
  state: PourState,
  stamp: Stamp,
  mark: {
    readonly roomId: string;
    readonly state: MarkedState;
    readonly defect?: Defect;
    readonly outline: readonly Point[];
  } & Correction,
): Entry {
  return { event: { ...stamped(state, stamp), kind: 'marked', ...mark, outline: [...mark.outline] }, ask: null };
}

/** Logs that suspect floor was repaired, or checked and found sound: it is placed floor again. */
export function repairedEntry(
  state: PourState,
  stamp: Stamp,
  area: { readonly roomId: string; readonly outline: readonly Point[] } & Correction,
): Entry {
  return markedEntry(state, stamp, { ...area, state: 'placed' });
}

/** Half the width of a low spot when only its deepest point is known, m. Our choice, no source. */
const LOW_SPOT_M = 0.6;

/** Logs a low spot found under the straightedge after the pour, as a square around its deepest point. */
export function lowSpotEntry(
  state: PourState,
  stamp: Stamp,
  { at: { xM, yM }, ...spot }: { readonly roomId: string; readonly at: Point } & Correction,
): Entry {
  const corner = (dx: number, dy: number): Point => ({ xM: xM + dx * LOW_SPOT_M, yM: yM + dy * LOW_SPOT_M });
  const outline = [corner(-1, -1), corner(1, -1), corner(1, 1), corner(-1, 1)];
  return markedEntry(state, stamp, { ...spot, state: 'suspect', defect: 'low-spot', outline });
}

/** Logs a dam set where the pour stopped. */
export function jointEntry(
  state: PourState,
  stamp: Stamp,
  dam: { readonly roomId: string; readonly from: Point; readonly to: Point; readonly note: string },
): Entry {
  return { event: { ...stamped(state, stamp), kind: 'joint', ...dam }, ask: null };
}

/** Voids the latest valid entry; null when there is none. The log keeps both. */
export function undoEntry(state: PourState, stamp: Stamp): Entry | null {
  if (!state.undoable) return null;
  return { event: { ...stamped(state, stamp), kind: 'undone', eventId: state.undoable.id }, ask: null };
}

/** Voids any entry of a finished pour. */
export function voidedEntry(state: PourState, stamp: Stamp, eventId: string, { by, why }: Correction): Entry {
  return { event: { ...stamped(state, stamp), kind: 'undone', eventId, by, why }, ask: null };
}

/** Restores the latest voided entry with its original time; null when there is none. */
export function redoEntry(state: PourState, stamp: Stamp): Entry | null {
  if (!state.redoable) return null;
  return { event: { ...stamped(state, stamp), kind: 'undone', eventId: state.redoable.undo.id }, ask: null };
}

/** Whether the log does not show that all of the floor was placed, so that the user is asked at the end of the pour. */
export function isFloorOpen(state: PourState, plan: PourRecordPlan): boolean {
  const { layout } = plan;
  if (layout === null) return true;
  const isMarked = state.lanesDone.length > 0;
  return isMarked ? state.lanesDone.length < layout.lanes.length : state.covered.size < layout.batches.length;
}

/** A count of the stack agrees with the log within this part of a bag. Our choice, no source. */
const STACK_SLACK_BAGS = 0.5;

const stackCount = ({ bagsBrought, bagsUsed, bagsLeft }: PourState, counted: number): StackCount => ({
  bagsBrought,
  bagsUsed,
  bagsLeft,
  counted,
});

/** Logs the end of the pour. `floor` is what the user reports as placed; null uses the log. */
export function finishedEntry(
  state: PourState,
  stamp: Stamp,
  end: { readonly bagsLeft: number | null; readonly floor: 'whole' | 'partly' | null },
): Entry {
  const hand = state.inHand[0]?.number;
  const isCountOff = end.bagsLeft !== null && Math.abs(end.bagsLeft - state.bagsLeft) > STACK_SLACK_BAGS;
  const count: PourQuestion | null = isCountOff ? { kind: 'end-count-differs', ...stackCount(state, end.bagsLeft) } : null;
  return {
    event: { ...stamped(state, stamp), kind: 'finished', ...end },
    ask: hand !== undefined ? { kind: 'still-mixed', batch: hand } : count,
  };
}

/** Logs that a pour finished by mistake continues. */
export function resumedEntry(state: PourState, stamp: Stamp, { by, why }: Correction): Entry {
  return { event: { ...stamped(state, stamp), kind: 'resumed', by, why }, ask: null };
}
