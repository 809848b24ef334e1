/** Where to take readings: rows along the longest wall, walked back and forth, spaced for the room's size. */
import type { Point } from '../book/fields.ts';
import type { Plan } from '../book/plan-fields.ts';
import { distanceToWallM, isOnFloor, roomRings, longestWallAngle } from './room-rings.ts';

/** Spacing by floor area, meters by square meters: small rooms hide short dips, large ones take too long (common practice). */
export const SPACING_BY_AREA: readonly { readonly upToM2: number; readonly spacingM: number }[] = [
  { upToM2: 8, spacingM: 0.6 },
  { upToM2: 25, spacingM: 0.9 },
  { upToM2: 70, spacingM: 1.2 },
  { upToM2: 200, spacingM: 1.8 },
  { upToM2: Number.POSITIVE_INFINITY, spacingM: 2.4 },
];

/** Distance of the first row from the walls: as close as a rod can be placed (common practice). */
export const FROM_WALL_M = 0.1;

export type ReadingGrid = { readonly spacingM: number; readonly points: readonly Point[] };

/** The spacing for a floor area. */
export function gridSpacingM(areaM2: number): number {
  return (SPACING_BY_AREA.find((row) => areaM2 <= row.upToM2) ?? { spacingM: 2.4 }).spacingM;
}

/** Suggested places in walking order; none when the plan has no area. `spacingM` overrides the suggestion. */
export function readingGrid(plan: Pick<Plan, 'outline' | 'holes'>, spacingM?: number): ReadingGrid {
  const room = roomRings(plan);
  if (!room) return { spacingM: spacingM ?? gridSpacingM(0), points: [] };
  const spacing = spacingM ?? gridSpacingM(room.areaM2);
  const angle = longestWallAngle(room);
  const cos = Math.cos(angle);
  const sin = Math.sin(angle);
  const us = plan.outline.map((corner) => corner.xM * cos + corner.yM * sin);
  const vs = plan.outline.map((corner) => corner.yM * cos - corner.xM * sin);
  const uSteps = steps(Math.min(...us), Math.max(...us), spacing);
  const vSteps = steps(Math.min(...vs), Math.max(...vs), spacing);
  const points: Point[] = [];
  let forward = true;
  for (const v of vSteps) {
    const row = uSteps
      .map((u) => ({ xM: u * cos - v * sin, yM: u * sin + v * cos }))
      .filter((point) => isOnFloor(room, point.xM, point.yM) && distanceToWallM(room, point.xM, point.yM) >= FROM_WALL_M / 2);
    points.push(...(forward ? row : row.reverse()));
    if (row.length > 0) forward = !forward;
  }
  return { spacingM: spacing, points };
}

function steps(from: number, to: number, spacing: number): number[] {
  const inset = Math.min(FROM_WALL_M, (to - from) / 4);
  const length = to - from - 2 * inset;
  const count = Math.max(1, Math.ceil(length / spacing - 1e-9));
  return Array.from({ length: count + 1 }, (_, i) => from + inset + (length * i) / count);
}
