/** The plan with its readings, the floor between them, and the planned pour. */
import type { Point } from '../../shared-core/book/fields.ts';
import type { Room } from '../../shared-core/book/room.ts';
import type { Survey } from '../../shared-core/book/plan-fields.ts';
import { floorField, type FloorField } from '../../shared-core/drawing/floor-field.ts';
import type { Mark } from '../../shared-core/drawing/marks.ts';
import { planDrawing, type PlanDrawing } from '../../shared-core/drawing/plan.ts';
import type { PlanSpot } from '../../shared-core/drawing/plan-input.ts';
import { spacingOf } from '../../shared-core/drawing/room-plan.ts';
import { sectionDrawing, type SectionDrawing } from '../../shared-core/drawing/section.ts';
import { formatDepth, formatLength, formatSignedDepth } from '../../shared-core/measure/length-format.ts';
import type { UnitSystem } from '../../shared-core/measure/unit-system.ts';
import { heightOfM } from '../../shared-core/survey/heights.ts';
import { between } from '../../shared-core/plan/point.ts';
import { planeAtM } from '../../shared-core/survey/plane.ts';
import { gapsOf, type Section } from '../../shared-core/survey/section-along.ts';
import { heightsAlong } from '../../shared-core/survey/surface.ts';
import type { SurveyedRoom } from '../../shared-core/survey/survey-room.ts';

export type ReadingsShow = 'read' | 'height' | 'depth';
export type Surveyed = Extract<SurveyedRoom, { state: 'surveyed' }>;

/** A depth on the plan, without its unit. */
export function bareDepth(valueM: number, units: UnitSystem, locale: string): string {
  return formatDepth(valueM, units, locale).replace(/″$| mm$/, '');
}

/** The floor smoothed for display, from its highest point. */
export function shownFloor(room: Room, surveyed: Surveyed): FloorField | null {
  const { surface, highestM, spots } = surveyed.floor;
  const height = heightsAlong(surface);
  return floorField(room.plan.outline, (xM, yM) => height(xM, yM).zM - highestM, spacingOf(room.plan.outline, spots.length));
}

export interface PictureInput {
  readonly room: Room;
  readonly survey: Survey;
  readonly surveyed: Surveyed | null;
  readonly field: FloorField | null;
  readonly shows: ReadingsShow;
  readonly widthPx: number;
  readonly heightPx: number;
  readonly small: boolean;
  readonly units: UnitSystem;
  readonly locale: string;
  /** The next places and the target, drawn over the plan. */
  readonly openPoints: readonly Point[];
  readonly aimAt: Point | null;
  /** The straightedge at the worst gap and the lettered places, drawn over the plan. */
  readonly bar: readonly [Point, Point] | null;
  readonly lettered: readonly Point[];
  readonly section: { readonly from: { xM: number; yM: number }; readonly to: { xM: number; yM: number } } | null;
}

function spotsOf({ survey, surveyed, shows, units, locale }: PictureInput): PlanSpot[] {
  return survey.readings.map((reading, i) => {
    const heightM = heightOfM(survey.method, reading.valueM);
    const text =
      surveyed === null || shows === 'read'
        ? bareDepth(reading.valueM, units, locale)
        : shows === 'height'
          ? bareDepth(heightM - surveyed.floor.highestM, units, locale)
          : bareDepth(Math.max(0, planeAtM(surveyed.level.plane, reading.xM, reading.yM) - heightM), units, locale);
    return { id: reading.id, xM: reading.xM, yM: reading.yM, text, label: `Reading ${i + 1}: ${text}` };
  });
}

/** Number of boxes along the straightedge that labels avoid. */
const BAR_BOXES = 24;

function alongBar(bar: PictureInput['bar']): { xM: number; yM: number; byPx: number }[] {
  if (bar === null) return [];
  return Array.from({ length: BAR_BOXES + 1 }, (_, i) => ({ ...between(bar[0], bar[1], i / BAR_BOXES), byPx: 6 }));
}

export function readingsPicture(input: PictureInput): PlanDrawing {
  const { room, surveyed, field, shows, small, units, locale, section } = input;
  const stepM = surveyed?.level.contourStepM ?? 0;
  const hasFloor = surveyed !== null && field !== null && shows !== 'read';
  const level = surveyed?.level;
  const highestM = surveyed?.floor.highestM ?? 0;
  return planDrawing({
    plan: room.plan,
    widthPx: input.widthPx,
    heightPx: input.heightPx,
    shows,
    lengthText: (m) => formatLength(m, units, locale),
    spots: spotsOf(input),
    keepClear: [
      ...alongBar(input.bar),
      ...input.lettered.map((p) => ({ xM: p.xM, yM: p.yM, byPx: 13 })),
      ...input.openPoints.map((p) => ({ ...p, byPx: 6 })),
      ...(input.aimAt === null ? [] : [{ ...input.aimAt, byPx: 16 }]),
    ],
    isSparse: small && input.survey.readings.length > 16,
    ...(hasFloor && level !== undefined
      ? {
          floor: field,
          newFloor: (xM: number, yM: number) => planeAtM(level.plane, xM, yM) - highestM,
          contours: {
            everyM: stepM,
            heavyEveryM: stepM * (units === 'us' ? 4 : 5),
            text: (m: number) =>
              shows === 'depth' ? bareDepth(m, units, locale) : formatSignedDepth(m, units, locale).replace(/″$| mm$/, ''),
          },
          hasKey: shows === 'depth',
        }
      : {}),
    ...(section === null ? {} : { section: { points: [section.from, section.to], letter: 'A' } }),
    hasDimensions: !small,
    ...(small ? { marginPx: { left: 20, right: 20, top: 30, bottom: 20 } } : {}),
  });
}

interface SectionPictureInput {
  readonly section: Section;
  readonly widthPx: number;
  readonly small: boolean;
  readonly units: UnitSystem;
  readonly locale: string;
}

/** Distance of the section's line from its drawing's top, px. */
export const SECTION_LINE_PX = 52;

/** The floor along the section, below the laser line. */
export function sectionPicture({ section, widthPx, small, units, locale }: SectionPictureInput): SectionDrawing {
  const points = section.stretches.flat().map((p) => ({ alongM: p.alongM, floorM: p.zM, newFloorM: p.finishedM }));
  const deepest = section.stretches
    .flat()
    .reduce<{ alongM: number; depthM: number } | null>((best, p) => (best === null || p.depthM > best.depthM ? p : best), null);
  const inset = small ? 26 : 130;
  const drawing = sectionDrawing({
    widthPx,
    heightPx: small ? 128 : 150,
    datumY: SECTION_LINE_PX,
    x0: inset,
    x1: widthPx - (small ? 26 : 130),
    points,
    gaps: gapsOf(section),
    units,
    exaggeration: null,
    start: { letter: 'A', words: '', hatch: null, heightM: null },
    end: { letter: 'A′', words: '', hatch: null, heightM: null },
    depths: deepest === null ? [] : [{ alongM: deepest.alongM, text: formatDepth(deepest.depthM, units, locale) }],
    places: [],
    floorWords: '',
    grindWords: '',
    lineWords: small ? '' : 'level',
  });
  const words: Mark = {
    kind: 'text',
    x: inset + 4,
    y: drawing.height - 6,
    text:
      drawing.exaggeration === 1 ? 'existing floor, drawn to scale' : `existing floor, heights exaggerated ${drawing.exaggeration} times`,
    family: 'serif',
    sizePx: 15,
    weight: 400,
    italic: true,
    ink: 'ink2',
    anchor: 'start',
    turnDeg: 0,
    clear: 'paper',
  };
  return { ...drawing, marks: [...drawing.marks, words] };
}
