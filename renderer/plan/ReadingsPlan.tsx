import { useEffect, useEffectEvent, useMemo } from 'react';
import type { Point } from '../../shared-core/book/fields.ts';
import { type PlanFit, toRoom } from '../../shared-core/drawing/plan-walls.ts';
import { pointInRoom } from '../../shared-core/plan/region.ts';
import { SectionEnds } from '../parts/SectionEnds.tsx';
import { type CanvasPlace, PlaceBar, PlaceNote, placeOn, PlanCanvas } from '../parts/PlanCanvas.tsx';
import { useSame } from '../workers/use-same.ts';
import { placeLetter } from '../parts/plan-places.ts';
import { type PictureInput, readingsPicture } from './readings-picture.ts';
import { theRoom } from '../../shared-core/standing/names.ts';

export interface PlacedWord {
  readonly key: string;
  readonly point: Point;
  readonly message: string;
}

interface ReadingsPlanProps {
  /** The inputs of the drawing; it is drawn again only when one changes. */
  readonly picture: PictureInput;
  /** Called when the room's position on the canvas changes. */
  readonly onFit: (fit: PlanFit) => void;
  readonly placedNotes: readonly PlacedWord[];
  /** Shows sentences at their places; otherwise only the bars. */
  readonly showsNotes: boolean;
  /** Draws the straightedge at the worst gap, and the places where readings would help. */
  readonly showsFlatness: boolean;
  /** Ends of the section being drawn: only the first, or both to be dragged. */
  readonly drawn: readonly Point[];
  readonly onDrawn: (ends: readonly Point[]) => void;
  readonly onPlace: (point: Point) => void;
  readonly onReading: (id: string) => void;
}

/** Maximum distance of a press from a place or reading, px. */
const NEAR_PX = 22;
/** Maximum number of sentences on the plan; the rest are beside it. */
const MOST_NOTES = 2;

/** The plan to walk by: next places dotted, the target ringed, questions at their places. */
export function ReadingsPlan(props: ReadingsPlanProps) {
  const { picture, onFit, placedNotes, showsNotes, showsFlatness, drawn, onDrawn, onPlace, onReading } = props;
  const { room, survey, surveyed, openPoints, aimAt, lettered } = picture;
  // Thousands of readings are not placed again when only handles change.
  const input = useSame(picture);
  const drawing = useMemo(() => readingsPicture(input), [input]);
  const { fit, width, height } = drawing;
  const place = fit === null ? '' : [fit.pxPerM, fit.leftPx, fit.topPx].join();
  const tellFit = useEffectEvent(() => fit !== null && onFit(fit));
  useEffect(() => {
    tellFit();
  }, [place]);
  if (fit === null) return null;
  const on = (p: Point) => placeOn(fit, p);
  const tap = ({ x, y }: CanvasPlace) => {
    const far = (p: Point) => Math.hypot(on(p).x - x, on(p).y - y);
    const nearest = [...survey.readings].sort((a, b) => far(a) - far(b))[0];
    const nextPoint = [...openPoints].sort((a, b) => far(a) - far(b))[0];
    if (nearest !== undefined && far(nearest) < NEAR_PX && (nextPoint === undefined || far(nearest) <= far(nextPoint)))
      onReading(nearest.id);
    else if (nextPoint !== undefined && far(nextPoint) < NEAR_PX) onPlace(nextPoint);
    else {
      const point = toRoom(fit, x, y);
      if (pointInRoom(point, room.plan) !== 'outside') onPlace(point);
    }
  };
  const ring = aimAt === null ? null : on(aimAt);
  const worst = surveyed?.flatness.worst ?? null;
  return (
    <PlanCanvas
      label={`Plan of ${theRoom(room.name)} with its readings. Click or tap where a reading is taken.`}
      widthPx={width}
      heightPx={height}
      marks={drawing.marks}
      onTap={tap}
      notes={placedNotes.slice(0, showsNotes ? MOST_NOTES : 0).map(({ key, point, message }) => (
        <PlaceNote key={key} place={on(point)} widthPx={width} heightPx={height}>
          {message}
        </PlaceNote>
      ))}
    >
      {openPoints.map((place) => {
        const { x, y } = on(place);
        return <circle key={`${x},${y}`} cx={x} cy={y} r="4" className="plan-drawn plan-drawn-thin" />;
      })}
      {showsFlatness && worst !== null && worst.contacts !== null && worst.point !== null && (
        <g>
          <path
            d={`M${on(worst.contacts[0]).x} ${on(worst.contacts[0]).y}L${on(worst.contacts[1]).x} ${on(worst.contacts[1]).y}`}
            className="plan-drawn-gap"
          />
          <circle cx={on(worst.point).x} cy={on(worst.point).y} r="8" className="plan-drawn" />
        </g>
      )}
      {lettered.map((place, i) => (
        <g key={i} className="plan-suggested" aria-hidden="true">
          <circle cx={on(place).x} cy={on(place).y} r="11" />
          <text x={on(place).x} y={on(place).y + 5} className="plan-word plan-word-figure">
            {placeLetter(i)}
          </text>
        </g>
      ))}
      <SectionEnds outline={room.plan.outline} fit={fit} drawn={drawn} onDrawn={onDrawn} />
      {placedNotes.map(({ key, point }) => (
        <PlaceBar key={key} place={on(point)} />
      ))}
      {ring !== null && (
        <g className="plan-target" aria-hidden="true">
          <circle cx={ring.x} cy={ring.y} r="14" />
          <path d={`M${ring.x - 22} ${ring.y}h12M${ring.x + 10} ${ring.y}h12M${ring.x} ${ring.y - 22}v12M${ring.x} ${ring.y + 10}v12`} />
        </g>
      )}
    </PlanCanvas>
  );
}
