/**
 * Regions of one pour without marks, computed only from the layout stored with the pour and from its log.
 */
import type { Point } from '../book/fields.ts';
import type { Defect, Pour, PourEvent } from '../book/pour-record.ts';
import type { PouredPlanRoom } from '../book/poured-plan.ts';
import { clipToHalfPlane, otherSide } from '../plan/half-plane.ts';
import { areaOf, roomRegion, type Region } from '../plan/region.ts';
import { clocksAt, type LimitsAt, type LimitsOver, limitsOver, tempsRead } from './clocks.ts';
import { bagsPerM3, coverOf, type Cover } from './cover.ts';
import type { PlannedLane } from './lane.ts';
import type { PourLayout } from './layout.ts';
import { endEntry, liveOf, timedLog, type LogEntry } from './log-time.ts';

export type FloorState = 'placed' | 'suspect' | 'not-placed' | 'taken-out';

/** Why a region is suspect. `marked`: a person marked it on the plan; `too-old`: a batch past its working time. */
export type SuspectReason = 'wrong-water' | 'lumps' | 'old-batch' | 'too-old' | 'leak' | 'marked';

export type FloorRegion = {
  readonly roomId: string;
  readonly state: FloorState;
  /** Exact polygons, meters on the room's axes. */
  readonly floor: readonly Region[];
  readonly areaM2: number;
  /** Lane number through the pour; null without a layout. */
  readonly lane: number | null;
  /** The batch placed there; null where nothing was placed or the batch is not logged. */
  readonly batch: number | null;
  readonly pourId: string;
  /** Instant when the batch was placed; null where nothing was placed or the time is not logged. */
  readonly placedAt: string | null;
  /** Average depth of the batch from its bags and the yield, m; null where unknown. */
  readonly thicknessM: number | null;
  readonly reasons: readonly SuspectReason[];
  /** Notes of the marks. */
  readonly notes: readonly string[];
  /** The mark that made it suspect or removed it, with its defect and the instant it was first marked; null when no mark did. */
  readonly mark: { readonly id: string; readonly defect: Defect | null; readonly instant: string } | null;
};

/** Valid entries of a pour, corrections applied. */
export function liveEntries(pour: Pick<Pour, 'id'>, events: readonly PourEvent[]): readonly LogEntry[] {
  return liveOf(timedLog(events.filter((event) => event.pourId === pour.id)));
}

/** Temperature for what a running pour may still wait: the last surface or air temperature logged during it, else the planned one. */
export function pourTempC(pour: Pick<Pour, 'id' | 'asPoured'>, events: readonly PourEvent[]): number {
  return tempsRead(liveEntries(pour, events)).at(-1)?.tempC ?? pour.asPoured.plannedTempC;
}

/** Limits of a pour by temperature, from the product and the planned temperature stored with it; null without a powder. */
export function pourLimits({ material: { powder }, plannedTempC }: Pick<Pour['asPoured'], 'material' | 'plannedTempC'>): LimitsAt | null {
  return powder === null ? null : (tempC) => clocksAt(powder, tempC ?? plannedTempC);
}

/** Places along a lane by the volume from its start: pairs of m³ and meters along its axes. */
export function fillLine(layout: PourLayout, lane: PlannedLane): { readonly m3: number; readonly alongM: number }[] {
  const pieces = layout.batches.flatMap((batch) => batch.pieces.filter((piece) => piece.lane === lane.number));
  const line: { m3: number; alongM: number }[] = [];
  let m3 = 0;
  for (const piece of pieces) {
    if (line.length === 0) line.push({ m3: 0, alongM: lane.forward ? piece.fromM : piece.toM });
    m3 += piece.volumeM3;
    line.push({ m3, alongM: lane.forward ? piece.toM : piece.fromM });
  }
  return line;
}

/** The place at a volume on such a line, meters along the axes. */
export function alongAt(line: ReturnType<typeof fillLine>, m3: number): number {
  for (let i = 0; i + 1 < line.length; i++) {
    const a = line[i];
    const b = line[i + 1];
    if (a === undefined || b === undefined || m3 > b.m3) continue;
    return b.m3 - a.m3 < 1e-12 ? b.alongM : a.alongM + ((m3 - a.m3) / (b.m3 - a.m3)) * (b.alongM - a.alongM);
  }
  return line.at(-1)?.alongM ?? 0;
}

/** The floor of a lane between two of its volumes. */
function laneFloor(layout: PourLayout, lane: PlannedLane, fromM3: number, toM3: number): readonly Region[] {
  const line = fillLine(layout, lane);
  const cut = (pieces: readonly Region[], alongM: number, isKeptBeyond: boolean): readonly Region[] => {
    const halfBeyond = { normal: { x: lane.axes.ux, y: lane.axes.uy }, offsetM: alongM };
    return pieces.flatMap((piece) => clipToHalfPlane(piece, isKeptBeyond ? halfBeyond : otherSide(halfBeyond)));
  };
  const slack = lane.volumeM3 * 1e-6;
  let floor = lane.pieces;
  if (fromM3 > slack) floor = cut(floor, alongAt(line, fromM3), lane.forward);
  if (toM3 < lane.volumeM3 - slack) floor = cut(floor, alongAt(line, toM3), !lane.forward);
  return floor;
}

type Piece = Pick<FloorRegion, 'roomId' | 'floor' | 'lane' | 'areaM2'>;

/** The floor between two places in the pour, by lane. */
function floorBetween(layout: PourLayout, fromBags: number, toBags: number): Piece[] {
  const perM3 = bagsPerM3(layout);
  return layout.lanes.flatMap((lane) => {
    const fromM3 = Math.max(0, fromBags / perM3 - lane.startM3);
    const toM3 = Math.min(lane.volumeM3, toBags / perM3 - lane.startM3);
    if (toM3 - fromM3 < lane.volumeM3 * 1e-5) return [];
    const floor = laneFloor(layout, lane, fromM3, toM3);
    const areaM2 = areaOf(floor);
    return areaM2 < 1e-6 ? [] : [{ roomId: lane.roomId, lane: lane.number, floor, areaM2 }];
  });
}

type BatchFacts = { readonly instant: string | null; readonly bags: number; readonly reasons: readonly SuspectReason[] };

function batchFacts(live: readonly LogEntry[], limits: LimitsOver | null): (batch: number) => BatchFacts {
  const mixed = new Map<number, number>();
  const placed = new Map<number, { min: number; instant: string; bags: number }>();
  const reasons = new Map<number, SuspectReason[]>();
  const doubt = (batch: number, reason: SuspectReason) => reasons.set(batch, [...new Set([...(reasons.get(batch) ?? []), reason])]);
  for (const { event, min } of live) {
    if (event.kind === 'mixed' && !mixed.has(event.batch)) mixed.set(event.batch, min);
    if (event.kind === 'placed' && !placed.has(event.batch)) placed.set(event.batch, { min, instant: event.instant, bags: event.bags });
    if (event.kind === 'incident' && event.batch != null)
      if (event.what === 'wrong-water' || event.what === 'lumps' || event.what === 'old-batch') doubt(event.batch, event.what);
  }
  for (const [batch, { min }] of placed) {
    const from = mixed.get(batch);
    if (from !== undefined && min - from > (limits?.(from, min).workingTimeMin ?? Infinity)) doubt(batch, 'too-old');
  }
  return (batch) => ({
    instant: placed.get(batch)?.instant ?? null,
    bags: placed.get(batch)?.bags ?? 0,
    reasons: reasons.get(batch) ?? [],
  });
}

/** Regions from the layout and the batches, before any mark. */
function regionsOf(pour: Pour, layout: PourLayout, cover: Cover, factsOf: (batch: number) => BatchFacts): FloorRegion[] {
  const base = { pourId: pour.id, notes: [], mark: null };
  const open: FloorRegion[] = floorBetween(layout, cover.frontBags, cover.totalBags).map((piece) => ({
    ...base,
    ...piece,
    state: 'not-placed',
    batch: null,
    placedAt: null,
    thicknessM: null,
    reasons: [],
  }));
  const parts = cover.parts.map((part) => ({ part, pieces: floorBetween(layout, part.fromBags, part.toBags) }));
  const areaOfBatch = (batch: number): number =>
    parts.reduce((sum, { part, pieces }) => sum + (part.batch === batch ? pieces.reduce((all, p) => all + p.areaM2, 0) : 0), 0);
  const laid = parts.flatMap(({ part, pieces }): FloorRegion[] => {
    if (part.batch === null)
      return pieces.map((piece) => ({
        ...base,
        ...piece,
        state: 'taken-out',
        batch: part.scraped,
        placedAt: null,
        thicknessM: null,
        reasons: [],
      }));
    const { instant, bags, reasons } = factsOf(part.batch);
    const areaM2 = areaOfBatch(part.batch);
    const thicknessM = areaM2 > 0 ? bags / bagsPerM3(layout) / areaM2 : null;
    const state = reasons.length > 0 ? 'suspect' : 'placed';
    return pieces.map((piece) => ({ ...base, ...piece, state, batch: part.batch, placedAt: instant, thicknessM, reasons }));
  });
  return [...laid, ...open];
}

const OUTSIDE_LAYOUT = { lane: null, batch: null, thicknessM: null, reasons: [], notes: [], mark: null };

/**
 * A pour stored without a layout: whole when the log says so or the planned bags were placed, else partly open. A pour without
 * entries is only known to be finished.
 */
function withoutLayout(pour: Pour, live: readonly LogEntry[], roomId: string): FloorRegion[] {
  const recorded = endEntry(live.map(({ event }) => event))?.floor ?? null;
  const scraped = new Set(live.map(({ event }) => (event.kind === 'discarded' ? event.batch : null)));
  const placements = live.flatMap(({ event }) => (event.kind === 'placed' && !scraped.has(event.batch) ? [event] : []));
  const bags = placements.reduce((sum, event) => sum + event.bags, 0);
  const largest = Math.max(0, ...placements.map((event) => event.bags));
  const isWhole = recorded === null ? live.length === 0 || (bags > 0 && bags >= pour.bagsPlanned - largest) : recorded === 'whole';
  const room = pour.asPoured.rooms.find((r) => r.roomId === roomId);
  const outline: readonly Point[] = room?.plan.outline ?? [];
  const floor = room === undefined || outline.length < 3 ? [] : [roomRegion(room.plan)];
  const last = placements.filter((event) => event.roomId === roomId || event.roomId === null).at(-1)?.instant ?? null;
  const region = { ...OUTSIDE_LAYOUT, roomId, floor, areaM2: floor.length === 0 ? 1 : areaOf(floor), pourId: pour.id };
  if (isWhole) return [{ ...region, state: 'placed', placedAt: last }];
  // The placed share is unknown, so half is used for "partly" until a mark tells more.
  const half = { ...region, areaM2: region.areaM2 / 2, floor: [] };
  return bags > 0
    ? [
        { ...half, state: 'placed', placedAt: last },
        { ...half, state: 'not-placed', placedAt: null },
      ]
    : [{ ...region, state: 'not-placed', placedAt: null }];
}

/** The room as stored with a pour. */
export function roomOf(
  pour: Pour,
  roomId: string,
): Pick<PouredPlanRoom, 'roomId' | 'name' | 'lift' | 'liftsPlanned' | 'isRest' | 'moistureSystem' | 'primer'> {
  const known = pour.asPoured.rooms.find((r) => r.roomId === roomId);
  return known ?? { roomId, name: '', lift: pour.lift, liftsPlanned: pour.lift, isRest: false };
}

/** Whether the plan stored with a pour left a section of a room for another day. */
export const hasLater = ({ rooms }: Pick<Pour['asPoured'], 'rooms'>): boolean => rooms.some(({ later }) => (later ?? []).length > 0);

/** Regions of one pour in one room, without marks. */
export function unmarked(pour: Pour, events: readonly PourEvent[], roomId: string): FloorRegion[] {
  const live = liveEntries(pour, events);
  const { layout } = pour.asPoured;
  if (layout === null) return withoutLayout(pour, live, roomId);
  const limitsAt = pourLimits(pour.asPoured);
  const factsOf = batchFacts(live, limitsAt === null ? null : limitsOver(live, limitsAt));
  const later = pour.asPoured.rooms.find((r) => r.roomId === roomId)?.later ?? [];
  const cover = coverOf(layout, live, hasLater(pour.asPoured));
  const openRegions: FloorRegion[] =
    later.length === 0
      ? []
      : [{ ...OUTSIDE_LAYOUT, roomId, state: 'not-placed', floor: later, areaM2: areaOf(later), pourId: pour.id, placedAt: null }];
  return [...regionsOf(pour, layout, cover, factsOf).filter((region) => region.roomId === roomId), ...openRegions];
}
