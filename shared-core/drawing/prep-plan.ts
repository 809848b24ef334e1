/** A room's plan for prep: floor marks, dams, isolation strip, spots to grind, each with the number of its line. */
import { cutWords } from '../substrate/exposed-layers.ts';
import type { RoomReading } from '../standing/read-job.ts';
import type { Point } from '../book/fields.ts';
import { formatLength } from '../measure/length-format.ts';
import type { UnitSystem } from '../measure/unit-system.ts';
import { placedOpenings } from '../plan/openings.ts';
import { between } from '../plan/point.ts';
import { centroidOf, ringAreaM2 } from '../plan/polygon.ts';
import type { SignedLine } from '../prep/signed-lines.ts';
import type { PlanInput } from './plan-input.ts';
import type { PlanArea, PlanNote } from './plan-layers.ts';

/** Input of `prepPlan`; sizes in px. */
export type PrepPlanChoice = {
  readonly roomReading: Pick<RoomReading, 'room' | 'preparation' | 'estimate'>;
  readonly units: UnitSystem;
  readonly locale: string;
  readonly widthPx: number;
  readonly heightPx: number;
  readonly numberOf: ReadonlyMap<string, number>;
};

/** The number of each line in the list and on the plan: work order, from 1. */
export function lineNumbers(lines: readonly SignedLine[]): ReadonlyMap<string, number> {
  return new Map(lines.map((line, i) => [line.key, i + 1]));
}

/** Where a mark's note attaches: the center of an area, the middle of a line, or the spot itself. */
function placeOf(points: readonly Point[], shape: 'line' | 'area' | 'spot'): Point | null {
  const [first] = points;
  if (first === undefined) return null;
  if (shape === 'area' && points.length >= 3) return centroidOf(points);
  const last = points.at(-1) ?? first;
  return shape === 'line' ? (points.length === 2 ? between(first, last, 0.5) : (points[Math.floor(points.length / 2)] ?? first)) : first;
}

/** Input for `planDrawing`. */
export function prepPlan({ roomReading, units, locale, widthPx, heightPx, numberOf }: PrepPlanChoice): PlanInput {
  const { room, preparation, estimate } = roomReading;
  const openings = placedOpenings(room.plan);
  const numbered = (key: string): string => String(numberOf.get(key) ?? '');
  const notes: PlanNote[] = preparation.lines.flatMap((line) => {
    const { item } = line;
    if (item === null) return [];
    return item.on.flatMap((id): PlanNote[] => {
      const mark = room.marks.find((m) => m.id === id);
      const opening = openings.find((o) => o.opening.id === id);
      const place = mark === undefined ? opening?.middle : placeOf(mark.points, mark.shape);
      if (place === undefined || place === null) return [];
      const text = opening === undefined ? (mark?.kind.replace('-', ' ') ?? '') : opening.opening.edge;
      return [
        {
          id: `${line.key}-${id}`,
          figure: numbered(line.key),
          text,
          point: place,
          isAtOpening: mark === undefined,
          ...(mark?.shape === 'area' && mark.points.length >= 3 ? { within: mark.points } : {}),
        },
      ];
    });
  });
  const level = estimate !== null && estimate.survey.state === 'surveyed' ? estimate.survey.level : null;
  const ground = level === null || !level.highSpotsAreGround ? [] : level.highSpots.flatMap((spot) => spot.rings.slice(0, 1));
  const areas: PlanArea[] = ground.map((corners, i) => ({
    id: `grind-${i}`,
    label: `to be ${cutWords(room).done}`,
    corners,
    hatch: 'grind',
    isDashed: true,
  }));
  // One note covers all grinding areas, since their hatch is the same.
  const [largest] = ground.toSorted((a, b) => ringAreaM2(b) - ringAreaM2(a));
  const grindPoint = largest === undefined || !numberOf.has('grind') ? null : placeOf(largest, 'area');
  const grinding: PlanNote[] =
    grindPoint === null || largest === undefined
      ? []
      : [{ id: 'grind', figure: numbered('grind'), text: cutWords(room).verb, point: grindPoint, within: largest }];
  return {
    plan: room.plan,
    widthPx,
    heightPx,
    shows: 'prep',
    lengthText: (lengthM) => formatLength(lengthM, units, locale),
    areas,
    floorMarks: room.marks,
    notes: [...notes, ...grinding],
    hasPerimeterStrip: numberOf.has('isolation-strip'),
    hasDimensions: true,
    openingWords: (opening) => [opening.name],
  };
}
