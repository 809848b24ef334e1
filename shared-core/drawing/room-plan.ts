/** Plan and section input of a surveyed room, with all words: screens and documents both draw floors through it. */
import { cutWords } from '../substrate/exposed-layers.ts';
import type { Point } from '../book/fields.ts';
import type { LevelChoice } from '../book/job.ts';
import type { Opening } from '../book/plan-fields.ts';
import type { Room } from '../book/room.ts';
import { capital } from '../measure/first-letter.ts';
import { formatArea } from '../measure/area.ts';
import { formatDepth, formatLength, formatStep } from '../measure/length-format.ts';
import { FOOT_M } from '../measure/length-units.ts';
import type { UnitSystem } from '../measure/unit-system.ts';
import { placedOpenings } from '../plan/openings.ts';
import { ringAreaM2 } from '../plan/polygon.ts';
import { planeAtM } from '../survey/plane.ts';
import { finishOf } from '../survey/settle-level.ts';
import type { SurveyedRoom } from '../survey/survey-room.ts';
import { heightsAlong } from '../survey/surface.ts';
import { type FloorField, floorField } from './floor-field.ts';
import type { Hatch } from './marks.ts';
import type { PlanInput, PlanShows, PlanSpot } from './plan-input.ts';

type Read = Extract<SurveyedRoom, { state: 'surveyed' }>;
type Wording = { readonly units: UnitSystem; readonly locale: string };

export type RoomPlanChoice = Wording & {
  readonly room: Pick<Room, 'plan' | 'survey' | 'marks' | 'layers' | 'tests'>;
  readonly survey: SurveyedRoom;
  readonly level: LevelChoice;
  readonly shows: Extract<PlanShows, 'depth' | 'height' | 'read'>;
  readonly widthPx: number;
  readonly heightPx: number;
  /** The section's cut; null for none. */
  readonly section: readonly Point[] | null;
  /** Drop every other spot height, for small screens. */
  readonly isSparse: boolean;
};

/** A depth without its unit, as written at a spot: `1 1⁄16`. */
const bare = (text: string): string => text.replace(/[″"]$/, '').replace(/ mm$/, '');

/** Approximate distance between the readings of a floor, in meters. */
export const spacingOf = (outline: readonly Point[], readings: number): number =>
  Math.sqrt(Math.abs(ringAreaM2(outline)) / Math.max(1, readings));

/** Hatch of the flooring beyond an opening, chosen by its name. */
function beyond(opening: Opening): Hatch | null {
  const words = opening.adjoiningFlooring.toLowerCase();
  if (/oak|wood|board|tread/.test(words)) return 'boards';
  if (/tile/.test(words)) return 'tile';
  if (/stone|sill|brick|apron|concrete/.test(words)) return 'stone';
  return null;
}

/** Height of the new floor at a place; null until a level is chosen. */
function newFloorOf(survey: Read, level: LevelChoice): number | ((xM: number, yM: number) => number) {
  if (level.mode === 'follow') {
    const height = heightsAlong(survey.floor.surface);
    return (x, y) => height(x, y).zM + level.followThicknessM + level.textureM;
  }
  const { plane } = survey.level;
  return (x, y) => planeAtM(plane, x, y);
}

function spotTexts(survey: Read, choice: RoomPlanChoice): PlanSpot[] {
  const { units } = choice;
  const finishAt = finishOf(survey.level, choice.level, survey.level.highSpotsAreGround);
  /** Depth above the ground floor: the ground part is filled to the minimum thickness again. */
  const depthM = (xM: number, yM: number, zM: number): number => {
    const { groundM, finishedM } = finishAt(xM, yM, zM);
    return finishedM - groundM + (choice.level.mode === 'follow' ? choice.level.textureM : 0);
  };
  return survey.floor.spots.map((spot, i): PlanSpot => {
    const id = spot.readings[0]?.id ?? String(i);
    const value =
      choice.shows === 'depth'
        ? formatDepth(Math.max(0, depthM(spot.xM, spot.yM, spot.zM)), units)
        : choice.shows === 'height'
          ? formatDepth(spot.zM - survey.floor.lowestM, units)
          : formatDepth(Math.abs(choice.room.survey.readings.find((r) => r.id === id)?.valueM ?? 0), units);
    const meaning = choice.shows === 'depth' ? 'deep' : choice.shows === 'height' ? 'above the low point' : 'reading';
    return { id, xM: spot.xM, yM: spot.yM, text: bare(value), label: `Reading ${i + 1}: ${value} ${meaning}` };
  });
}

const EDGE_WORDS: Readonly<Record<Opening['edge'], string>> = { dam: 'dam', feather: 'feather', stop: 'stop' };

/** Words at an opening: `Dining room, oak, ⅜″ down: dam`. */
function openingWords(survey: SurveyedRoom, units: UnitSystem): (opening: Opening) => string[] {
  return (opening) => {
    const doorway = survey.state === 'surveyed' ? survey.level.doorways.find((d) => d.openingId === opening.id) : undefined;
    const stepM = doorway?.stepM ?? null;
    const step = stepM === null ? '' : formatStep(-stepM, units);
    const subject = [opening.name, opening.adjoiningFlooring].filter((word) => word !== '').join(', ');
    const edgeText = [step, EDGE_WORDS[opening.edge]].filter((word) => word !== '').join(': ');
    return [capital(subject), edgeText].filter((word) => word !== '');
  };
}

/** Contour interval by units: 1/4 in. with a heavy line at 1 in.; 5 mm with a heavy line at 25 mm. */
function contourSteps(survey: Read, units: UnitSystem): NonNullable<PlanInput['contours']> {
  const everyM = survey.level.contourStepM;
  return { everyM, heavyEveryM: everyM * (units === 'us' ? 4 : 5), text: (valueM) => bare(formatDepth(valueM, units)) };
}

const fields = new WeakMap<Read['floor'], FloorField | null>();

/** Built once per floor read: it took a third of each drawing, for every key that moves the level. */
function fieldOf({ floor }: Read, outline: readonly Point[]): FloorField | null {
  const known = fields.get(floor);
  if (known !== undefined) return known;
  const height = heightsAlong(floor.surface);
  const field = floorField(outline, (x, y) => height(x, y).zM, spacingOf(outline, floor.spots.length));
  fields.set(floor, field);
  return field;
}

/**
 * The plan of a room at the chosen level.
 * @returns input for `planDrawing`; the caller overrides parts of it (title, key, names)
 */
export function roomPlan(choice: RoomPlanChoice): PlanInput {
  const { room, survey, units, locale } = choice;
  const base: PlanInput = {
    plan: room.plan,
    widthPx: choice.widthPx,
    heightPx: choice.heightPx,
    shows: choice.shows,
    lengthText: (lengthM) => formatLength(lengthM, units, locale),
    openingWords: openingWords(survey, units),
    hatchBeyond: beyond,
    floorMarks: room.marks,
    hasDimensions: true,
    hasKey: choice.shows === 'depth',
    scale: units === 'us' ? { lengthM: 5 * FOOT_M, text: '5 ft' } : { lengthM: 2, text: '2 m' },
    isSparse: choice.isSparse,
    section: choice.section === null ? null : { points: choice.section, letter: 'A' },
  };
  if (survey.state === 'waiting') return { ...base, hasKey: false, section: null };
  const { level } = survey;
  const ground = level.highSpotsAreGround ? level.highSpots : [];
  const groundM2 = ground.reduce((sum, spot) => sum + spot.areaM2, 0);
  const deepestM = Math.max(0, ...ground.map((spot) => spot.depthM));
  return {
    ...base,
    spots: spotTexts(survey, choice),
    floor: fieldOf(survey, room.plan.outline),
    newFloor: newFloorOf(survey, choice.level),
    grindToM: ground.length === 0 ? null : level.levelM - choice.level.leastThicknessM,
    contours: contourSteps(survey, units),
    ...(ground.length === 0
      ? {}
      : {
          grindNote: `${cutWords(room).verbFirst} first: ${formatDepth(deepestM, units)} off the top, ${formatArea(groundM2, units, locale)}`,
        }),
  };
}

/** The default section: through the deepest place, parallel to the longer side of the room, from wall to wall. */
export function usualSection(room: Pick<Room, 'plan'>, survey: SurveyedRoom): readonly [Point, Point] | null {
  if (survey.state === 'waiting') return null;
  const { leftM, rightM, topM, bottomM } = survey.floor.room;
  const deepestSpot = survey.floor.lowestAt;
  const exit = placedOpenings(room.plan).find(({ opening }) => opening.isWayOut) ?? null;
  const isWide = rightM - leftM >= bottomM - topM;
  const runs: readonly [Point, Point] = isWide
    ? [
        { xM: leftM, yM: deepestSpot.yM },
        { xM: rightM, yM: deepestSpot.yM },
      ]
    : [
        { xM: deepestSpot.xM, yM: topM },
        { xM: deepestSpot.xM, yM: bottomM },
      ];
  // Start at the exit where there is one.
  const [a, b] = runs;
  if (exit === null) return runs;
  const distanceToEntryM = (p: Point): number => Math.hypot(p.xM - exit.middle.xM, p.yM - exit.middle.yM);
  return distanceToEntryM(a) <= distanceToEntryM(b) ? [a, b] : [b, a];
}
