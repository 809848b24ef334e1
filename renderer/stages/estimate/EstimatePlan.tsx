import { type ReactNode, useDeferredValue, useState } from 'react';
import type { RoomReading } from '../../../shared-core/standing/read-job.ts';
import type { PlanInput } from '../../../shared-core/drawing/plan-input.ts';
import { cornerOf, planDrawing, type PlanDrawing } from '../../../shared-core/drawing/plan.ts';
import { toRoom } from '../../../shared-core/drawing/plan-walls.ts';
import { roomPlan } from '../../../shared-core/drawing/room-plan.ts';
import type { SurveyedRoom } from '../../../shared-core/survey/survey-room.ts';
import { ChoiceRow } from '../../parts/Choices.tsx';
import { DrawingRoom, DrawingView, useSize } from '../../parts/DrawingView.tsx';
import { PlanCanvas } from '../../parts/PlanCanvas.tsx';
import { SectionEnds } from '../../parts/SectionEnds.tsx';
import { useMeasure } from '../../parts/use-measure.ts';
import { useSmall } from '../../parts/use-small.ts';
import { highSpotNotes } from './high-spots.ts';
import { keepLast } from '../../workers/keep-last.ts';
import type { SectionHad } from './use-section.ts';
import { theRoom } from '../../../shared-core/standing/names.ts';

const SHOWS = { depth: 'Pour depth', height: 'Floor elevation', read: 'Readings' } as const;
type Shows = keyof typeof SHOWS;

/** Heading, lines below it and two rows of choices, side by side or stacked: the least height, until they are measured. */
const CORNERS = [
  { widthPx: 520, heightPx: 150, isWide: true },
  { widthPx: 340, heightPx: 214, isWide: false },
] as const;
const CORNER_MOST_PX = 620;
/** Below this width the plan leaves no free corner, so the text is above it. */
const CORNER_FROM_PX = 720;
const WORDS_PX = 150;
/** Margin around the text, which labels at the doors avoid. */
const CLOSE_PX = { left: 62, top: 44, right: 62, bottom: 46 } as const;

interface EstimatePlanProps {
  readonly roomReading: RoomReading;
  readonly survey: Extract<SurveyedRoom, { state: 'surveyed' }>;
  readonly section: SectionHad;
  /** The heading, in the plan's free corner with the text below it. */
  readonly heading: ReactNode;
  /** Choices beside those about the plan. */
  readonly choice: ReactNode;
}

const drawings = new WeakMap<object, Map<string, PlanDrawing>>();
/** Sizes and views of one floor. */
const MOST_DRAWINGS = 4;

const keyOf = ({ widthPx, heightPx, shows, corner, marginPx, hasKey, isSparse, mayTurn }: PlanInput): string =>
  JSON.stringify([widthPx, heightPx, shows, corner, marginPx, hasKey, isSparse, mayTurn]);

/** Draws a floor once for the same key, because the screen is rendered again when any record of the job changes. */
function drawnOnce(survey: object, key: string, input: PlanInput): PlanDrawing {
  const known = drawings.get(survey) ?? new Map<string, PlanDrawing>();
  drawings.set(survey, known);
  const drawing = known.get(key) ?? planDrawing(input);
  keepLast(known, key, drawing, MOST_DRAWINGS);
  return drawing;
}

/** The room as large as possible, with heading and choices in its free corner, or above it where there is none. */
export function EstimatePlan({ section, heading, choice, ...shown }: EstimatePlanProps) {
  // The figures show first; the drawing takes as long as all of them.
  const roomReading = useDeferredValue(shown.roomReading);
  const survey = useDeferredValue(shown.survey, drawings.has(shown.survey) ? shown.survey : null);
  const { units, locale } = useMeasure();
  const [shows, setShows] = useState<Shows>('depth');
  const small = useSmall();
  const [sideBySide, stacked] = [useSize<HTMLDivElement>('choices side by side'), useSize<HTMLDivElement>('choices stacked')];
  const measureOf = (isWide: boolean) => (isWide ? sideBySide : stacked);
  const { room, jobRoom } = roomReading;
  const level = roomReading.estimate?.level ?? jobRoom.level;
  const words = (isWide: boolean): ReactNode => (
    <>
      {heading}
      <div className={`estimate-choices${isWide ? ' estimate-choices-wide' : ''}`}>
        <ChoiceRow label="Plan view" options={SHOWS} value={shows} onChange={setShows} />
        {choice}
      </div>
    </>
  );
  if (survey === null) return <div className="estimate-plan">{words(!small)}</div>;
  const inputFor = (widthPx: number, heightPx: number, isSparse: boolean): PlanInput => ({
    ...roomPlan({
      room,
      survey,
      level,
      shows,
      widthPx,
      heightPx,
      section: section.cut === null ? null : [...section.cut],
      isSparse,
      units,
      locale,
    }),
    mayTurn: small,
    ...(small ? { marginPx: { left: 44, top: 44, right: 44, bottom: 44 }, scale: null } : {}),
    ...(shows === 'depth' ? { notes: highSpotNotes(survey.level) } : {}),
  });
  const draw = (input: PlanInput): PlanDrawing =>
    drawnOnce(survey, [room.id, room.changedAt, JSON.stringify([level, input.section]), locale, units, keyOf(input)].join(' '), input);
  const label = `Plan of ${theRoom(room.name)}: ${SHOWS[shows]}`;
  /** Lets the user draw a line on the plan and drag its ends. */
  const picture = (drawing: PlanDrawing): ReactNode => {
    const { fit } = drawing;
    if (section.choice !== 'drawn' || fit === null) return <DrawingView drawing={drawing} label={label} />;
    const { drawn, onDrawn } = section;
    return (
      <PlanCanvas
        label={`${label}. Click or tap where the section starts and ends.`}
        widthPx={drawing.width}
        heightPx={drawing.height}
        marks={drawing.marks}
        onTap={({ x, y }) => onDrawn(drawn.length >= 2 ? [toRoom(fit, x, y)] : [...drawn, toRoom(fit, x, y)])}
      >
        <SectionEnds outline={room.plan.outline} fit={fit} drawn={drawn} onDrawn={onDrawn} />
      </PlanCanvas>
    );
  };
  if (small)
    return (
      <>
        {words(false)}
        <DrawingRoom>{({ widthPx, heightPx }) => picture(draw(inputFor(widthPx, heightPx, true)))}</DrawingRoom>
      </>
    );
  return (
    <div className="estimate-plan">
      <DrawingRoom leastPx={320}>
        {({ widthPx, heightPx }) => {
          const input = inputFor(widthPx, heightPx, false);
          const [best] = (widthPx < CORNER_FROM_PX ? [] : CORNERS)
            .flatMap(({ heightPx: leastPx, ...of }) => {
              const corner = { ...of, heightPx: Math.max(leastPx, measureOf(of.isWide).size?.heightPx ?? 0) };
              const place = cornerOf({ ...input, corner });
              return place === null ? [] : [{ ...place, corner }];
            })
            .sort((x, y) => y.pxPerM - x.pxPerM);
          if (best === undefined)
            return (
              <div>
                {words(true)}
                {picture(
                  draw({
                    ...input,
                    heightPx: Math.max(280, heightPx - WORDS_PX),
                    marginPx: CLOSE_PX,
                  }),
                )}
              </div>
            );
          const width = Math.min(best.box.width, CORNER_MOST_PX);
          return (
            <>
              <div className="estimate-corner" ref={measureOf(best.corner.isWide).ref} style={{ left: best.box.x, top: best.box.y, width }}>
                {words(best.corner.isWide)}
              </div>
              {picture(draw({ ...input, corner: best.corner }))}
            </>
          );
        }}
      </DrawingRoom>
    </div>
  );
}
