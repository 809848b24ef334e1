/** Divides rooms by their pour plan into bays with lanes in pouring order: the farthest from the exit first, or the deepest side without one. */
import type { PourPlan } from '../book/job.ts';
import type { Point } from '../book/fields.ts';
import type { Plan } from '../book/plan-fields.ts';
import type { Found } from '../measure/parsed.ts';
import { baysOf } from '../plan/bays.ts';
import { clipToRing } from '../plan/clip-to-ring.ts';
import { placeOpening, wayOutPoint } from '../plan/openings.ts';
import { distanceM } from '../plan/point.ts';
import { centroidOf } from '../plan/polygon.ts';
import { areaOf, roomRegion, type Region } from '../plan/region.ts';
import { lanesOfRegion } from '../plan/lanes.ts';
import { farEnd, layOut, type Bay, type ComputedLayout, type PourProblem } from './layout.ts';
import { axesAt, pointAt } from './axes.ts';
import { type Depth, profileOf, volumeBefore } from './lane-profile.ts';
import type { OpenDoorway } from './lane.ts';

/** A room to be poured. `depth` is the mean depth or the depth at a place, m, on the room's axes. */
export type PourRoom = {
  readonly roomId: string;
  readonly name: string;
  readonly plan: Pick<Plan, 'outline' | 'holes' | 'openings'>;
  readonly pourPlan: Pick<PourPlan, 'laneWidthM' | 'angleDeg' | 'wayOutId' | 'joints'>;
  readonly depth: Depth;
  /** The part of the floor to pour, which an earlier pour left open; omitted or null for all of it. */
  readonly only?: readonly Region[] | null;
};

/** The sections of a room between its dammed joints, in pouring order: the farthest from the exit first. */
export function sectionsOf(room: Pick<PourRoom, 'plan' | 'pourPlan'>): readonly Region[] {
  const exit = wayOutOf(room);
  return [...baysOf(roomRegion(room.plan), room.pourPlan.joints)].sort((a, b) => fromWayOut(b, exit) - fromWayOut(a, exit));
}

/** The floor of the next section to pour, and the floor left for later; `later` is empty when all open floor is poured together. */
export function sectionNow(
  room: Pick<PourRoom, 'plan' | 'pourPlan'>,
  section: number | null,
  open: readonly Region[] | null,
): { readonly only: readonly Region[] | null; readonly later: readonly Region[] } {
  const sections = section === null ? [] : sectionsOf(room);
  const chosen = sections[(section ?? 0) - 1];
  if (chosen === undefined || sections.length < 2) return { only: open, later: [] };
  const others = sections.filter((candidate) => candidate !== chosen);
  if (open === null) return { only: [chosen], later: others };
  // A placed section is not poured again, so all open floor is next.
  return openM2(chosen, open) === 0 ? { only: open, later: [] } : { only: intersection(open, [chosen]), later: intersection(open, others) };
}

/** Floor of a section that is open, m²; null is all of it. */
export function openM2(section: Region, open: readonly Region[] | null): number {
  const areaM2 = areaOf(open === null ? [section] : intersection(open, [section]));
  return areaM2 < LEAST_SECTION_M2 ? 0 : areaM2;
}

/** Less than this of a section is rounding, m². */
const LEAST_SECTION_M2 = 0.01;

/** The bays of a room in pouring order. Returns the problem when the room has no outline or the lane width is not usable. */
export function roomBays(room: PourRoom): Found<readonly Bay[], PourProblem> {
  const { plan, pourPlan, name } = room;
  if (plan.outline.length < 3) return { ok: false, problem: { kind: 'not-drawn', room: name } };
  const exit = wayOutOf(room);
  const bays: Bay[] = [];
  for (const region of sectionsOf(room)) {
    const { angleDeg } = pourPlan;
    const toward = exit ?? shallowEnd(region, angleDeg, room.depth);
    const all = lanesOfRegion(region, pourPlan.laneWidthM, angleDeg, toward);
    const { only = null } = room;
    const lanes = only === null ? all : all.map((pieces) => intersection(pieces, only)).filter((pieces) => pieces.length > 0);
    if (only !== null && lanes.length === 0) continue;
    if (lanes.length === 0) return { ok: false, problem: { kind: 'lanes-do-not-fit', room: name } };
    bays.push({
      roomId: room.roomId,
      angleDeg,
      lanes,
      depth: room.depth,
      startAt: farEnd([region], angleDeg, toward),
    });
  }
  return { ok: true, value: bays };
}

/**
 * One layout for several rooms in the given order. Rooms keep their own axes, and so do the two sides of a
 * doorway that stays open between them.
 */
export function planPour(
  rooms: readonly PourRoom[],
  choice: {
    readonly pattern: PourPlan['pattern'];
    readonly bagYieldM3: number;
    readonly bagsPerBatch: number;
    readonly doorways: readonly OpenDoorway[];
  },
): Found<ComputedLayout, PourProblem> {
  const bays: Bay[] = [];
  for (const room of rooms) {
    const found = roomBays(room);
    if (!found.ok) return found;
    bays.push(...found.value);
  }
  return layOut({ bays, ...choice });
}

/** The intersection of two floors. */
function intersection(pieces: readonly Region[], only: readonly Region[]): readonly Region[] {
  return only.flatMap((open) => {
    const inside = pieces.flatMap((piece) => clipToRing(piece, open.outline).inside);
    return open.holes.reduce<readonly Region[]>((remaining, hole) => remaining.flatMap((piece) => clipToRing(piece, hole).outside), inside);
  });
}

/** Sides whose mean depths differ by less than this are equally deep, m: a laser reads no finer. */
const EQUALLY_DEEP_M = 0.001;

/** The shallow end of a floor along and across its lanes, so that a pour without an exit starts deep. Common practice, no source. */
function shallowEnd(region: Region, angleDeg: number, depth: Depth): Point {
  const endM = (degrees: number): number => {
    const [volume, area] = [depth, 1].map((each) => profileOf([region], axesAt(degrees), each));
    if (volume === undefined || area === undefined) return 0;
    const middleM = (area.fromM + area.toM) / 2;
    const [lowM3, lowM2] = [volumeBefore(volume, middleM), volumeBefore(area, middleM)];
    const deeperM = (volume.volumeM3 - lowM3) / (area.volumeM3 - lowM2) - lowM3 / lowM2;
    return deeperM > EQUALLY_DEEP_M ? area.fromM : area.toM;
  };
  return pointAt(axesAt(angleDeg), endM(angleDeg), endM(angleDeg + 90));
}

/** Whether a room has an exit, so that its lanes run toward it. */
export const hasExit = (room: Pick<PourRoom, 'plan' | 'pourPlan'>): boolean => wayOutOf(room) !== null;

function wayOutOf(room: Pick<PourRoom, 'plan' | 'pourPlan'>): Point | null {
  const { plan, pourPlan } = room;
  const chosen = plan.openings.find((opening) => opening.id === pourPlan.wayOutId);
  return (chosen && placeOpening(plan, chosen)?.middle) ?? wayOutPoint(plan);
}

function fromWayOut(region: Region, exit: Point | null): number {
  const middle = centroidOf(region.outline, region.holes);
  return exit && middle ? distanceM(exit, middle) : 0;
}
