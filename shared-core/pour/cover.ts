/**
 * Calculates which floor each logged batch covers. Batches are placed in order along the lanes. A batch that was scraped out leaves a gap
 * that the next batch fills. A lane marked finished ties the bags placed so far to the end of that lane, even where the plan differs.
 */
import type { PourEvent } from '../book/pour-record.ts';
import type { PourLayout } from './layout.ts';
import { endEntry, inTime, type LogEntry } from './log-time.ts';

/** A part of the pour, in planned bags from its start. */
export type CoverPart = {
  readonly fromBags: number;
  readonly toBags: number;
  /** The batch on this part now; null where a batch was scraped out and the gap was not filled. */
  readonly batch: number | null;
  /** The batch last scraped out of this part; null when none was. */
  readonly scraped: number | null;
};

export type Cover = {
  readonly parts: readonly CoverPart[];
  /** Planned bags of the whole pour. */
  readonly totalBags: number;
  /** Position of the front, in planned bags. */
  readonly frontBags: number;
};

/** Tolerance for rounding a planned volume to whole bags, in bags. */
export const SLACK_BAGS = 0.05;

type Stretch = { from: number; to: number; batch: number | null; scraped: number | null };
type Anchor = { readonly raw: number; readonly planned: number };

/** Planned bags per m³. */
export const bagsPerM3 = (layout: Pick<PourLayout, 'bagsPerBatch' | 'batchM3'>): number => layout.bagsPerBatch / layout.batchM3;

/** Places a batch: first in scraped-out gaps, then from the front. Returns the new front. */
function place(stretches: Stretch[], batch: number, bags: number, front: number): number {
  let restBags = bags;
  for (const [i, stretch] of [...stretches.entries()]) {
    if (restBags <= 1e-9) break;
    if (stretch.batch !== null) continue;
    const size = stretch.to - stretch.from;
    if (size <= restBags + 1e-9) {
      stretch.batch = batch;
      restBags -= size;
      continue;
    }
    const index = stretches.indexOf(stretch);
    stretches.splice(
      index < 0 ? i : index,
      1,
      { ...stretch, to: stretch.from + restBags, batch },
      { ...stretch, from: stretch.from + restBags },
    );
    restBags = 0;
  }
  if (restBags <= 1e-9) return front;
  stretches.push({ from: front, to: front + restBags, batch, scraped: null });
  return front + restBags;
}

/** Planned bags at a number of bags placed: linear between marked lane ends, one to one after the last. */
function plannedAt(anchors: readonly Anchor[], raw: number, capBags: number): number {
  for (let i = 0; i + 1 < anchors.length; i++) {
    const a = anchors[i];
    const b = anchors[i + 1];
    if (a === undefined || b === undefined || raw > b.raw) continue;
    return b.raw - a.raw < 1e-9 ? b.planned : a.planned + ((raw - a.raw) / (b.raw - a.raw)) * (b.planned - a.planned);
  }
  const last = anchors.at(-1) ?? { raw: 0, planned: 0 };
  return Math.min(capBags, last.planned + (raw - last.raw));
}

/** Marks at the same number of bags count as one mark at the farther lane end. */
function withAnchor(anchors: readonly Anchor[], anchor: Anchor): Anchor[] {
  const before = anchors.filter((a, i) => i === 0 || (a.raw < anchor.raw - 1e-9 && a.planned < anchor.planned - 1e-9));
  return [...before, anchor];
}

/**
 * Whether the bags or the batches placed are all of the plan's, which shows that its floor is whole where nobody recorded otherwise.
 * @param batches how many were placed; one whose gap another filled is not among them
 */
export function isFullByCount(layout: PourLayout, bags: number, batches: number): boolean {
  return bags > layout.volumeM3 * bagsPerM3(layout) - SLACK_BAGS || batches >= layout.batches.length;
}

/**
 * Front of a floor recorded as partly placed, at most: whatever the bags, its last batch is open while nothing else is known to be. Of
 * a floor of one batch, half of it.
 */
function partlyBags(layout: PourLayout, totalBags: number): number {
  return totalBags - Math.min(totalBags / 2, (layout.batches.at(-1)?.volumeM3 ?? 0) * bagsPerM3(layout));
}

/** A spot that was removed was placed: it does not show where the pour ended. */
const isOpenMark = (event: PourEvent): boolean => event.kind === 'marked' && event.state === 'not-placed';

/**
 * The floor covered so far.
 * @param live entries that count, corrections applied
 * @param hasLater whether the plan left a section for another day
 */
export function coverOf(layout: PourLayout, live: readonly LogEntry[], hasLater: boolean): Cover {
  const perM3 = bagsPerM3(layout);
  const totalBags = layout.volumeM3 * perM3;
  const endOf = (lane: number): number => {
    const s = layout.lanes[lane - 1];
    return s === undefined ? totalBags : (s.startM3 + s.volumeM3) * perM3;
  };
  const stretches: Stretch[] = [];
  const placed = new Set<number>();
  const thrownOut = new Set<number>();
  let front = 0;
  let anchors: Anchor[] = [{ raw: 0, planned: 0 }];
  let lanesDone = 0;
  const isLane = (event: PourEvent): boolean => {
    const next = layout.lanes[lanesDone];
    return event.kind === 'lane-finished' && next?.roomId === event.roomId && next.inRoom === event.lane;
  };
  for (const { event } of inTime(live)) {
    if (event.kind === 'placed' && !placed.has(event.batch) && !thrownOut.has(event.batch)) {
      placed.add(event.batch);
      front = place(stretches, event.batch, event.bags, front);
    } else if (event.kind === 'discarded') {
      thrownOut.add(event.batch);
      for (const stretch of stretches)
        if (stretch.batch === event.batch) {
          stretch.scraped = event.batch;
          stretch.batch = null;
        }
    } else if (isLane(event) && front > 0) {
      lanesDone += 1;
      anchors = withAnchor(anchors, { raw: front, planned: endOf(lanesDone) });
    }
  }
  const recorded = endEntry(live.map(({ event }) => event))?.floor ?? null;
  const lying = new Set(stretches.map((s) => s.batch ?? s.scraped));
  const isWhole = recorded === 'whole' || (recorded === null && lanesDone === 0 && isFullByCount(layout, front, lying.size));
  if (front > 0 && isWhole && lanesDone < layout.lanes.length) anchors = withAnchor(anchors, { raw: front, planned: totalBags });
  // Once lane ends are marked, the front cannot be past an unmarked lane end.
  const capBags = lanesDone === 0 ? totalBags : endOf(Math.min(lanesDone + 1, layout.lanes.length));
  const isOpenKnown = hasLater || stretches.some((s) => s.batch === null) || live.some(({ event }) => isOpenMark(event));
  const mostBags = recorded === 'partly' && !isOpenKnown ? partlyBags(layout, totalBags) : totalBags;
  const at = (raw: number): number => Math.min(mostBags, plannedAt(anchors, raw, capBags));
  const parts = stretches
    .map((s) => ({
      fromBags: at(s.from),
      toBags: at(s.to),
      batch: s.batch,
      scraped: s.scraped,
    }))
    .filter((part) => part.toBags - part.fromBags > 1e-9)
    .sort((a, b) => a.fromBags - b.fromBags);
  return { parts, totalBags, frontBags: at(front) };
}

/** The logged batch at the middle of each planned batch whose floor is covered there. */
export function coveredBatches(layout: PourLayout, cover: Cover): ReadonlyMap<number, number> {
  const perM3 = bagsPerM3(layout);
  const loggedByPlanned = new Map<number, number>();
  let before = 0;
  for (const batch of layout.batches) {
    const middle = before + (batch.volumeM3 * perM3) / 2;
    before += batch.volumeM3 * perM3;
    const part = cover.parts.find((p) => p.fromBags <= middle && middle <= p.toBags);
    if (part?.batch != null) loggedByPlanned.set(batch.number, part.batch);
  }
  return loggedByPlanned;
}
