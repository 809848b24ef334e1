import type { PourReading } from '../../../shared-core/standing/read-pour.ts';
import { pourProblemWords } from '../../../shared-core/documents/pour-words.ts';
import type { PlanDrawing } from '../../../shared-core/drawing/plan.ts';
import type { RoomFloor } from '../../../shared-core/pour/placed-floor.ts';
import { DrawingRoom, DrawingView } from '../../parts/DrawingView.tsx';
import { calculatedFor } from '../../parts/calculated-for.ts';
import { useMeasure } from '../../parts/use-measure.ts';
import { pourPicture } from './pour-picture.ts';
import type { Steady } from './use-steady.ts';
import { countWords } from '../../../shared-core/measure/count-words.ts';

interface PicturesProps {
  readonly read: PourReading;
  readonly steady: Steady | null;
  /** The state of a room before this pour. */
  readonly floorOf: (roomId: string) => RoomFloor;
  /** The room whose plan takes the next point; null for none. */
  readonly pointAt: string | null;
  readonly onPoint: (drawing: PlanDrawing, p: { readonly x: number; readonly y: number }) => void;
}

/** The rooms of a pour with lanes, batches, lane directions and edge ages. */
export function PlannedPictures({ read, steady, floorOf, pointAt, onPoint }: PicturesProps) {
  const { units, locale } = useMeasure();
  if (!read.layout.ok) return <p className="pour-trouble">{pourProblemWords(read.layout.problem)}</p>;
  const layout = read.layout.value;
  const edges = steady === null ? null : { ages: steady.edges, healingMin: read.clocks.healingMin };
  return (
    <>
      {read.rooms.map(({ room }, i) => (
        <div className="pour-picture" key={room.id}>
          <DrawingRoom leastPx={300} mostPx={460} smallRatio={1.1}>
            {({ widthPx, heightPx }) => {
              const drawing = calculatedFor(read, `picture of ${[room.id, units, locale, widthPx, heightPx].join(' ')}`, () =>
                pourPicture({
                  read,
                  roomId: room.id,
                  progress: null,
                  isPourMode: false,
                  units,
                  locale,
                  widthPx,
                  heightPx,
                  edges,
                  ...(read.lifts[i]?.isRest === true ? { before: floorOf(room.id) } : {}),
                }),
              );
              const mine = layout.lanes.filter((lane) => lane.roomId === room.id).length;
              return drawing === null ? null : (
                <DrawingView
                  drawing={drawing}
                  label={`${room.name} in ${countWords(mine, 'lane', locale)}. The pour has ${countWords(layout.batches.length, 'batch', locale)}, numbered by place.`}
                  {...(pointAt === room.id ? { onPoint: (p: { readonly x: number; readonly y: number }) => onPoint(drawing, p) } : {})}
                />
              );
            }}
          </DrawingRoom>
        </div>
      ))}
      <p className="caption">
        Each arrow shows where a lane starts, with the lane number in bold. The other numbers are batches. Minutes on an edge are its age
        when it is met at the crew’s usual pace.
      </p>
    </>
  );
}
