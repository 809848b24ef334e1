/** Floors of the sample's rooms: plans from feet, and simulated rod readings of an uneven surface. */
import type { Point } from '../book/fields.ts';
import type { Hole, Opening, Plan, Survey } from '../book/plan-fields.ts';
import { FOOT_M, INCH_M } from '../measure/length-units.ts';
import { readingGrid } from '../survey/reading-grid.ts';

/** A rise (or a dip, when negative) around a place, feet, inches high. */
export type Swell = { readonly xFt: number; readonly yFt: number; readonly radiusFt: number; readonly heightIn: number };
export type SampleFloor = { readonly tiltXIn: number; readonly tiltYIn: number; readonly swells: readonly Swell[] };

const point = (xFt: number, yFt: number): Point => ({ xM: xFt * FOOT_M, yM: yFt * FOOT_M });

/** Converts corners in feet to an outline. */
export function ring(...corners: readonly (readonly [number, number])[]): Point[] {
  return corners.map(([x, y]) => point(x, y));
}

/** A plain rectangle, feet. */
export function rectangle(widthFt: number, depthFt: number): Point[] {
  return ring([0, 0], [widthFt, 0], [widthFt, depthFt], [0, depthFt]);
}

/** Height of the laser above the datum of the sample's floors. */
const LASER_M = 1.1;

/**
 * A doorway to go out by, with a dam, unless `rest` says otherwise. In feet along its wall; `stepIn` is the height of the adjoining floor
 * above the datum of the room's own floor, inches.
 */
export function door(
  id: string,
  name: string,
  [wall, fromFt, widthFt, stepIn]: readonly [wall: number, fromFt: number, widthFt: number, stepIn: number],
  { kind = 'doorway', adjoiningFlooring = '', edge = 'dam', isWayOut = true }: Partial<Opening> = {},
): Opening {
  const [fromM, widthM] = [fromFt * FOOT_M, widthFt * FOOT_M];
  return { id, kind, name, wall, adjoiningFlooring, edge, isWayOut, fromM, widthM, adjoiningM: stepIn * INCH_M - LASER_M };
}

/** A plan placed in its property, feet. */
export function samplePlan(outline: Point[], placedFt: readonly [number, number], openings: Opening[], holes: Hole[] = []): Plan {
  return { outline, holes, openings, placedAt: { ...point(placedFt[0], placedFt[1]), turnDeg: 0 }, diagonals: [] };
}

/** Readings are to a sixteenth of an inch, as on a rod. */
const READ_TO_M = INCH_M / 16;
/** Small differences between neighbors beyond the swells: fixed, so that the sample data is always the same. */
const TEXTURE_M = [0, 0.0011, -0.0007, 0.0004, -0.0012, 0.0009, -0.0003] as const;

function heightM(floor: SampleFloor, point: Point, index: number): number {
  const [x, y] = [point.xM / FOOT_M, point.yM / FOOT_M];
  const swells = floor.swells.reduce((sum, s) => {
    const d2 = ((x - s.xFt) ** 2 + (y - s.yFt) ** 2) / s.radiusFt ** 2;
    return sum + s.heightIn * Math.exp(-d2);
  }, 0);
  return (floor.tiltXIn * (x / 10) + floor.tiltYIn * (y / 10) + swells) * INCH_M + (TEXTURE_M[index % TEXTURE_M.length] ?? 0);
}

/** The readings of a floor after its pour: nearly flat, a little low in the middle. */
export function surveyAfter(plan: Plan, takenAt: string, id: string): Survey {
  const xs = plan.outline.map((p) => p.xM / FOOT_M);
  const ys = plan.outline.map((p) => p.yM / FOOT_M);
  const [widthFt, depthFt] = [Math.max(...xs), Math.max(...ys)];
  const low = { xFt: widthFt * 0.6, yFt: depthFt * 0.4, radiusFt: 4, heightIn: -0.06 };
  return sampleSurvey(plan, { tiltXIn: 0, tiltYIn: 0, swells: [low] }, takenAt, `${id}-after`);
}

/** Simulated laser readings of the floor: distances down, on the suggested grid. */
export function sampleSurvey(plan: Plan, floor: SampleFloor, takenAt: string | null, id: string, spacingFt?: number): Survey {
  const { points } = readingGrid(plan, spacingFt === undefined ? undefined : spacingFt * FOOT_M);
  const readings =
    takenAt === null
      ? []
      : points.map((point, i) => ({
          id: `${id}-r${i + 1}`,
          ...point,
          valueM: Math.round((LASER_M - heightM(floor, point, i)) / READ_TO_M) * READ_TO_M,
          note: null,
          confirmed: false,
        }));
  return { method: 'distance-down', takenAt, over: 'once-out', readings, readingErrorM: 0.0015 };
}
