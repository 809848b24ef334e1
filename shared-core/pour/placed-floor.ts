/**
 * What a pour placed, where: regions of floor that are placed, suspect, not placed or taken out. Computed from the layout stored with the
 * pour and from its log alone, so that it stays as it was whatever is changed later.
 *
 * How to use it: `roomFloor(pours, events, roomId)` answers for a room over all of its pours and is what a screen, a paper, a list, a
 * reminder or a price asks before it says "poured". `placedFloor(pour, events)` answers for one pour.
 */
import type { Point } from '../book/fields.ts';
import type { Pour, PourEvent } from '../book/pour-record.ts';
import type { PouredPlanRoom } from '../book/poured-plan.ts';
import { clipToHalfPlane, otherSide } from '../plan/clip.ts';
import { clipToRing } from '../plan/clip-to-ring.ts';
import { regionAreaM2, roomRegion, type Region } from '../plan/region.ts';
import { clocksAt, type PourClocks } from './clocks.ts';
import { bagsPerM3, coverOf, type Cover } from './cover.ts';
import type { PlannedLane } from './lane.ts';
import type { PourLayout } from './layout.ts';
import { timedLog, type LogEntry } from './log-time.ts';

export type FloorState = 'placed' | 'suspect' | 'not-placed' | 'taken-out';

/** Why a region is suspect. `marked`: a person marked it on the plan; `too-old`: a batch past its working time. */
export type SuspectReason = 'wrong-water' | 'lumps' | 'old-batch' | 'too-old' | 'leak' | 'marked';

export type FloorRegion = {
  readonly roomId: string;
  readonly state: FloorState;
  /** Exact polygons, meters on the room's axes. */
  readonly floor: readonly Region[];
  readonly areaM2: number;
  /** Lane number through the pour; null in a pour without a layout. */
  readonly lane: number | null;
  /** The batch that lies there; null where nothing was placed, or the log does not say. */
  readonly batch: number | null;
  readonly pourId: string;
  /** Instant the batch was placed; null where nothing lies or the log does not say. */
  readonly placedAt: string | null;
  /** The batch's bags at the yield over its floor, m; null where unknown. */
  readonly thicknessM: number | null;
  readonly reasons: readonly SuspectReason[];
  /** Reasons written with a mark. */
  readonly notes: readonly string[];
};

/** `whole`: all of the floor is placed and none taken out; suspect floor counts as placed. */
export type Extent = 'none' | 'partly' | 'whole';

export type PlacedRoom = {
  readonly roomId: string;
  /** Name of the room when it was poured. */
  readonly name: string;
  /** Which lift of this room, of how many. */
  readonly lift: number;
  readonly liftsPlanned: number;
  readonly extent: Extent;
  readonly areaM2: number;
  /** Placed and suspect floor. */
  readonly placedM2: number;
  readonly suspectM2: number;
  readonly notPlacedM2: number;
  readonly takenOutM2: number;
  readonly regions: readonly FloorRegion[];
  /** Lane numbers with floor not placed or taken out. */
  readonly openLanes: readonly number[];
};

/** Open floor under this share of a room is rounding of bags and edges, not a gap. */
const OPEN_SHARE = 0.002;

const areaOf = (floor: readonly Region[]): number => floor.reduce((sum, piece) => sum + regionAreaM2(piece), 0);

/** Entries of a pour that count, corrections applied. */
export function liveEntries(pour: Pick<Pour, 'id'>, events: readonly PourEvent[]): readonly LogEntry[] {
  const own = events.filter((event) => event.pourId === pour.id);
  return timedLog(own, own.at(-1)?.instant ?? '1970-01-01T00:00:00Z').entries.filter(
    (entry) => !entry.undone && entry.event.kind !== 'undone' && entry.event.kind !== 'corrected',
  );
}

/** Temperature a pour is judged by: the last surface or air temperature read during it, else the one it was planned for. */
export function pourTempC(pour: Pick<Pour, 'id' | 'asPoured'>, events: readonly PourEvent[]): number | null {
  const read = liveEntries(pour, events).flatMap(({ event }) =>
    event.kind === 'reading' ? [event.surfaceTempC ?? event.airTempC ?? []].flat() : [],
  );
  return read.at(-1) ?? pour.asPoured?.plannedTempC ?? null;
}

/** Healing and working time a pour is judged by, from the product and the temperature stored with it; null without a stored plan. */
export function pourClocks(pour: Pick<Pour, 'id' | 'asPoured'>, events: readonly PourEvent[]): PourClocks | null {
  const powder = pour.asPoured?.material.powder ?? null;
  const tempC = pourTempC(pour, events);
  return powder === null || tempC === null ? null : clocksAt(powder, tempC);
}

/** Places along a lane by the volume filled from its start: pairs of m3 and meters along its axes. */
function fillLine(layout: PourLayout, lane: PlannedLane): { readonly m3: number; readonly alongM: number }[] {
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

function alongAt(line: ReturnType<typeof fillLine>, m3: number): number {
  for (let i = 0; i + 1 < line.length; i++) {
    const a = line[i];
    const b = line[i + 1];
    if (a === undefined || b === undefined || m3 > b.m3) continue;
    return b.m3 - a.m3 < 1e-12 ? b.alongM : a.alongM + ((m3 - a.m3) / (b.m3 - a.m3)) * (b.alongM - a.alongM);
  }
  return line.at(-1)?.alongM ?? 0;
}

/** The floor of a lane between two volumes of it. */
function laneFloor(layout: PourLayout, lane: PlannedLane, fromM3: number, toM3: number): readonly Region[] {
  const line = fillLine(layout, lane);
  const cut = (pieces: readonly Region[], alongM: number, isKeptBeyond: boolean): readonly Region[] => {
    const beyond = { normal: { x: lane.axes.ux, y: lane.axes.uy }, offsetM: alongM };
    return pieces.flatMap((piece) => clipToHalfPlane(piece, isKeptBeyond ? beyond : otherSide(beyond)));
  };
  const slack = lane.volumeM3 * 1e-6;
  let floor = lane.pieces;
  if (fromM3 > slack) floor = cut(floor, alongAt(line, fromM3), lane.forward);
  if (toM3 < lane.volumeM3 - slack) floor = cut(floor, alongAt(line, toM3), !lane.forward);
  return floor;
}

type Piece = Pick<FloorRegion, 'roomId' | 'floor' | 'lane' | 'areaM2'>;

/** The floor between two places of the pour, lane by lane. */
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

function batchFacts(live: readonly LogEntry[], workingMin: number): (batch: number) => BatchFacts {
  const mixed = new Map<number, number>();
  const placed = new Map<number, { min: number; instant: string; bags: number }>();
  const reasons = new Map<number, SuspectReason[]>();
  const doubt = (batch: number, why: SuspectReason) => reasons.set(batch, [...new Set([...(reasons.get(batch) ?? []), why])]);
  for (const { event, min } of live) {
    if (event.kind === 'mixed' && !mixed.has(event.batch)) mixed.set(event.batch, min);
    if (event.kind === 'placed' && !placed.has(event.batch)) placed.set(event.batch, { min, instant: event.instant, bags: event.bags });
    if (event.kind === 'incident' && event.batch != null)
      if (event.what === 'wrong-water' || event.what === 'lumps' || event.what === 'old-batch') doubt(event.batch, event.what);
  }
  for (const [batch, { min }] of placed) {
    const from = mixed.get(batch);
    if (from !== undefined && min - from > workingMin) doubt(batch, 'too-old');
  }
  return (batch) => ({
    instant: placed.get(batch)?.instant ?? null,
    bags: placed.get(batch)?.bags ?? 0,
    reasons: reasons.get(batch) ?? [],
  });
}

/** Regions as the layout and the batches give them, before any mark. */
function regionsOf(pour: Pour, layout: PourLayout, cover: Cover, factsOf: (batch: number) => BatchFacts): FloorRegion[] {
  const base = { pourId: pour.id, notes: [] };
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

type Mark = Extract<PourEvent, { kind: 'marked' }>;

/** The regions after an area was marked: those it crosses are cut along its outline. */
function withMark(regions: readonly FloorRegion[], mark: Mark): FloorRegion[] {
  return regions.flatMap((region): FloorRegion[] => {
    const hasMaterial = region.state === 'placed' || region.state === 'suspect';
    if (region.roomId !== mark.roomId || region.state === mark.state) return [region];
    // Only placed floor can be suspect or taken out; a mark never turns open floor into floor but where it says so.
    if (!hasMaterial && mark.state !== 'placed') return [region];
    const cuts = region.floor.map((piece) => clipToRing(piece, mark.outline));
    const inside = cuts.flatMap((cut) => cut.inside);
    const insideM2 = areaOf(inside);
    if (insideM2 < 1e-6) return [region];
    const outside = cuts.flatMap((cut) => cut.outside);
    const rest = areaOf(outside) < 1e-6 ? [] : [{ ...region, floor: outside, areaM2: areaOf(outside) }];
    const isOpen = mark.state === 'not-placed' || mark.state === 'taken-out';
    const marked: FloorRegion = {
      ...region,
      state: mark.state,
      floor: inside,
      areaM2: insideM2,
      reasons: mark.state === 'suspect' ? [...region.reasons, 'marked'] : [],
      notes: mark.why === '' ? region.notes : [...region.notes, mark.why],
      placedAt: isOpen ? null : (region.placedAt ?? mark.instant),
      thicknessM: isOpen ? null : region.thicknessM,
    };
    return [...rest, marked];
  });
}

function placedRoom(room: Pick<PlacedRoom, 'roomId' | 'name' | 'lift' | 'liftsPlanned'>, regions: readonly FloorRegion[]): PlacedRoom {
  const sum = (...states: FloorState[]): number => regions.reduce((all, r) => (states.includes(r.state) ? all + r.areaM2 : all), 0);
  const areaM2 = regions.reduce((all, r) => all + r.areaM2, 0);
  const placedM2 = sum('placed', 'suspect');
  const open = regions.filter((r) => r.state === 'not-placed' || r.state === 'taken-out');
  const openM2 = open.reduce((all, r) => all + r.areaM2, 0);
  return {
    ...room,
    extent: placedM2 <= areaM2 * OPEN_SHARE ? 'none' : openM2 <= areaM2 * OPEN_SHARE ? 'whole' : 'partly',
    areaM2,
    placedM2,
    suspectM2: sum('suspect'),
    notPlacedM2: sum('not-placed'),
    takenOutM2: sum('taken-out'),
    regions,
    openLanes: [...new Set(open.flatMap((r) => r.lane ?? []))].sort((a, b) => a - b),
  };
}

const OUTSIDE_LAYOUT = { lane: null, batch: null, thicknessM: null, reasons: [], notes: [] };

/**
 * A pour stored without a layout: whole where the log says so or the bags planned were placed, else partly open. A record that stores
 * neither a plan nor a batch says only that the pour was finished.
 */
function withoutLayout(pour: Pour, live: readonly LogEntry[], roomId: string): FloorRegion[] {
  const end = live.findLast(({ event }) => event.kind === 'finished')?.event;
  const recorded = end?.kind === 'finished' ? (end.floor ?? null) : null;
  const placements = live.flatMap(({ event }) => (event.kind === 'placed' ? [event] : []));
  const bags = placements.reduce((sum, event) => sum + event.bags, 0);
  const largest = Math.max(0, ...placements.map((event) => event.bags));
  const isBare = pour.asPoured === undefined && bags === 0;
  const isWhole = recorded === null ? isBare || (bags > 0 && bags >= pour.bagsPlanned - largest) : recorded === 'whole';
  const room = pour.asPoured?.rooms.find((r) => r.roomId === roomId);
  const outline: readonly Point[] = room?.plan.outline ?? [];
  const floor = room === undefined || outline.length < 3 ? [] : [roomRegion(room.plan)];
  const last = placements.filter((event) => event.roomId === roomId || event.roomId === null).at(-1)?.instant ?? null;
  const region = { ...OUTSIDE_LAYOUT, roomId, floor, areaM2: floor.length === 0 ? 1 : areaOf(floor), pourId: pour.id };
  if (isWhole) return [{ ...region, state: 'placed', placedAt: last }];
  // How much of it is placed is unknown: half stands for "partly" until a mark says more.
  const half = { ...region, areaM2: region.areaM2 / 2, floor: [] };
  return bags > 0
    ? [
        { ...half, state: 'placed', placedAt: last },
        { ...half, state: 'not-placed', placedAt: null },
      ]
    : [{ ...region, state: 'not-placed', placedAt: null }];
}

function roomOf(pour: Pour, roomId: string): Pick<PouredPlanRoom, 'roomId' | 'name' | 'lift' | 'liftsPlanned' | 'isRest'> {
  const known = pour.asPoured?.rooms.find((r) => r.roomId === roomId);
  return known ?? { roomId, name: '', lift: pour.lift, liftsPlanned: pour.lift, isRest: false };
}

/** Regions of one pour in one room, without marks. */
function unmarked(pour: Pour, events: readonly PourEvent[], roomId: string): FloorRegion[] {
  const live = liveEntries(pour, events);
  const layout = pour.asPoured?.layout ?? null;
  if (layout === null) return withoutLayout(pour, live, roomId);
  const factsOf = batchFacts(live, pourClocks(pour, events)?.workingTimeMin ?? Infinity);
  return regionsOf(pour, layout, coverOf(layout, live), factsOf).filter((region) => region.roomId === roomId);
}

const marksOf = (pours: readonly Pour[], events: readonly PourEvent[]): readonly Mark[] =>
  pours
    .flatMap((pour) => liveEntries(pour, events).flatMap(({ event }) => (event.kind === 'marked' ? [event] : [])))
    .sort((a, b) => a.instant.localeCompare(b.instant));

/**
 * What one pour placed, a room at a time in pouring order. Works for a running pour too: then it is what is placed so far.
 * @param events entries of this pour; others are passed over
 */
export function placedFloor(pour: Pour, events: readonly PourEvent[]): readonly PlacedRoom[] {
  return pour.roomIds.map((roomId) =>
    placedRoom(roomOf(pour, roomId), marksOf([pour], events).reduce(withMark, unmarked(pour, events, roomId))),
  );
}

export type RoomFloor = {
  readonly roomId: string;
  /** Of the finished floor: `whole` when the last lift covers all of it. A lift under the last makes it `partly`. */
  readonly extent: Extent;
  /** Lifts the room was planned in when it was last poured; 1 before any pour. */
  readonly liftsPlanned: number;
  /** The highest lift placed over all of the floor; 0 before any. A lift is only placed on one that was whole. */
  readonly liftsWhole: number;
  /** The lift placed last with its regions, over every pour of that lift; null before any pour. */
  readonly lift: PlacedRoom | null;
  /** Finished pours of the room, the first one first. */
  readonly pours: readonly Pour[];
  /** The pour that runs now; null when none does. */
  readonly running: Pour | null;
  /** Instant the last batch of the last lift was placed; null before any. */
  readonly lastPlacedAt: string | null;
};

const startOf = (pour: Pour): string => pour.startedAt ?? pour.createdAt;

/** One lift of a room over its pours: each later pour takes the floor that was open when it started. */
function liftFloor(pours: readonly Pour[], events: readonly PourEvent[], roomId: string): PlacedRoom | null {
  const last = pours.at(-1);
  if (last === undefined) return null;
  const marks = marksOf(pours, events);
  let regions: readonly FloorRegion[] = [];
  pours.forEach((pour, i) => {
    const next = pours[i + 1];
    const fresh = unmarked(pour, events, roomId);
    const before = roomOf(pour, roomId).isRest ? regions.filter((r) => r.state === 'placed' || r.state === 'suspect') : [];
    const from = i === 0 ? '' : startOf(pour);
    const until = next === undefined ? '9' : startOf(next);
    regions = marks.filter((mark) => mark.instant >= from && mark.instant < until).reduce(withMark, [...before, ...fresh]);
  });
  return placedRoom(roomOf(last, roomId), regions);
}

/**
 * Where the floor of a room stands over all of its pours. The one function that says whether a room is poured.
 * @param pours of the job; deleted pours and those of other rooms are passed over
 * @param events of those pours
 */
export function roomFloor(pours: readonly Pour[], events: readonly PourEvent[], roomId: string): RoomFloor {
  const own = pours.filter((p) => p.deletedAt === null && p.startedAt !== null && p.roomIds.includes(roomId));
  const finished = own.filter((p) => p.finishedAt !== null).sort((a, b) => startOf(a).localeCompare(startOf(b)));
  const liftNumbers = [...new Set(finished.map((p) => roomOf(p, roomId).lift))].sort((a, b) => a - b);
  const lifts = liftNumbers.flatMap(
    (number) =>
      liftFloor(
        finished.filter((p) => roomOf(p, roomId).lift === number),
        events,
        roomId,
      ) ?? [],
  );
  const lift = lifts.at(-1) ?? null;
  const liftsPlanned = lift?.liftsPlanned ?? 1;
  const isLast = lift !== null && lift.lift >= liftsPlanned;
  const extent: Extent =
    lift === null || (lift.extent === 'none' && lifts.length < 2)
      ? 'none'
      : isLast
        ? lift.extent === 'none'
          ? 'partly'
          : lift.extent
        : 'partly';
  const placed = lift?.regions.flatMap((r) => r.placedAt ?? []) ?? [];
  return {
    roomId,
    extent,
    liftsPlanned,
    liftsWhole: Math.max(0, ...lifts.map((l) => (l.extent === 'whole' ? l.lift : l.lift - 1))),
    lift,
    pours: finished,
    running: own.find((p) => p.finishedAt === null) ?? null,
    lastPlacedAt: placed.length === 0 ? (finished.at(-1)?.finishedAt ?? null) : placed.reduce((a, b) => (a > b ? a : b)),
  };
}

/** The floor of the last lift still to be placed, exact polygons; empty when it is whole or was never begun. */
export function openFloor(floor: RoomFloor): readonly Region[] {
  return floor.lift?.regions.flatMap((r) => (r.state === 'not-placed' || r.state === 'taken-out' ? r.floor : [])) ?? [];
}
