import { useMemo, useState } from 'react';
import type { Point } from '../../../shared-core/book/fields.ts';
import type { Room } from '../../../shared-core/book/room.ts';
import { usualSection } from '../../../shared-core/drawing/room-plan.ts';
import { between } from '../../../shared-core/plan/point.ts';
import { sectionAlong } from '../../../shared-core/survey/section-along.ts';
import type { SurveyedRoom } from '../../../shared-core/survey/survey-room.ts';
import { type SectionChoice, type SectionLine, sectionLine } from '../../parts/section-lines.ts';

/** Through the deepest point, or along another line. */
export type EstimateSection = SectionChoice | 'deepest';

type Cut = readonly [Point, Point];
type Read = Extract<SurveyedRoom, { state: 'surveyed' }>;

/** The section line of the Estimate screen. */
export interface SectionHad {
  readonly choice: EstimateSection;
  readonly onChoice: (choice: EstimateSection) => void;
  /** Null while the floor is unknown. */
  readonly cut: Cut | null;
  /** Ends of a line drawn on the plan: only the first, or both. Empty unless that is chosen. */
  readonly drawn: readonly Point[];
  readonly onDrawn: (ends: readonly Point[]) => void;
  /** True when the drawn line misses the floor; the deepest point is used instead. */
  readonly misses: boolean;
}

/** Clips a line to the floor; null where it misses it. */
function onFloor(survey: Read, line: SectionLine): Cut | null {
  const found = sectionAlong(survey.floor.surface, survey.floor.room, line.from, line.to, (_x, _y, zM) => ({
    groundM: zM,
    finishedM: zM,
  })).stretches.flat();
  const [first, last] = [found[0], found.at(-1)];
  const lengthM = Math.hypot(line.to.xM - line.from.xM, line.to.yM - line.from.yM);
  if (first === undefined || last === undefined || last.alongM - first.alongM < 0.05) return null;
  return [between(line.from, line.to, first.alongM / lengthM), between(line.from, line.to, last.alongM / lengthM)];
}

/** The section of an estimate, through the deepest point unless another line is chosen or drawn. */
export function useSection(room: Room, survey: SurveyedRoom | null): SectionHad {
  const [choice, setChoice] = useState<EstimateSection>('deepest');
  const [ends, setEnds] = useState<readonly Point[]>([]);
  const read = survey?.state === 'surveyed' ? survey : null;
  const usual = useMemo(() => (survey === null ? null : usualSection(room, survey)), [room, survey]);
  const other = useMemo(() => {
    if (read === null || choice === 'deepest') return null;
    const line = sectionLine(choice, room.plan.outline, read, ends);
    return line === null ? null : onFloor(read, line);
  }, [read, choice, room.plan.outline, ends]);
  const cut = other ?? usual;
  return {
    choice,
    onChoice: (next) => {
      setChoice(next);
      // Starts from the last section.
      setEnds(next === 'drawn' && cut !== null ? [...cut] : []);
    },
    cut,
    drawn: choice === 'drawn' ? ends : [],
    onDrawn: setEnds,
    misses: choice === 'drawn' && ends.length === 2 && other === null,
  };
}
