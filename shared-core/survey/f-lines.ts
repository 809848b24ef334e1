/**
 * Where to take readings for F-numbers: straight lines at 12 in. or 300 mm, at least twelve readings each, along the longest
 * wall, or across it where none fits along.
 */
import type { Point } from '../book/fields.ts';
import type { Plan } from '../book/plan-fields.ts';
import type { UnitSystem } from '../measure/unit-system.ts';
import { FEWEST_ON_LINE } from './f-numbers.ts';
import type { ReadingGrid } from './reading-grid.ts';
import { distanceToWallM, isOnFloor, type RoomRings, roomRings, longestWallAngle } from './room-rings.ts';

/** The interval of ASTM E1155 and E1155M, meters. */
export const F_INTERVAL_M = { us: 0.3048, metric: 0.3 } as const;
/**
 * A 600 mm strip along the walls is excluded, and lines are at least 1.2 m apart (E1155M 7.3.1 to 7.3.3, as quoted in
 * secondary sources).
 */
const OFF_WALL_M = 0.6;
const APART_M = 1.2;
/** A reading this near to a point of a line counts as taken there, meters. */
const ON_PLACE_M = 0.005;

/**
 * The lines of a room as points in walking order, back and forth. Each line is as long as the floor allows; a line of fewer
 * than twelve points is left out, so a room shorter than 15 ft (4.5 m) has none.
 */
export function fLinePlaces(plan: Pick<Plan, 'outline' | 'holes'>, units: UnitSystem): ReadingGrid {
  const spacingM = F_INTERVAL_M[units];
  const room = roomRings(plan);
  if (!room) return { spacingM, points: [] };
  const angle = longestWallAngle(room);
  const along = pointsAt(plan, room, angle, spacingM);
  return { spacingM, points: along.length > 0 ? along : pointsAt(plan, room, angle + Math.PI / 2, spacingM) };
}

/** The points of the lines in one direction. */
function pointsAt(plan: Pick<Plan, 'outline'>, room: RoomRings, angle: number, spacingM: number): readonly Point[] {
  const [cos, sin] = [Math.cos(angle), Math.sin(angle)];
  const us = plan.outline.map((corner) => corner.xM * cos + corner.yM * sin);
  const vs = plan.outline.map((corner) => corner.yM * cos - corner.xM * sin);
  const points: Point[] = [];
  let forward = true;
  for (const v of linesAcross(Math.min(...vs), Math.max(...vs))) {
    let run: Point[] = [];
    const close = (): void => {
      if (run.length >= FEWEST_ON_LINE) {
        points.push(...(forward ? run : run.toReversed()));
        forward = !forward;
      }
      run = [];
    };
    for (let u = Math.min(...us) + OFF_WALL_M; u <= Math.max(...us); u += spacingM) {
      const point = { xM: u * cos - v * sin, yM: u * sin + v * cos };
      if (isOnFloor(room, point.xM, point.yM) && distanceToWallM(room, point.xM, point.yM) >= OFF_WALL_M - 1e-9) run.push(point);
      else close();
    }
    close();
  }
  return points;
}

function linesAcross(from: number, to: number): number[] {
  const free = to - from - 2 * OFF_WALL_M;
  if (free < -1e-9) return [];
  const count = Math.floor(free / APART_M + 1e-9);
  return Array.from({ length: count + 1 }, (_, i) => from + OFF_WALL_M + (free - count * APART_M) / 2 + i * APART_M);
}

/** Points of the lines without a reading: each one has to be read exactly there, or its line has a gap. */
export function linePlacesLeft(places: readonly Point[], readings: readonly Point[]): readonly Point[] {
  return places.filter((place) => !readings.some((r) => Math.hypot(r.xM - place.xM, r.yM - place.yM) <= ON_PLACE_M));
}
