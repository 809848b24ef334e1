/**
 * What each key of pour mode logs: pure functions from the state to the entry, so that a screen only stores it. `ask` holds a question
 * where the entry looks like a slip; it is logged anyway when the person says yes. Nothing here refuses.
 */
import type { IncidentKind, MarkedState, PourEvent } from '../book/pour-record.ts';
import type { Point } from '../book/fields.ts';
import { bagsToMix, type PourLayout } from './layout.ts';
import { isSameKey, type PourRecordPlan, type PourState } from './pour-state.ts';

/** The new entry's id and instant, from the machine. */
export type Stamp = { readonly id: string; readonly pourId: string; readonly instant: string };
export type Entry = {
  readonly event: PourEvent;
  /** A question to answer before it is logged; null logs it at once. */
  readonly ask: string | null;
  /** What No logs instead; absent logs nothing. */
  readonly otherwise?: PourEvent;
};

/** Who corrects, and why; both may be empty while the pour runs. */
export type Correction = { readonly by: string; readonly why: string };

const stamped = (state: PourState, stamp: Stamp) => ({ ...stamp, seq: state.nextSeq, estimated: false });

/** The pour begins. */
export function startedEntry(state: PourState, stamp: Stamp): Entry {
  const again = state.phase !== 'waiting';
  return { event: { ...stamped(state, stamp), kind: 'started' }, ask: again ? 'This pour has already started. Start it again?' : null };
}

/** Water has met powder for the next batch. */
export function mixedEntry(state: PourState, plan: PourRecordPlan, stamp: Stamp, waterL: number | null): Entry {
  const batch = state.nextToMix;
  const bags = bagsOf(plan, state, batch);
  const twice = justLogged(state, 'mixed', stamp);
  const short = bags > state.bagsLeft ? `The log has ${state.bagsLeft} of ${bags} bags left. Log batch ${batch} anyway?` : null;
  return {
    event: { ...stamped(state, stamp), kind: 'mixed', batch, bags, waterL },
    ask: twice !== null ? `Batch ${twice} was logged less than a second ago. Is this another batch?` : short,
  };
}

/**
 * The oldest batch in hand is placed; with none in hand, the next batch. A batch that was placed and undone a moment ago is asked about:
 * yes restores it with its own time, no logs it now.
 */
export function placedEntry(state: PourState, plan: PourRecordPlan, stamp: Stamp): Entry {
  const batch = state.nextToLand;
  const lane = laneAhead(plan.layout, state);
  const logged = state.batches.find((b) => b.number === batch);
  const bags = logged?.bags ?? bagsOf(plan, state, batch);
  const twice = justLogged(state, 'placed', stamp);
  const short = !logged && bags > state.bagsLeft ? `The log had ${state.bagsLeft} of ${bags} bags left. Log batch ${batch} anyway?` : null;
  const base = stamped(state, stamp);
  const event: PourEvent = { ...base, kind: 'placed', batch, roomId: lane?.roomId ?? null, lane: lane?.inRoom ?? null, bags };
  const { redoable } = state;
  if (redoable?.voided.kind === 'placed' && redoable.voided.batch === batch) {
    const agoMin = Math.max(0, Math.round((Date.parse(stamp.instant) - Date.parse(redoable.voided.instant)) / 60_000));
    const ago = agoMin === 1 ? '1 minute' : `${agoMin} minutes`;
    return {
      event: { ...base, kind: 'undone', eventId: redoable.undo.id },
      ask: `Batch ${batch} was logged ${ago} ago and undone. Restore it with that time?`,
      otherwise: event,
    };
  }
  return {
    event,
    ask: twice !== null ? `A batch was logged less than a second ago. Was batch ${batch} placed too?` : short,
  };
}

/** The batch of the last live entry of a kind when it is less than a second old; null otherwise. */
function justLogged(state: PourState, kind: 'mixed' | 'placed', stamp: Stamp): number | null {
  const last = state.entries.findLast(({ event, undone }) => event.kind === kind && !undone)?.event;
  if (last === undefined || (last.kind !== 'mixed' && last.kind !== 'placed') || last.estimated) return null;
  return isSameKey(stamp.instant, last.instant) ? last.batch : null;
}

/** The lane the next batch goes into: that of the first planned batch whose floor is open. */
export function laneAhead(layout: PourLayout | null, state: Pick<PourState, 'covered'>): PourLayout['lanes'][number] | undefined {
  const next = layout?.batches.find((batch) => !state.covered.has(batch.number)) ?? layout?.batches.at(-1);
  return next === undefined ? undefined : layout?.lanes[next.lane - 1];
}

/** Bags of a batch by the plan: its own place in the plan while nothing was discarded, else a full batch. */
function bagsOf(plan: PourRecordPlan, state: PourState, batch: number): number {
  const isAsPlanned = state.batches.every((b) => b.discardedMin === null);
  return plan.layout === null || !isAsPlanned ? plan.bagsPerBatch : bagsToMix(plan.layout, batch);
}

/** The next open lane is finished; null when every lane is, or there is no plan to count them by. */
export function laneFinishedEntry(state: PourState, plan: PourRecordPlan, stamp: Stamp): Entry | null {
  const next = plan.layout?.lanes.find((s) => !state.lanesDone.some((d) => d.roomId === s.roomId && d.lane === s.inRoom));
  if (!next) return null;
  const none = !state.batches.some((b) => b.placedMin !== null);
  return {
    event: { ...stamped(state, stamp), kind: 'lane-finished', roomId: next.roomId, lane: next.inRoom },
    ask: none ? 'No batch is placed yet. Is the lane finished anyway?' : null,
  };
}

/** Something went wrong; the clocks keep running. `batch` names the batch it concerns. */
export function incidentEntry(
  state: PourState,
  stamp: Stamp,
  trouble: { readonly what: IncidentKind; readonly batch?: number | null; readonly note?: string },
): Entry {
  const { what, batch = null, note = '' } = trouble;
  return { event: { ...stamped(state, stamp), kind: 'incident', what, batch, note }, ask: null };
}

/** A batch is not floor: thrown out, or scraped out after it was placed. */
export function discardedEntry(state: PourState, stamp: Stamp, batch: number, { by, why }: Correction): Entry {
  return { event: { ...stamped(state, stamp), kind: 'discarded', batch, by, why }, ask: null };
}

/** More bags came to the site. */
export function bagsAddedEntry(state: PourState, stamp: Stamp, bags: number): Entry {
  return { event: { ...stamped(state, stamp), kind: 'bags-added', bags }, ask: null };
}

/** The stack was counted: a count that differs from the log by more than a batch is asked about. */
export function countedEntry(state: PourState, plan: PourRecordPlan, stamp: Stamp, bags: number): Entry {
  const off = Math.abs(bags - state.bagsLeft);
  return {
    event: { ...stamped(state, stamp), kind: 'counted', bags, by: '', why: '' },
    ask: off > plan.bagsPerBatch ? `The log has ${state.bagsLeft} bags left and you counted ${bags}. Use the count?` : null,
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

/** An area of the floor is marked on the plan. */
export function markedEntry(
  state: PourState,
  stamp: Stamp,
  mark: { readonly roomId: string; readonly state: MarkedState; readonly outline: readonly Point[] } & Correction,
): Entry {
  return { event: { ...stamped(state, stamp), kind: 'marked', ...mark, outline: [...mark.outline] }, ask: null };
}

/** A dam was set where the pour stopped. */
export function jointEntry(
  state: PourState,
  stamp: Stamp,
  dam: { readonly roomId: string; readonly from: Point; readonly to: Point; readonly note: string },
): Entry {
  return { event: { ...stamped(state, stamp), kind: 'joint', ...dam }, ask: null };
}

/** Voids the last entry that still counts; null when there is none. The log keeps both. */
export function undoEntry(state: PourState, stamp: Stamp): Entry | null {
  if (!state.undoable) return null;
  return { event: { ...stamped(state, stamp), kind: 'undone', eventId: state.undoable.id }, ask: null };
}

/** Restores the entry that was voided last, with its own time; null when there is none. */
export function redoEntry(state: PourState, stamp: Stamp): Entry | null {
  if (!state.redoable) return null;
  return { event: { ...stamped(state, stamp), kind: 'undone', eventId: state.redoable.undo.id }, ask: null };
}

/** Whether the log leaves it open that all of the floor was placed: then the person is asked when the pour is finished. */
export function isFloorOpen(state: PourState, plan: PourRecordPlan): boolean {
  const { layout } = plan;
  if (layout === null) return true;
  const isMarked = state.lanesDone.length > 0;
  return isMarked ? state.lanesDone.length < layout.lanes.length : state.covered.size < layout.batches.length;
}

/** The pour is over. `floor` is what the person says was placed; null leaves it to the log. */
export function finishedEntry(
  state: PourState,
  stamp: Stamp,
  end: { readonly bagsLeft: number | null; readonly floor: 'whole' | 'partly' | null },
): Entry {
  const hand = state.inHand[0]?.number;
  return {
    event: { ...stamped(state, stamp), kind: 'finished', ...end },
    ask: hand === undefined ? null : `Batch ${hand} is mixed and not placed. Finish the pour anyway?`,
  };
}

/** A pour that was finished by mistake goes on. */
export function resumedEntry(state: PourState, stamp: Stamp, { by, why }: Correction): Entry {
  return { event: { ...stamped(state, stamp), kind: 'resumed', by, why }, ask: null };
}
