/** A pour layout as plan data: batches in place, progress, and wet edges. */
import type { Point } from '../book/fields.ts';
import type { PourLayout } from '../pour/layout.ts';
import type { FloorRegion } from '../pour/pour-regions.ts';
import type { PlanPour } from './plan-layers.ts';

/** Progress of the pour, by planned batch number. */
export type PourProgress = {
  /** The logged batch on the floor of each planned one that is covered. */
  readonly placed: ReadonlyMap<number, number>;
  /** The next planned batch; null when there is none. */
  readonly next: number | null;
  /** The number the next batch is logged with; those after it count on. */
  readonly nextToLand: number;
  /** Finished lanes, by their number in the pour. */
  readonly lanesDone: ReadonlySet<number>;
};

/** Gap between dots, px: for the first batch placed, then for the last one. */
const OLD_GAP_PX = 9;
const FRESH_GAP_PX = 4.6;

/** One room's part of a pour, for `planDrawing`. */
export function pourOnPlan(layout: PourLayout, roomId: string, progress: PourProgress | null, isPourMode: boolean): PlanPour {
  const lanes = layout.lanes.filter((lane) => lane.roomId === roomId);
  const laneNumbers = new Set(lanes.map((lane) => lane.number));
  const numberOf = batchNumbers(layout, progress);
  const latest = Math.max(1, ...(progress?.placed.values() ?? []));
  const earliest = Math.min(latest, ...(progress?.placed.values() ?? [1]));
  const stateOf = (batch: number, lane: number): 'placed' | 'next' | 'ahead' =>
    progress === null
      ? 'ahead'
      : progress.placed.has(batch) || progress.lanesDone.has(lane)
        ? 'placed'
        : progress.next === batch
          ? 'next'
          : 'ahead';
  const openLanes = lanes.filter((lane) => !progress?.lanesDone.has(lane.number));
  const laneNumber = layout.batches.find((b) => b.number === progress?.next)?.lane ?? openLanes[0]?.number ?? 0;
  const batches = layout.batches.flatMap((batch) =>
    batch.pieces
      .filter((piece) => laneNumbers.has(piece.lane))
      .flatMap((piece) => {
        const largest = batch.pieces.reduce((best, p) => (p.areaM2 > best.areaM2 ? p : best), piece);
        const state = stateOf(batch.number, piece.lane);
        // In pour mode, far lanes show their own name: their batches may still be placed elsewhere.
        const isFar = isPourMode && state === 'ahead' && piece.lane > laneNumber;
        if (isFar) return [];
        const number = numberOf.get(batch.number);
        return piece.floor.map((region, i) => ({
          id: `${batch.number}-${piece.lane}-${i}`,
          text: piece === largest && i === 0 ? String(number ?? '') : '',
          corners: region.outline,
          state,
          gapPx: OLD_GAP_PX + ((FRESH_GAP_PX - OLD_GAP_PX) * ((number ?? latest) - earliest)) / Math.max(1, latest - earliest),
        }));
      }),
  );
  return {
    lanes: lanes.flatMap((s) =>
      s.pieces.map((region, i) => ({ id: `${s.number}-${i}`, corners: region.outline, text: i === 0 ? `lane ${s.number}` : '' })),
    ),
    batches,
    wetEdges: progress === null ? [] : wetEdges(layout, laneNumbers, progress),
    isPourMode,
  };
}

/** The number to show for each planned batch: as logged, and from the next one on as it will be logged. */
function batchNumbers({ batches }: PourLayout, progress: PourProgress | null): ReadonlyMap<number, number> {
  if (progress === null) return new Map(batches.map(({ number }) => [number, number]));
  let ahead = progress.nextToLand;
  return new Map([
    ...progress.placed,
    ...batches
      .filter(({ number, lane }) => !progress.placed.has(number) && !progress.lanesDone.has(lane))
      .map(({ number }): [number, number] => [number, ahead++]),
  ]);
}

const REGION_STATE = { placed: 'placed', suspect: 'suspect', 'not-placed': 'ahead', 'taken-out': 'taken-out' } as const;
const REGION_TEXT = { placed: '', suspect: 'suspect', 'not-placed': 'not placed', 'taken-out': 'removed' } as const;
const CUSTOMER_TEXT = { placed: 'placed', suspect: 'to check', 'not-placed': 'not placed yet', 'taken-out': 'not placed yet' } as const;

/** Suspect floor with a known defect. */
const TO_REPAIR = 'to repair';

/** Regions of a finished pour for the plan: batch numbers, and each other state named once, in its largest region. */
export const regionsOnPlan = (regions: readonly FloorRegion[]): PlanPour['batches'] =>
  namedOnce(regions, REGION_TEXT, ({ state, batch }) => (state === 'placed' ? String(batch ?? '') : ''));

/** The same regions for a customer: no batch numbers, each state named once in its largest region. */
export const regionsForCustomer = (regions: readonly FloorRegion[]): PlanPour['batches'] => namedOnce(regions, CUSTOMER_TEXT, () => '');

function namedOnce(
  regions: readonly FloorRegion[],
  words: Readonly<Record<FloorRegion['state'], string>>,
  numberOf: (region: FloorRegion) => string,
): PlanPour['batches'] {
  const named = new Set(['']);
  return [...regions]
    .sort((a, b) => b.areaM2 - a.areaM2)
    .flatMap((region, i) =>
      region.floor.map((piece, j) => {
        const word = region.mark?.defect == null ? words[region.state] : TO_REPAIR;
        const text = named.has(word) ? (j === 0 ? numberOf(region) : '') : word;
        named.add(word);
        return { id: `region-${i}-${j}`, text, corners: piece.outline, state: REGION_STATE[region.state], gapPx: FRESH_GAP_PX };
      }),
    );
}

/** Stretches where placed floor meets floor not placed yet. */
function wetEdges(layout: PourLayout, laneNumbers: ReadonlySet<number>, { placed, lanesDone }: PourProgress): Point[][] {
  const edges: Point[][] = [];
  for (const join of layout.joins) {
    if (join.kind === 'batch') {
      const lane = layout.batches[join.newer - 1]?.lane ?? 0;
      if (laneNumbers.has(lane) && placed.has(join.older) && !placed.has(join.newer) && !lanesDone.has(lane))
        edges.push([join.from, join.to]);
      continue;
    }
    if (!laneNumbers.has(join.newer) || lanesDone.has(join.newer)) continue;
    // The points come in pairs, one for each end of a stretch.
    for (let i = 0; i + 1 < join.points.length; i += 2) {
      const a = join.points[i];
      const b = join.points[i + 1];
      if (a === undefined || b === undefined || !placed.has(a.older) || placed.has(a.newer)) continue;
      const last = edges.at(-1);
      const end = last?.at(-1);
      if (last !== undefined && end !== undefined && Math.hypot(end.xM - a.point.xM, end.yM - a.point.yM) < 1e-6) last.push(b.point);
      else edges.push([a.point, b.point]);
    }
  }
  return edges.map(straightened);
}

/** Drops corners on a straight stretch, so that the teeth of a wet edge are spaced over the whole stretch. */
function straightened(line: readonly Point[]): Point[] {
  return line.filter((p, i) => {
    const a = line[i - 1];
    const b = line[i + 1];
    if (a === undefined || b === undefined) return true;
    const turn = (p.xM - a.xM) * (b.yM - a.yM) - (p.yM - a.yM) * (b.xM - a.xM);
    return Math.abs(turn) > 1e-4 * Math.max(1e-9, Math.hypot(b.xM - a.xM, b.yM - a.yM));
  });
}
