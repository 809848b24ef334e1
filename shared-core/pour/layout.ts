/**
 * Layout of a pour: lanes in the order they are filled and batches in the order they are placed, each with its place on the floor.
 * The cumulative volume runs through the whole pour, so that a batch may end one lane and start the next.
 */
import type { Point } from '../book/fields.ts';
import { type BatchCounts, batchCount } from '../material/water.ts';
import type { Found } from '../measure/parsed.ts';
import { clipToHalfPlane, otherSide } from '../plan/half-plane.ts';
import { areaOf, type Region } from '../plan/region.ts';
import { alongM, axesAt, cornersOf } from './axes.ts';
import { joinsOf, type Join } from './joins.ts';
import { placeOfVolume, profileOf, type Depth } from './lane-profile.ts';
import type { OpenDoorway, PlannedLane, PourLane } from './lane.ts';

/** One section of floor: a room, or the part of it on one side of a dammed joint. */
export type Bay = {
  readonly roomId: string;
  /** Direction of the lanes, degrees from x toward y. */
  readonly angleDeg: number;
  /** Floor of each lane, in the order they are filled. */
  readonly lanes: readonly (readonly Region[])[];
  readonly depth: Depth;
  /** End where the first lane starts: the low or the high end along its direction. */
  readonly startAt: 'low' | 'high';
};

export type BatchPiece = {
  readonly lane: number;
  readonly floor: readonly Region[];
  readonly areaM2: number;
  readonly volumeM3: number;
  /** Extent along the axes of the lane, m. */
  readonly fromM: number;
  readonly toM: number;
};

export type PlannedBatch = {
  /** From 1, in the order they are placed. */
  readonly number: number;
  readonly roomId: string;
  /** The lane that contains most of it. */
  readonly lane: number;
  readonly volumeM3: number;
  readonly bags: number;
  readonly areaM2: number;
  readonly pieces: readonly BatchPiece[];
  /** Numbers of the earlier batches that it meets. */
  readonly meets: readonly number[];
};

export type FillPattern = 'back-and-forth' | 'one-way';

/** The layout of a pour as used by screens, documents and the log, and as stored with the pour. */
export type PourLayout = {
  readonly lanes: readonly PlannedLane[];
  readonly batches: readonly PlannedBatch[];
  readonly joins: readonly Join[];
  readonly batchM3: number;
  readonly bagsPerBatch: number;
  readonly areaM2: number;
  readonly volumeM3: number;
  readonly pattern: FillPattern;
};

/** A layout with the data it was computed from. */
export type ComputedLayout = PourLayout & { readonly bays: readonly Bay[]; readonly lanes: readonly PourLane[] };

export type LayoutChoice = {
  readonly bays: readonly Bay[];
  readonly doorways: readonly OpenDoorway[];
  readonly pattern: FillPattern;
  /** Mixed volume per bag, m³. */
  readonly bagYieldM3: number;
  readonly bagsPerBatch: number;
};

/** Why a pour cannot be laid out or crewed. */
export type PourProblem =
  | {
      readonly kind:
        | 'no-rooms'
        | 'no-batch-size'
        | 'no-floor'
        | 'no-depth'
        | 'no-mixer'
        | 'no-spreader'
        | 'no-batch'
        | 'no-load'
        | 'no-times'
        | 'no-layout-stored';
    }
  | { readonly kind: 'too-many-batches'; readonly batches: number }
  | { readonly kind: 'not-drawn' | 'lanes-do-not-fit'; readonly room: string };

/** More batches than this come from a typo. */
export const MOST_BATCHES = 2000;

/** Lanes and batches of a pour in order. Returns the problem when there is no floor, no depth or no batch. */
export function layOut(choice: LayoutChoice): Found<ComputedLayout, PourProblem> {
  const { bays, pattern, bagYieldM3, bagsPerBatch } = choice;
  const batchM3 = bagYieldM3 * bagsPerBatch;
  if (!(batchM3 > 0) || !Number.isFinite(batchM3)) return { ok: false, problem: { kind: 'no-batch-size' } };
  const lanes = lanesInOrder(bays, pattern);
  const last = lanes.at(-1);
  if (!last) return { ok: false, problem: { kind: 'no-floor' } };
  const volumeM3 = last.startM3 + last.volumeM3;
  if (!(volumeM3 > 0)) return { ok: false, problem: { kind: 'no-depth' } };
  // A remainder below a thousandth of a batch is rounding and is added to the batch before it.
  const count = Math.max(1, Math.ceil(volumeM3 / batchM3 - 1e-3));
  if (count > MOST_BATCHES) return { ok: false, problem: { kind: 'too-many-batches', batches: count } };
  const batches: PlannedBatch[] = [];
  for (let k = 0; k < count; k++) {
    const from = k * batchM3;
    const to = k === count - 1 ? volumeM3 : from + batchM3;
    batches.push(batchBetween(lanes, { number: k + 1, from, to }, bagsPerBatch / batchM3, batchM3));
  }
  const joins = joinsOf(lanes, { batchM3, count, volumeM3 }, choice.doorways);
  const met = joins.flatMap((join) => join.points.map((p) => [p.newer, p.older] as const));
  return {
    ok: true,
    value: {
      bays,
      lanes,
      batches: batches.map((batch) => ({
        ...batch,
        meets: [...new Set(met.filter(([newer, older]) => newer === batch.number && older < newer).map(([, older]) => older))].sort(
          (a, b) => a - b,
        ),
      })),
      joins,
      batchM3,
      bagsPerBatch,
      areaM2: lanes.reduce((sum, s) => sum + s.areaM2, 0),
      volumeM3,
      pattern,
    },
  };
}

/** The batches of a pour: those that its floor takes, and of all the bags brought for it. */
export function batchesOf(
  { bagsToBring }: { readonly bagsToBring: number },
  layout: Pick<PourLayout, 'batches' | 'bagsPerBatch'>,
): BatchCounts {
  const likely = layout.batches.length;
  return { likely, all: Math.max(likely, batchCount(bagsToBring, layout.bagsPerBatch)) };
}

/** Whole bags to mix for a batch: a full batch, and for the last one the remainder rounded up, so that all batches add up to the bags needed. */
export function bagsToMix(layout: Pick<PourLayout, 'batches' | 'bagsPerBatch'>, batch: number): number {
  const planned = layout.batches[batch - 1];
  if (planned === undefined || batch < layout.batches.length) return layout.bagsPerBatch;
  return Math.min(layout.bagsPerBatch, Math.max(1, Math.ceil(planned.bags - 1e-6)));
}

function lanesInOrder(bays: readonly Bay[], pattern: FillPattern): PourLane[] {
  const lanes: PourLane[] = [];
  let startM3 = 0;
  bays.forEach((bay, bayIndex) => {
    const axes = axesAt(bay.angleDeg);
    let inBay = 0;
    for (const pieces of bay.lanes) {
      const profile = profileOf(pieces, axes, bay.depth);
      if (profile.volumeM3 <= 0) continue;
      inBay += 1;
      const turned = pattern === 'back-and-forth' && inBay % 2 === 0;
      lanes.push({
        number: lanes.length + 1,
        bay: bayIndex,
        roomId: bay.roomId,
        inRoom: lanes.filter((lane) => lane.roomId === bay.roomId).length + 1,
        pieces,
        areaM2: areaOf(pieces),
        volumeM3: profile.volumeM3,
        leastDepthM: profile.leastDepthM,
        startM3,
        forward: (bay.startAt === 'low') !== turned,
        axes,
        profile,
      });
      startM3 += profile.volumeM3;
    }
  });
  return lanes;
}

function batchBetween(
  lanes: readonly PourLane[],
  { number, from, to }: { readonly number: number; readonly from: number; readonly to: number },
  bagsPerM3: number,
  batchM3: number,
): PlannedBatch {
  const pieces: BatchPiece[] = [];
  for (const lane of lanes) {
    const start = Math.max(0, from - lane.startM3);
    const end = Math.min(lane.volumeM3, to - lane.startM3);
    if (end - start <= batchM3 * 1e-9) continue;
    const [low, high] = lane.forward ? [start, end] : [lane.volumeM3 - end, lane.volumeM3 - start];
    const fromM = placeOfVolume(lane.profile, low);
    const toM = placeOfVolume(lane.profile, high);
    const beyondLow = { normal: { x: lane.axes.ux, y: lane.axes.uy }, offsetM: fromM };
    const beyondHigh = { ...beyondLow, offsetM: toM };
    let floor = lane.pieces;
    if (low > 0) floor = floor.flatMap((piece) => clipToHalfPlane(piece, beyondLow));
    if (high < lane.volumeM3) floor = floor.flatMap((piece) => clipToHalfPlane(piece, otherSide(beyondHigh)));
    pieces.push({ lane: lane.number, floor, areaM2: areaOf(floor), volumeM3: end - start, fromM, toM });
  }
  const main = pieces.reduce<BatchPiece | undefined>((best, piece) => (!best || piece.volumeM3 > best.volumeM3 ? piece : best), undefined);
  const volumeM3 = to - from;
  return {
    number,
    roomId: lanes[(main?.lane ?? 1) - 1]?.roomId ?? '',
    lane: main?.lane ?? 1,
    volumeM3,
    bags: volumeM3 * bagsPerM3,
    areaM2: pieces.reduce((sum, piece) => sum + piece.areaM2, 0),
    pieces,
    meets: [],
  };
}

/** The end of the lanes farther from the exit, so that the first lane runs toward the exit. */
export function farEnd(floor: readonly Region[], angleDeg: number, wayOut: Point): 'low' | 'high' {
  const axes = axesAt(angleDeg);
  const along = cornersOf(floor).map((p) => alongM(axes, p));
  const exitM = alongM(axes, wayOut);
  return exitM - Math.min(...along) >= Math.max(...along) - exitM ? 'low' : 'high';
}
