/**
 * What each key of pour mode writes: pure functions from the state to the entry, so that a screen only stores it. `ask`
 * holds a question where the entry looks like a slip; it is written anyway when the person says yes. Nothing here refuses.
 */
import type { PourEvent } from '../book/pour-record.ts';
import { isSameKey, type PourRecordPlan, type PourState } from './pour-state.ts';

/** The new entry's id and moment, from the machine. */
export type Stamp = { readonly id: string; readonly pourId: string; readonly at: string };
export type Entry = { readonly event: PourEvent; readonly ask: string | null };

const stamped = (state: PourState, stamp: Stamp) => ({ ...stamp, seq: state.nextSeq, estimated: false });

/** The pour begins. */
export function startedEntry(state: PourState, stamp: Stamp): Entry {
  const again = state.phase !== 'waiting';
  return { event: { ...stamped(state, stamp), kind: 'started' }, ask: again ? 'This pour has begun already. Begin it again?' : null };
}

/** Water has met powder for the next batch. */
export function mixedEntry(state: PourState, plan: PourRecordPlan, stamp: Stamp, waterL: number | null): Entry {
  const batch = state.nextToMix;
  const bags = bagsOf(plan, batch);
  const twice = justLogged(state, 'mixed', stamp);
  const short =
    bags > state.bagsLeft ? `By the log only ${state.bagsLeft} of ${bags} bags are left. Mix batch ${batch} all the same?` : null;
  return {
    event: { ...stamped(state, stamp), kind: 'mixed', batch, bags, waterL },
    ask: twice !== null ? `Batch ${twice} was logged less than a second ago. Is this another one?` : short,
  };
}

/** The oldest batch in hand is on the floor; with none in hand, the next batch, its mixing unlogged. */
export function placedEntry(state: PourState, plan: PourRecordPlan, stamp: Stamp): Entry {
  const batch = state.nextToLand;
  const lane = laneOfBatch(plan, batch);
  const logged = state.batches.find((b) => b.number === batch);
  const bags = logged?.bags ?? bagsOf(plan, batch);
  const twice = justLogged(state, 'placed', stamp);
  const short =
    !logged && bags > state.bagsLeft
      ? `By the log only ${state.bagsLeft} of ${bags} bags were left. Log batch ${batch} all the same?`
      : null;
  return {
    event: { ...stamped(state, stamp), kind: 'placed', batch, roomId: lane?.roomId ?? null, lane: lane?.inRoom ?? null, bags },
    ask: twice !== null ? `A batch was logged less than a second ago. Did batch ${batch} land as well?` : short,
  };
}

/** The batch of the last standing entry of a kind when it is less than a second old; null otherwise. */
function justLogged(state: PourState, kind: 'mixed' | 'placed', stamp: Stamp): number | null {
  const last = state.entries.findLast(({ event, undone }) => event.kind === kind && !undone)?.event;
  if (last === undefined || (last.kind !== 'mixed' && last.kind !== 'placed') || last.estimated) return null;
  return isSameKey(stamp.at, last.at) ? last.batch : null;
}

function laneOfBatch(plan: PourRecordPlan, batch: number) {
  const number = plan.layout?.batches[batch - 1]?.lane;
  return number === undefined ? undefined : plan.layout?.lanes[number - 1];
}

function bagsOf(plan: PourRecordPlan, batch: number): number {
  const planned = plan.layout?.batches[batch - 1];
  return planned ? Math.max(1, Math.round(planned.bags)) : plan.bagsPerBatch;
}

/** The next unfinished strip is done; null when every strip is, or there is no plan to count them by. */
export function laneFinishedEntry(state: PourState, plan: PourRecordPlan, stamp: Stamp): Entry | null {
  const next = plan.layout?.lanes.find((s) => !state.lanesDone.some((d) => d.roomId === s.roomId && d.lane === s.inRoom));
  if (!next) return null;
  const none = !state.batches.some((b) => b.placedMin !== null);
  return {
    event: { ...stamped(state, stamp), kind: 'lane-finished', roomId: next.roomId, lane: next.inRoom },
    ask: none ? 'No batch has landed yet. Is the strip finished all the same?' : null,
  };
}

/** Something went wrong; the clocks run on. */
export function incidentEntry(state: PourState, stamp: Stamp, what: Extract<PourEvent, { kind: 'incident' }>['what'], note: string): Entry {
  return { event: { ...stamped(state, stamp), kind: 'incident', what, note }, ask: null };
}

/** More bags came to the site. */
export function bagsAddedEntry(state: PourState, stamp: Stamp, bags: number): Entry {
  return { event: { ...stamped(state, stamp), kind: 'bags-added', bags }, ask: null };
}

/** Takes back the last entry that still counts; null when there is none. The log keeps both. */
export function undoEntry(state: PourState, stamp: Stamp): Entry | null {
  if (!state.undoable) return null;
  return { event: { ...stamped(state, stamp), kind: 'undone', eventId: state.undoable.id }, ask: null };
}

/** The pour is over. */
export function finishedEntry(state: PourState, plan: PourRecordPlan, stamp: Stamp, bagsLeft: number | null): Entry {
  const open = state.inHand.length > 0 ? `Batch ${state.inHand[0]?.number ?? ''} is mixed and has not landed. Finish all the same?` : null;
  const missing = (plan.layout?.lanes.length ?? 0) - state.lanesDone.length;
  const lanes = missing > 0 ? `${missing} ${missing === 1 ? 'strip is' : 'strips are'} not marked finished. Finish all the same?` : null;
  return { event: { ...stamped(state, stamp), kind: 'finished', bagsLeft }, ask: open ?? lanes };
}

/** One line of a paper record: the batch, its bags, and when it landed by the watch. */
export type PaperLine = { readonly batch: number; readonly bags: number; readonly placedAt: string };

/**
 * Entries of a pour logged on paper, every time marked as estimated, in the order of the lines. A message names the line
 * that cannot be: earlier than the one before, a batch twice, no bags.
 */
export function paperEntries(
  plan: PourRecordPlan,
  pourId: string,
  firstSeq: number,
  lines: readonly PaperLine[],
  newId: () => string,
): { readonly ok: true; readonly value: readonly PourEvent[] } | { readonly ok: false; readonly message: string } {
  const events: PourEvent[] = [];
  const seen = new Set<number>();
  let last = -Infinity;
  for (const [index, line] of lines.entries()) {
    const at = Date.parse(line.placedAt);
    const where = `Line ${index + 1}, batch ${line.batch}`;
    if (!Number.isInteger(line.batch) || line.batch < 1) return { ok: false, message: `Line ${index + 1}: batches are numbered from 1.` };
    if (seen.has(line.batch)) return { ok: false, message: `${where}: this batch is already in a line above.` };
    if (!(line.bags > 0)) return { ok: false, message: `${where}: enter how many bags went into it.` };
    if (Number.isNaN(at)) return { ok: false, message: `${where}: the time cannot be read. Write it like 9:40.` };
    if (at < last)
      return { ok: false, message: `${where}: it landed before the batch in the line above. Put the lines in the order they landed.` };
    last = at;
    seen.add(line.batch);
    const lane = laneOfBatch(plan, line.batch);
    events.push({
      id: newId(),
      pourId,
      seq: firstSeq + index,
      at: line.placedAt,
      estimated: true,
      kind: 'placed',
      batch: line.batch,
      roomId: lane?.roomId ?? null,
      lane: lane?.inRoom ?? null,
      bags: line.bags,
    });
  }
  return { ok: true, value: events };
}
