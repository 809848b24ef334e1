/** Compares a finished pour with its plan by batch and by lane, and finds possible cold joints. */
import type { PourLayout } from './layout.ts';
import { type LimitsOver, limitsOver } from './clocks.ts';
import { liveOf } from './log-time.ts';
import type { LoggedBatch, PourRecordPlan, PourState } from './pour-state.ts';
import { type ColdJoint, coldJoints } from './cold-joints.ts';
import { coverOf } from './cover.ts';

export type BatchAfter = {
  readonly number: number;
  readonly plannedBags: number | null;
  /** Null when planned but never logged. */
  readonly bags: number | null;
  readonly plannedPlacedMin: number | null;
  readonly placedMin: number | null;
  readonly ageMin: number | null;
  readonly tooOld: boolean;
  readonly estimated: boolean;
  /** Thrown out or scraped out. */
  readonly discarded: boolean;
};

export type LaneAfter = {
  readonly number: number;
  readonly plannedBags: number;
  readonly bags: number | null;
  /** Bags times yield divided by area; null when the lane's end was not logged. */
  readonly thicknessM: number | null;
};

export type PourAfter = {
  readonly batches: readonly BatchAfter[];
  readonly lanes: readonly LaneAfter[];
  /** Joints between logged batches that exceeded the healing time, in the order of their letters. */
  readonly toWatch: readonly ColdJoint[];
  /** From the first to the last batch placed, minutes; null with fewer than two, and where one of them has no time of its own. */
  readonly lastedMin: number | null;
  /** Batches logged as placed, and those of them with a time of their own: only their joints are timed. */
  readonly placed: number;
  readonly timed: number;
  /** Joints where the batches on both sides have a time of their own. */
  readonly timedJoints: number;
  /** Batches on the floor that the logged lane ends leave no place for: where they lie is not known, so none of their joints is timed. */
  readonly noPlace: number;
};

/** Batches that a line of a handwritten log names together have the time of the line, by which the last of them was placed. */
const hasOwnTime = (batch: LoggedBatch, all: readonly LoggedBatch[]): boolean =>
  !batch.estimated || all.every((other) => other === batch || !other.estimated || other.placedMin !== batch.placedMin);

/**
 * Compares a finished pour with its plan. The log has at most one time per batch, so every point of a batch gets that time.
 * @param plannedPlacedMin when each batch was to be placed, from the simulation's median run; null when there was none
 */
export function afterPour(
  layout: PourLayout,
  state: PourState,
  limits: Pick<PourRecordPlan, 'healingMin' | 'limitsAt' | 'hasLater'>,
  plannedPlacedMin: readonly number[] | null,
): PourAfter {
  const byNumber = new Map(state.batches.map((b) => [b.number, b]));
  const bagM3 = layout.batchM3 / layout.bagsPerBatch;
  const count = Math.max(layout.batches.length, 0, ...state.batches.map((b) => b.number));
  const batches = Array.from({ length: count }, (_, i): BatchAfter => {
    const logged = byNumber.get(i + 1);
    return {
      number: i + 1,
      plannedBags: layout.batches[i]?.bags ?? null,
      bags: logged?.bags ?? null,
      plannedPlacedMin: plannedPlacedMin?.[i] ?? null,
      placedMin: logged?.placedMin ?? null,
      ageMin: logged?.ageMin ?? null,
      tooOld: logged?.tooOld ?? false,
      estimated: logged?.estimated ?? false,
      discarded: (logged?.discardedMin ?? null) !== null,
    };
  });
  let before = 0;
  let inOrder = 0;
  const lanes = layout.lanes.map((s): LaneAfter => {
    const laneEnd = state.lanesDone.find((d) => d.roomId === s.roomId && d.lane === s.inRoom);
    // Bags of one lane are the difference between two lane ends, so both have to be logged in order.
    const bags = laneEnd && inOrder === s.number - 1 && laneEnd.bagsUsed >= before ? laneEnd.bagsUsed - before : null;
    if (laneEnd && bags !== null) {
      before = laneEnd.bagsUsed;
      inOrder = s.number;
    }
    return {
      number: s.number,
      plannedBags: s.volumeM3 / bagM3,
      bags,
      thicknessM: bags === null ? null : (bags * bagM3) / s.areaM2,
    };
  });
  const cover = coverOf(layout, liveOf(state), limits.hasLater);
  const limitsOf = limitsOver(liveOf(state), limits.limitsAt ?? (() => ({ ...limits, workingTimeMin: Infinity })));
  const placed = state.batches.filter((batch) => batch.placedMin !== null);
  const timed = new Map(placed.flatMap((batch) => (hasOwnTime(batch, placed) ? [[batch.number, batch.placedMin ?? 0] as const] : [])));
  const jointsOver = (limits: LimitsOver) => coldJoints(layout, cover, (batch) => timed.get(batch) ?? null, limits);
  const isAllTimed = timed.size > 1 && timed.size === placed.length;
  return {
    batches,
    lanes,
    toWatch: jointsOver(limitsOf),
    lastedMin: isAllTimed ? Math.max(...timed.values()) - Math.min(...timed.values()) : null,
    noPlace: placed.filter((b) => b.discardedMin === null && !cover.parts.some(({ batch }) => batch === b.number)).length,
    placed: placed.length,
    timed: timed.size,
    // Every age is over a limit below 0.
    timedJoints: jointsOver(() => ({ healingMin: -1, workingTimeMin: 0 })).length,
  };
}
