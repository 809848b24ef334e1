/** The drawing of the plan screen. */
import type { Room } from '../../shared-core/book/room.ts';
import { planDrawing, type PlanDrawing } from '../../shared-core/drawing/plan.ts';
import { formatLength } from '../../shared-core/measure/length-format.ts';
import type { Point } from '../../shared-core/book/fields.ts';
import { boundsOf } from '../../shared-core/plan/polygon.ts';
import type { UnitSystem } from '../../shared-core/measure/unit-system.ts';
import { openingName } from '../../shared-core/plan/openings.ts';
import { joined } from '../../shared-core/measure/list.ts';

interface PictureRoom {
  readonly widthPx: number;
  readonly heightPx: number;
  readonly small: boolean;
}

/** Walls, openings, cutouts and marks with their lengths. */
export function roomPicture(room: Pick<Room, 'plan' | 'marks'>, picture: PictureRoom, units: UnitSystem, locale: string): PlanDrawing {
  return planDrawing({
    plan: room.plan,
    widthPx: picture.widthPx,
    heightPx: picture.heightPx,
    shows: 'prep',
    lengthText: (m) => formatLength(m, units, locale),
    floorMarks: room.marks,
    openingWords: (o) => [openingName(o), joined([o.adjoiningFlooring, o.edge === 'stop' ? 'ends here' : o.edge])],
    ...(picture.small ? { marginPx: { left: 40, right: 40, top: 44, bottom: 44 } } : {}),
  });
}

/** The number of a quantity, `8.1` of `8.1 cu ft`, shown large. */
export function figureOf(quantity: string): string {
  return quantity.split(' ')[0] ?? quantity;
}

/** The unit, shown beside the number. */
export function unitOf(quantity: string): string {
  return quantity.split(' ').slice(1).join(' ');
}

/** Height to width of the plan in one column, with space for its labels. */
export function heightRatio(outline: readonly Point[]): number {
  const box = boundsOf(outline);
  if (box === null || box.rightM === box.leftM) return 0.9;
  return Math.min(1.3, Math.max(0.6, (box.bottomM - box.topM) / (box.rightM - box.leftM) + 0.3));
}
