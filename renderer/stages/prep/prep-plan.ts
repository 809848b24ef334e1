/** The room's plan with what prep does on it: marks found, dams, the strip round the walls, each with the number of its line. */
import type { RoomReading } from '../../../shared-core/agenda/read-job.ts';
import type { PlanInput } from '../../../shared-core/drawing/plan-input.ts';
import type { PlanArea, PlanNote } from '../../../shared-core/drawing/plan-layers.ts';
import { formatLength } from '../../../shared-core/measure/length-format.ts';
import type { UnitSystem } from '../../../shared-core/measure/unit-system.ts';
import { placedOpenings } from '../../../shared-core/plan/openings.ts';
import type { Point } from '../../../shared-core/book/fields.ts';

type PrepPlanChoice = {
  readonly at: RoomReading;
  readonly units: UnitSystem;
  readonly locale: string;
  readonly widthPx: number;
  readonly heightPx: number;
  readonly numberOf: ReadonlyMap<string, number>;
};

const middle = (points: readonly Point[]): Point => ({
  xM: points.reduce((sum, p) => sum + p.xM, 0) / Math.max(1, points.length),
  yM: points.reduce((sum, p) => sum + p.yM, 0) / Math.max(1, points.length),
});

/** What `planDrawing` takes. */
export function prepPlan({ at, units, locale, widthPx, heightPx, numberOf }: PrepPlanChoice): PlanInput {
  const { room, preparation, estimate } = at;
  const openings = placedOpenings(room.plan);
  const notes: PlanNote[] = preparation.lines.flatMap((line) => {
    const { item } = line;
    if (item === null) return [];
    return item.on.flatMap((id): PlanNote[] => {
      const mark = room.marks.find((m) => m.id === id);
      const opening = openings.find((o) => o.opening.id === id);
      const place = mark !== undefined ? middle(mark.points) : opening?.middle;
      if (place === undefined) return [];
      const text = opening !== undefined ? opening.opening.edge : (mark?.kind ?? '');
      return [{ id: `${line.key}-${id}`, figure: String(numberOf.get(line.key) ?? ''), text, at: place }];
    });
  });
  const level = estimate !== null && estimate.survey.state === 'surveyed' ? estimate.survey.level : null;
  const areas: PlanArea[] =
    level === null || !level.highSpotsAreGround
      ? []
      : level.highSpots.flatMap((spot, i) =>
          spot.rings[0] === undefined
            ? []
            : [{ id: `grind-${i}`, label: 'to be ground', corners: spot.rings[0], hatch: 'grind', isDashed: true }],
        );
  return {
    plan: room.plan,
    widthPx,
    heightPx,
    shows: 'prep',
    lengthText: (lengthM) => formatLength(lengthM, units, locale),
    areas,
    floorMarks: room.marks,
    notes,
    hasPerimeterStrip: true,
    hasDimensions: true,
    openingWords: (opening) => [opening.name],
  };
}
