/** A layout as stored with a pour: without the data it was computed from, and without intermediate points of joins. */
import type { PouredPlan } from '../book/poured-plan.ts';
import type { PourLayout } from './layout.ts';
import type { Join, JoinPoint } from './joins.ts';

/** The first and last point for each pair of adjacent batches: the log times whole batches, so points between them add nothing. */
function endPoints(points: readonly JoinPoint[]): JoinPoint[] {
  return points.filter((p, i) => {
    const before = points[i - 1];
    const after = points[i + 1];
    const isSame = (other: JoinPoint | undefined) => other?.newer === p.newer && other.older === p.older;
    return !isSame(before) || !isSame(after);
  });
}

type StoredLayout = NonNullable<PouredPlan['layout']>;

/** A deep copy as plain data, so that a stored layout shares nothing with the plan it came from. */
const asPlainData = (layout: object): StoredLayout => JSON.parse(JSON.stringify(layout)) as StoredLayout;

/** The layout as plain data. */
export function storedLayout(layout: PourLayout): StoredLayout {
  const { lanes, batches, joins, batchM3, bagsPerBatch, areaM2, volumeM3, pattern } = layout;
  return asPlainData({
    lanes: lanes.map(({ number, bay, roomId, inRoom, pieces, areaM2: laneM2, volumeM3: laneM3, leastDepthM, startM3, forward, axes }) => ({
      number,
      bay,
      roomId,
      inRoom,
      pieces,
      areaM2: laneM2,
      volumeM3: laneM3,
      leastDepthM,
      startM3,
      forward,
      axes: { ux: axes.ux, uy: axes.uy },
    })),
    batches,
    joins: joins.map((join: Join) => ({ ...join, points: endPoints(join.points) })),
    batchM3,
    bagsPerBatch,
    areaM2,
    volumeM3,
    pattern,
  });
}
