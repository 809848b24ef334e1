import { type ReactNode, useState } from 'react';
import type { RoomReading } from '../../../shared-core/agenda/read-job.ts';
import type { Point } from '../../../shared-core/book/fields.ts';
import type { PlanInput } from '../../../shared-core/drawing/plan-input.ts';
import { planDrawing } from '../../../shared-core/drawing/plan.ts';
import { roomPlan } from '../../../shared-core/drawing/room-plan.ts';
import type { SurveyedRoom } from '../../../shared-core/survey/survey-room.ts';
import { ChoiceRow } from '../../parts/ChoiceRow.tsx';
import { DrawingRoom } from '../../parts/DrawingRoom.tsx';
import { DrawingView } from '../../parts/DrawingView.tsx';
import { useMeasure } from '../../parts/use-measure.ts';
import { useSmall } from '../../parts/use-small.ts';

type Shows = 'depth' | 'height' | 'read';
const SHOWS = [
  { value: 'depth', word: 'Depth of fill' },
  { value: 'height', word: 'Floor height' },
  { value: 'read', word: 'As read' },
] as const;

/** Heading with two lines under it, and two rows of words to choose from. */
const CORNER_PX = 214;
const CORNER_MOST_PX = 520;

interface EstimatePlanProps {
  readonly at: RoomReading;
  readonly survey: Extract<SurveyedRoom, { state: 'surveyed' }>;
  readonly cut: readonly [Point, Point] | null;
  /** The sheet's heading: it stands in the plan's empty corner with the words under it. */
  readonly heading: ReactNode;
  /** What is chosen beside what the plan shows. */
  readonly choice: ReactNode;
}

/** The room as large as it goes; heading and choices stand in the corner that it leaves empty, over it where it leaves none. */
export function EstimatePlan({ at, survey, cut, heading, choice }: EstimatePlanProps) {
  const { units, locale } = useMeasure();
  const [shows, setShows] = useState<Shows>('depth');
  const small = useSmall();
  const { room, jobRoom } = at;
  const input = (widthPx: number, heightPx: number, isSparse: boolean): PlanInput =>
    roomPlan({
      room,
      survey,
      level: jobRoom.level,
      shows,
      widthPx,
      heightPx,
      section: cut === null ? null : [...cut],
      isSparse,
      units,
      locale,
    });
  const words = (
    <>
      {heading}
      <div className="estimate-choices">
        <ChoiceRow label="What the plan shows" options={SHOWS} value={shows} onChange={setShows} />
        {choice}
      </div>
    </>
  );
  const label = `Plan of the ${room.name.toLowerCase()}: ${SHOWS.find((s) => s.value === shows)?.word ?? ''}`;
  if (small)
    return (
      <>
        {words}
        <DrawingRoom>
          {({ widthPx, heightPx }) => <DrawingView drawing={planDrawing(input(widthPx, heightPx, true))} label={label} />}
        </DrawingRoom>
      </>
    );
  return (
    <div className="estimate-plan">
      <DrawingRoom leastPx={320}>
        {({ widthPx, heightPx }) => {
          const whole = planDrawing({ ...input(widthPx, heightPx, false), cornerPx: CORNER_PX });
          const corner = whole.cornerBox;
          if (corner !== null)
            return (
              <>
                <div className="estimate-corner" style={{ left: corner.x, top: corner.y, width: Math.min(corner.width, CORNER_MOST_PX) }}>
                  {words}
                </div>
                <DrawingView drawing={whole} label={label} />
              </>
            );
          return (
            <>
              {words}
              <DrawingView drawing={planDrawing(input(widthPx, Math.max(240, heightPx - CORNER_PX), false))} label={label} />
            </>
          );
        }}
      </DrawingRoom>
    </div>
  );
}
