/** Converts a handwritten log to entries; every time is an estimate. */
import type { PourEvent } from '../book/pour-record.ts';
import { nearestDay } from '../measure/moment.ts';
import type { Found } from '../measure/parsed.ts';
import type { Point } from '../book/fields.ts';
import { clipToHalfPlane, otherSide } from '../plan/half-plane.ts';
import { pointInRegion, type Region, regionAreaM2 } from '../plan/region.ts';
import { acrossM, cornersOf, pointAt } from './axes.ts';
import { isFullByCount } from './cover.ts';
import type { PourLayout } from './layout.ts';
import type { PourRecordPlan } from './pour-state.ts';

/** One line of a handwritten log: a range of batch numbers, the time they were placed by, and the bags per batch. */
export type PaperLine = {
  readonly batch: number;
  /** Last batch of the line; omitted when the line is one batch. */
  readonly toBatch?: number;
  readonly bags: number;
  readonly placedAt: string;
};

/**
 * The day of each line of a handwritten log: the one on which its time is nearest to the time above. 12:10 am after 11:50 pm is the next
 * day, and 9:55 am after 10:05 am is out of order.
 * @param clocks `09:40`; null for a line without a time
 * @param from day of the first line
 */
export function paperDays(clocks: readonly (string | null)[], from: string): readonly string[] {
  let above = { day: from, clock: clocks.find((clock) => clock !== null) ?? '' };
  return clocks.map((clock) => {
    if (clock !== null) above = { day: nearestDay(clock, above), clock };
    return above.day;
  });
}

/** What is wrong with a line, numbered from 1. `batch` is its first; `repeated` is the one that is in a line above. */
export type PaperProblem = {
  readonly kind: 'not-numbered' | 'range-backward' | 'no-bags' | 'no-time' | 'out-of-order' | 'repeated';
  readonly line: number;
  readonly batch: number;
  readonly repeated: number | null;
};

/**
 * Entries of a handwritten log in the order of its lines. All batches of one line get the time of the line, so that no
 * pace and no joint is invented between them. Returns what is wrong with the first line that cannot be used.
 */
export function paperEntries(
  plan: PourRecordPlan,
  pourId: string,
  firstSeq: number,
  lines: readonly PaperLine[],
  newId: () => string,
): Found<readonly PourEvent[], PaperProblem> {
  const events: PourEvent[] = [];
  const numbers = new Set<number>();
  let last = -Infinity;
  for (const [index, line] of lines.entries()) {
    const placedMs = Date.parse(line.placedAt);
    const to = line.toBatch ?? line.batch;
    const wrong = (kind: PaperProblem['kind'], repeated: number | null = null) => ({
      ok: false as const,
      problem: { kind, line: index + 1, batch: line.batch, repeated },
    });
    if (!Number.isInteger(line.batch) || line.batch < 1) return wrong('not-numbered');
    if (!Number.isInteger(to) || to < line.batch) return wrong('range-backward');
    if (!(line.bags > 0)) return wrong('no-bags');
    if (Number.isNaN(placedMs)) return wrong('no-time');
    if (placedMs < last) return wrong('out-of-order');
    last = placedMs;
    for (let batch = line.batch; batch <= to; batch++) {
      if (numbers.has(batch)) return wrong('repeated', batch);
      numbers.add(batch);
      const number = plan.layout?.batches[batch - 1]?.lane;
      const lane = number === undefined ? undefined : plan.layout?.lanes[number - 1];
      events.push({
        id: newId(),
        pourId,
        seq: firstSeq + events.length,
        instant: line.placedAt,
        estimated: true,
        kind: 'placed',
        batch,
        roomId: lane?.roomId ?? null,
        lane: lane?.inRoom ?? null,
        bags: line.bags,
      });
    }
  }
  return { ok: true, value: events };
}

/** Front of a handwritten pour, from a point on its last edge: the finished lanes, and the floor on either side of the point. */
export type PaperFront = {
  readonly lanesDone: number;
  /** Line across the lane at the point. */
  readonly line: { readonly from: Point; readonly to: Point };
  readonly marks: readonly { readonly roomId: string; readonly state: 'placed' | 'not-placed'; readonly outline: readonly Point[] }[];
};

/**
 * Why it is not known where a partly placed floor ends: its batches or bags are all of the plan's and no full lanes were entered, or every
 * lane was.
 */
export type EdgeProblem = 'no-lanes' | 'all-full';

/**
 * What is missing about the end of a partly placed floor without a tapped edge; null where its batches or its lanes show it, or a
 * section is left for another day.
 * @param lanes full lanes as entered; null for none
 * @param entries of {@link paperEntries}
 */
export function edgeProblem(
  { layout, hasLater }: Pick<PourRecordPlan, 'layout' | 'hasLater'>,
  lanes: number | null,
  entries: readonly PourEvent[],
): EdgeProblem | null {
  if (layout === null || hasLater) return null;
  if (lanes !== null) return lanes < layout.lanes.length ? null : 'all-full';
  const placed = entries.flatMap((event) => (event.kind === 'placed' ? [event] : []));
  const bags = placed.reduce((sum, event) => sum + event.bags, 0);
  return isFullByCount(layout, bags, placed.length) ? 'no-lanes' : null;
}

/** The lanes after the first as not placed: a log without a finished lane does not show that they are open. */
export function openAfterFirst(layout: Pick<PourLayout, 'lanes'>): PaperFront['marks'] {
  return layout.lanes
    .slice(1)
    .flatMap(({ roomId, pieces }) => pieces.map(({ outline }) => ({ roomId, state: 'not-placed' as const, outline })));
}

/** The front at a point on the plan; null when no lane of the room is there. */
export function paperFront(layout: Pick<PourLayout, 'lanes'>, roomId: string, point: Point): PaperFront | null {
  const lane = layout.lanes.find(
    (candidate) => candidate.roomId === roomId && candidate.pieces.some((piece) => pointInRegion(point, piece) !== 'outside'),
  );
  if (lane === undefined) return null;
  const { ux, uy } = lane.axes;
  const along = point.xM * ux + point.yM * uy;
  const halfBeyond = { normal: { x: ux, y: uy }, offsetM: along };
  const cut = (isBeyond: boolean): Region[] =>
    lane.pieces.flatMap((piece) => clipToHalfPlane(piece, isBeyond ? halfBeyond : otherSide(halfBeyond)));
  const across = cornersOf(lane.pieces).map((corner) => acrossM(lane.axes, corner));
  const mark = (state: 'placed' | 'not-placed', pieces: readonly Region[]) =>
    pieces.filter((piece) => regionAreaM2(piece) > 1e-4).map(({ outline }) => ({ roomId, state, outline }));
  return {
    lanesDone: lane.number - 1,
    line: { from: pointAt(lane.axes, along, Math.min(...across)), to: pointAt(lane.axes, along, Math.max(...across)) },
    marks: [
      ...mark('placed', cut(!lane.forward)),
      ...mark('not-placed', cut(lane.forward)),
      ...(lane.number === 1 ? openAfterFirst(layout) : []),
    ],
  };
}
