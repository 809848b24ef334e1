/** A strip of a room along one side of the drawing, where the substrate differs. */
import type { Point } from '../book/fields.ts';
import type { Plan } from '../book/plan-fields.ts';
import type { Parsed } from '../measure/parsed.ts';
import { clipToHalfPlane, type HalfPlane } from './half-plane.ts';
import { areaInRoomM2 } from './overlap.ts';
import { type Bounds, boundsOf, ringAreaM2 } from './polygon.ts';
import { ringProblems } from './problems.ts';

/** The side of the drawing that a strip starts from, and its width from there, meters. */
export type RoomStretch = { readonly side: 'left' | 'right' | 'top' | 'bottom'; readonly depthM: number };

const SIDES = ['left', 'right', 'top', 'bottom'] as const;
/** Walls within a millimeter are the same wall. */
const SAME_M = 1e-3;
/** A smaller part is a slip of the mouse, m². */
const LEAST_PART_M2 = 0.01;

function halfPlaneOf({ side, depthM }: RoomStretch, bounds: Bounds): HalfPlane {
  switch (side) {
    case 'left':
      return { normal: { x: -1, y: 0 }, offsetM: -(bounds.leftM + depthM) };
    case 'right':
      return { normal: { x: 1, y: 0 }, offsetM: bounds.rightM - depthM };
    case 'top':
      return { normal: { x: 0, y: -1 }, offsetM: -(bounds.topM + depthM) };
    case 'bottom':
      return { normal: { x: 0, y: 1 }, offsetM: bounds.bottomM - depthM };
  }
}

const breadthM = (side: RoomStretch['side'], bounds: Bounds): number =>
  side === 'left' || side === 'right' ? bounds.rightM - bounds.leftM : bounds.bottomM - bounds.topM;

/**
 * The ring of a strip, clipped to the room's outline; the largest piece when there are several. Returns a message when
 * the strip covers the whole room or none of it.
 */
export function stretchOfRoom(plan: Pick<Plan, 'outline'>, stretch: RoomStretch): Parsed<Point[]> {
  const bounds = plan.outline.length < 3 ? null : boundsOf(plan.outline);
  if (bounds === null) return { ok: false, message: 'Draw the room first.' };
  if (!(stretch.depthM > SAME_M)) return { ok: false, message: 'Enter how far this part extends from the wall.' };
  if (stretch.depthM >= breadthM(stretch.side, bounds) - SAME_M)
    return { ok: false, message: 'This part covers the whole room. Choose the whole room.' };
  const pieces = clipToHalfPlane({ outline: plan.outline, holes: [] }, halfPlaneOf(stretch, bounds));
  const [largest] = [...pieces].sort((a, b) => ringAreaM2(b.outline) - ringAreaM2(a.outline));
  return largest === undefined
    ? { ok: false, message: 'No part of the room is there. Choose another side.' }
    : { ok: true, value: largest.outline.map(({ xM, yM }) => ({ xM, yM })) };
}

/**
 * A part of a room drawn by its corners. Returns a message when it has no area or no floor of the room. Parts outside
 * the walls or over a cutout are allowed and do not count.
 */
export function drawnPart(plan: Pick<Plan, 'outline' | 'holes'>, corners: readonly Point[]): Parsed<Point[]> {
  const [problem] = ringProblems({ corners, name: 'This part', id: null });
  if (problem !== undefined) return { ok: false, message: problem.message };
  if (areaInRoomM2(plan, corners) < LEAST_PART_M2)
    return { ok: false, message: 'This area is outside the room. Move its corners inside the walls.' };
  return { ok: true, value: corners.map(({ xM, yM }) => ({ xM, yM })) };
}

/** The strip that a ring describes; null for any other shape. */
export function stretchOf(plan: Pick<Plan, 'outline'>, ring: readonly Point[]): RoomStretch | null {
  const bounds = plan.outline.length < 3 ? null : boundsOf(plan.outline);
  const partBounds = boundsOf(ring);
  if (bounds === null || partBounds === null) return null;
  for (const side of SIDES) {
    const depthM =
      side === 'left'
        ? partBounds.rightM - bounds.leftM
        : side === 'right'
          ? bounds.rightM - partBounds.leftM
          : side === 'top'
            ? partBounds.bottomM - bounds.topM
            : bounds.bottomM - partBounds.topM;
    const stretch = stretchOfRoom(plan, { side, depthM });
    if (stretch.ok && Math.abs(ringAreaM2(stretch.value) - ringAreaM2(ring)) < SAME_M ** 2) return { side, depthM };
  }
  return null;
}
