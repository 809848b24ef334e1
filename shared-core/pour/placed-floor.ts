/**
 * What a pour placed, where: regions of floor that are placed, suspect, not placed or taken out. Computed from the layout stored with the
 * pour and from its log alone, so that it stays as it was whatever is changed later.
 *
 * How to use it: `roomFloor(pours, events, roomId)` answers for a room over all of its pours and is what a screen, a paper, a list, a
 * reminder or a price asks before it says "poured". `placedFloor(pour, events)` answers for one pour.
 */
import type { Pour, PourEvent } from '../book/pour-record.ts';
import { clipToRing } from '../plan/clip-to-ring.ts';
import type { Region } from '../plan/region.ts';
import { areaOf, type FloorRegion, type FloorState, liveEntries, roomOf, type SuspectReason, unmarked } from './pour-regions.ts';

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

type Mark = Extract<PourEvent, { kind: 'marked' }>;

/** The regions after an area was marked: those it crosses are cut along its outline. */
function withMark(regions: readonly FloorRegion[], mark: Mark): FloorRegion[] {
  return regions.flatMap((region): FloorRegion[] => {
    const hasMaterial = region.state === 'placed' || region.state === 'suspect';
    // A second mark on suspect floor may name the defect.
    const isSame = region.state === mark.state && mark.defect === undefined;
    if (region.roomId !== mark.roomId || isSame) return [region];
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
      reasons: mark.state === 'suspect' ? [...new Set<SuspectReason>([...region.reasons, 'marked'])] : [],
      mark: mark.state === 'suspect' ? { id: mark.id, defect: mark.defect ?? null } : null,
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

const marksOf = (pours: readonly Pour[], events: readonly PourEvent[]): readonly Mark[] =>
  pours
    .flatMap((pour) => liveEntries(pour, events).flatMap(({ event }) => (event.kind === 'marked' ? [event] : [])))
    .sort((a, b) => a.instant.localeCompare(b.instant));

/**
 * What one pour placed, one room at a time in pouring order. Works for a running pour too: then it is what is placed so far.
 * @param events entries of this pour; others are ignored
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
 * @param pours of the job; deleted pours and those of other rooms are ignored
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
