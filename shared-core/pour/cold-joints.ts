/**
 * Possible cold joints of a logged pour: where one batch met another later than its healing time. Either side is timed by the batch that
 * the log puts there, which need not be the planned one. Floor that is not placed has no joint.
 */
import type { Point } from '../book/fields.ts';
import { between } from '../plan/point.ts';
import type { LimitsOver } from './clocks.ts';
import { bagsPerM3, type Cover, SLACK_BAGS } from './cover.ts';
import { acrossLane, type Join, type JoinPoint } from './joins.ts';
import type { PourLayout } from './layout.ts';
import { alongAt, fillLine } from './pour-regions.ts';

/** A joint with the stretch of it that was met too late, from `from` to `to`. Batches are those of the log. */
export type ColdJoint = Pick<Join, 'kind' | 'newer' | 'older' | 'from' | 'to'> & {
  /** The room it is in; for a doorway, the room that was poured later. */
  readonly roomId: string;
  /** The maximum age when it was met, minutes, and its place. */
  readonly mostMin: number;
  readonly point: Point;
  readonly newerBatch: number;
  readonly olderBatch: number;
};

/** A stretch shorter than this is drawn as the whole joint, m. */
const SHORT_M = 0.1;

type Late = Pick<ColdJoint, 'mostMin' | 'newerBatch' | 'olderBatch'>;
type LatePoint = Late & { readonly point: Point };

/**
 * The joints that were met too late: between lanes, then end to end in a lane, then through doorways.
 * @param placedMin when each logged batch was placed, minutes of the log; null where it has no time of its own
 */
export function coldJoints(
  layout: PourLayout,
  { parts }: Cover,
  placedMin: (batch: number) => number | null,
  limitsOf: LimitsOver,
): ColdJoint[] {
  const late = (a: number | null, b: number | null): Late | null => {
    const [minA, minB] = [a, b].map((batch) => (batch === null ? null : placedMin(batch)));
    if (a === null || b === null || a === b || minA == null || minB == null) return null;
    const [olderBatch, newerBatch, from, to] = minA <= minB ? [a, b, minA, minB] : [b, a, minB, minA];
    return to - from > limitsOf(from, to).healingMin ? { mostMin: to - from, olderBatch, newerBatch } : null;
  };
  const bagsAt = (batch: number, part: number) => (batch - 1) * layout.bagsPerBatch + part * (layout.batches[batch - 1]?.bags ?? 0);
  const batchAt = (bags: number) => parts.find((part) => part.fromBags <= bags && bags <= part.toBags)?.batch ?? null;
  // Late points from one point of a join to the next, with the places between them where a batch of the log ends on either side.
  const latePoints = (a: JoinPoint, b: JoinPoint): LatePoint[] => {
    const sides = [
      { from: bagsAt(a.older, a.olderPart), to: bagsAt(b.older, b.olderPart) },
      { from: bagsAt(a.newer, a.newerPart), to: bagsAt(b.newer, b.newerPart) },
    ];
    const cuts = sides.flatMap(({ from, to }) => parts.map(({ toBags }) => (toBags - from) / (to - from)));
    const shares = [0, ...cuts.filter((share) => share > 1e-9 && share < 1 - 1e-9), 1].sort((p, q) => p - q);
    return shares.slice(1).flatMap((end, i): LatePoint[] => {
      const start = shares[i] ?? 0;
      const [older = null, newer = null] = sides.map(({ from, to }) => batchAt(from + ((start + end) / 2) * (to - from)));
      const found = late(older, newer);
      return found === null ? [] : [start, end].map((share) => ({ ...found, point: between(a.point, b.point, share) }));
    });
  };
  const ofJoin = (join: Join): ColdJoint[] => {
    const { points } = join;
    // Points of lanes come in pairs, one for each end of a stretch; those of a doorway are close enough alone.
    const pairs =
      join.kind === 'lane'
        ? points.flatMap((a, i) => (i % 2 === 0 ? [[a, points[i + 1] ?? a] as const] : []))
        : points.map((p) => [p, p] as const);
    const found = pairs.flatMap(([a, b]) => latePoints(a, b));
    const [first, last] = [found[0], found.at(-1)];
    if (first === undefined || last === undefined) return [];
    const most = found.reduce((best, one) => (one.mostMin > best.mostMin ? one : best), first);
    const isShort = Math.hypot(first.point.xM - last.point.xM, first.point.yM - last.point.yM) < SHORT_M;
    const [from, to] = isShort ? [join.from, join.to] : [first.point, last.point];
    const { kind, newer, older } = join;
    return [{ kind, newer, older, from, to, roomId: layout.lanes[newer - 1]?.roomId ?? '', ...most }];
  };
  const perM3 = bagsPerM3(layout);
  const endToEnd = parts.flatMap(({ batch, fromBags }, i): ColdJoint[] => {
    const found = late(parts[i - 1]?.batch ?? null, batch);
    // A batch that ends with its lane meets the next one in another lane.
    const lane = layout.lanes.find(
      ({ startM3, volumeM3 }) => fromBags > startM3 * perM3 + SLACK_BAGS && fromBags < (startM3 + volumeM3) * perM3 - SLACK_BAGS,
    );
    if (found === null || lane === undefined) return [];
    const line = acrossLane(lane, alongAt(fillLine(layout, lane), fromBags / perM3 - lane.startM3));
    return [{ kind: 'batch', newer: found.newerBatch, older: found.olderBatch, ...line, roomId: lane.roomId, ...found }];
  });
  const of = (kind: Join['kind']) => layout.joins.filter((join) => join.kind === kind).flatMap(ofJoin);
  return [...of('lane'), ...endToEnd, ...of('doorway')];
}
