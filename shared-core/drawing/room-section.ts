/** The section through a surveyed room at its level, for the datum of the estimate and of the quote. */
import { cutWords } from '../substrate/exposed-layers.ts';
import type { Point } from '../book/fields.ts';
import type { LevelChoice } from '../book/job.ts';
import type { Opening } from '../book/plan-fields.ts';
import type { Room } from '../book/room.ts';
import { formatDepth } from '../measure/length-format.ts';
import type { UnitSystem } from '../measure/unit-system.ts';
import { placedOpenings } from '../plan/openings.ts';
import { gapsOf } from '../survey/section-along.ts';
import type { SurveyedRoom } from '../survey/survey-room.ts';
import { sectionThrough } from '../survey/survey-room.ts';
import type { SectionEnd, SectionFrame, SectionInput } from './section.ts';

type Read = Extract<SurveyedRoom, { state: 'surveyed' }>;

export type RoomSectionChoice = SectionFrame & {
  readonly room: Pick<Room, 'plan' | 'layers' | 'tests'>;
  readonly survey: Read;
  readonly level: LevelChoice;
  readonly cut: readonly [Point, Point];
  readonly units: UnitSystem;
};

/** The opening at an end of the cut: within the opening's width of it. */
function openingAt(plan: Room['plan'], end: Point): Opening | null {
  const placed = placedOpenings(plan).find(({ opening, middle }) => Math.hypot(middle.xM - end.xM, middle.yM - end.yM) <= opening.widthM);
  return placed?.opening ?? null;
}

function endOf(plan: Room['plan'], point: Point, letter: string): SectionEnd {
  const opening = openingAt(plan, point);
  return opening === null
    ? { letter, words: '', hatch: 'cut', heightM: null }
    : { letter, words: opening.adjoiningFlooring || opening.name, hatch: 'stone', heightM: opening.adjoiningM };
}

/** Height drawn on the datum: the level itself, or the highest point of a sloped floor, which would otherwise cover the words above the line. */
function datumHeightM({ level }: Read, tops: readonly { readonly newFloorM: number }[]): number {
  return level.mode === 'level' ? level.levelM : Math.max(...tops.map((p) => p.newFloorM));
}

/** Input for `sectionDrawing`; null where the cut misses the floor. */
export function roomSection(choice: RoomSectionChoice): SectionInput | null {
  const { survey, level, units, cut } = choice;
  const isGround = survey.level.highSpotsAreGround;
  const section = sectionThrough(survey.floor, survey.level, level, isGround, { from: cut[0], to: cut[1] });
  const cutPoints = section.stretches.flat();
  const points = cutPoints.map((p) => ({ alongM: p.alongM, floorM: p.zM, groundM: p.groundM, newFloorM: p.finishedM }));
  if (points.length < 2) return null;
  const deepest = points.reduce((worst, p) => (p.newFloorM - p.groundM > worst.newFloorM - worst.groundM ? p : worst));
  const first = points[0] ?? deepest;
  const last = points.at(-1) ?? deepest;
  const labeled = [first, deepest, last].filter(
    (p, i, all) => all.findIndex((q) => Math.abs(q.alongM - p.alongM) < 0.4) === i && p.newFloorM - p.groundM > 0.002,
  );
  return {
    widthPx: choice.widthPx,
    heightPx: choice.heightPx,
    datumY: choice.datumY,
    x0: choice.x0,
    x1: choice.x1,
    points,
    gaps: gapsOf(section),
    hangM: datumHeightM(survey, points),
    units,
    exaggeration: null,
    start: endOf(choice.room.plan, cut[0], 'A'),
    end: endOf(choice.room.plan, cut[1], 'A′'),
    depths: labeled.map((p) => ({
      alongM: Math.min(Math.max(p.alongM, 0.3), last.alongM - 0.3),
      text: formatDepth(p.newFloorM - p.groundM, units),
    })),
    places: [],
    floorWords: 'existing floor, heights exaggerated',
    grindWords:
      isGround && survey.level.highSpots.length > 0
        ? `${formatDepth(Math.max(...survey.level.highSpots.map((s) => s.depthM)), units)} ${cutWords(choice.room).done} off`
        : '',
    lineWords: survey.level.mode === 'level' ? 'new floor' : 'high point',
  };
}
