/**
 * Regions of floor that a pour placed, with suspect, open and removed regions. Computed only from the layout stored with the
 * pour and from its log, so that later changes to the plan do not affect it.
 *
 * `roomFloor(pours, events, roomId)` combines all pours of a room; every screen, document, list,
 * reminder and price uses it to decide whether a room is poured. `placedFloor(pour, events)` covers one pour.
 */
import type { Pour, PourEvent } from '../book/pour-record.ts';
import { formatListAnd } from '../measure/list.ts';
import { clipToRing } from '../plan/clip-to-ring.ts';
import { areaOf, type Region } from '../plan/region.ts';
import { type FloorRegion, type FloorState, liveEntries, roomOf, type SuspectReason, unmarked } from './pour-regions.ts';

/** `whole`: all of the floor is placed and none removed; suspect floor counts as placed. */
export type Extent = 'none' | 'partly' | 'whole';

export type PlacedRoom = {
  readonly roomId: string;
  /** Name of the room when it was poured. */
  readonly name: string;
  /** Number of this lift, and the number of lifts. */
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
  /** Numbers of lanes with floor that is not placed or was removed. */
  readonly openLanes: readonly number[];
};

/** Open floor below this share of a room comes from rounding of bags and edges and is no gap. */
export const OPEN_SHARE = 0.002;

type Mark = Extract<PourEvent, { kind: 'marked' }>;

/** The regions after an area was marked; regions that cross its outline are divided along it. */
function withMark(regions: readonly FloorRegion[], mark: Mark): FloorRegion[] {
  return regions.flatMap((region): FloorRegion[] => {
    const hasMaterial = region.state === 'placed' || region.state === 'suspect';
    // A second mark on suspect floor may add the defect.
    const isSame = region.state === mark.state && mark.defect === undefined;
    if (region.roomId !== mark.roomId || isSame) return [region];
    // Only placed floor can be suspect or removed; open floor becomes placed only by a mark for placed floor.
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
      mark:
        mark.state === 'suspect' || mark.state === 'taken-out'
          ? { id: mark.id, defect: mark.defect ?? null, instant: region.mark?.instant ?? mark.instant }
          : null,
      notes: mark.why === '' ? region.notes : [...region.notes, mark.why],
      placedAt: isOpen ? null : (region.placedAt ?? mark.instant),
      thicknessM: isOpen ? null : region.thicknessM,
    };
    return [...rest, marked];
  });
}

function placedRoom(room: Pick<PlacedRoom, 'roomId' | 'name' | 'lift' | 'liftsPlanned'>, regions: readonly FloorRegion[]): PlacedRoom {
  const sum = (...states: FloorState[]): number => regions.reduce((total, r) => (states.includes(r.state) ? total + r.areaM2 : total), 0);
  const areaM2 = regions.reduce((total, r) => total + r.areaM2, 0);
  const placedM2 = sum('placed', 'suspect');
  const open = regions.filter((r) => r.state === 'not-placed' || r.state === 'taken-out');
  const openM2 = open.reduce((total, r) => total + r.areaM2, 0);
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

/** A mark, and when it was entered: those of a handwritten log came with its pour, whatever time they name. */
type EnteredMark = { readonly mark: Mark; readonly at: string };

const marksOf = (pours: readonly Pour[], events: readonly PourEvent[]): readonly EnteredMark[] =>
  pours
    .flatMap((pour) =>
      liveEntries(pour, events).flatMap(({ event }) =>
        event.kind === 'marked' ? [{ mark: event, at: event.estimated ? pour.createdAt : event.instant }] : [],
      ),
    )
    .sort((a, b) => a.at.localeCompare(b.at));

const withMarks = (regions: readonly FloorRegion[], marks: readonly EnteredMark[]): readonly FloorRegion[] =>
  marks.reduce((marked, { mark }) => withMark(marked, mark), regions);

/**
 * The floor that one pour placed, by room in pouring order. For a running pour it is the floor placed so far.
 * @param events entries of this pour; others are ignored
 */
export function placedFloor(pour: Pour, events: readonly PourEvent[]): readonly PlacedRoom[] {
  return pour.roomIds.map((roomId) => placedRoom(roomOf(pour, roomId), withMarks(unmarked(pour, events, roomId), marksOf([pour], events))));
}

/** Whether a pour placed all the floor it was to place, in every room. A section left for another day is not part of it. */
export function isPlacedAsPlanned(pour: Pour, events: readonly PourEvent[]): boolean {
  return placedFloor(pour, events).every(({ extent, areaM2, regions }) => {
    const openM2 = regions.reduce((sum, r) => {
      const isOpen = r.lane !== null && (r.state === 'not-placed' || r.state === 'taken-out');
      return isOpen ? sum + r.areaM2 : sum;
    }, 0);
    return extent !== 'none' && openM2 <= areaM2 * OPEN_SHARE;
  });
}

export type RoomFloor = {
  readonly roomId: string;
  /** State of the finished floor: `whole` when the last lift covers all of it, `partly` after any earlier lift. */
  readonly extent: Extent;
  /** Lifts the room was planned in when it was last poured; 1 before any pour. */
  readonly liftsPlanned: number;
  /** The highest lift placed on all of the floor; 0 before any. A lift is placed only on a whole lift. */
  readonly liftsWhole: number;
  /** The latest lift with its regions, from all pours of that lift; null before any pour. */
  readonly lift: PlacedRoom | null;
  /** Finished pours that placed something in the room: first lift first, the pours of one lift by their start. */
  readonly pours: readonly Pour[];
  /** The running pour; null when there is none. */
  readonly running: Pour | null;
};

const startOf = (pour: Pour): string => pour.startedAt ?? pour.createdAt;

/** Whether a pour placed something in a room, removed since or not. */
const hasPlaced = (pour: Pour, events: readonly PourEvent[], roomId: string): boolean =>
  placedFloor(pour, events).some((room) => room.roomId === roomId && room.regions.some(({ state }) => state !== 'not-placed'));

/**
 * One lift of a room from the pours that placed some of it: each adds to the floor that was open when it was laid out. A pour entered from
 * a handwritten log was laid out then, after pours that may have started later.
 * @param marks of all finished pours of that lift
 */
function liftFloor(pours: readonly Pour[], marks: readonly EnteredMark[], events: readonly PourEvent[], roomId: string): PlacedRoom | null {
  const laidOut = pours.toSorted((a, b) => a.createdAt.localeCompare(b.createdAt));
  const last = laidOut.at(-1);
  if (last === undefined) return null;
  let regions: readonly FloorRegion[] = [];
  laidOut.forEach((pour, i) => {
    const fresh = unmarked(pour, events, roomId);
    const before = roomOf(pour, roomId).isRest ? regions.filter((r) => r.state === 'placed' || r.state === 'suspect') : [];
    const from = i === 0 ? '' : pour.createdAt;
    const until = laidOut[i + 1]?.createdAt ?? '9';
    regions = withMarks(
      [...before, ...fresh],
      marks.filter(({ at }) => at >= from && at < until),
    );
  });
  return placedRoom(roomOf(last, roomId), regions);
}

type KnownFloors = { readonly pours: readonly Pour[]; readonly byRoom: Map<string, RoomFloor> };
/** Floors by their log, because standing, money and agenda of a job each ask for them. */
const knownFloors = new WeakMap<readonly PourEvent[], KnownFloors>();

/**
 * State of a room's floor after all of its pours. This is the only function that decides whether a room is poured.
 * @param pours of the job; deleted pours and those of other rooms are ignored
 * @param events of those pours
 */
export function roomFloor(pours: readonly Pour[], events: readonly PourEvent[], roomId: string): RoomFloor {
  const last = knownFloors.get(events);
  const known = last?.pours === pours ? last : { pours, byRoom: new Map<string, RoomFloor>() };
  knownFloors.set(events, known);
  const floor = known.byRoom.get(roomId) ?? readFloor(pours, events, roomId);
  known.byRoom.set(roomId, floor);
  return floor;
}

function readFloor(pours: readonly Pour[], events: readonly PourEvent[], roomId: string): RoomFloor {
  const roomPours = pours.filter((p) => p.deletedAt === null && p.startedAt !== null && p.roomIds.includes(roomId));
  const liftOf = (pour: Pour): number => roomOf(pour, roomId).lift;
  const ended = roomPours
    .filter((p) => p.finishedAt !== null)
    .sort((a, b) => liftOf(a) - liftOf(b) || startOf(a).localeCompare(startOf(b)));
  const finished = ended.filter((pour) => hasPlaced(pour, events, roomId));
  const ofLift = (pours: readonly Pour[], lift: number): readonly Pour[] => pours.filter((pour) => liftOf(pour) === lift);
  const lifts = [...new Set(finished.map(liftOf))].flatMap(
    (lift) => liftFloor(ofLift(finished, lift), marksOf(ofLift(ended, lift), events), events, roomId) ?? [],
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
  return {
    roomId,
    extent,
    liftsPlanned,
    liftsWhole: Math.max(0, ...lifts.map((l) => (l.extent === 'whole' ? l.lift : l.lift - 1))),
    lift,
    pours: finished,
    running: roomPours.find((p) => p.finishedAt === null) ?? null,
  };
}

/** The finished pours whose floor is there: of the last lift only those of which something was not removed again. */
export function poursIn({ roomId, pours, lift }: RoomFloor): readonly Pour[] {
  const isThere = (pour: Pour): boolean =>
    lift?.regions.some((r) => r.pourId === pour.id && (r.state === 'placed' || r.state === 'suspect')) === true;
  return pours.filter((pour) => lift === null || roomOf(pour, roomId).lift < lift.lift || isThere(pour));
}

/**
 * The moisture mitigation system under a floor: what was chosen when its first lift was poured, and not what is chosen now. `isWhole`
 * is false where a part was poured without it. Null for none.
 */
export function systemUnder(floor: RoomFloor): { readonly name: string; readonly isWhole: boolean } | null {
  const under = poursIn(floor)
    .map((pour) => roomOf(pour, floor.roomId))
    .flatMap((stored) => (stored.lift === 1 ? [stored.moistureSystem ?? null] : []));
  const names = [...new Set(under.flatMap((name) => name ?? []))];
  return names.length === 0 ? null : { name: formatListAnd(names), isWhole: !under.includes(null) };
}

/** Names of the primers under a floor and between its lifts, the first first: what each pour went on, and not what is chosen now. */
export const primersUnder = (floor: RoomFloor): readonly string[] => [
  ...new Set(poursIn(floor).flatMap((pour) => roomOf(pour, floor.roomId).primer ?? [])),
];

/** The floor of the last lift still to be placed, as exact polygons; empty when it is whole or was never started. */
export function openFloor(floor: RoomFloor): readonly Region[] {
  return floor.lift?.regions.flatMap((r) => (r.state === 'not-placed' || r.state === 'taken-out' ? r.floor : [])) ?? [];
}
